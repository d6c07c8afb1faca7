"""What the protocol tests share: the program, a design with a slip in it, and a folder to work in."""

import pathlib
import shutil
import sys

import pytest

HOME = pathlib.Path(__file__).resolve().parents[2]
sys.path.insert(0, str(HOME / "tests"))
import built  # noqa: E402

DESIGN = HOME / "tests" / "designs" / "good" / "reed_heron.finw"


def program():
    """The command that starts the server."""
    return [built.finwright(), "lsp"]


def slip(text):
    """The design with one name misspelt."""
    assert text.count("outer: caliber\n") == 1
    return text.replace("outer: caliber\n", "outer: calber\n")


def position(text, found, encoding="utf-16"):
    """The line and column of the first place where `found` stands."""
    before = text[: text.index(found)]
    line = before.count("\n")
    start = before.rpartition("\n")[2]
    width = len(start.encode()) if encoding == "utf-8" else len(start.encode("utf-16-le")) // 2
    return line, width


@pytest.fixture
def design():
    # Read as bytes first, so that line ends stay as they are.
    return DESIGN.read_bytes().decode()


@pytest.fixture
def folder(tmp_path):
    shutil.copy(DESIGN, tmp_path / "reed_heron.finw")
    return tmp_path


def pytest_configure(config):
    config.addinivalue_line("markers", "long: left out of `tests/run --quick`")
