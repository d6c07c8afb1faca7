"""Instruments' records, what flights show of drag and thrust, and the pad in a gust."""

import json
import math
import re

import numpy as np
import pytest
from examples import DESIGNS
from free_flight import flight
from test_flight import TRAINER

FOOT = 0.3048
# Invented: a rise, a hump, a plateau and an end, as straight lines.
BURN = np.array([(0, 0), (0.04, 11.0), (0.15, 24.0), (0.3, 12.0), (0.6, 9.0), (1.6, 8.0), (1.8, 0)])
TEAL = (DESIGNS / "teal.finw").read_text(encoding="utf-8")
GARGANEY = (DESIGNS / "garganey.finw").read_text(encoding="utf-8")


@pytest.fixture
def shown(finwright, tmp_path):
    """Writes files, and gives the numbers of the design among them."""

    def show(text, **files):
        for name, content in files.items():
            (tmp_path / f"{name}.csv").write_text(content, encoding="utf-8")
        path = tmp_path / "design.finw"
        path.write_text(text, encoding="utf-8")
        said, status = finwright("show", "--format", "json", path)
        assert status == 0
        return json.loads(said)

    return show


@pytest.mark.parametrize("noise", [0.02, 0.15])
@pytest.mark.parametrize("drift", [0.0, -0.25, 0.4])
def test_a_stands_record(shown, compare, noise, drift):
    """A curve with a zero, a zero that moves evenly through the burn, and noise from a seed: what the program takes from it
    beside the curve without all that."""
    random = np.random.default_rng(7)
    t = np.arange(0, 2.6, 1 / 480) - 0.373
    moved = 0.61 + drift * np.clip(t / BURN[-1, 0], 0, 1)
    load = np.interp(t, *BURN.T, left=0, right=0) + moved + random.normal(0, noise, len(t))
    rows = "".join(f"{(a + 0.373) * 1e3:.2f}; {b:.3f}\n" for a, b in zip(t, load))
    (got,) = shown(TEAL, teal_stand="t [ms]; F [N]\n" + rows)
    label = f"a stand's record, noise {noise} N, zero moved by {drift} N"
    compare(f"{label}: impulse", "numpy", np.trapezoid(BURN[:, 1], BURN[:, 0]), got["impulse_n_s"], 6e-3)
    compare(f"{label}: peak", "numpy", BURN[:, 1].max(), got["peak_thrust_n"], 3e-2)
    compare(f"{label}: burn time", "numpy", BURN[-1, 0], got["burn_time_s"], 4e-2)


@pytest.mark.parametrize("noise", [0.1, 0.6])
def test_an_altimeters_log(shown, compare, noise):
    """A flight by scipy, written down as an altimeter would: in feet, over the sea, every 50 ms, with noise from a seed."""
    samples = []
    q = {**TRAINER, "wind": 2.0}
    theirs = flight(q)
    top_time, top_height = theirs["apogee"][0], theirs["apogee"][1][1]
    up = ascent(q)
    random = np.random.default_rng(3)
    ground = 412.0
    for i in range(int((top_time + 6.0) / 0.05)):
        t = i * 0.05 - 2.31
        samples.append((i * 0.05, (up(t) + ground + random.normal(0, noise)) / FOOT, 3.7))
    rows = "".join(f"{a:.2f},{c:.1f},{b:.2f}\n" for a, b, c in samples)
    text = GARGANEY[: GARGANEY.index("flown may")] + 'flown { flight: rod_day; log: file "log.csv" }\n'
    (got,) = shown(text, log="time [s],battery [V],altitude [ft]\n" + rows)
    measured = {one["quantity"]: one["measured"] for one in got["flown"]}
    # The rocket lies on the ground until its release, which the flight begins with.
    lift_off = TRAINER["release"]["time"] - 2 * TRAINER["release"]["height"] / TRAINER["release"]["speed"]
    label = f"an altimeter's log with noise of {noise} m"
    compare(f"{label}: highest point", "scipy DOP853, fluids", top_height, measured["height_m"], 5e-3)
    compare(f"{label}: time to it from the lift-off", "scipy DOP853, fluids", top_time - lift_off, measured["time_to_top_s"], 3e-2)


