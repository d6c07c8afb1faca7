"""The command in a terminal: as wide as the window, in colours where they are known and wanted."""

import fcntl
import os
import pathlib
import pty
import re
import struct
import subprocess
import sys
import termios
import unicodedata

import pytest

HOME = pathlib.Path(__file__).resolve().parents[2]
DESIGNS = HOME / "tests" / "designs"
sys.path.insert(0, str(HOME / "tests"))
import built  # noqa: E402
from spoken import spoken  # noqa: E402

ESCAPE = re.compile(r"\x1b\[[0-9;]*m")


def shown(columns, *arguments, **variables):
    """What the command writes to a terminal of so many columns."""
    ours, theirs = pty.openpty()
    fcntl.ioctl(theirs, termios.TIOCSWINSZ, struct.pack("HHHH", 40, columns, 0, 0))
    unset = {name: value for name, value in os.environ.items() if name not in ("NO_COLOR", "TERM")}
    environment = {**unset, "TERM": "xterm-256color", **variables}
    child = subprocess.Popen(
        [built.finwright(), *map(str, arguments)],
        cwd=DESIGNS,
        env=environment,
        stdin=subprocess.DEVNULL,
        stdout=theirs,
        stderr=subprocess.PIPE,
    )
    return spoken(child, ours, theirs).replace("\r\n", "\n")


def width(line):
    return sum(2 if unicodedata.east_asian_width(c) in "WF" else 1 for c in line if not unicodedata.combining(c))


def prose(text):
    """The lines that are laid out, without the design's own lines, the labels below them and the commands to copy."""
    lines = ESCAPE.sub("", text).split("\n")
    return [line for line in lines if not re.match(r" *(\d+ │|·)", line) and "finwright " not in line]


COMMANDS = {
    "check": ["check", "bad/slow_exit.finw", "bad/balance_differs.finw", "bad/flutter.finw", "bad/tight_packing.finw"],
    "show": ["show", "--limits", "us-model", "good/reed_heron.finw"],
    "show in inches": ["show", "--units", "us", "good/reed_heron.finw"],
    "guides": ["guides", "good/reed_heron.finw"],
    "chances": ["chances", "--runs", "20", "good/pond_wren.finw"],
    "working": ["working", "good/pond_wren.finw", "lean"],
    "explain": ["explain"],
    "explain a rule": ["explain", "slow-exit"],
    "explain a topic": ["explain", "measuring"],
}


@pytest.mark.parametrize("columns", [60, 80, 120])
@pytest.mark.parametrize("command", COMMANDS)
def test_no_line_is_wider_than_the_terminal(command, columns):
    for line in prose(shown(columns, *COMMANDS[command])):
        assert width(line) <= columns, line


@pytest.mark.parametrize("command", ["check", "show", "explain a topic"])
def test_prose_uses_the_width_up_to_a_hundred(command):
    widest = {columns: max(map(width, prose(shown(columns, *COMMANDS[command])))) for columns in (80, 100, 200)}
    assert 70 < widest[80] <= 80 < widest[100] <= 100
    assert widest[200] == widest[100]


def test_a_wide_terminal_has_room_for_every_column():
    narrow, wide = (shown(columns, "guides", "good/reed_heron.finw") for columns in (80, 130))
    assert "no room here for: " in narrow and " play " not in narrow.split("no room")[0]
    assert "no room here for: " not in wide and " play " in wide


def test_colours_where_they_are_known_and_wanted():
    command = COMMANDS["check"]
    coloured = shown(80, *command)
    assert ESCAPE.search(coloured)
    plain = shown(80, *command, NO_COLOR="1")
    assert not ESCAPE.search(plain)
    assert shown(80, *command, TERM="dumb") == plain
    assert ESCAPE.search(shown(80, *command, NO_COLOR=""))
    assert ESCAPE.sub("", coloured) == plain


def test_a_pipe_gets_eighty_columns_without_colours():
    command = [built.finwright(), *COMMANDS["check"]]
    piped = subprocess.run(command, cwd=DESIGNS, stdout=subprocess.PIPE, encoding="utf-8").stdout
    assert piped == shown(80, *COMMANDS["check"], NO_COLOR="1")


# Drawings aren't words, and a comparison leaves columns out and says so.
@pytest.mark.parametrize("columns", [1, 20, 40])
@pytest.mark.parametrize("command", [name for name in COMMANDS if name not in ("check", "guides")])
def test_a_narrow_window_loses_no_word(command, columns):
    narrow, wide = (shown(size, *COMMANDS[command]).split() for size in (columns, 100))
    assert sorted(narrow) == sorted(wide)
