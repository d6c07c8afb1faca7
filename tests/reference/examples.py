"""The example designs' dimensions, copied by hand from their files, and six small variants with the text that says the
same. Densities of built-in materials are copied from the catalogue, thrust curves read from the files: inputs here."""

import math
import pathlib
import re

DESIGNS = pathlib.Path(__file__).parent.parent / "designs" / "good"
INCH, FOOT, MPH = 0.0254, 0.3048, 0.44704
KRAFT, CARD, BALSA, PLY, STYRENE, GLASS = 680, 690, 160, 630, 1050, 1850


def curve(design):
    """The thrust curve of a design that has one motor."""
    (points,) = re.findall(r"curve: \[(.*?)\]", (DESIGNS / f"{design}.finw").read_text(encoding="utf-8"), re.S)
    return [(float(t), float(n)) for t, n in re.findall(r"([\d.]+) s: ([\d.]+) N", points)]


def unweighed(design):
    """A design's text without what the bench says: what finwright computes, not what was measured."""
    text = (DESIGNS / f"{design}.finw").read_text(encoding="utf-8")
    return re.sub(r"^measured \{.*?^\}\n", "", text, flags=re.S | re.M)


def reed_heron():
    d, nose = 0.0416, 3.2 * 0.0416
    lug = dict(bore=0.0046, length=0.03, wall=0.0004, body=d / 2, rho=KRAFT)
    button = dict(length=0.0, mass=0.0012, mouth=0.0055, standoff=0.0, body=d / 2)
    tail = nose + 0.43
    return dict(
        nose=dict(shape="ogive", length=nose, base=d, wall=0.0015, rho=STYRENE, shoulder=(0.025, 0.0402, 0.0015), surface="painted"),
        pieces=[dict(d=(d, d), inner=0.0404, length=0.43, rho=KRAFT, surface="painted")],
        fins=dict(count=3, root=0.07, tip=0.04, span=0.048, sweep=0.038, t=0.0024, rho=BALSA, body=d / 2, x=tail - 0.073, leading="rounded", trailing="blunt", surface="painted"),
        mount=dict(on=0, bore=0.024, outer=0.0254, length=0.095, sticks_out=0.006, rho=KRAFT, rings=(2, 0.003, BALSA)),
        masses=[(0.006, nose - 0.02, 0), (0.014, nose + 0.06, 0), (0.005, nose + 0.09, 0)],
        pipes=[],
        guides=[dict(lug, x=tail - 0.015), dict(lug, ahead=0.015), dict(button, x=tail - 0.04), dict(button, ahead=0.04)],
        motor=dict(d=0.024, length=0.07, mass=0.043, propellant=0.021, delay=5, curve=curve("reed_heron")),
        weighed=(0.126, 0.346),
        drag_area=0.8 * math.pi * 0.45**2 / 4,
        pads=dict(
            rod_day=dict(length=1.2, stop=0.06, tilt=math.radians(3), friction=0.3, guides=[0, 1], wind=4.0, gust=6.0, air=dict(elevation=4, temperature=289.15)),
            rail_day=dict(length=1.8, stop=0.06, friction=0.25, guides=[2, 3], wind=4.0, gust=6.0, air=dict(elevation=4, temperature=289.15)),
        ),
    )


def pond_wren():
    d = 0.0248
    tail = 0.048 + 0.23
    return dict(
        nose=dict(shape="ellipsoid", length=0.048, base=d, rho=BALSA, shoulder=(0.015, 0.0239, None), surface="painted"),
        pieces=[dict(d=(d, d), inner=0.024, length=0.23, rho=KRAFT, surface="bare")],
        fins=dict(count=3, root=0.05, tip=0.03, span=0.04, sweep=0.025, t=0.0016, rho=BALSA, body=d / 2, x=tail - 0.05, leading="rounded", trailing="rounded", surface="bare"),
        mount=dict(on=0, bore=0.018, outer=0.0188, length=0.07, sticks_out=0.005, rho=KRAFT, rings=(2, 0.003, CARD)),
        masses=[(0.003, 0.048 + 0.04, 0), (0.002, 0.048 + 0.06, 0)],
        pipes=[],
        guides=[dict(bore=0.0034, length=0.04, wall=0.0003, body=d / 2, rho=KRAFT, ahead=0.0)],
        motor=dict(d=0.018, length=0.07, mass=0.016, propellant=0.0035, delay=3, curve=curve("pond_wren")),
        drag_area=0.3 * 0.7 * 0.05,
        pads=dict(lesson=dict(length=1.0, stop=0.05, tilt=math.radians(2), friction=0.3, guides=[0], wind=2.5, gust=4.0, air=dict(elevation=85, temperature=287.15))),
    )


