"""The club's guide, followed step by step: every command in it is run, and ends as it says."""

import os
import pathlib
import re
import subprocess

import built
import club

GUIDE = club.HOME / "cli/src/topics/club.md"


def steps():
    """The commands of the guide in their order, each with the status that it ends with."""
    for block in re.findall(r"^```sh\n(.*?)^```", GUIDE.read_text(), re.M | re.S):
        for line in block.splitlines():
            command, _, remark = line.partition("   # ")
            status = re.fullmatch(r"ends with (\d)", remark)
            assert bool(status) == bool(remark), line
            yield command, int(status[1]) if status else 0


def test_every_command_runs_and_ends_as_the_guide_says(tmp_path):
    who = {f"GIT_{who}_{what}": "somebody" for who in ("AUTHOR", "COMMITTER") for what in ("NAME", "EMAIL")}
    path = f"{pathlib.Path(built.finwright()).parent}:{os.environ['PATH']}"
    environment = {**os.environ, **who, "PATH": path, "NO_COLOR": "1", "GIT_CONFIG_GLOBAL": os.devnull}
    said, run = {}, list(steps())
    assert sum(command.startswith("finwright ") for command, _ in run) >= 20
    for command, status in run:
        done = subprocess.run(["bash", "-c", command], cwd=tmp_path, env=environment, capture_output=True, text=True)
        assert done.returncode == status, f"{command}\n{done.stdout}{done.stderr}"
        said.setdefault(command, done.stdout)
    assert "guide/slow-exit" in said["finwright check . --since HEAD"]
    assert "known from the baseline" in said["finwright check . --baseline finwright-baseline.json"].replace("\n", " ")
    assert "+    " in said["finwright check designs/kite.finw --fix --diff"]
    for made in ("finwright.sarif", "quality.json", "junit.xml", "finwright.bash", "finwright-check.1"):
        assert (tmp_path / made).read_text().endswith("\n"), made


def test_every_command_in_its_sentences_is_one():
    """What stands in backticks in a sentence and begins like a command names options that there are."""
    for command in re.findall(r"`finwright ([a-z]+)([^`]*)`", GUIDE.read_text()):
        helped = club.finwright(club.HOME, command[0], "--help")
        assert helped.returncode == 0, command
        for option in re.findall(r"--[a-z-]+", command[1]):
            assert option in helped.stdout, command