def ascent(q):
    """Height over time: evenly faster up to the release, then the flight, then down as it rose, at 5 m/s at most."""
    release = q["release"]
    lift_off = release["time"] - 2 * release["height"] / release["speed"]
    done = flight(q)
    times, heights = np.concatenate(done["course"], axis=1)
    top_time, top = done["apogee"][0], done["apogee"][1][1]

    def height(t):
        if t <= lift_off:
            return 0.0
        if t <= release["time"]:
            return release["height"] * ((t - lift_off) / (release["time"] - lift_off)) ** 2
        rising = np.interp(t if t <= top_time else 2 * top_time - t, times, heights)
        return rising if t <= top_time else max(rising, top - 5 * (t - top_time))

    return height


def test_what_flights_show(shown, compare):
    """Bayes' rule for normally distributed values by numpy, linear about its answer; how the flight changes with each
    factor is asked of the program."""
    body = GARGANEY[: GARGANEY.index("flown may")]
    # With next to no spread of mass and wind there is nothing else to vary.
    known = "mass: 118.9 g ± 0.001 g; wind: 3 m/s ± 0.001 m/s"
    said = [dict(exit_speed=(19.6, 0.5)), dict(height=(255.0, 4.0), time_to_top=(6.3, 0.2)), dict(height=(263.0, 4.0))]
    units = dict(exit_speed="m/s", height="m", time_to_top="s")
    names = dict(exit_speed="exit_speed_m_s", height="height_m", time_to_top="time_to_top_s")

    def flown():
        for one in said:
            values = "; ".join(f"{name}: {v} {units[name]} ± {tol} {units[name]}" for name, (v, tol) in one.items())
            yield f"flown {{ flight: rod_day; {values}; {known} }}\n"

    def expected(drag, thrust):
        text = re.sub(r"drag_factor: [^\n]*", f"drag_factor: {float(drag)!r}", body)
        text = re.sub(r"thrust_factor: [^\n]*", f"thrust_factor: {float(thrust)!r}", text)
        (got,) = shown(text + "".join(flown()))
        order = [(i + 1, names[name]) for i, one in enumerate(said) for name in one]
        found = {(one["flown"], one["quantity"]): one for one in got["flown"]}
        return np.array([found[key]["expected"] for key in order]), got["flown"][0]["learned"]

    measured = np.array([value for one in said for value, _ in one.values()])
    weights = np.array([(2 / tolerance) ** 2 for one in said for _, tolerance in one.values()])
    prior = np.diag([0.10**-2, 0.03**-2])
    theta = np.ones(2)
    for _ in range(3):
        here, learned = expected(*theta)
        step = 0.01
        slopes = np.array(
            [
                (expected(*(theta + d))[0] - expected(*(theta - d))[0]) / (2 * step)
                for d in step * np.eye(2)
            ]
        ).T
        precision = prior + slopes.T @ (weights[:, None] * slopes)
        right = prior @ np.ones(2) + slopes.T @ (weights * (measured - here + slopes @ theta))
        theta = np.linalg.solve(precision, right)
    sd = np.sqrt(np.diag(np.linalg.inv(precision)))
    for name, value, limit in [("drag", theta[0], 2e-3), ("drag_sd", sd[0], 1e-2), ("thrust", theta[1], 1e-3), ("thrust_sd", sd[1], 1e-2)]:
        compare(f"what three flights show: {name}", "numpy", value, learned[name], limit, fed=True)
    assert learned["flights"] == 3


