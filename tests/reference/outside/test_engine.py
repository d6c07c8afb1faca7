"""Free flights and the swing against jsbsim, a general flight-dynamics engine: see `engine.py` for what it's given."""

import math

import numpy as np
import pytest
from engine import FOOT, SLUG, STEP, climb, started
from test_flight import TRAINER

# In a wind that is the same at all heights: the engine knows no power law.
EVEN = {**TRAINER, "elevation": 0.0, "wind_exponent": 0.0, "k": 1.1}
HEAVY = {
    **EVEN,
    "curve": [(0, 0), (0.04, 260), (0.3, 210), (2.6, 180), (2.9, 0)],
    "dry": dict(mass=2.6, x=0.78, transverse=0.31),
    "propellant": dict(mass=0.35, x=1.12, transverse=1.4e-3),
    "area": np.pi * 0.0381**2,
    "body": [(2.0, 0.15)],
    "fins": [dict(points=[(0, 0), (0.09, 0.085), (0.165, 0.085), (0.18, 0)], count=4, body_radius=0.0381, x=1.05)],
    "planform": 0.088,
    "planform_x": 0.66,
    "cd": 0.52,
    "wind": 6.0,
    "release": dict(time=0.27, height=2.0, speed=19.0, tilt=-0.07, rate=-0.02),
}
CASES = {
    "calm": {**EVEN, "wind": 0.0, "release": {**EVEN["release"], "tilt": 0.02, "rate": 0.0}},
    "wind": EVEN,
    "into the wind": {**EVEN, "wind": 7.0, "release": {**EVEN["release"], "tilt": -0.09, "rate": 0.1}},
    "no body lift": {**EVEN, "k": 0.0},
    "six fins": {**EVEN, "fins": [{**EVEN["fins"][0], "count": 6}]},
    "high site": {**EVEN, "elevation": 2500.0},
    "heavy": HEAVY,
    "heavy, fast": {**HEAVY, "cd": 0.3, "curve": [(t, 1.6 * f) for t, f in HEAVY["curve"]]},
}


def slopes_of(ours, q):
    """The sums of CNa, CNa x and CNa x² by Mach number, as finwright has them."""

    def slopes(mach):
        rest = dict(thickness=0.002, density=1.0, reference_area=q["area"], mach=float(mach))
        fins = [ours("fins", **rest, **fin) for fin in q["fins"]]
        parts = np.array([*q["body"], *[(fin["cna"], fin["pressure_x"]) for fin in fins]])
        return [(parts[:, 0] * parts[:, 1] ** n).sum() for n in range(3)]

    return slopes


def balance(q):
    dry, propellant = q["dry"], q["propellant"]
    return (dry["mass"] * dry["x"] + propellant["mass"] * propellant["x"] / 2) / (dry["mass"] + propellant["mass"] / 2)


@pytest.mark.parametrize("case", CASES)
def test_climb(ours, compare, tmp_path, case):
    """From the release to the highest point. The engine's gravity falls with height, which ours leaves out."""
    q = CASES[case]
    q = {**q, "nozzle": balance(q)}
    theirs = climb(started(tmp_path, q, slopes_of(ours, q)), q)
    got = ours("flight", **q)
    label = f"flight, {case}"
    compare(f"{label}: highest point", "jsbsim", theirs["height"], got["apogee"]["height"], 5e-4, fed=True)
    compare(f"{label}: its time", "jsbsim", theirs["time"], got["apogee"]["time"], 1e-3, fed=True)
    compare(f"{label}: top speed", "jsbsim", theirs["fastest"], got["fastest"]["speed"], 5e-4, fed=True)
    turn, ours_turn = (math.degrees(tilt - q["release"]["tilt"]) for tilt in (theirs["tilt"], got["burnout"]["tilt"]))
    compare(f"{label}: turn from release to burnout", "jsbsim", turn, ours_turn, 0.03, of="degrees", fed=True)


SWINGS = {
    "light": {**EVEN, "dry": dict(mass=0.127, x=0.31, transverse=3.1e-3), "speed": 40.0},
    "hardly stable": {**EVEN, "dry": dict(mass=0.127, x=0.40, transverse=3.1e-3), "speed": 40.0},
    "heavy": {**HEAVY, "speed": 60.0},
    "near Mach 0.6": {**HEAVY, "speed": 200.0},
}


@pytest.mark.parametrize("case", SWINGS)
def test_swing(ours, compare, tmp_path, case):
    """Thrown level, burnt out, without drag and with next to no gravity, so that the speed stays: the angle of attack's
    turning points."""
    q = SWINGS[case]
    burnt = {"curve": [(0, 0), (0.01, 10), (0.02, 0)], "propellant": dict(mass=1e-9, x=q["dry"]["x"], transverse=1e-12)}
    release = dict(time=0.05, height=500.0, speed=q["speed"], tilt=math.pi / 2, rate=0.3)
    q = {**q, **burnt, "wind": 0.0, "k": 0.0, "cd": 0.0, "release": release}
    fdm = started(tmp_path, q, slopes_of(ours, q), gravity=1e-6)
    mach = q["speed"] / (fdm["atmosphere/a-fps"] * FOOT)
    density = fdm["atmosphere/rho-slugs_ft3"] * SLUG / FOOT**3
    angles, peaks = [], []
    while len(peaks) < 4:
        for _ in range(500):
            angles.append(fdm["aero/alpha-rad"])
            assert fdm.run()
        peaks = turning_points(np.array(angles), STEP)
    s0, s1, s2 = slopes_of(ours, q)(mach)
    x, load = q["dry"]["x"], density * q["speed"] * q["area"] / 2
    swing = ours(
        "swing",
        corrective=load * q["speed"] * (s1 - s0 * x),
        damping=load * (s2 - 2 * x * s1 + x * x * s0),
        inertia=q["dry"]["transverse"],
        normal=load * q["speed"] * s0,
        mass=q["dry"]["mass"],
        speed=q["speed"],
    )
    # The first is where the thrown rocket first turns back, from a start that isn't a swing's.
    (t0, a0), (_, a1), (t2, a2) = peaks[1:4]
    period = t2 - t0
    decay = 2 * math.log((a0 - a1) / (a2 - a1)) / period
    compare(f"swing, {case}: frequency", "jsbsim", 1 / period, 1 / swing["period"], 5e-3, fed=True)
    compare(f"swing, {case}: decay", "jsbsim", decay, swing["decay"], 1e-2, fed=True)


def turning_points(values, step):
    """(time, value) where a row of values turns, by a parabola through the three around it."""
    found = []
    for i in range(1, len(values) - 1):
        a, b, c = values[i - 1 : i + 2]
        if (b - a) * (c - b) < 0:
            shift = (a - c) / (2 * (a - 2 * b + c))
            found.append((step * (i + shift), b - (a - c) * shift / 4))
    return found
