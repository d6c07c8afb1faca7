"""What a club sets up: a first design, its repository, its shell."""

import os
import pathlib
import pty
import re
import subprocess
import sys
import time

import built
import club
import pytest
from ruamel.yaml import YAML

STARTS = [["--guide", guide, *inches] for guide in ("rod", "rail") for inches in ([], ["--inches"])]


@pytest.mark.parametrize("options", STARTS, ids=" ".join)
def test_a_new_design_meets_every_check_as_it_is(tmp_path, options):
    (tmp_path / "class").mkdir()
    done = club.finwright(tmp_path, "new", "class/Red_Kite 2.1", *options)
    assert (done.returncode, done.stderr) == (0, "")
    name = "class/Red_Kite 2.1.finw"
    assert done.stdout == f"{name}: a rocket to change; try `finwright check '{name}'`\n"
    text = (tmp_path / "class/Red_Kite 2.1.finw").read_text()
    assert 'design "Red Kite 2.1"' in text and ("rail {" in text) == ("rail" in options) and (" in;" in text) == (
        "--inches" in options
    )
    done = club.finwright(tmp_path, "check", ".", "--format", "line", "--deny", "warnings")
    assert (done.returncode, done.stdout) == (0, "class/Red_Kite 2.1.finw: meets the checks\n")
    for profile in ("beginner", "club", "high-power"):
        (tmp_path / "finwright.toml").write_text(f'profile = "{profile}"\n')
        assert club.finwright(tmp_path, "check", ".", "--format", "line").returncode == 0, profile
    assert club.finwright(tmp_path, "fmt", "--check", ".").stdout == ""


def test_a_new_design_overwrites_nothing_and_needs_a_name(tmp_path):
    (tmp_path / "a.finw").write_text("mine")
    (tmp_path / "b.finw").symlink_to("nowhere")
    for name in ("a", "a.finw", "b", 'x"y', "x\ny", "..", "none/c"):
        done = club.finwright(tmp_path, "new", name)
        assert (done.returncode, done.stdout) == (2, "") and done.stderr.count("\n") == 1, name
    assert (tmp_path / "a.finw").read_text() == "mine" and sorted(os.listdir(tmp_path)) == ["a.finw", "b.finw"]


@pytest.fixture
def repository(tmp_path):
    """A club's repository that has just been set up."""
    done = club.finwright(tmp_path, "init")
    assert (done.returncode, done.stderr) == (0, "") and done.stdout.count(": written\n") == 6
    return tmp_path


def test_what_is_set_up_is_checked_as_it_is(repository):
    done = club.finwright(repository, "check", ".", "--deny", "warnings")
    assert done.returncode == 0 and done.stdout.startswith("designs/first_rocket.finw: meets the checks\n"), done.stdout
    assert "makes light of" not in done.stdout


def test_setting_up_overwrites_nothing(repository):
    before = {path: path.read_bytes() for path in repository.rglob("*") if path.is_file()}
    (repository / "finwright.toml").write_text('profile = "beginner"\n')
    done = club.finwright(repository, "init", ".")
    assert done.returncode == 0 and done.stdout.count(": there already, and left as it is\n") == 6
    after = {path: path.read_bytes() for path in repository.rglob("*") if path.is_file()}
    assert after == {**before, repository / "finwright.toml": b'profile = "beginner"\n'}
    (repository / "file").write_text("")
    done = club.finwright(repository, "init", "file/below")
    assert done.returncode == 2 and "can't be written" in done.stderr


@pytest.mark.parametrize(
    ("schema", "name"),
    [("vendor.github-workflows", ".github/workflows/finwright.yml"), ("vendor.gitlab-ci", ".gitlab-ci.yml")],
)
def test_the_workflows_are_valid_by_their_hosts_schemas(repository, schema, name):
    command = [sys.executable, "-m", "check_jsonschema", "--builtin-schema", schema, name]
    done = subprocess.run(command, cwd=repository, capture_output=True, text=True)
    assert done.returncode == 0, done.stdout + done.stderr


@pytest.mark.parametrize("name", [".github/workflows/finwright.yml", ".gitlab-ci.yml"])
def test_the_commands_of_a_workflow_run(repository, name):
    """The lines that a workflow runs, with a stand-in for `pip` that puts the built command on the path."""
    flow = YAML(typ="safe").load((repository / name).read_text())
    if "jobs" in flow:
        script = [step["run"] for step in flow["jobs"]["check"]["steps"] if "run" in step]
    else:
        script = flow["finwright"]["script"]
    tools = repository / "tools"
    tools.mkdir()
    pip = tools / "pip"
    pip.write_text(f'#!/bin/sh\ntest "$*" = "install --quiet wheel" && ln -s {built.finwright()} {tools}/finwright\n')
    pip.chmod(0o755)
    path = {"PATH": f"{tools}:{os.environ['PATH']}"}

    def run(source):
        environment = {**os.environ, **path, "FINWRIGHT_SOURCE": source}
        lines = ["bash", "-e", "-c", "\n".join(script)]
        return subprocess.run(lines, cwd=repository, env=environment, capture_output=True, text=True)

    done = run("")
    assert done.returncode == 1 and "nothing is published yet" in done.stdout
    done = run("wheel")
    assert done.returncode == 0, done.stdout + done.stderr
    made = {path.name for path in repository.glob("finwright*") if path.suffix != ".toml"}
    assert made == ({"finwright.sarif"} if "jobs" in flow else {"finwright-quality.json", "finwright-junit.xml"})


def git(folder, *arguments):
    who = {f"GIT_{who}_{what}": "somebody" for who in ("AUTHOR", "COMMITTER") for what in ("NAME", "EMAIL")}
    subprocess.run(["git", *arguments], cwd=folder, check=True, capture_output=True, env={**os.environ, **who})


