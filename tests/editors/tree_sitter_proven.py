#!/usr/bin/env python3
"""For which files tree-sitter's own tool has generated the parser and found its tests to hold: `proven.sha256`.

  tree_sitter_proven.py    ends with 0 where they are still the same, so that the tool has nothing to say
"""

import hashlib
import pathlib
import sys

HERE = pathlib.Path(__file__).resolve().parent
HOME = HERE.parents[1]
GRAMMAR = HOME / "editors" / "tree-sitter"
RECORD = HERE / "proven.sha256"


def holds():
    """Whether all that the tool looks at is as it was."""
    return RECORD.is_file() and RECORD.read_text(encoding="utf-8") == sums()


def write():
    """Write down that the tool has judged the files as they are."""
    RECORD.write_text(sums(), encoding="utf-8")


def sums():
    """A line a file, as `sha256sum` writes it.

    The colours stand in their template: the lists of words that are filled in there come from the language's own table, and
    a test of its crate holds them to it.
    """
    files = [GRAMMAR / "grammar.js", GRAMMAR / "tree-sitter.json", HOME / "grammar/tests/highlighting/highlights.scm"]
    files += [path for folder in ("src", "test") for path in (GRAMMAR / folder).rglob("*") if path.is_file()]
    return "".join(f"{sum_of(path)}  {path.relative_to(HOME).as_posix()}\n" for path in sorted(files))


def sum_of(path):
    """Of a text, whatever ends its lines in this checkout."""
    return hashlib.sha256(path.read_bytes().replace(b"\r\n", b"\n")).hexdigest()


if __name__ == "__main__":
    sys.exit(0 if holds() else 1)
