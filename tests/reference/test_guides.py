"""The judgement: how much wind a flight bears, the margin as it leaves, the room beside fins, flutter."""

import json
import math

import numpy as np
import pytest
from examples import DESIGNS, grey_crane, marsh_harrier, pond_wren, reed_heron
from rocket import Rocket
from scipy.optimize import brentq
from shapely import affinity
from shapely.geometry import Point, box

EXAMPLES = {"reed_heron": reed_heron, "pond_wren": pond_wren, "marsh_harrier": marsh_harrier, "grey_crane": grey_crane}
QUARTER = math.atan(0.25)


def flown(finwright, name, *more):
    said, status = finwright(*more, "--format", "json", DESIGNS / f"{name}.finw")
    assert status == 0
    return json.loads(said)


@pytest.mark.parametrize("name", EXAMPLES)
def test_the_wind_at_which_the_angle_is_a_quarter(finwright, compare, name):
    """Where the angle of attack limits: the wind that meets the rocket at the arc tangent of a quarter; its own friction
    lowers the speed."""
    rocket = Rocket(EXAMPLES[name]())
    limited = 0
    for comparison in flown(finwright, name, "guides")["comparisons"]:
        for candidate in comparison["candidates"]:
            own = [pad for pad in rocket.spec["pads"].values() if abs(pad["length"] - length(candidate)) < 1e-9]
            if len(own) != 1 or candidate["ceiling"]["limit"]["rule"] != "wind/steep-angle":
                continue
            wind = brentq(lambda wind: rocket.meeting(own[0], wind)[0] - QUARTER, 0.1, 12)
            compare(f"{name}, {candidate['pad']}: wind at an angle of attack of atan 1/4", "scipy", wind, candidate["ceiling"]["wind"], 3e-3)
            limited += 1
    assert limited or name in ("grey_crane", "pond_wren")


def length(candidate):
    number, unit = candidate["rail"].split(" of ")[1].split(" ")
    return float(number) * {"m": 1, "mm": 1e-3}[unit]


@pytest.mark.parametrize("name", EXAMPLES)
def test_the_margin_at_the_angle_of_a_gust(finwright, compare, name):
    """Body lift 1.1 sin² α / α on the side view (Allen & Perkins' form, from memory) beside Barrowman's parts."""
    rocket = Rocket(EXAMPLES[name]())
    for got in flown(finwright, name, "show"):
        pad = rocket.spec["pads"][got["flight"]]
        run, _, travel, (_, (t, (_, speed))) = rocket.run(pad)
        tilt = pad.get("tilt", 0.0)
        gust = pad["gust"] * (travel * math.cos(tilt) / 2.0) ** (1 / 7)
        alpha = math.atan2(gust * math.cos(tilt), speed + gust * math.sin(tilt))
        (plan, plan_x), _ = rocket.side_view()
        _, (cna, x) = rocket.pressure()
        lift = 1.1 * plan / rocket.area * math.sin(alpha) ** 2 / alpha
        pressure = (cna * x + lift * plan_x) / (cna + lift)
        # The balance point then, from the propellant left at the exit.
        left = (run.mass(t) - rocket.burnt[0]) / rocket.propellant[0]
        mass = rocket.burnt[0] + left * rocket.propellant[0]
        balance = (rocket.burnt[0] * rocket.burnt[1] + left * rocket.propellant[0] * rocket.propellant[1]) / mass
        margin = (pressure - balance) / rocket.d
        compare(f"{name}, {got['flight']}: margin in a gust", "Barrowman 1967, cross-flow", margin, got["margin_release_gust_cal"], 1e-6)


