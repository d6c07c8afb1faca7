"""The grammar for tree-sitter: its parser is the one generated from it, its own tests hold, and it takes what our parser takes.

The tool that generates and judges is built from source, which takes longer than most of the tests. What it said holds for as
long as nothing that it looks at has changed, and `proven.sha256` says for which files that was: where they are the same,
only the committed parser is tried here. `tree_sitter_proven.py` tells which it is, to `tests/run` too.
"""

import ctypes
import json
import os
import pathlib
import re
import shutil
import subprocess
import sys

import pytest
import tree_sitter
import tree_sitter_proven as proven

HOME = pathlib.Path(__file__).resolve().parents[2]
GRAMMAR = HOME / "editors" / "tree-sitter"
sys.path.insert(0, str(HOME / "tests"))
import built  # noqa: E402

PROGRAM = built.finwright()
TOOLS = pathlib.Path(os.environ.get("CARGO_TARGET_DIR") or HOME / "target") / "tools" / "bin"
TOOL = shutil.which("tree-sitter", path=f"{TOOLS}:{os.environ['PATH']}")

needs_the_tool = pytest.mark.skipif(
    not TOOL and proven.holds(), reason="the tool has nothing new to judge; tests/run builds it when it has"
)


@pytest.fixture(scope="module")
def language(tmp_path_factory):
    """The language of the committed parser, built as an editor builds it."""
    library = tmp_path_factory.mktemp("parser") / "finwright.so"
    source = GRAMMAR / "src"
    subprocess.run(["cc", "-shared", "-fPIC", "-O1", "-I", source, source / "parser.c", "-o", library], check=True)
    make = ctypes.CDLL(str(library)).tree_sitter_finwright
    make.restype = ctypes.c_void_p
    capsule = ctypes.pythonapi.PyCapsule_New
    capsule.argtypes, capsule.restype = [ctypes.c_void_p, ctypes.c_char_p, ctypes.c_void_p], ctypes.py_object
    return tree_sitter.Language(capsule(make(), b"tree_sitter.Language", None))


def the_tool(tmp_path, *arguments, folder=GRAMMAR):
    settings = tmp_path / "settings.json"
    settings.write_text('{"parser-directories": []}')
    own = {name: str(tmp_path / name) for name in ("XDG_CONFIG_HOME", "XDG_CACHE_HOME")}
    told = [] if arguments[0] == "generate" else ["--config-path", settings]
    assert TOOL, "what the tool judges has changed, and there is no tree-sitter; tests/run builds it"
    return subprocess.run(
        [TOOL, *arguments, *told],
        cwd=folder,
        env={**os.environ, **own, "NO_COLOR": "1"},
        stdin=subprocess.DEVNULL,
        capture_output=True,
        text=True,
        timeout=300,
    )


@needs_the_tool
def test_the_generated_parser_is_fresh_and_its_own_tests_hold(tmp_path):
    for name in ("grammar.js", "tree-sitter.json"):
        shutil.copy(GRAMMAR / name, tmp_path)
    done = the_tool(tmp_path, "generate", "--abi", "14", folder=tmp_path)
    assert done.returncode == 0, done.stderr
    names = sorted(path.relative_to(tmp_path) for path in (tmp_path / "src").rglob("*") if path.is_file())
    assert names == sorted(path.relative_to(GRAMMAR) for path in (GRAMMAR / "src").rglob("*") if path.is_file())
    for name in names:
        assert (tmp_path / name).read_bytes() == (GRAMMAR / name).read_bytes(), name

    done = the_tool(tmp_path, "test")
    assert done.returncode == 0, done.stdout + done.stderr

    # Only here, where the tool has just judged, may what is proven be written.
    if os.environ.get("FINWRIGHT_UPDATE"):
        proven.write()
    assert proven.holds(), "the tool agrees; with FINWRIGHT_UPDATE=1 this test writes down for which files"


def test_the_committed_parser_gives_the_trees_that_are_told(language):
    parser = tree_sitter.Parser(language)
    seen = 0
    for path in sorted((GRAMMAR / "test" / "corpus").glob("*.txt")):
        for heading, text, tree in cases(path.read_text()):
            root = parser.parse(text.encode()).root_node
            seen += 1
            if ":error" in heading:
                assert root.has_error, f"{path.name}: {heading}"
                continue
            # The pages leave out which field of its parent a node is.
            given = re.sub(r"\b\w+: (?=\()", "", str(root))
            assert given == tree, f"{path.name}: {heading}"
    assert seen >= 10


def cases(page):
    """Heading, text and tree of each case on a page of them."""
    parts = re.split(r"^={3,}\n((?:.+\n)+?)={3,}\n", page, flags=re.M)[1:]
    for heading, body in zip(parts[::2], parts[1::2]):
        text, tree = body.split("\n---\n", 1)
        yield heading, text, re.sub(r"\s+", " ", tree).strip()


def test_the_colours_can_be_asked_for(language):
    query = tree_sitter.Query(language, (GRAMMAR / "queries" / "highlights.scm").read_text())
    assert query.pattern_count > 5


def test_it_takes_and_refuses_what_our_parser_does(language, tmp_path):
    files = sorted((HOME / "tests" / "designs").rglob("*.finw")) + sorted((HOME / "grammar" / "tests" / "layout").glob("*.finw"))
    files += [HOME / "shared" / "model" / "catalog.finw"]
    for path in sorted((HOME / "tests" / "designs" / "good").glob("*.finw")):
        files += damaged(path, without_a_line, tmp_path)
        # Where a row of a list over several lines starts like a field, our parser ends the list, and this one goes on.
        if not any(line.rstrip().endswith("[") for line in path.read_text().splitlines()):
            files += damaged(path, without_a_word, tmp_path)
    names = [str(path) for path in files]
    parser = tree_sitter.Parser(language)
    refused = {name for name in names if parser.parse(pathlib.Path(name).read_bytes()).root_node.has_error}

    checked = subprocess.run([PROGRAM, "check", "--format", "json", *names], capture_output=True, text=True, timeout=300)
    report = json.loads(checked.stdout)
    assert not report["unusable"]
    own = [found for found in report["findings"] if found["at"]["file"] == found["file"]]
    # How deep brackets may nest is a bound of our parser, not of the language.
    rules = {(found["file"], found["rule"]) for found in own if found["rule"] != "syntax/too-deep"}
    # The report names files from the working directory.
    expected = {os.path.abspath(file) for file, rule in rules if rule.startswith("syntax/")}
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


def test_zed_has_the_same_colours():
    queries = HOME / "editors" / "tree-sitter" / "queries" / "highlights.scm"
    assert (HOME / "editors" / "zed" / "languages" / "finwright" / "highlights.scm").read_text() == queries.read_text()