def test_the_pad_in_a_gust(shown, compare):
    """Moments over the edge of a pad's feet: the side force of the program's own side view is worked from the design's
    outline here."""
    design = """finwright 1
airframe {
  nose { shape: cone; length: 100 mm; base: 60 mm; wall: 1 mm; material: polystyrene }
  tube body { length: 600 mm; outer: 60 mm; inner: 57 mm; material: cardboard
    fins { count: 3; root: 100 mm; tip: 50 mm; span: 60 mm; sweep: 50 mm; thickness: 3 mm; material: balsa; at: 0 mm from back }
    mount { bore: 29 mm; outer: 31 mm; length: 120 mm; material: cardboard; sticks_out: 0 mm; rings { count: 2; thickness: 4 mm; material: balsa } }
    parachute { diameter: 600 mm; mass: 30 g; at: 100 mm from front }
    button aft { profile: 20 mm; at: 40 mm from back; clock: 60 deg }
    button fore { profile: 20 mm; at: 300 mm from back; clock: 60 deg }
  }
}
motor f { diameter: 29 mm; length: 110 mm; mass: 105 g; propellant: 40 g; delay: 6 s
  curve: [0 s: 0 N, 0.03 s: 51 N, 0.9 s: 49 N, 1.6 s: 0 N] }
pad p { rail { slot: mini; length: 1.8 m }; foot: 200 mm; mass: 5 kg; stance: 220 mm; staked: 12 N; stop: 50 mm; tilt: 3 deg }
site s { wind: 3 m/s; gust: 7 m/s }
flight one { motor: f; pad: p; guided_by: [aft, fore]; site: s }
"""
    (got,) = shown(design)
    rho, gust, g = got["air_density_kg_m3"], 7.0, 9.80665
    # Side view: a triangle, a rectangle, and half of three fins' area (the format's own convention).
    fin = (0.1 + 0.05) / 2 * 0.06
    tri, rect = 0.1 * 0.06 / 2, 0.6 * 0.06
    # Centroid of a trapezoid swept back by 50 mm with a tip of 50 mm on a root of 100 mm.
    sweep, root, tip = 0.05, 0.1, 0.05
    fin_x = 0.6 + (root**2 + root * tip + tip**2 + sweep * (root + 2 * tip)) / (3 * (root + tip))
    area = tri + rect + 1.5 * fin
    x = (tri * 0.2 / 3 + rect * 0.4 + 1.5 * fin * fin_x) / area
    height = lambda station: 0.2 + 0.05 + 0.7 - station
    pressure = rho * gust**2 / 2
    push = pressure * 1.2 * area * height(x) + pressure * 1.98 * 0.02 * 1.8 * (0.2 + 0.9)
    m = got["mass_kg"]
    holds = 5 * g * 0.22 + m * g * (0.22 - height(got["balance_m"]) * math.sin(math.radians(3))) + 2 * 12 * 0.22
    compare("a pad's feet: what they hold over a gust's moment", "statics", holds / push, got["pad_holds"], 1e-6, fed=True)
    compare("a pad's feet: the gust that tips it", "statics", gust * math.sqrt(holds / push), got["tips_at_m_s"], 1e-6, fed=True)


def test_pieces_that_come_down_apart(shown, compare):
    """Each piece by its own weight: the nose's and what is in it from the design, the rest from the whole."""
    text = (DESIGNS / "shelduck.finw").read_text(encoding="utf-8")
    (got,) = shown(text)
    body, nose = got["pieces"]
    assert nose["bodies"] == ["nose cone"] and body["bodies"] == ["tube body"]
    compare("pieces apart: their masses together", "statics", got["mass_burnt_kg"], body["mass_kg"] + nose["mass_kg"], 1e-9, fed=True)
    for piece, diameter in [(nose, 0.5), (body, 0.9)]:
        rate = math.sqrt(2 * piece["mass_kg"] * 9.80665 / (got["air_density_kg_m3"] * 0.75 * math.pi / 4 * diameter**2))
        compare(f"pieces apart: descent of {piece['bodies'][0]}", "statics", rate, piece["rate_m_s"], 1e-6, fed=True)
        energy = piece["mass_kg"] * piece["landing_speed_m_s"] ** 2 / 2
        compare(f"pieces apart: landing energy of {piece['bodies'][0]}", "statics", energy, piece["landing_energy_j"], 1e-9, fed=True)
