"""The turn on the last guide, against the same motion integrated in space by scipy."""

import numpy as np
import pytest
from last_guide import turned

# Invented rockets: one with its guides far apart, one on a single lug.
ROCKETS = {
    "two guides": dict(mass=3.0, balance=1.0, inertia=0.45, last_guide=1.52, reference_area=np.pi * 0.049**2, cna=12.0, pressure=1.18, time=0.035598, speed=15.0, wind=5.0, density=1.225),
    "one lug": dict(mass=0.15, balance=0.34, inertia=2.6e-3, last_guide=0.36, reference_area=np.pi * 0.0208**2, cna=11.0, pressure=0.46, time=2.9e-3, speed=10.5, wind=6.0, density=1.2),
}
LEANS = {"upright": (0, 0), "5° into the wind": (5, 0), "5° away": (-5, 0), "5° across": (0, 5), "4° in, 3° across": (4, 3)}


@pytest.mark.parametrize("lean", LEANS)
@pytest.mark.parametrize("rocket", ROCKETS)
def test_tip_off(ours, compare, rocket, lean):
    """At a steady speed, and with the guide gaining 57 m/s every second: ours follows the two planes one by one."""
    q = ROCKETS[rocket]
    into_wind, across = np.radians(LEANS[lean])
    wind_alone = turned(q, (0.0, 0.0), 0.0)
    for acceleration in [0.0, 57.0]:
        got = ours("tip_off", **q, into_wind=into_wind, across=across, acceleration=acceleration)
        gaining = ", gaining speed" if acceleration else ""
        label = f"tip-off, {rocket}, {lean}{gaining}"
        theirs = turned(q, (into_wind, across), acceleration)
        for name, of_wind, value in zip(["angle", "rate", "angle_across", "rate_across"], wind_alone, theirs):
            # Where wind and weight nearly cancel the difference is still a share of the wind's.
            if abs(value) > max(1e-9, 0.3 * abs(of_wind)):
                compare(f"{label}: {name}", "scipy DOP853, Newton's law", value, got[name], 1e-2)
            else:
                assert abs(got[name] - value) <= 1e-2 * max(abs(of_wind), abs(value)) + 1e-12, name
