"""A club's folder to try commands in, and the command itself."""

import os
import pathlib
import shutil
import subprocess
import sys

HERE = pathlib.Path(__file__).resolve().parent
HOME = HERE.parents[1]
DESIGNS = HOME / "tests" / "designs"
NODE = HERE / "node_modules"
sys.path.insert(0, str(HOME / "tests"))
import built  # noqa: E402


def finwright(folder, *arguments, text=True, **more):
    """What came of a command in a folder. A run of more than a minute is a hang."""
    environment = {"NO_COLOR": "1", **os.environ, **more.pop("env", {})}
    more.setdefault("stdin", None if "input" in more else subprocess.DEVNULL)
    if "input" in more:
        more.pop("stdin")
    return subprocess.run(
        [built.finwright(), *map(str, arguments)],
        cwd=folder,
        env=environment,
        capture_output=True,
        text=text,
        timeout=60,
        **more,
    )


def copy(name, path):
    """Copy a design of the corpus."""
    path.parent.mkdir(parents=True, exist_ok=True)
    shutil.copy(DESIGNS / name, path)


def mixed(folder):
    """A folder with everything that a report may have to tell, awkward names among it."""
    for kind in ("bad", "good", "projects"):
        shutil.copytree(DESIGNS / kind, folder / kind)
    copy("bad/slow_exit.finw", folder / "a b, 100%:x <&\"'>.finw")
    copy("bad/slow_exit.finw", folder / "été" / "漢字.FINW")
    copy("bad/slow_exit.finw", folder / "two\nlines\x1b[2J.finw")
    text = (DESIGNS / "bad/slow_exit.finw").read_text()
    (folder / "marks.finw").write_text(text.replace("pad school_rod", "pad школа_rod 𝕏 <b>\u0007&amp;]]>"))
    (folder / "not_text.finw").write_bytes(b"finwright 1\n# caf\xe9\n")
    (folder / "gone.finw").symlink_to("nowhere.finw")
    (folder / "empty.finw").write_text("")
    broken = folder / "broken"
    broken.mkdir()
    (broken / "finwright.toml").write_text('profile = 3\n[levels]\n"guide/slow-exit" = "loud"\n')
    for name in ("one", "two", "three"):
        copy("bad/slow_exit.finw", broken / f"{name}.finw")
    lend = folder / "lend"
    lend.mkdir()
    (lend / "parts.txt").write_text("material oak { density: 7 }\nmotor { }\n")
    for name in ("one", "two"):
        (lend / f"{name}.finw").write_text('use "parts.txt"\n' + text)
    return folder
