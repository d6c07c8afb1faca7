"""Every unit of the table against pint's, and against the factors of NIST SP 811, Appendix B (from memory)."""

import json
import math
import os
import pathlib
import subprocess

import pint
import pytest

ROOT = pathlib.Path(__file__).resolve().parents[2]
registry = pint.UnitRegistry(autoconvert_offset_to_baseunit=True)

# How pint spells what is spelled otherwise here.
THEIRS = {
    "°": "degree", "deg": "degree", "rad": "radian", "%": "percent", "°C": "degC", "°F": "degF", "kt": "knot", "ozf": "force_ounce",
    "lbf": "force_pound", "mil": "thou", "inHg": "inch_Hg", "inch": "inch", "in": "inch", "μm": "um", "min": "minute", "h": "hour",
    "mph": "mile/hour", "N.s": "newton*second", "lbf.s": "force_pound*second", "km/h": "km/hour", "kg/m3": "kg/m**3", "g/cm3": "g/cm**3",
    "lb/ft3": "lb/ft**3", "mm2": "mm**2", "in4": "inch**4", "m/s2": "m/s**2", "kg.m2": "kg*m**2",
}

# NIST SP 811 Appendix B, from memory; exact unless it says otherwise.
NIST = {
    "in": 0.0254, "ft": 0.3048, "mil": 2.54e-5, "mph": 0.44704, "lb": 0.45359237, "oz": 0.028349523125, "lbf": 4.4482216152605,
    "ozf": 0.2780138509537812, "psi": 6894.757293168, "lbf.s": 4.4482216152605, "km/h": 1 / 3.6, "kt": 1852 / 3600,
    "lb/ft3": 16.01846337396, "inHg": 3386.389,  # conventional, rounded there
}


@pytest.fixture(scope="module")
def table():
    target = os.environ.get("CARGO_TARGET_DIR", str(ROOT / "target"))
    subprocess.run(["cargo", "build", "-q", "-p", "finwright-units", "--example", "units"], cwd=ROOT, check=True)
    printed = subprocess.run([pathlib.Path(target) / "debug" / "examples" / "units"], capture_output=True, check=True, text=True).stdout
    return {row["name"]: row for row in json.loads(printed)}


def test_every_unit_against_pint(table):
    checked = 0
    for name, row in table.items():
        if name in ("cal", "calibre", "calibres"):  # calibres: the rocket's own diameter, which pint can't know
            assert row["base"] == "cal" and row["factor"] == 1
            continue
        unit = registry.Unit(THEIRS.get(name, name))
        # Two points fix a scale with its zero.
        for x in (1.0, 37.0):
            theirs = registry.Quantity(x, unit).to_base_units()
            ours = x * row["factor"] + row["offset"]
            wanted = theirs.magnitude
            # The inch of mercury is conventional: NIST rounds it to seven digits, pint doesn't.
            tolerance = 2e-7 if name == "inHg" else 1e-12
            assert math.isclose(ours, wanted, rel_tol=tolerance), (name, ours, wanted)
        checked += 1
    assert checked >= 45


def test_factors_of_nist(table):
    for name, factor in NIST.items():
        assert math.isclose(table[name]["factor"], factor, rel_tol=1e-12), (name, table[name]["factor"], factor)


def test_dimensions_against_pint(table):
    names = {"[length]": "m", "[mass]": "kg", "[time]": "s", "[temperature]": "K"}
    for name, row in table.items():
        if name in ("cal", "calibre", "calibres", "deg", "°", "rad", "%"):
            continue
        dimension = registry.Unit(THEIRS.get(name, name)).dimensionality
        ours = {}
        for part in row["base"].split("."):
            stem = part.rstrip("-0123456789")
            ours[stem] = int(part[len(stem):] or 1)
        assert ours == {names[d]: int(e) for d, e in dimension.items()}, name
