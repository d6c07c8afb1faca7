"""Standard air by geometric altitude against two packages of the US Standard Atmosphere 1976."""

import numpy as np
import pytest
from ambiance import Atmosphere
from fluids.atmosphere import ATMOSPHERE_1976
from scipy.integrate import quad

ALTITUDES = [-500, 0, 300, 1000, 1500, 3000, 5000, 9000, 11500, 18000, 25000]


@pytest.mark.parametrize("z", ALTITUDES)
def test_ambiance(ours, compare, z):
    """ambiance takes the molar mass of ICAO 1993, 28.96442 for 28.9644 kg/kmol: 4e-6 of p at 25 km."""
    theirs = Atmosphere(z)
    got = ours("air", altitude=z)
    source = "ambiance"
    compare(f"air at {z} m, temperature", source, theirs.temperature[0], got["temperature"], 5e-6)
    compare(f"air at {z} m, pressure", source, theirs.pressure[0], got["pressure"], 5e-6)
    compare(f"air at {z} m, density", source, theirs.density[0], got["density"], 5e-6)
    compare(f"air at {z} m, speed of sound", source, theirs.speed_of_sound[0], got["sound_speed"], 5e-6)
    compare(f"air at {z} m, viscosity", source, theirs.dynamic_viscosity[0], got["viscosity"], 5e-6)


@pytest.mark.parametrize("z", ALTITUDES)
def test_fluids(ours, compare, z):
    theirs = ATMOSPHERE_1976(z)
    got = ours("air", altitude=z)
    source = "fluids"
    compare(f"air at {z} m, temperature", source, theirs.T, got["temperature"], 1e-8)
    compare(f"air at {z} m, pressure", source, theirs.P, got["pressure"], 1e-8)
    compare(f"air at {z} m, density", source, theirs.rho, got["density"], 1e-8)
    compare(f"air at {z} m, speed of sound", source, theirs.v_sonic, got["sound_speed"], 1e-8)
    compare(f"air at {z} m, viscosity", source, theirs.mu, got["viscosity"], 1e-8)


def test_hot_day(ours, compare):
    """fluids' own temperature offset, on the ground."""
    theirs = ATMOSPHERE_1976(1500.0, dT=308.15 - ATMOSPHERE_1976(1500.0).T)
    got = ours("air", altitude=1500.0, elevation=1500.0, ground_temperature=308.15)
    compare("hot day at 1500 m, density", "fluids", theirs.rho, got["density"], 1e-8)


@pytest.mark.parametrize("elevation", [0.0, 2500.0])
@pytest.mark.parametrize("warmer", [-20.0, 20.0])
@pytest.mark.parametrize("height", [300.0, 1000.0, 3000.0])
def test_air_in_balance_with_its_weight(ours, compare, elevation, warmer, height):
    """dp/dz = -rho g over a site 20 K off, temperature and gravity of each height by fluids, the integral by quad."""
    there = lambda z: ATMOSPHERE_1976(z)
    pull = lambda z: there(z).g / (8.31432 / 0.0289644) / (there(z).T + warmer)
    ground, above = there(elevation), there(elevation + height)
    fall, _ = quad(pull, elevation, elevation + height, epsabs=0, epsrel=1e-12)
    pressure = ground.P * np.exp(-fall)
    got = ours("air", altitude=elevation + height, elevation=elevation, ground_temperature=ground.T + warmer)
    label = f"air {height:g} m over a site {elevation:g} m up and {warmer:+g} K off"
    density = pressure / (8.31432 / 0.0289644 * (above.T + warmer))
    compare(f"{label}, pressure", "scipy quad, fluids", pressure, got["pressure"], 1e-6)
    compare(f"{label}, density", "scipy quad, fluids", density, got["density"], 1e-6)
