"""Whole flights against scipy's DOP853 with fluids' standard air, restarted at every point of the
thrust curve. The equations are written here again from Newton's laws: a rigid rocket in the plane of
the wind, normal force along sin(alpha), Barrowman's fins with the Prandtl-Glauert factor, body lift by
sin^2(alpha), damping of the parts and of the jet, then a canopy."""

import numpy as np
import pytest
from fluids.atmosphere import ATMOSPHERE_1976
from scipy.integrate import solve_ivp

G = 9.80665

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
    "calm": {**TRAINER, "wind": 0.0, "release": {**TRAINER["release"], "tilt": 0.02, "rate": 0.0}},
}


def flight(q):
    t_points, f_points = np.array(q["curve"], float).T
    cumulative = np.concatenate([[0], np.cumsum(np.diff(t_points) * (f_points[1:] + f_points[:-1]) / 2)])
    dry, propellant = q["dry"], q["propellant"]
    area = q["area"]
    (fin,) = q["fins"]
    (_, _), (sweep, span), (tip_end, _), (root, _) = fin["points"]
    tip = tip_end - sweep
    fin_area = (root + tip) / 2 * span
    cos_mid = span / np.hypot(span, sweep + tip / 2 - root / 2)
    fin_x = fin["x"] + sweep * (root + 2 * tip) / (3 * (root + tip)) + (root + tip - root * tip / (root + tip)) / 6
    k_body = 1 + fin["body_radius"] / (span + fin["body_radius"])

    def air(z):
        a = ATMOSPHERE_1976(q["elevation"] + z)
        return a.rho, a.v_sonic

    def wind(z):
        return q["wind"] * (max(z, 0.0) / q["wind_height"]) ** q["wind_exponent"]

    def burnt(t):
        i = int(np.clip(np.searchsorted(t_points, t, "right") - 1, 0, len(t_points) - 2))
        u = min(t, t_points[-1]) - t_points[i]
        slope = (f_points[i + 1] - f_points[i]) / (t_points[i + 1] - t_points[i])
        return (cumulative[i] + f_points[i] * u + slope * u * u / 2) / cumulative[-1]

    def free(t, y):
        _, z, vx, vz, tilt, rate = y
        rho, sound = air(z)
        u = np.array([vx - wind(z), vz])
        v = np.hypot(*u)
        axis = np.array([np.sin(tilt), np.cos(tilt)])
        side = np.array([np.cos(tilt), -np.sin(tilt)])
        sin_alpha = -(u @ side) / v
        cos_alpha = (u @ axis) / v
        beta = np.sqrt(1 - min(v / sound, 0.8) ** 2)
        one = 2 * np.pi * span**2 / area / (1 + np.sqrt(1 + (beta * span**2 / (fin_area * cos_mid)) ** 2))
        parts = np.array([*q["body"], (k_body * fin["count"] / 2 * one, fin_x)])
        thrust = np.interp(t, t_points, f_points, right=0)
        left = propellant["mass"] * (1 - burnt(t))
        mass = dry["mass"] + left
        cg = (dry["mass"] * dry["x"] + left * propellant["x"]) / mass
        inertia = dry["transverse"] + dry["mass"] * (dry["x"] - cg) ** 2
        inertia += propellant["transverse"] * left / propellant["mass"] + left * (propellant["x"] - cg) ** 2
        load = rho * v**2 / 2 * area
        extra = q["k"] * q["planform"] / area * sin_alpha * abs(sin_alpha)
        normal = load * (parts[:, 0].sum() * sin_alpha + extra)
        moment = load * ((parts[:, 0] * (parts[:, 1] - cg)).sum() * sin_alpha + extra * (q["planform_x"] - cg))
        damping = rho * v / 2 * area * (parts[:, 0] * (parts[:, 1] - cg) ** 2).sum()
        damping += propellant["mass"] * thrust / cumulative[-1] * (q["nozzle"] - cg) ** 2
        force = (thrust - load * q["cd"] * cos_alpha) * axis + normal * side
        return [vx, vz, force[0] / mass, force[1] / mass - G, rate, -(moment + damping * rate) / inertia]

    release = q["release"]
    tilt = release["tilt"]
    t = release["time"]
    y = [
        release["height"] * np.tan(tilt),
        release["height"],
        release["speed"] * np.sin(tilt),
        release["speed"] * np.cos(tilt),
        tilt,
        release["rate"],
    ]
    out = {}

    def top(t, y):
        return y[3]

    top.direction = -1
    top.terminal = "delay" not in q
    opening = t_points[-1] + q["delay"] if "delay" in q else 60.0

    def note_top(done):
        if "apogee" not in out and len(done.t_events[0]):
            out["apogee"] = done.t_events[0][0], done.y_events[0][0]

    fastest = 0.0
    for end in [*t_points[t_points > t], opening]:
        if end > opening:
            continue
        inner = lambda s, y: free(min(s, np.nextafter(end, 0)), y)
        done = solve_ivp(inner, (t, end), y, "DOP853", rtol=1e-9, atol=1e-10, events=top, dense_output=True)
        note_top(done)
        s = done.sol(np.linspace(done.t[0], done.t[-1], 4001))
        fastest = max(fastest, np.hypot(s[2], s[3]).max())
        t, y = done.t[-1], done.y[:, -1]
        if end == t_points[-1]:
            out["burnout"] = t, y
        if done.status == 1:
            t, y = out["apogee"]
            break
    out["fastest"] = fastest
    mass = dry["mass"] + propellant["mass"] * (1 - burnt(t))

    def hanging(t, y):
        _, z, vx, vz = y
        ux = vx - wind(z)
        k = air(z)[0] * q["drag_area"] / 2 * np.hypot(ux, vz) / mass
        return [vx, vz, -k * ux, -k * vz - G]

    def ground(t, y):
        return y[1]

    ground.terminal = True
    top.terminal = False
    done = solve_ivp(hanging, (t, 600), y[:4], "DOP853", rtol=1e-9, atol=1e-10, events=[top, ground])
    note_top(done)
    out["landing"] = done.t_events[1][0], done.y_events[1][0]
    return out


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
