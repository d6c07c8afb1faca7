"""Sets beyond one machine: parts whose lines are the whole's, and results put together."""

import json
import subprocess

import club

FORMS = ("line", "json", "jsonl", "sarif", "junit", "github", "gitlab", "rdjson")


def lines(folder, *arguments, **more):
    done = club.finwright(folder, "check", "--format", "jsonl", *arguments, **more)
    assert done.returncode in (0, 1, 2) and "usage" not in done.stderr.lower()
    return done.stdout


def sort(text):
    """As `LC_ALL=C sort` does."""
    done = subprocess.run(["sort"], input=text, text=True, capture_output=True, env={"LC_ALL": "C"}, check=True)
    return done.stdout


def test_the_sorted_lines_of_all_parts_are_the_wholes(mixed):
    whole = lines(mixed, ".")
    files, summary = whole.splitlines()[:-1], json.loads(whole.splitlines()[-1])
    assert len(files) > 50 and set(summary) == {"summary", "version"}
    for many in (1, 5, 200):
        parts = "".join(lines(mixed, ".", "--shard", f"{number}/{many}") for number in range(1, many + 1))
        assert sort(parts) == "".join(line + "\n" for line in files)
    assert sort(whole) == whole


def test_a_list_of_results_is_written_in_every_format(mixed, tmp_path):
    parts = [lines(mixed, ".", "--shard", f"{number}/3") for number in (2, 3, 1)]
    (tmp_path / "all.jsonl").write_text("".join(parts))
    for form in FORMS:
        whole = club.finwright(mixed, "check", ".", "--format", form)
        put_together = club.finwright(mixed, "check", "--from", tmp_path / "all.jsonl", "--format", form)
        assert (put_together.stdout, put_together.returncode) == (whole.stdout, whole.returncode), form
        assert put_together.stderr == whole.stderr
    # From anywhere, and by the pipe.
    for_pipe = club.finwright(tmp_path, "check", "--from", "-", "--format", "sarif", input="".join(parts))
    assert for_pipe.stdout == club.finwright(mixed, "check", ".", "--format", "sarif").stdout


def test_what_fails_is_decided_over_the_whole(mixed, tmp_path):
    folder = tmp_path / "club"
    for name in ("one", "two", "three"):
        club.copy("bad/low_margin.finw", folder / f"{name}.finw")
    (tmp_path / "all.jsonl").write_text(lines(folder, "."))
    done = club.finwright(folder, "check", "--from", tmp_path / "all.jsonl", "--format", "line", "--max-warnings", "2")
    assert done.returncode == 1 and "3 warnings, and --max-warnings lets 2 pass" in done.stderr
    club.finwright(folder, "baseline", ".")
    known = ["--baseline", "finwright-baseline.json", "--deny", "warnings"]
    assert club.finwright(folder, "check", "--from", tmp_path / "all.jsonl", "--format", "line", *known).returncode == 0


def test_a_library_is_one_whichever_part_its_users_are_in(tmp_path):
    text = (club.DESIGNS / "good/pond_wren.finw").read_text()
    (tmp_path / "kits").mkdir()
    (tmp_path / "pupils").mkdir()
    airframe = text[: text.index("motor a5")]
    (tmp_path / "kits/kit.finw").write_text(airframe)
    rest = text[text.index("motor a5") :]
    (tmp_path / "pupils/a.finw").write_text('finwright 1\nuse "../kits/kit.finw"\n' + rest)
    done = club.finwright(tmp_path, "check", ".", "--format", "jsonl")
    whole, code = done.stdout.splitlines(), done.returncode
    verdicts = {line["path"]: line["verdict"] for line in map(json.loads, whole[:-1])}
    assert verdicts["kits/kit.finw"] == "library"
    parts = [lines(tmp_path, ".", "--shard", f"{number}/2") for number in (1, 2)]
    assert sort("".join(parts)).splitlines() == whole[:-1]
    # Where each is looked at for itself nobody can know; put together it is known again.
    (tmp_path / "all.jsonl").write_text(lines(tmp_path, "kits/kit.finw") + lines(tmp_path, "pupils/a.finw"))
    done = club.finwright(tmp_path, "check", "--from", "all.jsonl", "--format", "jsonl")
    assert (done.stdout.splitlines(), done.returncode) == (whole, code)


def test_a_list_that_is_not_whole_is_unusable(mixed, tmp_path):
    whole = lines(mixed, "bad")
    for text, said in (
        (whole[:-2000], "it isn't a line of `check --format jsonl`, or not a whole one"),
        ("{}\n", "line 1: it isn't a line"),
        (whole.replace('"version":1', '"version":2'), "line 1: it is of version 2"),
    ):
        (tmp_path / "all.jsonl").write_text(text)
        done = club.finwright(mixed, "check", "--from", tmp_path / "all.jsonl", "--format", "line")
        assert (done.returncode, done.stdout) == (2, "") and said in done.stderr
    (tmp_path / "all.jsonl").write_text(whole)
    done = club.finwright(mixed, "check", "--from", tmp_path / "all.jsonl")
    assert done.returncode == 2 and "text shows the designs' own lines" in done.stderr
    assert club.finwright(mixed, "check", "--from", "none.jsonl", "--format", "line").returncode == 2


def test_as_a_filter_it_gives_a_line_for_each_name(mixed):
    names = sorted(path.relative_to(mixed).as_posix() for path in (mixed / "bad").glob("*.finw"))
    done = club.finwright(mixed, "check", "--files-from", "-", "--format", "jsonl", input="\n".join(names) + "\n")
    told = [json.loads(line) for line in done.stdout.splitlines()]
    assert [line["path"] for line in told[:-1]] == names and told[-1]["summary"]["files"] == len(names)
    assert done.stderr == ""
