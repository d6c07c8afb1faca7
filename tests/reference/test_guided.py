"""The guided run against scipy's DOP853 at rtol 1e-12, restarted at every point of the curve."""

import numpy as np
import pytest
from scipy.integrate import solve_ivp
from scipy.optimize import brentq
from scipy.special import airy

G = 9.80665

# Invented curves: (time in s, thrust in N).
SPIKE = [(0, 0), (0.03, 8), (0.12, 22), (0.25, 11), (0.6, 9), (1.7, 8.5), (1.9, 0)]
SLOW = [(0, 0), (0.8, 0), (1.1, 30), (2.5, 60), (3.0, 0)]
HEAVY = [(0, 180), (0.1, 260), (2.6, 210), (2.9, 0)]

CASES = {
    "spike": dict(curve=SPIKE, mass=0.148, propellant=0.021, drag=4e-4, front_leaves=0.72, last_leaves=0.99),
    "tilted": dict(
        curve=SPIKE,
        mass=0.148,
        propellant=0.021,
        drag=4e-4,
        tilt=0.1,
        friction=0.3,
        side_force=0.4,
        side_slope=0.03,
        front_leaves=0.72,
        last_leaves=0.99,
    ),
    "slow ignition": dict(curve=SLOW, mass=1.9, propellant=0.05, drag=9e-4, front_leaves=1.1, last_leaves=1.6),
    "heavy": dict(curve=HEAVY, mass=3.4, propellant=0.35, drag=2.3e-3, front_leaves=1.4, last_leaves=2.2),
    # The motor is out before the end; the rocket coasts off.
    "coasting off": dict(
        curve=[(0, 20), (0.08, 20), (0.1, 0)], mass=0.05, propellant=0.004, drag=3e-4, front_leaves=1.5, last_leaves=1.9
    ),
}


class Scipy:
    def __init__(self, curve, mass, propellant, drag, front_leaves, last_leaves, tilt=0.0, friction=0.0, side_force=0.0, side_slope=0.0):
        self.t, self.f = np.array(curve, float).T
        steps = np.diff(self.t) * (self.f[1:] + self.f[:-1]) / 2
        self.impulse = np.concatenate([[0], np.cumsum(steps)])
        self.mass0, self.propellant, self.drag = mass, propellant, drag
        self.along = G * (np.cos(tilt) + friction * np.sin(tilt))
        self.fixed = friction * side_force
        self.linear = friction * side_slope
        self.stops = front_leaves, last_leaves

    def thrust(self, t):
        return np.interp(t, self.t, self.f, left=0, right=0)

    def mass(self, t):
        i = np.clip(np.searchsorted(self.t, t, "right") - 1, 0, len(self.t) - 2)
        u = np.clip(t, self.t[0], self.t[-1]) - self.t[i]
        slope = (self.f[i + 1] - self.f[i]) / (self.t[i + 1] - self.t[i])
        burnt = self.impulse[i] + self.f[i] * u + slope * u * u / 2
        return self.mass0 - self.propellant * burnt / self.impulse[-1]

    def excess(self, t):
        return self.thrust(t) - self.mass(t) * self.along - self.fixed

    def lift_off(self):
        for a, b in zip(self.t, self.t[1:]):
            if self.excess(a) > 0:
                return a
            if self.excess(b) > 0:
                return brentq(self.excess, a, b, xtol=1e-15, rtol=1e-15)
        return None

    def rhs(self, t, y):
        return [y[1], (self.thrust(t) - self.drag * y[1] ** 2 - self.linear * y[1] - self.fixed) / self.mass(t) - self.along]

    def run(self, event):
        """State at the first time that `event` crosses zero."""
        event.terminal = True
        t = self.lift_off()
        y = [0.0, 0.0]
        for end in [*self.t[self.t > t], t + 30]:
            # Just inside the ends, so that a jump of thrust at a point falls outside.
            inner = lambda s, y: self.rhs(min(max(s, t), np.nextafter(end, 0)), y)
            done = solve_ivp(inner, (t, end), y, "DOP853", rtol=1e-12, atol=1e-13, events=event, first_step=min(1e-4, end - t))
            if len(done.t_events[0]):
                return done.t_events[0][0], done.y_events[0][0]
            t, y = end, done.y[:, -1]
        raise AssertionError("event never came")


