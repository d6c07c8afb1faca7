"""Fin lift against Barrowman's own closed form, worked with mpmath.

Source: J. S. Barrowman, thesis, 1967 (from memory): with the mid-chord length LF,
CNa = K 4 N (S/d)^2 / (1 + sqrt(1 + (2 LF/(CR + CT))^2)). Our code uses the one-fin form with area
and sweep, and the quarter of the mean chord, for every plan-form.
"""

import mpmath as mp
import pytest

mp.mp.dps = 30


@pytest.mark.parametrize(
    "root, tip, span, sweep, count, radius",
    [(0.05, 0.03, 0.04, 0.025, 3, 0.0124), (0.11, 0.06, 0.055, 0.05, 4, 0.027), (0.12, 0.0, 0.08, 0.12, 3, 0.03)],
)
def test_trapezoids(ours, compare, root, tip, span, sweep, count, radius):
    points = [(0, 0), (sweep, span), (sweep + tip, span), (root, 0)]
    if tip == 0:
        points.pop(1)
    d = mp.mpf(2 * radius)
    cr, ct, s, xr = map(mp.mpf, (root, tip, span, sweep))
    lf = mp.sqrt(s**2 + (xr + ct / 2 - cr / 2) ** 2)
    k = 1 + mp.mpf(radius) / (s + radius)
    cna = k * 4 * count * (s / d) ** 2 / (1 + mp.sqrt(1 + (2 * lf / (cr + ct)) ** 2))
    x = xr * (cr + 2 * ct) / (3 * (cr + ct)) + ((cr + ct) - cr * ct / (cr + ct)) / 6
    got = ours(
        "fins",
        points=points,
        count=count,
        body_radius=radius,
        x=0.5,
        thickness=0.002,
        density=160.0,
        reference_area=float(mp.pi * d**2 / 4),
    )
    label = f"fins {root:g}/{tip:g}/{span:g} m"
    compare(f"{label}, CNa", "Barrowman 1967 by mpmath", float(cna), got["cna"], 1e-12)
    compare(f"{label}, centre of pressure", "Barrowman 1967 by mpmath", float(x + mp.mpf(0.5)), got["pressure_x"], 1e-12)
