"""The programs that the tests are about: those that the environment names, as `tests/run` does, else built on the spot.

Never what happens to lie in `target`: nobody knows which text that was built from.
"""

import functools
import json
import os
import pathlib
import subprocess

HOME = pathlib.Path(__file__).resolve().parents[1]


@functools.cache
def built(variable, *arguments):
    """The path that an environment variable names, else that of what `cargo build` with these arguments makes."""
    if named := os.environ.get(variable):
        return named
    command = ["cargo", "build", "-q", *arguments, "--message-format=json"]
    done = subprocess.run(command, cwd=HOME, check=True, stdout=subprocess.PIPE, text=True)
    made = [json.loads(line) for line in done.stdout.splitlines()]
    (path,) = [one["executable"] for one in made if one.get("executable")]
    return path


def finwright():
    """The command."""
    return built("FINWRIGHT", "-p", "finwright-cli", "--bin", "finwright")


def numbers():
    """The example that gives the physics' numbers, which are too many for an unoptimised build."""
    return built("FINWRIGHT_NUMBERS", "--release", "-p", "finwright-physics", "--example", "numbers")
