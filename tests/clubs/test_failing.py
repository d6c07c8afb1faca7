"""What fails: levels, a baseline, mending; and what is told once."""

import json
import os
import subprocess

import club
import pytest


def check(folder, *arguments, **more):
    done = club.finwright(folder, "check", *(arguments or ["."]), **more)
    return done.returncode, done.stdout, done.stderr


def change(path, old, new):
    text = path.read_text()
    assert old in text
    path.write_text(text.replace(old, new, 1))


def test_warnings_may_be_denied_or_counted(tmp_path):
    club.copy("bad/low_margin.finw", tmp_path / "a.finw")
    code, said, _ = check(tmp_path, "--format", "line", ".")
    assert code == 0 and said.count(": warning ") == 1
    code, same, why = check(tmp_path, "--format", "line", "--deny", "warnings", ".")
    assert (code, same, why) == (1, said, "finwright: 1 warning, and --deny warnings lets none pass\n")
    assert check(tmp_path, ".", "--max-warnings", "1")[0] == 0
    assert check(tmp_path, ".", "--max-warnings", "0")[0] == 1
    club.copy("good/pond_wren.finw", tmp_path / "a.finw")
    assert check(tmp_path, ".", "--deny", "warnings", "--max-warnings", "0")[0] == 0


def test_a_baseline_lets_only_what_is_new_fail(tmp_path):
    for name in ("slow_exit", "low_margin"):
        club.copy(f"bad/{name}.finw", tmp_path / "designs" / f"{name}.finw")
    assert check(tmp_path)[0] == 1
    done = club.finwright(tmp_path, "baseline", ".")
    assert (done.returncode, done.stdout) == (0, "finwright-baseline.json knows 2 findings\n")
    known = ["--baseline", "finwright-baseline.json"]
    code, said, _ = check(tmp_path, ".", *known)
    assert code == 0 and "2 findings known from the baseline" in " ".join(said.split())
    assert "guide/slow-exit" not in said
    # The verdict stays what it is.
    assert "1 not as it is" in said
    # Moved text stays known, from any folder.
    path = tmp_path / "designs/slow_exit.finw"
    path.write_text("\n\n# a word\n" + path.read_text())
    assert check(tmp_path, ".", *known, "--deny", "warnings")[0] == 0
    assert check(tmp_path / "designs", ".", "--baseline", "../finwright-baseline.json")[0] == 0
    # In the reader's units, too.
    assert check(tmp_path, ".", *known, "--units", "us")[0] == 0
    # Something new fails, and only that is told.
    club.copy("bad/slow_exit.finw", tmp_path / "designs/new.finw")
    code, said, _ = check(tmp_path, ".", *known, "--format", "line")
    assert code == 1 and said.count("error guide/slow-exit") == 1 and "designs/new.finw:72:8: error" in said
    assert "designs/slow_exit.finw: not as it is: guide/slow-exit (known from the baseline)" in said


def test_the_same_finding_once_more_is_new(tmp_path):
    text = (club.DESIGNS / "bad/slow_exit.finw").read_text()
    line = next(line for line in text.splitlines() if line.startswith("flight lesson "))
    (tmp_path / "a.finw").write_text(text)
    club.finwright(tmp_path, "baseline", "a.finw")
    entries = json.loads((tmp_path / "finwright-baseline.json").read_text())["findings"]
    assert [(entry["rule"], entry["count"]) for entry in entries] == [("guide/slow-exit", 1)]
    (tmp_path / "a.finw").write_text(text + line.replace("flight lesson", "flight lesson_two") + "\n")
    code, said, _ = check(tmp_path, "a.finw", "--baseline", "finwright-baseline.json", "--format", "line")
    assert code == 1 and said.count("error guide/slow-exit") == 1 and "lesson_two leaves" in said


def test_what_is_gone_from_a_baseline_is_told_and_pruned(tmp_path):
    for name in ("one", "two"):
        club.copy("bad/slow_exit.finw", tmp_path / f"{name}.finw")
    club.finwright(tmp_path, "baseline", ".")
    club.copy("good/pond_wren.finw", tmp_path / "one.finw")
    known = ["--baseline", "finwright-baseline.json", "--format", "line"]
    gone = "in the baseline and no longer found, 1 time: one.finw: guide/slow-exit: lesson leaves the rod"
    code, said, _ = check(tmp_path, ".", *known)
    assert code == 0 and said.count("no longer found") == 1 and gone in said
    # Of what wasn't looked at nothing is said.
    assert "no longer found" not in check(tmp_path, "two.finw", *known)[1]
    (tmp_path / "one.finw").unlink()
    assert gone in check(tmp_path, "two.finw", *known)[1]
    club.finwright(tmp_path, "baseline", ".")
    assert "no longer found" not in check(tmp_path, ".", *known)[1]
    assert (tmp_path / "finwright-baseline.json").read_text().count('"rule"') == 1