@pytest.mark.parametrize("case", CASES)
def test_passages(ours, compare, case):
    run = Scipy(**CASES[case])
    got = ours("guided", **CASES[case])["outcome"]
    if run.lift_off() > 0:
        compare(f"{case}: lift-off", "scipy brentq", run.lift_off(), got["lift_off"], 1e-10)
    for which, travel in zip(("front", "last"), run.stops):
        t, (s, v) = run.run(lambda t, y, travel=travel: y[0] - travel)
        compare(f"{case}: {which} guide leaves, time", "scipy DOP853", t, got[which]["time"], 1e-8)
        compare(f"{case}: {which} guide leaves, speed", "scipy DOP853", v, got[which]["speed"], 1e-8)
        compare(f"{case}: {which} guide leaves, acceleration", "scipy DOP853", run.rhs(t, [s, v])[1], got[which]["acceleration"], 1e-7)
        compare(f"{case}: {which} guide leaves, mass", "scipy DOP853", run.mass(t), got[which]["mass"], 1e-9)


@pytest.mark.parametrize("case", ["spike", "tilted", "slow ignition", "heavy"])
def test_inverses(ours, compare, case):
    question = CASES[case]
    run = Scipy(**question)
    now = run.run(lambda t, y: y[0] - run.stops[1])[1][1]
    faster = 1.1 * now
    got = ours("guided", **question, speed=faster)
    travel = run.run(lambda t, y: y[1] - faster)[1][0]
    compare(f"{case}: travel for a tenth more speed", "scipy DOP853", travel, got["travel_for_speed"], 1e-8)

    def excess(mass):
        other = Scipy(**{**question, "mass": mass})
        return other.run(lambda t, y: y[0] - run.stops[1])[1][1] - faster

    mass = brentq(excess, 0.6 * question["mass"], question["mass"], xtol=1e-12)
    compare(f"{case}: mass for a tenth more speed", "scipy brentq", mass, got["mass_for_speed"], 1e-8)


@pytest.mark.parametrize("drag", [0.0004, 0.02, 0.8, 12.0])
def test_rising_thrust_against_drag(ours, compare, drag):
    """Thrust b t from lift-off on and a drag of k v²: m v' = b t - k v² turns by v = (m/k) y'/y into y'' = (k b/m²) t y,
    whose solutions are Airy's functions."""
    mass, rise, travel = 0.15, 40.0, 4.0
    case = f"thrust that rises, k = {drag:g}"
    start = mass * G / rise
    got = ours("guided", curve=[(0, 0), (20, 20 * rise)], mass=mass, propellant=0, drag=drag, front_leaves=travel, last_leaves=travel)
    scale = np.cbrt(drag * rise / mass**2)
    _, ai1, _, bi1 = airy(0)

    def grown(t):
        """y over y(0), and its rate over it."""
        ai, aid, bi, bid = airy(scale * t)
        whole = ai1 * airy(0)[2] - bi1 * airy(0)[0]
        return (ai1 * bi - bi1 * ai) / whole, scale * (ai1 * bid - bi1 * aid) / whole

    # Beyond this time the functions leave the numbers' range, or the rocket is out of sight.
    most = min(8, 100 / scale)
    time = brentq(lambda t: mass / drag * np.log(grown(t)[0]) - travel, 1e-3, most, xtol=1e-15, rtol=1e-15)
    y, rate = grown(time)
    last = got["outcome"]["last"]
    compare(f"{case}: lift-off", "statics", start, got["outcome"]["lift_off"], 1e-12)
    compare(f"{case}: time on the guide", "scipy airy", time, last["time"] - start, 1e-9)
    compare(f"{case}: speed at its end", "scipy airy", mass / drag * rate / y, last["speed"], 1e-9)
