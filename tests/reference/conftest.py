"""Shared pieces: the Rust side's numbers, and the report of what was compared."""

import json
import pathlib
import subprocess
import sys

import pytest

HERE = pathlib.Path(__file__).parent
ROOT = HERE.parent.parent
sys.path.insert(0, str(HERE.parent))
import built  # noqa: E402

REPORT = HERE / "REPORT.md"

HEAD = """\
# Ours and theirs

Written by `pytest tests/reference --write-report`; a whole run of the tests fails when it is stale.
SI units. A difference is relative to theirs, rounded up to a power of ten; "limit" is what the test
demands.

| quantity | source | theirs | ours | difference | limit |
|---|---|---|---|---|---|
"""


def pytest_addoption(parser):
    parser.addoption("--write-report", action="store_true", help="write REPORT.md anew")


def pytest_collection_modifyitems(items):
    # The report's own check reads what all other tests have put in.
    items.sort(key=lambda item: item.path.name == "test_report.py")


@pytest.fixture(scope="session")
def program():
    """Path of the built `numbers` example."""
    return built.numbers()


@pytest.fixture(scope="session")
def ours(program):
    """Asks the Rust side: `ours("nose", shape="cone", ...)` gives its numbers."""

    def ask(what, **question):
        text = json.dumps([{"what": what, **question}])
        done = subprocess.run([program], input=text, capture_output=True, text=True)
        assert done.returncode == 0, done.stderr
        return json.loads(done.stdout)[0]

    return ask


@pytest.fixture(scope="session")
def finwright():
    """Runs the command: `finwright("show", path)` gives its output and exit status."""
    command = built.finwright()

    def run(*arguments):
        done = subprocess.run([command, *map(str, arguments)], capture_output=True, encoding="utf-8")
        assert not done.stderr, done.stderr
        return done.stdout, done.returncode

    return run


class Report:
    def __init__(self):
        self.rows = []

    def text(self):
        return HEAD + "".join(sorted(self.rows))


@pytest.fixture(scope="session")
def report():
    return Report()


@pytest.fixture
def compare(report):
    """`compare(quantity, source, theirs, ours, limit)`: asserts and notes a row in the report."""

    def check(quantity, source, theirs, ours, limit):
        difference = abs(ours - theirs) / abs(theirs)
        report.rows.append(
            f"| {quantity} | {source} | {theirs:.6g} | {ours:.6g} | {decade(difference)} | {limit:.0e} |\n"
        )
        assert difference <= limit, f"{quantity}: theirs {theirs!r}, ours {ours!r}"

    return check


def decade(difference):
    """The power of ten that the difference stays under, from 1e-9 up: below, machines may differ."""
    power = -9
    while difference > 10.0**power:
        power += 1
    return f"< 1e{power}"
