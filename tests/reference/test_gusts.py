"""Gusts: a climb through a single one by scipy's DOP853, and a rod that one sets swinging."""

import numpy as np
import pytest
from free_flight import flight
from scipy.integrate import solve_ivp
from scipy.optimize import minimize_scalar
from test_flight import TRAINER

BUMPS = {
    "as it leaves": dict(bottom=1.0, length=18.3, speed=3.0),
    "in the burn": dict(bottom=20.0, length=60.0, speed=4.0),
    "in the coast": dict(bottom=80.0, length=213.4, speed=5.0),
}


@pytest.mark.parametrize("bump", BUMPS)
def test_climb_through_a_gust(ours, compare, bump):
    q = {**TRAINER, "bump": BUMPS[bump]}
    theirs = flight(q)
    got = ours("climb_through", **q)
    source = "scipy DOP853, fluids"
    compare(f"gust {bump}: highest point", source, theirs["apogee"][1][1], got["top"], 1e-4)
    compare(f"gust {bump}: tilt at burnout", source, theirs["burnout"][1][4], got["burnout_tilt"], 1e-3)
    # The greatest angle is looked for at the ends of steps.
    compare(f"gust {bump}: greatest angle of attack", source, theirs["angle"], got["angle"], 2e-2)


def swings_to(frequency, damping, duration):
    """The greatest deflection of a damped oscillator in a gust, over that of the same steady wind."""
    w = 2 * np.pi * frequency

    def moving(t, y):
        force = 0.5 * (1 - np.cos(2 * np.pi * t / duration)) if t < duration else 0.0
        return [y[1], w * w * (force - y[0]) - 2 * damping * w * y[1]]

    end = duration + 1 / frequency
    done = solve_ivp(moving, (0, end), [0, 0], "DOP853", rtol=1e-9, atol=1e-12, max_step=duration / 50, dense_output=True)
    return done.sol(np.linspace(0, end, 20001))[0].max()


@pytest.mark.parametrize("frequency", [0.6, 1.1, 2.5, 8.0])
def test_whip(ours, compare, frequency):
    """The worst gust of half a second to three, looked for by scipy."""
    got = ours("whip", frequency=frequency, damping=0.01, shortest=0.5, longest=3.0)
    tried = np.geomspace(0.5, 3.0, 60)
    best = tried[np.argmax([swings_to(frequency, 0.01, d) for d in tried])]
    bounds = (max(0.5, best / 1.05), min(3.0, best * 1.05))
    found = minimize_scalar(lambda d: -swings_to(frequency, 0.01, d), bounds=bounds, method="bounded")
    worst = max(-found.fun, swings_to(frequency, 0.01, best))
    compare(f"whip of a rod of {frequency} Hz in the worst gust", "scipy DOP853, optimize", worst, got["amplification"], 5e-3)
