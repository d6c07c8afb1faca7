"""Input that nobody means well by, and machines that fail: each is told in a line, nothing else is lost, and nothing
half-written is left."""

import os
import pathlib
import resource
import shutil
import signal
import subprocess
import threading
import time

import built
import club
import pytest

LOOSE = "tube body{\nlength:3mm\n}\n"


def measured(folder, *arguments, **more):
    """What came of a command, with its seconds and the most memory that it took, in MB."""
    start = time.monotonic()
    child = subprocess.Popen(
        [built.finwright(), *arguments], cwd=folder, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True, **more
    )
    said, errors = [], []
    readers = [
        threading.Thread(target=lambda: said.append(child.stdout.read())),
        threading.Thread(target=lambda: errors.append(child.stderr.read())),
    ]
    [reader.start() for reader in readers]
    _, status, usage = os.wait4(child.pid, 0)
    child.returncode = os.waitstatus_to_exitcode(status)
    [reader.join() for reader in readers]
    assert "panicked" not in errors[0]
    return child.returncode, said[0], errors[0], time.monotonic() - start, usage.ru_maxrss / 1024


def lines_about(text, name):
    return [line for line in text.splitlines() if line.startswith((f"finwright: {name}: ", f"{name}: ", f"{name}:"))]


@pytest.fixture
def folder(tmp_path):
    """A folder with a good design, which must be told whatever lies beside it."""
    club.copy("good/pond_wren.finw", tmp_path / "good.finw")
    return tmp_path


def is_told(folder, name, said, *arguments):
    """What is beside the good design is told in a line of standard error, and ends the run with 2."""
    code, out, errors, _, _ = measured(folder, "check", ".", "--format", "line", *arguments)
    assert code == 2 and "good.finw: meets the checks\n" in out
    assert len(lines_about(errors, name)) == errors.count("\n") == 1 and said in errors, errors


def test_names_with_control_characters_reach_no_terminal(folder):
    names = ("two\nlines", "\x1b[31mred\x1b]0;title\x07", "back\x08\x08", "\x7f\x9b", "tab\t")
    for name in [f"{name}.finw" for name in names]:
        club.copy("bad/slow_exit.finw", folder / name)
    (folder / "\x1b[2J.finw").write_bytes(b"\xff")
    (folder / "gone\x1b[2J.finw").symlink_to("\x1b[2Jnowhere")
    for form in ("text", "line", "github", "junit", "json", "jsonl", "sarif", "gitlab", "rdjson"):
        done = club.finwright(folder, "check", ".", "--format", form)
        # JSON writes those beyond 126 as they are, as its standard lets it (RFC 8259, section 7).
        words = done.stdout if form in ("text", "line", "github", "junit") else ""
        assert not [c for c in done.stdout if ord(c) < 32 and c not in "\n\t"], form
        assert not [c for c in words + done.stderr if 127 <= ord(c) < 160 or (ord(c) < 32 and c not in "\n\t")], form
    for command in (["fmt", ".", "--check"], ["fmt", "."], ["check", ".", "--fix"], ["baseline", "."]):
        done = club.finwright(folder, *command)
        said = done.stderr + done.stdout
        assert not [c for c in said if ord(c) < 32 and c not in "\n\t"], command


def test_terminal_escapes_in_a_text_reach_no_terminal(folder):
    text = (club.DESIGNS / "bad/slow_exit.finw").read_text()
    text = text.replace("flight lesson {", "# \x1b[2J\x1b]0;title\x07\nflight lesson {")
    text = text.replace("rod {", "rod { # \x9b2J", 1)
    (folder / "a.finw").write_text(text)
    (folder / "b.finw").write_text(text.replace("flight lesson", "flight les\x1b[2Json"))
    whole = 'finwright 1\ndesign "\x1b[2J" { note: "\x1b[31m" }\nuse "\x1b[2J.finw"\n\x1b[2J: 3\n'
    (folder / "c.finw").write_text(whole)
    (folder / "finwright.toml").write_text('profile = "\\u001b[2J"\n')
    for form in ("text", "line", "github", "junit", "sarif", "gitlab", "rdjson", "jsonl"):
        done = club.finwright(folder, "check", ".", "--format", form)
        assert not [c for c in done.stdout + done.stderr if ord(c) == 27 or 127 <= ord(c) < 160], form