def marsh_harrier():
    d, inner = 0.0762, 0.0736
    seam, tail = 0.3 + 0.38, 0.3 + 0.38 + 0.56
    bay = seam - 0.08
    return dict(
        nose=dict(shape="haack", parameter=0.0, length=0.3, base=d, wall=0.0024, rho=905, shoulder=(0.075, 0.0732, 0.0024), surface="painted"),
        pieces=[
            dict(d=(d, d), inner=inner, length=0.38, rho=GLASS, surface="painted"),
            dict(d=(d, d), inner=inner, length=0.56, rho=GLASS, surface="painted"),
        ],
        fins=dict(count=3, root=0.18, tip=0.075, span=0.085, sweep=0.09, t=0.0032, rho=PLY, body=d / 2, x=tail - 0.015 - 0.18, leading="rounded", trailing="rounded", surface="painted"),
        mount=dict(on=1, bore=0.038, outer=0.0406, length=0.33, sticks_out=0.012, rho=950, rings=(3, 0.005, PLY)),
        masses=[
            (0.045, 0.06, 0),
            (0.105, 0.3 + 0.12, 0),
            (0.05, 0.3 + 0.19, 0),
            (0.14, bay + 0.06, 0.1),
            (0.115, tail - 0.18, 0.3),
        ],
        pipes=[(bay, (0.16, 0.0734, 0.0706, GLASS)), (bay + 0.16 - 0.006, (0.006, 0.0706, 0, PLY))],
        guides=[dict(length=0.0, mass=0.0025, mouth=0.0065, standoff=0.0, body=d / 2, **place) for place in (dict(x=tail - 0.025), dict(ahead=0.04))],
        motor=dict(d=0.038, length=0.19, mass=0.33, propellant=0.14, delay=9, curve=curve("marsh_harrier")),
        weighed=(1.77, 0.79),
        drag_area=0.8 * math.pi * 1.15**2 / 4,
        pads=dict(spring_meet=dict(length=2.4, stop=0.15, tilt=math.radians(1), friction=0.25, guides=[0, 1], wind=4.0, gust=6.5, air=dict(elevation=2, temperature=284.15))),
    )


def grey_crane():
    d = 0.098
    tube = 33 * INCH
    seam = 0.29 + tube
    shoe = dict(length=0.07, mass=0.2 * 0.07, mouth=0.0081, standoff=0.004, body=d / 2)
    return dict(
        nose=dict(shape="ogive", length=0.29, base=d, wall=0.0018, rho=STYRENE, shoulder=(0.08, 0.0954, 0.0018), surface="painted"),
        pieces=[
            dict(d=(d, d), inner=0.0958, length=tube, rho=CARD, surface=40e-6),
            dict(d=(d, 0.062), wall=0.002, length=0.06, rho=STYRENE, surface="painted"),
        ],
        fins=dict(count=4, root=0.19, tip=0.09, span=0.095, sweep=0.085, t=INCH / 4, rho=BALSA, body=d / 2, x=seam - 0.2, leading="rounded", trailing="sharp", surface="painted"),
        mount=dict(on=1, bore=0.029, outer=0.031, length=0.2, sticks_out=0.008, rho=KRAFT),
        masses=[(3 * 0.028349523125, 0.08, 0), (0.095, 0.29 + 0.2, 0), (0.04, 0.29 + 0.3, 0)],
        pipes=[],
        guides=[dict(shoe, x=seam - 0.06), dict(shoe, ahead=0.06)],
        motor=dict(d=0.029, length=0.15, mass=0.15, propellant=0.068, delay=6, curve=curve("grey_crane")),
        drag_area=0.75 * math.pi * (42 * INCH) ** 2 / 4,
        pads=dict(open_day=dict(length=10 * FOOT, stop=0.2, tilt=math.radians(3), friction=0.25, guides=[0, 1], wind=8 * MPH, gust=13 * MPH, air=dict(elevation=210, temperature=283.15, pressure=29.3 * 3386.388640341))),
    )


def variant(shape, parameter, count, step, wall, elevation, temperature, wind, tilt, leading):
    """A small rocket on a 3 mm rod: a nose of some shape, a body that widens or narrows by a taper, 3 to 6 fins."""
    d = 0.03
    back = d + step
    taper = 0.05
    tail = 0.09 + 0.2 + taper + 0.12
    spec = dict(
        nose=dict(shape=shape, parameter=parameter, length=0.09, base=d, wall=wall, rho=1100, surface="polished"),
        pieces=[
            dict(d=(d, d), inner=d - 0.001, length=0.2, rho=700, surface="painted"),
            dict(d=(d, back), wall=0.001, length=taper, rho=900, surface=30e-6),
            dict(d=(back, back), inner=back - 0.001, length=0.12, rho=700, surface="bare"),
        ],
        fins=dict(count=count, root=0.06, tip=0.025, span=0.045, sweep=0.04, t=0.002, rho=200, body=back / 2, x=tail - 0.062, leading=leading, trailing="blunt", surface="painted"),
        mount=dict(on=2, bore=0.018, outer=0.0188, length=0.07, sticks_out=0.004, rho=680, rings=(2, 0.003, 200)),
        masses=[(0.012, 0.05, 0), (0.009, 0.14, 0), (0.006, 0.2, 0.04)],
        pipes=[],
        guides=[
            dict(bore=0.0036, length=0.025, wall=0.0004, body=back / 2, rho=700, x=tail - 0.02),
            dict(bore=0.0036, length=0.025, wall=0.0004, body=d / 2, rho=700, ahead=0.03),
        ],
        motor=dict(d=0.018, length=0.07, mass=0.024, propellant=0.011, delay=4, curve=[(0, 1), (0.1, 9), (0.25, 14), (0.4, 6), (1.5, 5), (1.6, 0)]),
        drag_area=0.7 * math.pi * 0.3**2 / 4,
        pads=dict(day=dict(length=1.1, stop=0.04, tilt=tilt, friction=0.2, guides=[0, 1], wind=wind, air=dict(elevation=elevation, temperature=temperature))),
    )
    return spec, text(spec, tail)


