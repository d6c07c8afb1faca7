"""What is written for a class, a flying day and a review, read back by programs that aren't ours: html5lib (the parsing
algorithm of the HTML standard, strict), Python's csv, pypdf, and markdown-it-py (CommonMark, with tables)."""

import csv
import pathlib
import re
import shutil
import subprocess
import sys

import html5lib
import pypdf
import pytest
from markdown_it import MarkdownIt

HOME = pathlib.Path(__file__).resolve().parents[2]
sys.path.insert(0, str(HOME / "tests"))
from built import finwright  # noqa: E402

DESIGNS = HOME / "tests" / "designs"
FINWRIGHT = finwright()
EVIL = '<script>alert("&")</script><img src=x onerror=alert(1)> [a](javascript:1) `b` *c* | d'


def run(*arguments, cwd):
    return subprocess.run([FINWRIGHT, *map(str, arguments)], cwd=cwd, capture_output=True, text=True)


@pytest.fixture(scope="module")
def handed_in(tmp_path_factory):
    """Every design of the corpus as somebody's, sound or not, with what a pupil could write to do harm."""
    home = tmp_path_factory.mktemp("class")
    (home / "in").mkdir()
    for number, design in enumerate(sorted(DESIGNS.rglob("*.finw"))):
        text = design.read_text(encoding="utf-8")
        if number % 3 == 0:
            text = re.sub(r'^design ".*?"', lambda _: 'design "' + EVIL.replace('"', "'") + '"', text, flags=re.M)
            text += f"# allow pad/leans in this file: {EVIL}\n"
        (home / "in" / f"p{number:03}.finw").write_text(text, encoding="utf-8")
    names = sorted(path.name for path in (home / "in").iterdir())
    with open(home / "roster.csv", "w", newline="", encoding="utf-8") as file:
        rows = csv.writer(file)
        rows.writerow(["id", "name", "where"])
        for number, name in enumerate(names):
            rows.writerow([["=1+1", "@x", "s"][number % 3] + str(number), f"{EVIL} {number}", name])
    done = run("class", "in", "--roster", "roster.csv", "--out", "pages", cwd=home)
    assert (done.returncode, done.stderr) == (0, "")
    return home / "pages"


def test_every_page_is_html_without_a_fault(handed_in):
    pages = sorted(handed_in.rglob("*.html"))
    assert len(pages) > 100
    for page in pages:
        tree = html5lib.HTMLParser(strict=True).parse(page.read_text(encoding="utf-8"))
        tags = {element.tag.rpartition("}")[2] for element in tree.iter() if isinstance(element.tag, str)}
        assert not tags & {"script", "img", "iframe", "object", "link", "form"}, page
        for element in tree.iter():
            assert not [name for name in element.attrib if str(name).startswith("on")], page
            assert not element.attrib.get("href", "").startswith("javascript"), page


def test_no_page_of_a_pupil_leads_anywhere(handed_in):
    for page in (handed_in / "pupils").glob("*.html"):
        assert "href" not in page.read_text(encoding="utf-8"), page


def test_the_gradebook_reads_the_grades_and_no_cell_is_a_formula(handed_in):
    with open(handed_in / "grades.csv", newline="", encoding="utf-8") as file:
        rows = list(csv.DictReader(file, strict=True))
    assert len(rows) == len(list((handed_in / "pupils").iterdir()))
    for row in rows:
        assert list(row) == ["id", "name", "points", "of", "comment"]
        assert 0 <= float(row["points"]) <= float(row["of"]) == 10
        assert row["comment"].startswith("For ") and "alone: " in row["comment"]
        assert not any(re.match(r"[=+\-@\t\r]", cell) for cell in row.values()), row


def test_feedback_is_markdown_in_which_nothing_of_a_pupils_is_a_mark(handed_in):
    for page in (handed_in / "feedback").iterdir():
        tokens = MarkdownIt("commonmark").parse(page.read_text(encoding="utf-8"))
        inline = [inner for token in tokens for inner in token.children or []]
        kinds = {token.type for token in tokens} | {token.type for token in inline}
        assert not kinds & {"html_inline", "html_block", "link_open", "image", "code_inline", "em_open"}, page


def test_every_rocket_of_a_day_is_on_paper_in_the_page_and_in_the_table(tmp_path):
    rockets = [DESIGNS / "good" / f"{name}.finw" for name in ("pond_wren", "reed_heron", "glass_eel", "two_motors")]
    ask = ["day", *rockets, "--pads", DESIGNS / "projects/club/shared/pads.finw", "--wind", "4m/s"]
    for name in ("day.pdf", "day.html", "day.csv"):
        assert run(*ask, "-o", name, cwd=tmp_path).returncode == 1
    with open(tmp_path / "day.csv", newline="", encoding="utf-8") as file:
        rows = list(csv.DictReader(file, strict=True))
    assert [row["may_fly"] for row in rows] == ["false", "true", "true", "true", "true"]
    pages = pypdf.PdfReader(tmp_path / "day.pdf").pages
    paper = " ".join(" ".join(page.extract_text().split()) for page in pages)
    html = html5lib.HTMLParser(strict=True).parse((tmp_path / "day.html").read_text(encoding="utf-8"))
    shown = " ".join("".join(html.itertext()).split())
    for row in rows:
        for words in (row["rocket"], row["motor"], f"{float(row['margin_cal']):.2f}"):
            assert words in paper and words in shown, words
        if row["may_fly"] == "true":
            exit_speed = f"{float(row['exit_speed_m_s']):.1f}\u00a0±\u00a0{float(row['exit_speed_sd_m_s']):.1f}"
            assert exit_speed.replace("\u00a0", " ") in paper.replace("\u00a0", " "), exit_speed


def test_a_page_for_a_pull_request_has_its_tables(tmp_path):
    for name, design in (("old", "good/pond_wren"), ("new", "bad/slow_exit")):
        (tmp_path / name).mkdir()
        shutil.copy(DESIGNS / f"{design}.finw", tmp_path / name / "wren_<b>_|x|.finw")
    done = run("diff", "old", "new", "--format", "markdown", cwd=tmp_path)
    assert done.returncode == 1
    tokens = MarkdownIt("commonmark").enable("table").parse(done.stdout)
    kinds = [token.type for token in tokens]
    assert kinds.count("table_open") == 1 and "html_block" not in kinds
    heading = next(tokens[at + 1] for at, token in enumerate(tokens) if token.type == "heading_open")
    said = "".join(inner.content for inner in heading.children)
    assert said.startswith("wren_<b>_|x|.finw: ")
    cells = [tokens[at + 1].content for at, token in enumerate(tokens) if token.type == "td_open"]
    assert cells[:3] == ["exit speed", "20.6 ± 0.3 m/s", "11.8 ± 0.1 m/s"]