def test_a_huge_file_is_not_read(folder):
    for name in ("huge.finw", "finwright.toml"):
        with open(folder / name, "wb") as file:
            file.truncate(200 * 1024 * 1024)
    code, out, errors, seconds, memory = measured(folder, "check", ".", "--format", "line")
    assert code == 2 and "huge.finw: it is larger than 1 MB" in errors and errors.count("\n") == 1
    assert "finwright.toml:1:1: error settings/not-understood: it can't be used: it is larger than 1 MB" in out
    assert seconds < 5 and memory < 100
    code, out, errors, seconds, memory = measured(folder, "fmt", ".", "--check")
    assert code == 2 and seconds < 5 and memory < 100


@pytest.mark.long
def test_a_hundred_thousand_files_in_a_folder(tmp_path):
    for number in range(100_000):
        with open(tmp_path / f"{number}.finw", "w") as file:
            file.write("finwright 1\n")
    code, out, errors, seconds, memory = measured(tmp_path, "check", ".", "--format", "line")
    assert (code, errors) == (1, "") and out.count(".finw: ") == 100_000
    assert memory < 250, memory
    assert seconds < 60


def test_what_is_no_file_is_told(folder):
    os.mkfifo(folder / "pipe.finw")
    (folder / "folder.finw").mkdir()
    code, out, errors, seconds, _ = measured(folder, "check", ".", "pipe.finw", "/dev/zero", "--format", "line")
    assert code == 2 and out == "good.finw: meets the checks\n" and seconds < 5
    assert errors.splitlines() == ["finwright: /dev/zero: it isn't a file", "finwright: pipe.finw: it isn't a file"]


def test_files_that_vanish_or_change_are_told_and_the_rest_isnt_lost(folder):
    names = [f"{number:04}.finw" for number in range(600)]
    for name in names:
        club.copy("good/pond_wren.finw", folder / name)
    stop = threading.Event()

    def meddle():
        while not stop.is_set():
            for name in names[::3]:
                (folder / name).unlink(missing_ok=True)
            for name in names[::3]:
                (folder / name).write_text("finwright 1\n" * (1 + hash(name) % 1000))
            for name in names[1::3]:
                (folder / name).write_bytes(b"\xff" * 10)
                shutil.copy(folder / "good.finw", folder / name)

    thread = threading.Thread(target=meddle)
    thread.start()
    try:
        for _ in range(5):
            code, out, errors, _, _ = measured(folder, "check", ".", "--format", "line")
            assert code in (0, 1, 2)
            for name in ["good.finw", *names[2::3]]:
                assert f"{name}: meets the checks\n" in out
            assert all(line.startswith("finwright: ") for line in errors.splitlines()), errors
    finally:
        stop.set()
        thread.join()


def test_what_may_not_be_read_or_written_is_told(folder):
    club.copy("good/pond_wren.finw", folder / "secret.finw")
    club.copy("good/pond_wren.finw", folder / "closed/a.finw")
    (folder / "mine.finw").write_text(LOOSE)
    command = built.finwright()
    more = {}
    if os.geteuid() == 0:
        # To root nothing is forbidden: it's somebody else who looks.
        place = folder / "finwright"
        shutil.copy(command, place)
        more = {"user": 65534, "group": 65534, "extra_groups": []}
        command = place
        for parent in folder.parents:
            if parent.stat().st_uid == os.geteuid() and parent != pathlib.Path("/"):
                parent.chmod(parent.stat().st_mode | 0o055)
    (folder / "secret.finw").chmod(0)
    (folder / "closed").chmod(0)
    folder.chmod(0o555)

    def run(*arguments):
        return subprocess.run([command, *arguments], cwd=folder, capture_output=True, text=True, timeout=60, **more)

    try:
        done = run("check", ".", "--format", "line")
        assert done.returncode == 2 and "good.finw: meets the checks\n" in done.stdout
        assert done.stderr.splitlines() == [
            "finwright: closed: it may not be read by this user",
            "finwright: secret.finw: it may not be read by this user",
        ]
        for arguments in (["fmt", "mine.finw"], ["baseline", "good.finw"], ["new", "b"], ["init"]):
            done = run(*arguments)
            assert done.returncode == 2 and done.stderr.count("\n") == 1 and "can't be written" in done.stderr, done
        done = run("check", "good.finw", "--format", "sarif=out.sarif")
        assert done.returncode == 2 and "out.sarif can't be written" in done.stderr
        assert (folder / "mine.finw").read_text() == LOOSE
    finally:
        folder.chmod(0o755)
        (folder / "closed").chmod(0o755)
    assert not list(folder.glob(".finwright-*")) and not (folder / "out.sarif").exists()


