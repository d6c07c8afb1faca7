"""A real Vim with our files and ALE, where Vim is installed with what jobs need, and ALE beside it."""

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
sys.path.insert(0, str(HOME / "tests"))
import built  # noqa: E402

PROGRAM = built.finwright()
ALE = pathlib.Path("/usr/share/vim/vimfiles/pack/dist-bundle/opt/ale")


def able():
    if not shutil.which("vim") or not ALE.is_dir():
        return False
    version = subprocess.run(["vim", "--version"], capture_output=True, text=True).stdout
    return all(feature in version for feature in ("+job", "+timers", "+eval"))


pytestmark = pytest.mark.skipif(not able(), reason="there is no Vim with jobs and ALE here")


def test_a_slip_is_shown_a_name_found_and_lines_indented(tmp_path):
    good = DESIGN.read_text()
    path = tmp_path / "reed_heron.finw"
    path.write_text(good.replace("outer: caliber\n", "outer: calber\n"))
    init = tmp_path / "vimrc"
    init.write_text(
        "set nocompatible nomore viminfo= directory=. noswapfile hidden\n"
        f"set runtimepath+={HOME / 'editors' / 'vim'}\n"
        "let g:ale_completion_enabled = 0\n"
        "packadd ale\n"
        f"let g:ale_finwright_finwright_executable = '{PROGRAM}'\n"
        "filetype plugin indent on\nsyntax on\n"
    )
    seen_in = tmp_path / "seen.json"
    done = subprocess.run(
        ["vim", "-N", "-u", init, "--not-a-term", "-S", HERE / "session.vim"],
        env={**os.environ, "HOME": str(tmp_path), "TERM": "dumb", "SEEN": str(seen_in), "DESIGN": str(path)},
        stdin=subprocess.DEVNULL,
        capture_output=True,
        text=True,
        timeout=90,
    )
    assert seen_in.exists(), done.stderr
    seen = json.loads(seen_in.read_text())
    assert "trouble" not in seen, seen
    assert seen["filetype"] == "finwright"
    assert seen["indented"] == "as it was"
    assert seen["typed"] == ["site hill {", "  elevation: 4 m", "}"]
    assert seen["found"] == "calber"
    assert "calber" in seen["message"]
    assert seen["definition"].startswith("let caliber")
