"""The swing of a free rocket: turning and giving way sideways together, by scipy's DOP853."""

import numpy as np
import pytest
from scipy.integrate import solve_ivp

# Invented rockets at release: C1 and C2, inertia, L = q A CNa, mass, speed.
ROCKETS = {
    "light": dict(corrective=0.04505, damping=6.671e-4, inertia=2.6017e-4, normal=1.5841, mass=0.03996, speed=17.406),
    "heavy": dict(corrective=2.7, damping=0.19, inertia=0.31, normal=14.0, mass=2.9, speed=24.0),
}


@pytest.mark.parametrize("rocket", ROCKETS)
def test_swing(ours, compare, rocket):
    """I th'' = -C2 th' - C1 (th - ga) and m v ga' = L (th - ga), from a path at an angle to the axis: the times at which
    the angle of attack passes zero and its peaks, which don't hang on how the motion began."""
    q = ROCKETS[rocket]

    def moving(t, y):
        angle = y[0] - y[2]
        turning = -(q["damping"] * y[1] + q["corrective"] * angle) / q["inertia"]
        return [y[1], turning, q["normal"] * angle / (q["mass"] * q["speed"])]

    zero = lambda t, y: y[0] - y[2]
    peak = lambda t, y: y[1] - moving(t, y)[2]
    # The third way to move, path and axis turned alike, doesn't show in the angle of attack.
    done = solve_ivp(moving, (0, 6), [0.2, 0.0, 0.0], "DOP853", rtol=1e-12, atol=1e-15, events=[zero, peak])
    times = done.t_events[0]
    peaks = np.array([y[0] - y[2] for y in done.y_events[1]])
    got = ours("swing", **q)
    source = "scipy DOP853"
    compare(f"swing of a {rocket} rocket: half a period", source, times[2] - times[1], got["period"] / 2, 1e-8)
    compare(f"swing of a {rocket} rocket: next peak as a share", source, -peaks[2] / peaks[1], got["overshoot"], 1e-7)
