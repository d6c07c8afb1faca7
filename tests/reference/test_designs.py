"""Whole designs: what `finwright show` says against the same worked out from the dimensions in Python."""

import json

import numpy as np
import pytest
import trimesh
from examples import DESIGNS, VARIANTS, grey_crane, marsh_harrier, pond_wren, reed_heron, variant
from outlines import outline
from rocket import Rocket, shell
from uncertainties import ufloat

EXAMPLES = {"reed_heron": reed_heron, "pond_wren": pond_wren, "marsh_harrier": marsh_harrier, "grey_crane": grey_crane}


@pytest.fixture(scope="session")
def show(finwright, tmp_path_factory):
    """`show(text)`: the flights of a design by name."""

    def ask(design):
        path = tmp_path_factory.mktemp("design") / "design.finw"
        path.write_text(design, encoding="utf-8")
        said, status = finwright("show", "--format", "json", path)
        assert status == 0
        return {flight["flight"]: flight for flight in json.loads(said)}

    return ask


def check(compare, name, spec, flights):
    rocket = Rocket(spec)
    assert set(flights) == set(spec["pads"])
    for which, pad in spec["pads"].items():
        got = flights[which]
        label = f"{name}, {which}"
        sums = "sums over frusta"
        for unit, now in (("", rocket.loaded), ("_burnt", rocket.burnt)):
            compare(f"{label}: mass{unit}", sums, now[0], got[f"mass{unit}_kg"], 1e-5)
            compare(f"{label}: balance{unit}", sums, now[1], got[f"balance{unit}_m"], 1e-5)
            compare(f"{label}: inertia{unit}", sums, now[3], got[f"inertia{unit}_kg_m2"], 1e-5)
        compare(f"{label}: mass as computed", sums, rocket.computed[0], got["mass_computed_kg"], 1e-5)
        compare(f"{label}: balance as computed", sums, rocket.computed[1], got["balance_computed_m"], 1e-5)
        compare(f"{label}: axial inertia", sums, rocket.loaded[2], got["axial_inertia_kg_m2"], 1e-5)
        _, (cna, x) = rocket.pressure()
        compare(f"{label}: normal-force slope", "Barrowman 1967", cna, got["cna"], 1e-6)
        compare(f"{label}: centre of pressure", "Barrowman 1967", x, got["pressure_centre_m"], 1e-6)
        compare(f"{label}: margin", "Barrowman 1967", (x - rocket.loaded[1]) / rocket.d, got["margin_cal"], 1e-4)
        run, front, travel, ((_, (_, v_front)), (t, (_, v))) = rocket.run(pad)
        scipy = "scipy DOP853"
        compare(f"{label}: guided travel", "geometry", travel, got["guided_travel_m"], 1e-5)
        cd = 2 * run.drag / (rocket.area * rocket.air(pad).at(0)[0])
        compare(f"{label}: drag coefficient at 13.4 m/s", "Barrowman 1967", cd, got["drag_coefficient"], 1e-6)
        compare(f"{label}: front release", scipy, v_front, got["front_release_m_s"], 1e-6)
        compare(f"{label}: exit speed", scipy, v, got["exit_speed_m_s"], 1e-6)
        compare(f"{label}: exit time", scipy, t, got["exit_time_s"], 1e-6)
        rate, flown = rocket.fly(pad)
        if pad.get("wind") or pad.get("tilt"):
            compare(f"{label}: tip-off", scipy, rate, got["tip_off_rad_s"], 3e-3)
        compare(f"{label}: apogee", scipy, flown["apogee"][1][1], got["apogee_m"], 1e-4)
        compare(f"{label}: time to apogee", scipy, flown["apogee"][0], got["apogee_time_s"], 1e-4)
        compare(f"{label}: top speed", scipy, flown["fastest"], got["top_speed_m_s"], 1e-4)
        t, y = flown["landing"]
        compare(f"{label}: time of flight", scipy, t, got["flight_time_s"], 1e-4)
        if pad.get("wind"):
            compare(f"{label}: drift", scipy, y[0], got["drift_m"], 2e-4)


@pytest.mark.parametrize("name", EXAMPLES)
def test_example(show, compare, name):
    check(compare, name, EXAMPLES[name](), show((DESIGNS / f"{name}.finw").read_text(encoding="utf-8")))


@pytest.mark.parametrize("name", VARIANTS)
def test_variant(show, compare, name):
    spec, text = variant(*VARIANTS[name])
    check(compare, name, spec, show(text))


