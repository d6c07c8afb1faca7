"""Noses, tapers and fins against scipy's quadrature, shapely's offsets and trimesh's solids."""

import numpy as np
import pytest
import trimesh
from outlines import SHAPES, fine_stations, mass_from, name, outline, revolved
from scipy.integrate import quad
from shapely import Polygon, box

LENGTH, RADIUS = 0.3, 0.05


@pytest.mark.parametrize("shape, parameter", SHAPES)
def test_solid_noses(ours, compare, shape, parameter):
    """scipy.integrate.quad on the published outlines, x = L s^4 to tame blunt tips."""
    r = outline(shape, parameter, LENGTH, RADIUS)

    def integral(f):
        value, _ = quad(
            lambda s: f(LENGTH * s**4) * 4 * LENGTH * s**3, 0, 1, epsabs=0, epsrel=1e-12, limit=400
        )
        return value

    got = ours("nose", shape=shape, parameter=parameter, length=LENGTH, radius=RADIUS)
    volume = integral(lambda x: np.pi * r(x) ** 2)
    moment = integral(lambda x: np.pi * r(x) ** 2 * x)
    second = integral(lambda x: np.pi * r(x) ** 2 * x**2)
    axial = integral(lambda x: np.pi * r(x) ** 4 / 2)
    plan = integral(lambda x: 2 * r(x))
    what = name(shape, parameter)
    source = "scipy quad"
    compare(f"nose {what}, volume", source, volume, got["volume"], 1e-10)
    compare(f"nose {what}, centroid", source, moment / volume, got["volume_x"], 1e-10)
    compare(f"nose {what}, axial inertia", source, axial, got["solid"]["axial"], 1e-10)
    transverse = axial / 2 + second - moment**2 / volume
    compare(f"nose {what}, transverse inertia", source, transverse, got["solid"]["transverse"], 1e-9)
    compare(f"nose {what}, side view", source, plan, got["planform"], 1e-10)
    # Munk: the nose's normal force acts at L - V/S.
    pressure = LENGTH - volume / (np.pi * RADIUS**2)
    compare(f"nose {what}, centre of pressure", source, pressure, got["pressure_x"], 1e-10)


@pytest.mark.parametrize("shape, parameter", SHAPES)
@pytest.mark.parametrize("wall", [0.0005, 0.0015, 0.006])
def test_walled_noses(ours, compare, shape, parameter, wall):
    """shapely moves the outline inwards by the wall; the rest is exact sums over frusta."""
    r = outline(shape, parameter, LENGTH, RADIUS)
    # shapely's buffer may drop some of many points on a straight line, so a cone gets its ends only.
    x = np.array([0.0, LENGTH]) if shape == "cone" else fine_stations(LENGTH)
    y = r(x)
    behind = LENGTH + 4 * wall
    upper = np.column_stack([np.append(x, behind), np.append(y, RADIUS)])
    whole = Polygon(np.vstack([upper, (upper * [1, -1])[::-1]]))
    # Behind the base the body goes on, so that only the lateral surface is moved inwards.
    hollow = whole.buffer(-wall, join_style="mitre").intersection(box(0, 0, LENGTH, 1))
    inside = np.array(hollow.exterior.coords)
    moments = revolved(x, y) - abs(revolved(inside[:, 0], inside[:, 1]))
    want = mass_from(moments, 1050.0)
    got = ours(
        "nose", shape=shape, parameter=parameter, length=LENGTH, radius=RADIUS, wall=wall, density=1050.0
    )["walled"]
    for key in ("mass", "x", "axial", "transverse"):
        label = f"nose {name(shape, parameter)}, wall {wall * 1000:g} mm, {key}"
        compare(label, "shapely buffer", want[key], got[key], 1e-6)


