"""How much is said: colours as asked for, quietly, and how far a long run is."""

import os
import pathlib
import pty
import subprocess
import sys

import pytest

HOME = pathlib.Path(__file__).resolve().parents[2]
DESIGNS = HOME / "tests" / "designs"
sys.path[:0] = [str(HOME / "tests"), str(HOME / "tests/bench")]
import built  # noqa: E402
import generate  # noqa: E402
from spoken import spoken  # noqa: E402


def on_a_terminal(folder, arguments, out=False, **variables):
    """What comes to a terminal on standard error, or on standard output, while the other goes to a pipe."""
    ours, theirs = pty.openpty()
    unset = {name: value for name, value in os.environ.items() if name not in ("NO_COLOR", "TERM")}
    child = subprocess.Popen(
        [built.finwright(), *arguments],
        cwd=folder,
        env={**unset, "TERM": "xterm-256color", **variables},
        stdin=subprocess.DEVNULL,
        stdout=theirs if out else subprocess.DEVNULL,
        stderr=subprocess.DEVNULL if out else theirs,
    )
    return spoken(child, ours, theirs)


def piped(*arguments, **variables):
    command = [built.finwright(), *arguments]
    return subprocess.run(command, cwd=DESIGNS, capture_output=True, text=True, env={**os.environ, **variables})


def test_colours_are_as_asked_for():
    command = ["check", "bad/slow_exit.finw", "--color"]
    assert "\x1b[" in piped(*command, "always").stdout
    assert "\x1b[" in piped(*command, "always", NO_COLOR="1", TERM="dumb").stdout
    assert "\x1b[" not in piped(*command, "auto").stdout
    assert "\x1b[" in on_a_terminal(DESIGNS, [*command, "auto"], out=True)
    assert "\x1b[" not in on_a_terminal(DESIGNS, [*command, "auto"], out=True, TERM="dumb")
    assert "\x1b[" not in on_a_terminal(DESIGNS, [*command, "never"], out=True)


def test_quietly_only_what_is_wrong_is_said():
    assert piped("check", "good", "-q").stdout == ""
    done = piped("check", "good", "bad/slow_exit.finw", "bad/low_margin.finw", "--quiet", "--format", "line")
    assert done.returncode == 1 and len(done.stdout.splitlines()) == 2
    assert all(line.startswith("bad/slow_exit.finw:") for line in done.stdout.splitlines())
    done = piped("check", "bad/slow_exit.finw", "--quiet")
    assert "guide/slow-exit" in done.stdout and "1 file checked" not in done.stdout
    # A program's format is always whole.
    assert piped("check", "good", "-q", "--format", "json").stdout == piped("check", "good", "--format", "json").stdout


@pytest.fixture(scope="module")
def many(tmp_path_factory):
    folder = tmp_path_factory.mktemp("many")
    for i in range(4000):
        (folder / f"{i}.finw").write_text(generate.design(i, 100))
    return folder


@pytest.mark.long
def test_a_long_run_shows_how_far_it_is_and_leaves_nothing(many):
    said = on_a_terminal(many, ["check", "."], RAYON_NUM_THREADS="1")
    assert " of 4000 files " in said and " left" in said
    # The line is taken away at the end.
    assert said.rstrip("\r\n").endswith("\x1b[2K")


@pytest.mark.long
def test_nothing_is_shown_of_a_short_run_quietly_or_elsewhere(many):
    assert on_a_terminal(DESIGNS / "good", ["check", "."]) == ""
    assert on_a_terminal(many, ["check", ".", "--quiet"], RAYON_NUM_THREADS="1") == ""
    command = [built.finwright(), "check", "."]
    done = subprocess.run(command, cwd=many, stdout=subprocess.DEVNULL, stderr=subprocess.PIPE)
    assert done.stderr == b""
