"""What is printed, measured in the PDF itself by a general library for PDF (pdfplumber)."""

import math
import pathlib
import subprocess
import sys

import pdfplumber
import pytest

HERE = pathlib.Path(__file__).resolve().parent
sys.path.insert(0, str(HERE.parent))
from built import finwright  # noqa: E402

GOOD = HERE.parent / "designs" / "good"
FINWRIGHT = finwright()
MM = 72 / 25.4
# A millimetre on paper, as the check bars promise.
CLOSE = 0.1


def made(tmp_path, *arguments, name="sheet.pdf"):
    path = tmp_path / name
    done = subprocess.run([FINWRIGHT, *map(str, arguments), "-o", str(path)], capture_output=True, text=True)
    assert done.returncode == 0, done.stderr
    return pdfplumber.open(path)


def straight(page, horizontal):
    """Lengths in mm of the straight lines of a page, the sides of its shapes among them, one way."""
    wanted, size = ("h", "width") if horizontal else ("v", "height")
    return [edge[size] / MM for edge in page.edges if edge["orientation"] == wanted]


@pytest.mark.parametrize("paper", ["a4", "letter"])
@pytest.mark.parametrize("design", ["reed_heron", "sedge_mouse", "hill_raven"])
def test_both_bars_have_their_length_on_every_page(tmp_path, paper, design):
    with made(tmp_path, "sheet", GOOD / f"{design}.finw", "--paper", paper) as pdf:
        for page in pdf.pages:
            assert any(abs(length - 100) <= CLOSE for length in straight(page, True))
            assert any(abs(length - 101.6) <= CLOSE for length in straight(page, False))


def test_the_strip_is_as_wide_as_the_tube_is_around(tmp_path):
    """The tube of reed_heron.finw is 41.6 mm across."""
    with made(tmp_path, "sheet", GOOD / "reed_heron.finw") as pdf:
        [page] = pdf.pages
        lap = 8
        assert any(abs(length - (math.pi * 41.6 + lap)) <= CLOSE for length in straight(page, True))


def test_stations_on_the_strip_are_at_their_distance(tmp_path):
    """The fins of reed_heron.finw begin 3 mm ahead of the tube's aft end and are 70 mm long."""
    with made(tmp_path, "sheet", GOOD / "reed_heron.finw") as pdf:
        page = pdf.pages[0]
        assert any(abs(length - 70) <= CLOSE for length in straight(page, False))


@pytest.mark.parametrize("what", ["stand", "bench", "end-on", "run", "window", "margin", "path"])
def test_every_picture_prints_with_its_letters_embedded(tmp_path, what):
    with made(tmp_path, "draw", GOOD / "reed_heron.finw", "--what", what) as pdf:
        [page] = pdf.pages
        size = sorted([round(page.width / MM, 1), round(page.height / MM, 1)])
        assert size == [210.0, 297.0]
        fonts = embedded(pdf)
        assert fonts and all(fonts)
        assert "Reed Heron" in page.extract_text()


def embedded(pdf):
    """For each font of the document, whether its file is in it."""
    from pdfminer.pdftypes import resolve1

    found = []
    for page in pdf.pages:
        for font in resolve1(resolve1(page.page_obj.resources)["Font"]).values():
            for inner in resolve1(resolve1(font)["DescendantFonts"]):
                found.append("FontFile2" in resolve1(resolve1(inner)["FontDescriptor"]))
    return found


def test_four_cards_lie_on_a_page_and_one_on_its_own(tmp_path):
    with made(tmp_path, "sheet", GOOD, "--what", "card", "--paper", "a4") as pdf:
        assert len(pdf.pages) >= 6
        first = pdf.pages[0]
        assert first.width > first.height
        assert first.extract_text().count("range safety officer decides") == 4
    with made(tmp_path, "sheet", GOOD / "reed_heron.finw", "--what", "card", "--each", "1") as pdf:
        assert len(pdf.pages) == 2


def test_letters_of_other_scripts_are_drawn_or_named(tmp_path):
    text = (GOOD / "reed_heron.finw").read_text().replace('"Reed Heron"', '"Цапля Ερωδιός \U0001f680 \ue123"')
    design = tmp_path / "other.finw"
    design.write_text(text)
    with made(tmp_path, "draw", design, "--what", "stand") as pdf:
        said = pdf.pages[0].extract_text()
        assert "Цапля Ερωδιός" in said
        # A private letter is in no font, so the page says which one is missing.
        assert "U+E123" in said


def test_letters_of_a_working_are_the_same_digits(tmp_path):
    with made(tmp_path, "sheet", GOOD / "reed_heron.finw", "--what", "working", "--quantity", "margin") as pdf:
        said = "".join(page.extract_text() for page in pdf.pages)
    plain = subprocess.run(
        [FINWRIGHT, "working", str(GOOD / "reed_heron.finw"), "margin"], capture_output=True, text=True
    ).stdout
    results = [line.split("= ")[1].split()[0] for line in plain.splitlines() if line.strip().startswith("= ")]
    assert results and all(result in said for result in results)