def test_the_hooks_find_what_is_wrong(repository, tmp_path_factory):
    """By `pre-commit` itself: the club's own configuration, and its hooks from another repository."""
    git(repository, "init", "-q")
    git(repository, "add", "-A")
    git(repository, "commit", "-q", "-m", "set up")
    other = tmp_path_factory.mktemp("other")
    git(other, "init", "-q")
    club.copy("bad/slow_exit.finw", other / "slow.finw")
    club.copy("good/pond_wren.finw", other / "good.FINW")
    git(other, "add", "-A")
    home = tmp_path_factory.mktemp("home")
    environment = {
        **os.environ,
        "PATH": f"{pathlib.Path(built.finwright()).parent}:{os.environ['PATH']}",
        "PRE_COMMIT_HOME": str(home),
    }
    tool = [sys.executable, "-m", "pre_commit"]

    def run(folder, *arguments):
        return subprocess.run([*tool, *arguments], cwd=folder, env=environment, capture_output=True, text=True)

    done = run(other, "try-repo", str(repository), "finwright", "--verbose", "--all-files")
    assert done.returncode == 1 and "slow.finw" in done.stdout and "guide/slow-exit" in done.stdout, done.stdout
    (other / "slow.finw").unlink()
    git(other, "add", "-A")
    done = run(other, "try-repo", str(repository), "--all-files")
    assert done.returncode == 0, done.stdout + done.stderr
    done = run(repository, "run", "--all-files")
    assert done.returncode == 0 and done.stdout.count("Passed") == 2, done.stdout + done.stderr


# The shell.


@pytest.fixture(scope="module")
def scripts(tmp_path_factory):
    folder = tmp_path_factory.mktemp("scripts")
    for shell in ("bash", "zsh", "fish", "powershell"):
        done = club.finwright(folder, "completions", shell)
        assert done.returncode == 0 and done.stdout
        (folder / shell).write_text(done.stdout)
    return folder


def test_bash_completes(scripts):
    def completed(*words):
        script = f'source ./bash; COMP_WORDS=({" ".join(words)}); COMP_CWORD={len(words) - 1}; ' + (
            f'_finwright finwright "{words[-1]}" "{words[-2]}"; printf "%s\\n" "${{COMPREPLY[@]}}"'
        )
        done = subprocess.run(["bash", "--norc", "-c", script], cwd=scripts, capture_output=True, text=True)
        assert done.stderr == ""
        return done.stdout.split()

    assert completed("finwright", "ch") == ["check", "chances"]
    assert "--baseline" in completed("finwright", "check", "--ba")
    assert set(completed("finwright", "new", "--guide", "r")) == {"rod", "rail"}


def test_fish_completes(scripts):
    def completed(line):
        command = ["fish", "--no-config", "-c", f"source fish; complete -C '{line}'"]
        environment = {**os.environ, "HOME": str(scripts)}
        done = subprocess.run(command, cwd=scripts, capture_output=True, text=True, env=environment)
        return [found.split("\t")[0] for found in done.stdout.splitlines()]

    assert completed("finwright ch") == ["chances", "check"]
    assert completed("finwright check --basel") == ["--baseline"]
    assert set(completed("finwright new --guide r")) == {"rod", "rail"}


def test_zsh_completes(scripts):
    """At a prompt of its own, with the key: zsh completes nowhere else."""
    ours, theirs = pty.openpty()
    child = subprocess.Popen(
        ["zsh", "-f", "-i"],
        cwd=scripts,
        stdin=theirs,
        stdout=theirs,
        stderr=theirs,
        start_new_session=True,
        env={**os.environ, "TERM": "dumb", "PS1": "> ", "ZDOTDIR": str(scripts), "HOME": str(scripts)},
    )
    os.close(theirs)

    def typed(text, until):
        os.write(ours, text.encode())
        said, end = b"", time.monotonic() + 20
        while time.monotonic() < end and not re.search(until, said):
            said += os.read(ours, 65536)
        assert re.search(until, said), said
        return said

    try:
        begin = "autoload -U compinit && compinit -u -D && source ./zsh && compdef _finwright finwright"
        typed(f"{begin}; echo rea''dy\n", b"ready")
        assert b"baseline" in typed("finwright basel\t", b"baseline")
        typed("\x15finwright new --guide ra\t", b"rail")
    finally:
        child.kill()
        child.wait()
        os.close(ours)


def test_powershells_script_is_written(scripts):
    """It isn't run: PowerShell is no package of Debian."""
    text = (scripts / "powershell").read_text()
    assert "Register-ArgumentCompleter" in text and "'--baseline'" in text


def test_the_manual_has_a_page_for_each_command(tmp_path):
    listed = club.finwright(tmp_path, "--help").stdout.split("Commands:")[1].split("Options:")[0]
    names = re.findall(r"^  (\w+)  ", listed, re.M)
    assert len(names) > 12
    for name in [None, *names]:
        if name == "help":
            continue
        page = tmp_path / f"{name}.1"
        page.write_text(club.finwright(tmp_path, "manual", *([name] if name else [])).stdout)
        command = ["man", "--warnings=all", "-l", str(page)]
        environment = {**os.environ, "MANWIDTH": "100", "LC_ALL": "C.UTF-8"}
        done = subprocess.run(command, capture_output=True, text=True, env=environment)
        assert done.returncode == 0 and "NAME" in done.stdout and "OPTIONS" in done.stdout, name
        # A long option may not fit a line; anything else would be a fault of the page.
        said = [line for line in done.stderr.splitlines() if "cannot" not in line and "can't break" not in line]
        assert said == [], said
    assert club.finwright(tmp_path, "manual", "nothing").returncode == 2