@pytest.mark.parametrize("text", ["", "{", "[]", '{"finwright_baseline": 9, "findings": []}', '{"findings": []}', "\0"])
def test_a_baseline_that_cannot_be_read_ends_with_2(tmp_path, text):
    club.copy("good/pond_wren.finw", tmp_path / "a.finw")
    (tmp_path / "known.json").write_text(text)
    code, said, why = check(tmp_path, ".", "--baseline", "known.json")
    assert (code, said) == (2, "") and why.startswith("finwright: the baseline known.json can't be used: ")
    assert why.count("\n") == 1
    assert check(tmp_path, ".", "--baseline", "none.json")[0] == 2


def test_a_fault_in_shared_files_is_told_once_and_may_be_known(mixed, tmp_path):
    out = tmp_path / "known.json"
    named = [str(mixed / name) for name in ("broken", "lend")]
    code, said, _ = check(mixed, "broken", "lend", "--format", "line")
    assert code == 1 and said.count("settings/not-understood: ") >= 2
    told = [line for line in said.splitlines() if line.startswith(("broken/finwright.toml:", "lend/parts.txt:"))]
    assert len(told) == len(set(told)) and len(told) >= 3, named
    club.finwright(mixed, "baseline", "broken", "lend", "-o", out)
    code, said, _ = check(mixed, "broken", "lend", "--format", "line", "--baseline", out)
    assert code == 0 and ": error " not in said, said


# Mending.


def test_what_is_offered_is_applied_and_holds(tmp_path):
    club.copy("good/pond_wren.finw", tmp_path / "a.finw")
    change(tmp_path / "a.finw", "material: balsa", "materal: balsa")
    change(tmp_path / "a.finw", "count: 3", "cuont: 3")
    loose = (tmp_path / "a.finw").read_text()
    code, said, told = check(tmp_path, ".", "--fix", "--diff")
    assert code == 0 and told == "" and (tmp_path / "a.finw").read_text() == loose
    assert said.startswith("--- a.finw\n+++ a.finw\n@@") and "-    materal" in said.replace("cuont", "materal")
    code, said, told = check(tmp_path, ".", "--fix")
    assert code == 0 and "meets the checks" in said, said + told
    assert told.count("a.finw: ") == 2 and "change the rocket and its pad alike before it flies" in told
    assert (tmp_path / "a.finw").read_text() == (club.DESIGNS / "good/pond_wren.finw").read_text()
    # There is nothing left to mend.
    assert check(tmp_path, ".", "--fix")[2] == ""
    # What is shown is what is written.
    (tmp_path / "b.finw").write_text(loose)
    shown = check(tmp_path, "b.finw", "--fix", "--diff")[1]
    subprocess.run(["patch", "-s", "b.finw"], input=shown, text=True, cwd=tmp_path, check=True)
    assert (tmp_path / "b.finw").read_text() == (tmp_path / "a.finw").read_text()


def test_the_corpus_is_mended_without_new_findings(tmp_path):
    """Whatever is wrong with a design: mended, it has no more findings than before, and reads no worse."""
    changed = 0
    for design in sorted((club.DESIGNS / "bad").glob("*.finw")):
        (tmp_path / "a.finw").write_text(design.read_text())
        before = json.loads(check(tmp_path, "a.finw", "--format", "json")[1])["summary"]
        text = (tmp_path / "a.finw").read_text()
        code, said, _ = check(tmp_path, "a.finw", "--fix", "--format", "json")
        after = json.loads(said)["summary"]
        changed += (tmp_path / "a.finw").read_text() != text
        if after["verdicts"]["not-checked"] == before["verdicts"]["not-checked"]:
            assert after["errors"] <= before["errors"] or before["errors"] == 0, (design.name, before, after)
    assert changed > 15


def test_nothing_is_mended_through_a_link_or_the_pipe(tmp_path):
    club.copy("bad/slow_exit.finw", tmp_path / "a.txt")
    (tmp_path / "a.finw").symlink_to("a.txt")
    before = (tmp_path / "a.txt").read_text()
    _, _, told = check(tmp_path, ".", "--fix")
    assert "a.finw is a link to a.txt: mend that file" in told and (tmp_path / "a.txt").read_text() == before
    code, said, why = check(tmp_path, "-", "--fix", input="finwright 1\n")
    assert (code, said) == (2, "") and "standard input isn't one" in why
    assert sorted(os.listdir(tmp_path)) == ["a.finw", "a.txt"]
