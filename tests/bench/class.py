#!/usr/bin/env python3
"""Times `finwright class` over many submissions, without pages and with them, and says how much memory it took.

  class.py FOLDER [COUNT]

FOLDER gets the submissions (see generate.py) where it has none yet; FINWRIGHT is the command, a release build of this
project where it isn't set.
"""
import os, pathlib, resource, shutil, subprocess, sys, time

HERE = pathlib.Path(__file__).parent
folder, count = pathlib.Path(sys.argv[1]), int(sys.argv[2]) if len(sys.argv) > 2 else 10_000
command = os.environ.get("FINWRIGHT", str(HERE.parents[1] / "target/release/finwright"))
if not folder.exists():
    subprocess.run([sys.executable, HERE / "generate.py", folder, str(count)], check=True)
    # Each is somebody's.
    for design in sorted(folder.glob("*/*.finw")):
        design.rename(folder / design.name)
    for inner in folder.iterdir():
        if inner.is_dir():
            inner.rmdir()
pages = folder.parent / "pages"
for name, more in (("without pages", []), ("with pages", ["--out", str(pages)])):
    shutil.rmtree(pages, ignore_errors=True)
    start = time.monotonic()
    subprocess.run([command, "class", str(folder), *more], check=True, stdout=subprocess.DEVNULL)
    took = time.monotonic() - start
    most = resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss / 1024
    print(f"{name}: {took:.1f} s, {most:.0f} MB at most", flush=True)
