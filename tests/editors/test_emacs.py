"""A real Emacs with our mode and Eglot, where Emacs is installed."""

import json
import os
import pathlib
import shutil
import subprocess
import sys

import pytest

HOME = pathlib.Path(__file__).resolve().parents[2]
HERE = pathlib.Path(__file__).resolve().parent
MODE = HOME / "editors" / "emacs" / "finwright-mode.el"
DESIGN = HOME / "tests" / "designs" / "good" / "reed_heron.finw"
sys.path.insert(0, str(HOME / "tests"))
import built  # noqa: E402

PROGRAM = built.finwright()



def eglot():
    """Whether there is an Emacs that knows the protocol."""
    probe = ["emacs", "--batch", "--no-init-file", "-f", "package-initialize", "-l", "eglot"]
    return shutil.which("emacs") and subprocess.run(probe, stdin=subprocess.DEVNULL, capture_output=True).returncode == 0


pytestmark = pytest.mark.skipif(not eglot(), reason="there is no Emacs with Eglot here")


def emacs(tmp_path, *arguments, **more):
    return subprocess.run(
        ["emacs", "--batch", "--no-init-file", *arguments],
        env={**os.environ, "HOME": str(tmp_path), **more},
        stdin=subprocess.DEVNULL,
        capture_output=True,
        text=True,
        timeout=90,
    )


def test_the_mode_compiles_without_a_warning(tmp_path):
    copy = shutil.copy(MODE, tmp_path)
    done = emacs(tmp_path, "--eval", "(setq byte-compile-error-on-warn t)", "-f", "batch-byte-compile", copy)
    assert done.returncode == 0, done.stderr


def test_a_slip_is_shown_explained_and_mended(tmp_path):
    good = DESIGN.read_text()
    path = tmp_path / "reed_heron.finw"
    path.write_text(good.replace("outer: caliber\n", "outer: calber\n"))
    (tmp_path / "finwright.toml").write_text('profil = "club"\n')
    seen_in = tmp_path / "seen.json"
    done = emacs(
        tmp_path,
        "-l",
        str(HERE / "session.el"),
        DESIGN=str(path),
        SEEN=str(seen_in),
        FINWRIGHT=PROGRAM,
        HOME_OF_FINWRIGHT=str(HOME),
    )
    assert seen_in.exists(), done.stderr
    seen = json.loads(seen_in.read_text())
    assert "trouble" not in seen, (seen["trouble"], done.stderr)
    assert seen["mode"] == "finwright-mode"
    assert seen["faces"] == [
        "font-lock-comment-delimiter-face",
        "font-lock-builtin-face",
        "font-lock-variable-name-face",
        "font-lock-type-face",
        "font-lock-string-face",
        "font-lock-keyword-face",
        "font-lock-function-name-face",
    ]
    assert seen["indented"] == "as it was"
    assert seen["found"] == ["calber"]
    assert "name/unknown-name" in seen["message"]
    assert "front" in seen["hover"]
    assert seen["text"] == good
    assert seen["settings-mode"] == "finwright-settings-mode"
    assert "profil" in seen["settings"]