def test_nose_by_mesh(show, compare):
    """reed_heron's walled nose as a mesh of its outside less one of its inside, in mm, put in the place of the sum's."""
    spec = reed_heron()
    nose = spec["nose"]
    length, radius, wall = 1e3 * nose["length"], 1e3 * nose["base"] / 2, 1e3 * nose["wall"]
    rho = (radius**2 + length**2) / (2 * radius)
    r = outline("ogive", 0, length, radius)
    # The surface parallel to a circular arc is the arc of a radius less by the wall, up to the axis.
    tip = length - np.sqrt((rho - wall) ** 2 - (rho - radius) ** 2)
    inner = lambda x: np.sqrt(np.maximum((rho - wall) ** 2 - (length - x) ** 2, 0)) - (rho - radius)
    sides = 720
    volume = 0.0
    for sign, x, outside in ((1, np.linspace(0, length, 1001), r), (-1, np.linspace(tip, length, 1001), inner)):
        profile = np.column_stack([np.maximum(outside(x), 0), x])
        profile[0, 0] = 0
        mesh = trimesh.creation.revolve(np.vstack([profile, [0, length]]), sections=sides)
        assert mesh.is_watertight
        volume += sign * abs(mesh.volume)
    # A polygon of n sides has less area than its circle by this factor.
    volume *= (2 * np.pi / sides) / np.sin(2 * np.pi / sides) * 1e-9
    rocket = Rocket(spec)
    by_sum = shell(rocket.r, nose["length"], nose["wall"], nose["rho"])[0]
    theirs = rocket.computed[0] - by_sum + nose["rho"] * volume
    ours = show((DESIGNS / "reed_heron.finw").read_text(encoding="utf-8"))["rod_day"]["mass_computed_kg"]
    nose_ours = ours - (rocket.computed[0] - by_sum)
    compare("reed_heron: mass with the nose as a mesh", "trimesh", theirs, ours, 1e-5)
    compare("reed_heron: its nose alone", "trimesh", nose["rho"] * volume, nose_ours, 1e-4)


def test_tolerances(show, compare):
    """First-order tolerances against the package uncertainties, on a rocket whose sums are short."""
    text = """finwright 1
let d = 30 mm ± 0.2 mm
material paper { density: 700 kg/m3 ± 5 % }
airframe {
  nose { shape: cone; length: 90 mm ± 1 mm; base: d; mass: 9 g ± 0.4 g }
  tube {
    length: 300 mm; outer: d; inner: d - 1 mm; material: paper
    fins { count: 4; root: 60 mm; tip: 60 mm; span: 45 mm ± 1 mm; sweep: 0 mm; thickness: 2 mm; mass: 5 g ± 0.2 g; at: 0 mm from back }
    mount { bore: 18 mm; outer: 18.8 mm; length: 70 mm; mass: 2 g }
    load { mass: 12 g ± 1 g; at: 200 mm from tip }
    lug only { bore: 3.6 mm; length: 30 mm; wall: 0.4 mm; mass: 1 g; at: 220 mm from tip; clock: 45 deg }
  }
}
motor one { diameter: 18 mm; length: 70 mm; mass: 20 g ± 0.5 g; propellant: 8 g; curve: [0 s: 8 N, 1 s: 8 N] }
pad stand { rod { diameter: 3 mm; length: 1 m }; stop: 40 mm ± 5 mm }
flight day { motor: one; pad: stand; guided_by: [only] }
"""
    got = show(text)["day"]
    d, paper, length = ufloat(0.03, 0.0002), ufloat(700, 35), ufloat(0.09, 0.001)
    nose, fins, load, motor = ufloat(9e-3, 0.4e-3), ufloat(5e-3, 0.2e-3), ufloat(12e-3, 1e-3), ufloat(20e-3, 0.5e-3)
    span, stop = ufloat(0.045, 0.001), ufloat(0.04, 0.005)
    tube = paper * np.pi / 4 * (d**2 - (d - 0.001) ** 2) * 0.3
    tail = length + 0.3
    mass = nose + tube + fins + 2e-3 + load + 1e-3 + motor
    moment = nose * 0.75 * length + tube * (length + 0.15) + fins * (tail - 0.03) + 2e-3 * (tail - 0.035)
    moment += load * 0.2 + 1e-3 * 0.22 + motor * (tail - 0.035)
    balance = moment / mass
    k = 1 + d / 2 / (span + d / 2)
    fin = k * 16 * (span / d) ** 2 / (1 + (1 + (span / 0.06) ** 2) ** 0.5)
    pressure = (2 * length * 2 / 3 + fin * (tail - 0.06 + 0.015)) / (2 + fin)
    travel = 1 - stop - (tail - 0.22 - 0.015)
    for name, theirs in {
        "mass_kg": mass,
        "balance_m": balance,
        "cna": 2 + fin,
        "pressure_centre_m": pressure,
        "margin_cal": (pressure - balance) / d,
        "guided_travel_m": travel,
        "thrust_to_weight": 8 / (mass * 9.80665),
    }.items():
        compare(f"tolerances: {name}", "uncertainties", theirs.n, got[name], 1e-6)
        # Moved by a whole tolerance up and down, against exact derivatives: third-order terms are left.
        compare(f"tolerances: {name}, ±", "uncertainties", theirs.s, got["tolerance"][name], 2e-3)
    assert "reference_diameter_m" in got["tolerance"] and "impulse_n_s" not in got["tolerance"]