@pytest.mark.parametrize("shape, parameter", SHAPES)
def test_noses_as_meshes(ours, compare, shape, parameter):
    """trimesh's solid of revolution, in mm: its vertex merging spoils meshes in metres.

    A turned polygon of n sides has (2 pi/n)/sin(2 pi/n) less volume than the round body, and its inertia lags by about
    twice that share, which the limits of the inertias leave room for.
    """
    sides = 360
    # Stations close together at a blunt tip, where the outline bends most; not at a sharp one, where they would merge.
    blunt = shape in ("ellipsoid", "power", "haack")
    x = 300 * np.linspace(0, 1, 801) ** (2 if blunt else 1)
    r = outline(shape, parameter, 300, 50)(x)
    what = f"{name(shape, parameter)} as a mesh"
    profile = np.column_stack([np.append(r, 0.0), np.append(x, 300.0)])
    profile[0, 0] = 0.0
    mesh = trimesh.creation.revolve(profile, sections=sides)
    assert mesh.is_watertight
    round_up = (2 * np.pi / sides) / np.sin(2 * np.pi / sides)
    got = ours("nose", shape=shape, parameter=parameter, length=0.3, radius=0.05)
    volume = abs(mesh.volume)
    inertia = np.abs(np.diag(mesh.moment_inertia)) / volume
    compare(f"{what}, volume", "trimesh", volume * round_up * 1e-9, got["volume"], 1e-5)
    compare(f"{what}, centroid", "trimesh", mesh.center_mass[2] * 1e-3, got["volume_x"], 1e-5)
    own = got["solid"]
    compare(f"{what}, axial inertia a kg", "trimesh", inertia[2] * 1e-6, own["axial"] / own["mass"], 2e-4)
    compare(f"{what}, transverse inertia a kg", "trimesh", inertia[0] * 1e-6, own["transverse"] / own["mass"], 2e-4)


@pytest.mark.parametrize("fore, aft", [(0.02, 0.033), (0.033, 0.02)])
def test_ogive_taper(ours, compare, fore, aft):
    """A circular arc that leaves the wider end straight, by scipy.integrate.quad."""
    length, step = 0.06, abs(aft - fore)
    rho = (step**2 + length**2) / (2 * step)

    def r(x):
        ahead = length - x if aft > fore else x
        return min(fore, aft) + np.sqrt(rho**2 - ahead**2) + step - rho

    volume, _ = quad(lambda x: np.pi * r(x) ** 2, 0, length, epsabs=0, epsrel=1e-12)
    plan, _ = quad(lambda x: 2 * r(x), 0, length, epsabs=0, epsrel=1e-12)
    got = ours("taper", shape="ogive", length=length, fore=fore, aft=aft)
    compare(f"ogive taper {fore:g} to {aft:g}, volume", "scipy quad", volume, got["volume"], 1e-11)
    compare(f"ogive taper {fore:g} to {aft:g}, side view", "scipy quad", plan, got["planform"], 1e-11)


@pytest.mark.parametrize("fore, aft", [(0.02, 0.033), (0.033, 0.02)])
@pytest.mark.parametrize("wall", [0.0005, 0.0015, 0.006])
def test_walled_ogive_taper(ours, compare, fore, aft, wall):
    """shapely moves the outline inwards by the wall, with the arc carried on beyond the narrow end and a tube behind the
    wide one, and the stretch between the ends is kept; the rest is exact sums over frusta."""
    length, step, wide = 0.06, abs(aft - fore), max(fore, aft)
    rho = (step**2 + length**2) / (2 * step)
    # From the wide end towards the narrow one.
    u = np.linspace(0, length + 0.02, 40_001)
    r = np.sqrt(rho**2 - u**2) + wide - rho
    outer = np.vstack([[-0.05, wide], np.column_stack([u, r])])
    whole = Polygon(np.vstack([outer, (outer * [1, -1])[::-1]]))
    hollow = whole.buffer(-wall, join_style="mitre").intersection(box(0, 0, length, 1))
    inside = np.array(hollow.exterior.coords)
    kept = u <= length
    moments = revolved(u[kept], r[kept]) - abs(revolved(inside[:, 0], inside[:, 1]))
    want = mass_from(moments, 1050.0)
    if aft > fore:
        want["x"] = length - want["x"]
    got = ours("taper", shape="ogive", length=length, fore=fore, aft=aft, wall=wall, density=1050.0)["walled"]
    for key in ("mass", "x", "axial", "transverse"):
        label = f"ogive taper {fore:g} to {aft:g}, wall {wall * 1000:g} mm, {key}"
        compare(label, "shapely buffer", want[key], got[key], 1e-6)


