"""A real Neovim with our configuration: what it shows, and what the fix makes of the buffer."""

import json
import os
import pathlib
import shutil
import subprocess
import sys

import pytest

HOME = pathlib.Path(__file__).resolve().parents[2]
HERE = pathlib.Path(__file__).resolve().parent
DESIGN = HOME / "tests" / "designs" / "good" / "reed_heron.finw"
NEOVIM = shutil.which("nvim", path=f"{pathlib.Path(sys.executable).parent}:{os.environ['PATH']}")
sys.path.insert(0, str(HOME / "tests"))
import built  # noqa: E402

PROGRAM = built.finwright()


def neovim(tmp_path, script, **more):
    """Run the script in an editor that has our two folders and nothing of this user's."""
    assert NEOVIM, "there is no nvim; tests/editors/requirements.txt brings one"
    init = tmp_path / "init.lua"
    init.write_text(
        f"vim.opt.runtimepath:append({json.dumps(str(HOME / 'editors' / 'neovim'))})\n"
        f"vim.opt.runtimepath:append({json.dumps(str(HOME / 'editors' / 'vim'))})\n"
        f"vim.g.finwright_command = {{ {json.dumps(PROGRAM)}, 'lsp' }}\n"
    )
    seen = tmp_path / "seen.json"
    own = {name: str(tmp_path / name) for name in ("XDG_CONFIG_HOME", "XDG_DATA_HOME", "XDG_STATE_HOME", "XDG_CACHE_HOME")}
    done = subprocess.run(
        [NEOVIM, "--headless", "-i", "NONE", "-n", "-u", init, "-c", f"luafile {HERE / script}"],
        env={**os.environ, **own, "SEEN": str(seen), **more},
        stdin=subprocess.DEVNULL,
        capture_output=True,
        text=True,
        timeout=90,
    )
    assert seen.exists(), done.stderr
    result = json.loads(seen.read_text())
    assert result.get("trouble") is None, (result["trouble"], done.stderr)
    return result


@pytest.fixture
def slip(tmp_path):
    text = DESIGN.read_text()
    assert text.count("outer: caliber\n") == 1
    path = tmp_path / "reed_heron.finw"
    path.write_text(text.replace("outer: caliber\n", "outer: calber\n"))
    return path


def test_a_slip_is_shown_explained_and_mended(tmp_path, slip):
    seen = neovim(tmp_path, "session.lua", DESIGN=str(slip))
    assert seen["filetype"] == "finwright"
    assert seen["commentstring"] == "# %s"

    (found,) = seen["found"]
    lines = slip.read_text().splitlines()
    assert lines[found["lnum"]][found["col"] : found["end_col"]] == "calber"
    assert found["lnum"] == found["end_lnum"]
    assert found["source"] == "finwright"
    assert found["severity"] == 1
    assert "calber" in found["message"].splitlines()[0]

    assert "front" in seen["hover"]
    assert seen["text"] == DESIGN.read_text()

    (again,) = seen["again"]
    assert (again["lnum"], again["col"]) == (found["lnum"] + 1, found["col"])


def test_the_line_above_a_flight_and_the_pads_in_its_hover(tmp_path):
    seen = neovim(tmp_path, "lens.lua", DESIGN=str(DESIGN))
    flights = {line.split()[1]: number for number, line in enumerate(DESIGN.read_text().splitlines()) if line.startswith("flight ")}
    assert [lens["line"] for lens in seen["lenses"]] == list(flights.values())
    for lens in seen["lenses"]:
        assert lens["title"].startswith("meets the checks · leaves at ") and " · wind up to " in lens["title"]
    assert "mini_rail" in seen["hover"] and "Fly d9 from mini_rail" in seen["hover"]


def test_settings_are_attached_to_and_lines_indented_and_completed(tmp_path):
    settings = tmp_path / "finwright.toml"
    settings.write_text('profile = "clubb"\n')
    copy = shutil.copy(DESIGN, tmp_path)
    seen = neovim(tmp_path, "settings.lua", DESIGN=str(copy), SETTINGS=str(settings))
    assert seen["found"] == "settings/not-understood"
    assert len(seen["profiles"]) == 3
    assert seen["indented"] is True
    assert seen["typed"][:2] == ["site hill {", "  elevation: 4 m"]
    assert "temperature" in seen["open"][:3]


def test_colours_follow_the_shape_of_the_text(tmp_path):
    sample = tmp_path / "sample.finw"
    sample.write_text(
        'let caliber = 41.6 mm   # remark\n'
        'tube body {\n'
        '  outer: caliber; length: 430 mm ± 1 %\n'
        '  note: "a 3 mm text"\n'
        '}\n'
        'pad rod_pad { rod { diameter: 4 mm } }\n'
    )
    seen = neovim(tmp_path, "colours.lua", DESIGN=str(sample))
    expected = {
        "let": "finwrightLead",
        "41.6": "finwrightNumber",
        "mm   #": "finwrightUnit",
        "# remark": "finwrightComment",
        "remark": "finwrightComment",
        "tube": "finwrightBlock",
        "body": "finwrightName",
        "outer": "finwrightField",
        "caliber;": "",
        "length": "finwrightField",
        "430": "finwrightNumber",
        "±": "finwrightTolerance",
        "%": "finwrightUnit",
        "3 mm text": "finwrightText",
        "pad rod": "finwrightBlock",
        "rod_pad": "finwrightName",
        "rod {": "finwrightBlock",
        "diameter": "finwrightField",
        "4 mm }": "finwrightNumber",
        "mm }": "finwrightUnit",
    }
    text = sample.read_text()
    for words, group in expected.items():
        before = text[: text.index(words)]
        line = before.count("\n")
        column = len(before.rpartition("\n")[2].encode())
        assert seen["groups"][line][column] == group, words


def test_tree_sitter_colours_where_its_parser_is_installed(tmp_path):
    sample = tmp_path / "sample.finw"
    sample.write_text('tube body {  # remark\n  outer: caliber; lenght: 430 mm ± 1 %\n  shape: ogive\n}\n')
    assert neovim(tmp_path, "captures.lua", DESIGN=str(sample))["active"] is False

    parser = tmp_path / "XDG_DATA_HOME" / "nvim" / "site" / "parser"
    parser.mkdir(parents=True)
    source = HOME / "editors" / "tree-sitter" / "src"
    build = ["cc", "-shared", "-fPIC", "-I", source, source / "parser.c", "-o", parser / "finwright.so"]
    subprocess.run(build, check=True, timeout=90)
    (tmp_path / "seen.json").unlink()
    seen = neovim(tmp_path, "captures.lua", DESIGN=str(sample))
    assert seen["active"] is True
    expected = {
        "tube": "type",
        "body": "function",
        "# remark": "comment",
        "outer": "property",
        "caliber": "variable",
        "lenght": "variable",
        "430": "number",
        "mm": "type.builtin",
        "±": "operator",
        "shape": "property",
        "ogive": "constant.builtin",
    }
    text = sample.read_text()
    for words, capture in expected.items():
        before = text[: text.index(words)]
        column = len(before.rpartition("\n")[2].encode())
        assert seen["groups"][before.count("\n")][column] == capture, words
