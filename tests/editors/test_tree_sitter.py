"""The grammar for tree-sitter: generated anew it's the same, its own tests hold, and it takes what our parser takes."""

import json
import os
import pathlib
import re
import shutil
import subprocess
import sys

import pytest

HOME = pathlib.Path(__file__).resolve().parents[2]
GRAMMAR = HOME / "editors" / "tree-sitter"
sys.path.insert(0, str(HOME / "tests"))
import built  # noqa: E402

PROGRAM = built.finwright()
TOOLS = pathlib.Path(os.environ.get("CARGO_TARGET_DIR") or HOME / "target") / "tools" / "bin"
TREE_SITTER = shutil.which("tree-sitter", path=f"{TOOLS}:{os.environ['PATH']}")

pytestmark = pytest.mark.skipif(not TREE_SITTER, reason="there is no tree-sitter; tests/run installs it")


def tree_sitter(tmp_path, *arguments, folder=GRAMMAR):
    settings = tmp_path / "settings.json"
    settings.write_text('{"parser-directories": []}')
    own = {name: str(tmp_path / name) for name in ("XDG_CONFIG_HOME", "XDG_CACHE_HOME")}
    told = [] if arguments[0] == "generate" else ["--config-path", settings]
    return subprocess.run(
        [TREE_SITTER, *arguments, *told],
        cwd=folder,
        env={**os.environ, **own, "NO_COLOR": "1"},
        stdin=subprocess.DEVNULL,
        capture_output=True,
        text=True,
        timeout=300,
    )


@pytest.mark.skipif(not shutil.which("node"), reason="there is no Node.js here")
def test_the_generated_parser_is_fresh(tmp_path):
    for name in ("grammar.js", "tree-sitter.json"):
        shutil.copy(GRAMMAR / name, tmp_path)
    done = tree_sitter(tmp_path, "generate", "--abi", "14", folder=tmp_path)
    assert done.returncode == 0, done.stderr
    names = sorted(path.relative_to(tmp_path) for path in (tmp_path / "src").rglob("*") if path.is_file())
    assert names == sorted(path.relative_to(GRAMMAR) for path in (GRAMMAR / "src").rglob("*") if path.is_file())
    for name in names:
        assert (tmp_path / name).read_bytes() == (GRAMMAR / name).read_bytes(), name


def test_trees_and_colours_are_as_told(tmp_path):
    done = tree_sitter(tmp_path, "test")
    assert done.returncode == 0, done.stdout + done.stderr


def test_it_takes_and_refuses_what_our_parser_does(tmp_path):
    files = sorted((HOME / "tests" / "designs").rglob("*.finw")) + sorted((HOME / "grammar" / "tests" / "layout").glob("*.finw"))
    files += [HOME / "shared" / "catalog" / "catalog.finw"]
    for path in sorted((HOME / "tests" / "designs" / "good").glob("*.finw")):
        files += damaged(path, without_a_line, tmp_path)
        # Where a row of a list over several lines starts like a field, our parser ends the list, and this one goes on.
        if not any(line.rstrip().endswith("[") for line in path.read_text().splitlines()):
            files += damaged(path, without_a_word, tmp_path)
    names = [str(path) for path in files]
    listed = tmp_path / "files"
    listed.write_text("\n".join(names))

    done = tree_sitter(tmp_path, "parse", "--quiet", "--paths", str(listed))
    refused = {line.split("\t")[0].strip() for line in done.stdout.splitlines() if "\t" in line}
    assert (done.returncode != 0) == bool(refused), done.stderr

    checked = subprocess.run([PROGRAM, "check", "--format", "json", *names], capture_output=True, text=True, timeout=300)
    report = json.loads(checked.stdout)
    assert not report["unusable"]
    own = [found for found in report["findings"] if found["at"]["file"] == found["file"]]
    # How deep brackets may nest is a bound of our parser, not of the language.
    rules = {(found["file"], found["rule"]) for found in own if found["rule"] != "syntax/too-deep"}
    expected = {file for file, rule in rules if rule.startswith("syntax/")}
    assert len(expected) > 100 and len(set(names) - expected) > 100
    assert refused == expected


def damaged(path, without, folder):
    for number, text in enumerate(without(path.read_text())):
        file = folder / f"{path.stem}-{without.__name__}-{number}.finw"
        file.write_text(text)
        yield file


def without_a_line(text):
    lines = text.splitlines(keepends=True)
    return ["".join(lines[:number] + lines[number + 1 :]) for number, line in enumerate(lines) if line.strip()]


def without_a_word(text):
    """The words and signs outside of remarks, each taken out in turn."""
    for found in re.finditer(r"[\w.]+|[^\w\s]", text):
        if "#" not in text[text.rfind("\n", 0, found.start()) + 1 : found.start()]:
            yield text[: found.start()] + text[found.end() :]