FIN = [(0.0, 0.0), (0.04, 0.03), (0.07, 0.045), (0.095, 0.045), (0.09, 0.02), (0.1, 0.0)]


def fin_numbers(ours, **shape):
    return ours(
        "fins", count=3, body_radius=0.02, x=0.5, thickness=0.002, density=160.0, reference_area=0.001, **shape
    )


def test_polygon_fin(ours, compare):
    """shapely's area and centroid; chords between interpolated edges."""
    polygon = Polygon(FIN)
    got = fin_numbers(ours, points=FIN)
    compare("polygon fin, area", "shapely", polygon.area, got["area"], 1e-12)
    compare("polygon fin, centroid x", "shapely", polygon.centroid.x, got["centroid_x"], 1e-12)
    compare("polygon fin, centroid y", "shapely", polygon.centroid.y, got["centroid_y"], 1e-12)

    heights = np.array([p[1] for p in FIN])
    xs = np.array([p[0] for p in FIN])
    top = int(np.argmax(heights))

    def leading(y):
        return np.interp(y, heights[: top + 1], xs[: top + 1])

    def trailing(y):
        return np.interp(y, heights[:top:-1], xs[:top:-1])

    joints = sorted(set(heights))

    def integral(f):
        return sum(quad(f, a, b, epsabs=0, epsrel=1e-12)[0] for a, b in zip(joints, joints[1:]))

    area = integral(lambda y: trailing(y) - leading(y))
    quarter = integral(lambda y: (leading(y) + (trailing(y) - leading(y)) / 4) * (trailing(y) - leading(y))) / area
    mean = integral(lambda y: (trailing(y) - leading(y)) ** 2) / area
    compare("polygon fin, quarter of the mean chord", "scipy quad", quarter, got["quarter_chord_x"], 1e-11)
    compare("polygon fin, mean chord", "scipy quad", mean, got["mean_chord"], 1e-11)


def test_elliptical_fin(ours, compare):
    root, span = 0.06, 0.05
    half = lambda y: root / 2 * np.sqrt(1 - (y / span) ** 2)
    area, _ = quad(lambda y: 2 * half(y), 0, span, epsabs=0, epsrel=1e-12)
    quarter, _ = quad(lambda y: (root / 2 - half(y) / 2) * 2 * half(y), 0, span, epsabs=0, epsrel=1e-12)
    got = fin_numbers(ours, shape="ellipse", root=root, span=span)
    compare("elliptical fin, area", "scipy quad", area, got["area"], 1e-9)
    compare("elliptical fin, quarter of the mean chord", "scipy quad", quarter / area, got["quarter_chord_x"], 1e-9)


def test_three_fins_as_meshes(ours, compare):
    """Three trapezoidal plates as solids, placed round the body and added up by trimesh (in mm)."""
    points = [(0.0, 0.0), (25.0, 40.0), (55.0, 40.0), (50.0, 0.0)]
    corners = np.array([(x + 500, y + 20, z) for x, y in points for z in (-1.0, 1.0)])
    plate = trimesh.convex.convex_hull(corners)
    plates = []
    for i in range(3):
        turned = plate.copy()
        turned.apply_transform(trimesh.transformations.rotation_matrix(2 * np.pi * i / 3, [1, 0, 0]))
        plates.append(turned)
    solid = trimesh.util.concatenate(plates)
    density = 160e-9
    got = fin_numbers(ours, points=[(x / 1000, y / 1000) for x, y in points])["plates"]
    inertia = np.diag(solid.moment_inertia) * density * 1e-6
    compare("three fins, mass", "trimesh", solid.volume * density, got["mass"], 1e-9)
    compare("three fins, centroid", "trimesh", solid.center_mass[0] / 1000, got["x"], 1e-9)
    compare("three fins, axial inertia", "trimesh", inertia[0], got["axial"], 1e-9)
    compare("three fins, transverse inertia", "trimesh", inertia[1], got["transverse"], 1e-9)
    compare("three fins, transverse inertia, other axis", "trimesh", inertia[2], got["transverse"], 1e-9)