def text(spec, tail):
    """A variant's file."""
    nose, (tube, taper, rear), f = spec["nose"], spec["pieces"], spec["fins"]
    number = f" {nose['parameter']!r}" if nose["shape"] in ("parabola", "power", "haack") else ""
    wall = f"wall: {nose['wall']!r} m; " if nose["wall"] else ""
    m = lambda x: f"{x!r} m"
    motor, (day,) = spec["motor"], spec["pads"].values()
    lug = lambda g, at: f"bore: {m(g['bore'])}; length: {m(g['length'])}; wall: {m(g['wall'])}; material: paper; at: {at}; clock: 60 deg"
    rear_lug, front_lug = spec["guides"]
    return f"""finwright 1
material shell {{ density: {nose['rho']} kg/m3 }}
material paper {{ density: 700 kg/m3 }}
material plastic {{ density: 900 kg/m3 }}
material wood {{ density: 200 kg/m3 }}
material tube {{ density: 680 kg/m3 }}
airframe {{
  nose {{
    shape: {nose['shape']}{number}; length: {m(nose['length'])}; base: {m(nose['base'])}; {wall}material: shell; surface: polished
    ballast {{ mass: 0.012 kg; at: 0.05 m from tip }}
  }}
  tube fore {{
    length: {m(tube['length'])}; outer: {m(tube['d'][0])}; inner: {m(tube['inner'])}; material: paper; surface: painted
    parachute {{ diameter: 0.3 m; mass: 0.009 kg; at: 0.14 m from tip; drag: 0.7 }}
    load {{ mass: 0.006 kg; length: 0.04 m; at: 0.2 m from tip }}
    lug front {{ {lug(front_lug, f"{m(front_lug['ahead'])} ahead of balance")} }}
  }}
  taper {{ length: {m(taper['length'])}; front: {m(taper['d'][0])}; back: {m(taper['d'][1])}; wall: {m(taper['wall'])}; material: plastic; surface: 30 um }}
  tube aft {{
    length: {m(rear['length'])}; outer: {m(rear['d'][0])}; inner: {m(rear['inner'])}; material: paper; surface: bare
    fins {{ count: {f['count']}; root: {m(f['root'])}; tip: {m(f['tip'])}; span: {m(f['span'])}; sweep: {m(f['sweep'])}; thickness: {m(f['t'])}
      leading: {f['leading']}; trailing: blunt; material: wood; surface: painted; at: 0.002 m from back }}
    mount {{ bore: 0.018 m; outer: 0.0188 m; length: 0.07 m; sticks_out: 0.004 m; material: tube
      rings {{ count: 2; thickness: 0.003 m; material: wood }} }}
    lug rear {{ {lug(rear_lug, '0.02 m from back')} }}
  }}
}}
motor one {{ diameter: {m(motor['d'])}; length: {m(motor['length'])}; mass: {motor['mass']!r} kg; propellant: {motor['propellant']!r} kg; delay: 4 s
  curve: [{', '.join(f'{t} s: {n} N' for t, n in motor['curve'])}] }}
pad stand {{ rod {{ diameter: 3 mm; length: {m(day['length'])}; material: steel }}; stop: {m(day['stop'])}; tilt: {day['tilt']!r} rad; friction: {day['friction']} }}
site place {{ elevation: {m(float(day['air']['elevation']))}; temperature: {day['air']['temperature'] - 273.15:.6f} °C; wind: {day['wind']} m/s }}
flight day {{ motor: one; pad: stand; guided_by: [rear, front]; site: place }}
"""


VARIANTS = {
    "cone, 3 fins": ("cone", 0.0, 3, 0.004, None, 0.0, 288.15, 0.0, 0.0, "blunt"),
    "ellipsoid, 4 fins": ("ellipsoid", 0.0, 4, -0.006, None, 300.0, 298.15, 3.0, 0.05, "rounded"),
    "parabola, 5 fins": ("parabola", 0.75, 5, 0.006, 0.0012, 50.0, 278.15, 2.0, 0.03, "sharp"),
    "power, 6 fins": ("power", 0.6, 6, 0.002, None, 1200.0, 293.15, 5.0, 0.0, "rounded"),
    "haack, 3 fins": ("haack", 1 / 3, 3, -0.004, None, 10.0, 283.15, 1.0, 0.08, "blunt"),
    "ogive, 4 fins": ("ogive", 0.0, 4, 0.005, 0.001, 600.0, 303.15, 4.0, 0.04, "rounded"),
}
