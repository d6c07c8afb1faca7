"""Nose outlines as published, written again from the formulas: radius at x, for numpy arrays."""

import numpy as np


def outline(shape, parameter, length, radius):
    def r(x):
        t = np.asarray(x) / length
        match shape:
            case "cone":
                return radius * t
            case "ogive":
                rho = (radius**2 + length**2) / (2 * radius)
                return np.sqrt(rho**2 - (length - length * t) ** 2) + radius - rho
            case "ellipsoid":
                return radius * np.sqrt(1 - (1 - t) ** 2)
            case "parabola":
                return radius * (2 * t - parameter * t**2) / (2 - parameter)
            case "power":
                return radius * t**parameter
            case "haack":
                theta = np.arccos(np.clip(1 - 2 * t, -1, 1))
                square = theta - np.sin(2 * theta) / 2 + parameter * np.sin(theta) ** 3
                return radius / np.sqrt(np.pi) * np.sqrt(np.maximum(square, 0))
        raise ValueError(shape)

    return r


SHAPES = [
    ("cone", 0.0),
    ("ogive", 0.0),
    ("ellipsoid", 0.0),
    ("parabola", 0.75),
    ("parabola", 1.0),
    ("power", 0.5),
    ("power", 0.75),
    ("haack", 0.0),
    ("haack", 1 / 3),
]


def name(shape, parameter):
    return shape if shape in ("cone", "ogive", "ellipsoid") else f"{shape} {parameter:.3g}"


def fine_stations(length, count=40_001):
    """Stations from tip to base, crowded at both ends where the outlines bend most."""
    s = np.linspace(0, 1, count)
    return length * s**4 * (35 - 84 * s + 70 * s**2 - 20 * s**3)


def revolved(x, r):
    """Volume, centroid, axial and transverse inertia (unit density) of the polyline (x, r) turned
    about the x axis: exact sums over frusta."""
    x0, x1, r0, r1 = x[:-1], x[1:], r[:-1], r[1:]
    h = x1 - x0
    volume = np.pi * h * (r0**2 + r0 * r1 + r1**2) / 3
    first = volume * x0 + np.pi * h**2 * (r0**2 + 2 * r0 * r1 + 3 * r1**2) / 12
    # int u^2 r^2 du over a frustum, u from its fore end.
    own = np.pi * h**3 * (r0**2 / 30 + r0 * r1 / 10 + r1**2 / 5)
    second = x0**2 * volume + 2 * x0 * (first - volume * x0) + own
    axial = np.pi * h / 10 * (r0**4 + r0**3 * r1 + r0**2 * r1**2 + r0 * r1**3 + r1**4)
    v, m, s, a = volume.sum(), first.sum(), second.sum(), axial.sum()
    return np.array([v, m, s, a])


def mass_from(moments, density):
    v, m, s, a = moments
    return {
        "mass": density * v,
        "x": m / v,
        "axial": density * a,
        "transverse": density * (a / 2 + s - m * m / v),
    }
