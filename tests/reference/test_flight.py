"""Whole flights against scipy's DOP853 with fluids' standard air."""

import numpy as np
import pytest
from free_flight import flight

# Invented rocket and curve.
TRAINER = dict(
    curve=[(0, 0), (0.03, 8), (0.12, 22), (0.25, 11), (0.6, 9), (1.7, 8.5), (1.9, 0)],
    dry=dict(mass=0.127, x=0.31, transverse=3.1e-3),
    propellant=dict(mass=0.021, x=0.52, transverse=9e-6),
    nozzle=0.563,
    area=np.pi * 0.0208**2,
    body=[(2.0, 0.0622)],
    fins=[dict(points=[(0, 0), (0.038, 0.048), (0.078, 0.048), (0.07, 0)], count=3, body_radius=0.0208, x=0.49)],
    planform=0.0216,
    planform_x=0.31,
    k=1.1,
    cd=0.68,
    drag_area=0.127,
    elevation=120.0,
    wind=4.0,
    wind_height=2.0,
    wind_exponent=1 / 7,
    release=dict(time=0.21, height=1.0, speed=10.5, tilt=0.05, rate=0.04),
)
CASES = {
    "opens at the top": TRAINER,
    "opens on the way up": {**TRAINER, "delay": 3.0},
    "opens late, even wind": {**TRAINER, "delay": 7.0, "wind_exponent": 0.0, "wind": 6.0},
    "a long way down": {
        **TRAINER,
        "curve": [(0, 0), (0.05, 40), (3.5, 34), (3.6, 0)],
        "dry": {**TRAINER["dry"], "mass": 0.3},
        "cd": 0.4,
        "delay": 12.0,
        "wind": 7.0,
        "elevation": 1500.0,
        "drag_area": 0.2,
    },
    "calm": {**TRAINER, "wind": 0.0, "release": {**TRAINER["release"], "tilt": 0.02, "rate": 0.0}},
}


@pytest.mark.parametrize("case", CASES)
def test_flight(ours, compare, case):
    theirs = flight(CASES[case])
    got = ours("flight", **CASES[case])
    source = "scipy DOP853, fluids"
    compare(f"flight {case}: greatest speed", source, theirs["fastest"], got["fastest"]["speed"], 1e-5)
    for which in ("burnout", "apogee", "landing"):
        t, y = theirs[which]
        compare(f"flight {case}: {which}, time", source, t, got[which]["time"], 1e-5)
        if which != "landing":
            compare(f"flight {case}: {which}, height", source, y[1], got[which]["height"], 1e-5)
        compare(f"flight {case}: {which}, drift", source, y[0], got[which]["drift"], 1e-4)
        # The wind's power law has an infinite slope at the ground, which costs both sides digits.
        limit = 1e-3 if which == "landing" else 1e-4
        compare(f"flight {case}: {which}, speed", source, np.hypot(y[2], y[3]), got[which]["speed"], limit)


MAINS = {"one main": [(0.3, 120.0)], "two mains": [(0.1, 200.0), (0.4, 60.0)]}


@pytest.mark.parametrize("case", MAINS)
def test_a_small_canopy_and_then_larger_ones(ours, compare, case):
    """The small one opens at the top, the others on the way down, each adding its area, in a wind that grows with height."""
    small = {**TRAINER, "drag_area": 0.02}
    theirs = flight({**small, "mains": MAINS[case]})
    canopies = [dict(drag_area=0.02)] + [dict(drag_area=more, below=height) for more, height in MAINS[case]]
    got = ours("flight", **small, canopies=canopies)
    source = "scipy DOP853, fluids"
    for (_, height), opened in zip(MAINS[case], got["openings"][1:]):
        t, y = theirs[f"main at {height}"]
        compare(f"{case} at {height} m: time", source, t, opened["time"], 1e-5)
        compare(f"{case} at {height} m: drift", source, y[0], opened["drift"], 1e-4)
        compare(f"{case} at {height} m: speed", source, np.hypot(y[2], y[3]), opened["speed"], 1e-4)
    t, y = theirs["landing"]
    compare(f"{case}: landing, time", source, t, got["landing"]["time"], 1e-5)
    compare(f"{case}: landing, drift", source, y[0], got["landing"]["drift"], 1e-4)


def test_two_stages(ours, compare):
    """A booster below the trainer: it falls away at burnout, and the trainer flies on with a motor of its own."""
    upper = {
        **{name: TRAINER[name] for name in ("dry", "propellant", "nozzle", "body", "fins", "planform", "planform_x", "cd")},
        "curve": [(2.1, 0), (2.15, 20), (2.4, 12), (3.6, 10), (3.7, 0)],
        "delay": 4.0,
    }
    stack = {
        **TRAINER,
        "curve": [(0, 0), (0.05, 40), (0.3, 30), (2.0, 26), (2.1, 0)],
        "dry": dict(mass=0.29, x=0.44, transverse=1.2e-2),
        "propellant": dict(mass=0.04, x=0.68, transverse=2e-5),
        "nozzle": 0.72,
        "fins": [dict(TRAINER["fins"][0], points=[(0, 0), (0.05, 0.08), (0.11, 0.08), (0.1, 0)], x=0.61)],
        "planform": 0.028,
        "planform_x": 0.4,
        "cd": 0.8,
        "delay": 1.0,
    }
    theirs = flight({**stack, **upper, "state": flight(stack)["burnout"]})
    got = ours("flight", **stack, then=upper)
    for which in ("burnout", "apogee", "landing"):
        t, y = theirs[which]
        source = "scipy DOP853, fluids"
        compare(f"two stages: {which}, time", source, t, got[which]["time"], 1e-5)
        compare(f"two stages: {which}, drift", source, y[0], got[which]["drift"], 1e-4)
        if which != "landing":
            compare(f"two stages: {which}, height", source, y[1], got[which]["height"], 1e-5)
