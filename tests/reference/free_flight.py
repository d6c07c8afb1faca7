"""The free flight written again from Newton's laws, for scipy: a rigid rocket in the plane of the wind, normal force
along sin(alpha), Barrowman's fins with their growth by Mach number (Lowry & Polhamus, from memory), body lift by sin^2(alpha), damping of the parts and
of the jet, then a canopy. Restarted at every point of the thrust curve."""

import numpy as np
from fluids.atmosphere import ATMOSPHERE_1976
from scipy.integrate import solve_ivp

G = 9.80665


def flight(q, rtol=1e-9, atol=1e-10, method="DOP853", samples=4001):
    """Marked moments of the flight `q`. Its `air` gives (density, speed of sound) at a height, the standard air over
    `elevation` unless given; its `cd` is a number or gives one for (height, airspeed, burning). `samples` a stretch are
    looked at for the greatest speed; with none it isn't looked for."""
    t_points, f_points = np.array(q["curve"], float).T
    cumulative = np.concatenate([[0], np.cumsum(np.diff(t_points) * (f_points[1:] + f_points[:-1]) / 2)])
    dry, propellant = q["dry"], q["propellant"]
    area = q["area"]
    (fin,) = q["fins"]
    (_, _), (sweep, span), (tip_end, _), (root, _) = fin["points"]
    tip = tip_end - sweep
    fin_area = (root + tip) / 2 * span
    tan_mid = (sweep + tip / 2 - root / 2) / span
    fin_x = fin["x"] + sweep * (root + 2 * tip) / (3 * (root + tip)) + (root + tip - root * tip / (root + tip)) / 6
    k_body = 1 + fin["body_radius"] / (span + fin["body_radius"])
    k_body *= {5: 0.948, 6: 0.913, 7: 0.854, 8: 0.810}.get(fin["count"], 1.0)
    cd = q["cd"] if callable(q["cd"]) else lambda z, v, burning: q["cd"]

    def standard(z):
        a = ATMOSPHERE_1976(q["elevation"] + z)
        return a.rho, a.v_sonic

    air = q.get("air", standard)

    def wind(z):
        steady = q["wind"] * (max(z, 0.0) / q["wind_height"]) ** q["wind_exponent"]
        if "bump" not in q:
            return steady
        # A discrete gust as in 14 CFR 25.341(a), over the height.
        share = (z - q["bump"]["bottom"]) / q["bump"]["length"]
        return steady + (q["bump"]["speed"] / 2 * (1 - np.cos(2 * np.pi * share)) if 0 <= share <= 1 else 0.0)

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
        beta2 = 1 - min(v / sound, 0.8) ** 2
        one = 2 * np.pi * span**2 / area / (1 + np.sqrt(1 + (span**2 / fin_area) ** 2 * (beta2 + tan_mid**2)))
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
        force = (thrust - load * cd(z, v, t < t_points[-1]) * cos_alpha) * axis + normal * side
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
    # An upper stage goes on from its booster's burnout.
    if "state" in q:
        t, y = q["state"]
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
        done = solve_ivp(inner, (t, end), y, method, rtol=rtol, atol=atol, events=top, dense_output=samples > 0)
        note_top(done)
        if samples:
            looked = np.linspace(done.t[0], done.t[-1], samples)
            s = done.sol(looked)
            out.setdefault("course", []).append(np.array([looked, s[1]]))
            fastest = max(fastest, np.hypot(s[2], s[3]).max())
            if "bump" in q:
                angles = np.abs(s[4] - np.arctan2(s[2] - np.array([wind(z) for z in s[1]]), s[3]))
                angles[np.hypot(s[2], s[3]) < release["speed"]] = 0.0
                out["angle"] = max(out.get("angle", 0.0), angles.max())
        t, y = done.t[-1], done.y[:, -1]
        if end == t_points[-1]:
            out["burnout"] = t, y
        if done.status == 1:
            t, y = out["apogee"]
            break
    out["fastest"] = fastest
    mass = dry["mass"] + propellant["mass"] * (1 - burnt(t))

    def hanging(drag_area):
        def slopes(t, y):
            _, z, vx, vz = y
            ux = vx - wind(z)
            k = air(z)[0] * drag_area / 2 * np.hypot(ux, vz) / mass
            return [vx, vz, -k * ux, -k * vz - G]

        return slopes

    def come_down(drag_area, t, y, to):
        down = lambda t, y: y[1] - to
        down.terminal, down.direction = True, -1
        done = solve_ivp(hanging(drag_area), (t, 3000), y, method, rtol=rtol, atol=atol, events=[top, down])
        note_top(done)
        return done.t_events[1][0], done.y_events[1][0]

    top.terminal = False
    drag_area, y = q["drag_area"], y[:4]
    for more, height in q.get("mains", ()):
        t, y = out[f"main at {height}"] = come_down(drag_area, t, y, height)
        drag_area += more
    out["landing"] = come_down(drag_area, t, y, 0)
    return out
