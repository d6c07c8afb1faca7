"""The JSON schemas are what they say (draft 2020-12), and they and the program agree about samples."""

import json
import re
import tomllib

import pytest
from conftest import ROOT
from jsonschema import Draft202012Validator

GOOD = sorted((ROOT / "tests/designs/good").glob("*.finw"))
SCHOOL = ROOT / "tests/designs/projects/school/finwright.toml"

FITS = {
    "nothing": "",
    "a profile": 'profile = "high-power"\n',
    "a code": 'code = "california-experimental"\n',
    "units": 'units = "us"\n',
    "levels": '[levels]\n"guide/slow-exit" = "note"\n"allow/unused" = "off"\n"stability/low-margin" = "error"\n',
    "a table in one line": 'levels = { "guide/slow-exit" = "warning" }\n',
    "thresholds": '[thresholds]\nexit_speed = "30 mph"\nmargin = 1.5\n',
    "calibres in quotes": '[thresholds]\nmargin = "1.5"\n',
    "the school's": SCHOOL.read_text(encoding="utf-8"),
}

DOES_NOT_FIT = {
    "an unknown key": "profiles = 1\n",
    "an unknown profile": 'profile = "clubb"\n',
    "a profile that is no name": "profile = 1\n",
    "an unknown code": 'code = "moon"\n',
    "unknown units": 'units = "imperial"\n',
    "units that are no name": "units = true\n",
    "levels that are no table": 'levels = "off"\n',
    "an unknown rule": '[levels]\n"guide/slow" = "off"\n',
    "an unknown level": '[levels]\n"guide/slow-exit" = "loud"\n',
    "a level that is no name": '[levels]\n"guide/slow-exit" = false\n',
    "a rule that can't be set": '[levels]\n"syntax/unreadable-line" = "off"\n',
    "an unknown threshold": '[thresholds]\nexit = "3 m/s"\n',
    "a speed without its unit": "[thresholds]\nexit_speed = 13.4\n",
    "a margin that is no number": "[thresholds]\nmargin = true\n",
}


def example_in_readme():
    (text,) = re.findall(r"```toml\n(.*?)```", (ROOT / "README.md").read_text(encoding="utf-8"), re.S)
    return text


@pytest.fixture(scope="module")
def settings(finwright):
    schema = json.loads(finwright("schema", "settings")[0])
    assert schema["$schema"] == Draft202012Validator.META_SCHEMA["$id"]
    Draft202012Validator.check_schema(schema)
    return Draft202012Validator(schema)


@pytest.fixture
def understood(finwright, tmp_path):
    """Whether the program takes a text as settings without a word."""

    def ask(text):
        (tmp_path / "finwright.toml").write_text(text, encoding="utf-8")
        (tmp_path / "design.finw").write_text(GOOD[0].read_text(encoding="utf-8"), encoding="utf-8")
        return "settings/not-understood" not in finwright("check", "--format", "line", tmp_path / "design.finw")[0]

    return ask


@pytest.mark.parametrize("name", FITS)
def test_settings_that_fit(settings, understood, name):
    assert list(settings.iter_errors(tomllib.loads(FITS[name]))) == []
    assert understood(FITS[name])


def test_the_example_in_the_readme_fits(settings, understood):
    assert list(settings.iter_errors(tomllib.loads(example_in_readme()))) == []
    assert understood(example_in_readme())


@pytest.mark.parametrize("name", DOES_NOT_FIT)
def test_settings_that_do_not_fit(settings, understood, name):
    assert not settings.is_valid(tomllib.loads(DOES_NOT_FIT[name]))
    assert not understood(DOES_NOT_FIT[name])


def test_every_name_has_words_to_show_while_typing(settings):
    for name in ("Profile", "Code", "Units", "Levels", "Thresholds"):
        assert settings.schema["$defs"][name]["description"]
    for table in ("Levels", "Thresholds"):
        for name, entry in settings.schema["$defs"][table]["properties"].items():
            assert len(entry["description"]) > 10, name


@pytest.fixture(scope="module")
def numbers(finwright):
    schema = json.loads(finwright("schema")[0])
    Draft202012Validator.check_schema(schema)
    return Draft202012Validator(schema)


@pytest.fixture(scope="module")
def report(finwright):
    schema = json.loads(finwright("schema", "check")[0])
    Draft202012Validator.check_schema(schema)
    return Draft202012Validator(schema)


def test_a_report_of_the_whole_corpus_fits_its_schema(report, finwright):
    said, status = finwright("check", "--format", "json", ROOT / "tests/designs")
    assert status == 1
    told = json.loads(said)
    assert list(report.iter_errors(told)) == []
    assert told["version"] == 1
    verdicts = {file["verdict"] for file in told["files"]}
    assert verdicts == {"not-as-it-is", "not-checked", "look-at-it", "meets-the-checks", "library"}
    assert any(flight["not_checked"] for file in told["files"] for flight in file["flights"])
    assert any(file["allowed"] for file in told["files"])


def test_a_verdict_that_is_none_does_not_fit(report):
    file = {"path": "a", "verdict": "fine", "counts": {}, "flights": [], "allowed": [], "made_light_of": []}
    told = {"version": 1, "files": [file], "findings": [], "shared": [], "unusable": []}
    assert not report.is_valid(told)


@pytest.mark.parametrize("design", GOOD, ids=lambda path: path.stem)
def test_numbers_fit_their_schema(numbers, finwright, design):
    said, status = finwright("show", "--format", "json", design)
    assert status == 0
    assert list(numbers.iter_errors(json.loads(said))) == []


def test_a_comparison_of_designs_fits_its_schema(finwright):
    schema = json.loads(finwright("schema", "diff")[0])
    Draft202012Validator.check_schema(schema)
    # A design that is met with errors for one that meets the checks, so that everything has something to tell.
    old, new = ROOT / "tests/designs/good/pond_wren.finw", ROOT / "tests/designs/bad/slow_exit.finw"
    said, status = finwright("diff", "--format", "json", old, new)
    told = json.loads(said)
    assert list(Draft202012Validator(schema).iter_errors(told)) == []
    assert status == 1 and told["worse"] and told["designs"][0]["findings_new"]
