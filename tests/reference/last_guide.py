"""A rigid rocket whose last guide slides up a leaning rod, integrated in space by scipy."""

import numpy as np
from scipy.integrate import solve_ivp

G = 9.80665


def turned(q, lean, acceleration):
    """Angle and rate downwind and to the side of the lean. Downwind is +x, the side +y, up +z; `acceleration` is that
    of the guide along the rod."""
    angle = np.hypot(*lean)
    way = np.array([-lean[0], lean[1], 0.0]) / (angle or 1.0)
    rod = np.cos(angle) * np.array([0, 0, 1.0]) + np.sin(angle) * way
    to_balance, to_pressure = q["last_guide"] - q["balance"], q["last_guide"] - q["pressure"]
    inertia = q["inertia"] + q["mass"] * to_balance**2
    across = q["wind"] * (np.array([1.0, 0, 0]) - rod[0] * rod)
    across *= q["wind"] / np.linalg.norm(across)

    def turning(t, y):
        axis, rate = y[:3] / np.linalg.norm(y[:3]), y[3:]
        # The centre of pressure moves through the air with the turn, too.
        air = across - (q["speed"] + acceleration * t) * rod - to_pressure * np.cross(rate, axis)
        side = air - (air @ axis) * axis
        speed, sine = np.linalg.norm(air), np.linalg.norm(side)
        alpha = np.arctan2(sine, -(air @ axis))
        push = q["density"] / 2 * speed**2 * q["reference_area"] * q["cna"] * alpha * side / sine
        # In the frame of the sliding guide the rocket's own inertia pulls back at its balance point.
        pull = q["mass"] * (np.array([0, 0, -G]) - acceleration * rod)
        moment = np.cross(axis, to_pressure * push + to_balance * pull)
        return [*np.cross(rate, axis), *(moment / inertia)]

    done = solve_ivp(turning, (0, q["time"]), [*rod, 0, 0, 0], "DOP853", rtol=1e-11, atol=1e-14)
    axis, rate = done.y[:3, -1], done.y[3:, -1]
    change, speed = axis - rod, np.cross(rate, axis)
    # Along the rod's own crosswise directions nearest to downwind and to the side.
    down = np.array([1.0, 0, 0]) - rod[0] * rod
    down /= np.linalg.norm(down)
    side = np.cross(rod, down)
    return [change @ down, speed @ down, change @ side, speed @ side]