def no_room():
    """No file may grow beyond a few bytes, as on a full disk; that isn't the end of the program either."""
    signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
    resource.setrlimit(resource.RLIMIT_FSIZE, (64, 64))


def test_a_full_disk_leaves_nothing_half_written(folder):
    (folder / "loose.finw").write_text(LOOSE * 20)
    club.copy("bad/unknown_unit.finw", folder / "slip.finw")
    (folder / "old.sarif").write_text("old")
    before = {path.name: path.read_bytes() for path in folder.iterdir()}
    for arguments in (
        ["fmt", "loose.finw"],
        ["check", "good.finw", "--format", "sarif=old.sarif"],
        ["check", "good.finw", "--format", "junit=new.xml"],
        ["baseline", "slip.finw", "-o", "known.json"],
        ["new", "b"],
        ["check", "slip.finw", "--fix", "--format", "line"],
    ):
        done = club.finwright(folder, *arguments, preexec_fn=no_room)
        said = done.stderr.splitlines()
        assert done.returncode in (1, 2) and len(said) == 1 and "can't be written" in said[0], (arguments, done)
        assert {path.name: path.read_bytes() for path in folder.iterdir()} == before, arguments


@pytest.mark.parametrize("command", ["check .", "check . --format jsonl", "fmt --diff .", "show good.finw"])
def test_an_output_that_is_full_is_told(folder, command):
    (folder / "loose.finw").write_text(LOOSE)
    command = [built.finwright(), *command.split()]
    with open("/dev/full", "w") as full:
        done = subprocess.run(command, cwd=folder, stdout=full, stderr=subprocess.PIPE, text=True)
    assert done.returncode == 2 and done.stderr.startswith("finwright: standard output can't be written (No space left")
    assert done.stderr.count("\n") == 1


def test_a_reader_that_has_gone_away_is_no_fault(folder):
    shutil.copytree(club.DESIGNS / "bad", folder / "bad")
    command = f"'{built.finwright()}' check . --format json | head -1; echo ${{PIPESTATUS[0]}}"
    done = subprocess.run(["bash", "-c", command], cwd=folder, capture_output=True, text=True)
    assert done.stdout == "{\n1\n" and done.stderr == ""


def test_a_closed_output_changes_no_status(folder):
    for closed, code in ((">&-", 0), (">&- 2>&-", 0), ("<&- >&- 2>&-", 0)):
        command = f"'{built.finwright()}' check . {closed}"
        assert subprocess.run(["bash", "-c", command], cwd=folder).returncode == code
    club.copy("bad/slow_exit.finw", folder / "slow.finw")
    assert subprocess.run(["bash", "-c", f"'{built.finwright()}' check . >&- 2>&-"], cwd=folder).returncode == 1


def test_a_device_is_written_to_and_not_replaced(folder):
    out = folder / "out"
    os.mkfifo(out)
    reader = subprocess.Popen(["cat", out], stdout=subprocess.PIPE, text=True)
    done = club.finwright(folder, "check", ".", "--format", "line=out")
    assert done.returncode == 0 and reader.communicate(timeout=20)[0] == "good.finw: meets the checks\n"
    assert not out.is_file()
    done = club.finwright(folder, "check", ".", "--format", "line=/dev/full")
    assert done.returncode == 2 and "/dev/full can't be written" in done.stderr