DESIGN = """finwright 1
airframe {{
  nose {{ shape: ogive; length: 120 mm; base: 50 mm; material: balsa }}
  tube body {{
    length: 500 mm; outer: 50 mm; inner: 49 mm; material: kraft_paper
    fins {{ count: {count}; root: 80 mm; tip: 50 mm; span: 60 mm; sweep: 30 mm; thickness: {thickness} mm; material: plywood; at: 0 mm from back }}
    mount {{ bore: 24 mm; outer: 25 mm; length: 70 mm; material: kraft_paper }}
    {guide}
  }}
}}
motor m {{ diameter: 24 mm; length: 70 mm; mass: 40 g; propellant: 20 g; delay: 5 s; curve: [0 s: 0 N, 0.1 s: 20 N, 1 s: 20 N, 1.1 s: 0 N] }}
pad p {{ {pad}; stop: 50 mm }}
flight f {{ motor: m; pad: p; guided_by: [g] }}
"""


def blocked(finwright, tmp_path, clock, **values):
    path = tmp_path / "design.finw"
    guide = values["guide"].format(clock=f"{clock:.6f} deg")
    path.write_text(DESIGN.format(**{**values, "guide": guide}), encoding="utf-8")
    said, _ = finwright("check", "--format", "json", path)
    return any(finding["rule"] == "guide/fin-in-the-way" for finding in json.loads(said)["findings"])


ROD = dict(guide="lug g {{ bore: 6.75 mm; length: 50 mm; wall: 0.875 mm; at: balance; clock: {clock} }}", pad="rod {{ diameter: 6.35 mm; length: 1.5 m }}".replace("{{", "{").replace("}}", "}"))
RAIL = dict(guide="rail_guide g {{ profile: 1 in; length: 60 mm; at: balance; clock: {clock} }}", pad="rail { slot: standard; length: 2 m }")


@pytest.mark.parametrize("count, thickness, kind", [(3, 3, "rod"), (4, 2, "rod"), (6, 3, "rod"), (3, 3, "rail"), (4, 5, "rail")])
def test_the_least_angle_beside_a_fin(finwright, compare, tmp_path, count, thickness, kind):
    """The angle at which the rod, with a millimetre of air, or the rail just touches the fin, as shapes in the plane."""
    fin = box(25, -thickness / 2, 85, thickness / 2)
    if kind == "rod":
        thing = Point(25 + 6.75 / 2 + 0.875, 0).buffer(6.35 / 2 + 1, 4096)
    else:
        thing = box(25, -12.7, 50.4, 12.7)
    touches = lambda angle: affinity.rotate(thing, angle, origin=(0, 0)).intersects(fin)
    low, high = 0.0, 90.0
    for _ in range(40):
        middle = (low + high) / 2
        low, high = (middle, high) if touches(middle) else (low, middle)
    theirs = high
    values = dict(count=count, thickness=thickness, **(ROD if kind == "rod" else RAIL))
    low, high = 0.0, 180.0 / count
    assert blocked(finwright, tmp_path, 0.0, **values) and not blocked(finwright, tmp_path, high, **values)
    for _ in range(16):
        middle = (low + high) / 2
        low, high = (middle, high) if blocked(finwright, tmp_path, middle, **values) else (low, middle)
    compare(f"least angle of a {kind} beside one of {count} fins of {thickness} mm, degrees", "shapely", theirs, high, 2e-3)


def test_flutter_in_pounds_and_inches(finwright, compare, tmp_path):
    """NACA TN 4197 as it's written there (from memory): (V/a)² = G / (39.3 A³/((t/c)³ (A + 2)) (λ + 1)/2 p/p0), G in psi."""
    (got,) = [flight for flight in flown(finwright, "reed_heron", "show") if flight["flight"] == "rod_day"]
    root, tip, span, thickness = (np.array([70, 40, 48, 2.4]) / 25.4).tolist()
    shear = 0.17e9 / 6894.757293168
    aspect = span**2 / ((root + tip) / 2 * span)
    # Standard pressure 4 m up, and the speed of sound at 16 °C.
    pressure = (1 - 0.0065 * 4 / 288.15) ** 5.255876
    sound = math.sqrt(1.4 * 287.05307 * 289.15)
    load = 39.3 * aspect**3 / ((thickness / root) ** 3 * (aspect + 2)) * (tip / root + 1) / 2 * pressure
    compare("reed_heron: flutter speed", "NACA TN 4197", sound * math.sqrt(shear / load), got["flutter_speed_m_s"], 1e-3)
