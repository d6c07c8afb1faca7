"""Bent guides against scipy's boundary-value solver; frequencies against a beam of finite elements."""

import numpy as np
import pytest
from scipy.integrate import solve_bvp
from scipy.linalg import eigh

# 4 mm and 1/4 in steel rods, a rail of aluminium: sizes and moduli from general tables.
GUIDES = {
    "4 mm rod": dict(length=1.2, modulus=200e9, second_moment=np.pi * 0.004**4 / 64, mass_per_length=0.0986),
    "1/4 in rod": dict(length=1.2192, modulus=200e9, second_moment=np.pi * 0.00635**4 / 64, mass_per_length=0.2486),
    "1 in rail": dict(length=2.4, modulus=68.9e9, second_moment=1.8314e-8, mass_per_length=0.76),
}


@pytest.mark.parametrize("guide", GUIDES)
def test_bend(ours, compare, guide):
    """EI y'' = M(x) with a load part of the way up and an even load, as a boundary-value problem."""
    beam = GUIDES[guide]
    length, stiffness = beam["length"], beam["modulus"] * beam["second_moment"]
    load, at, even = 1.7, 0.62 * length, 0.9

    def slope(x, y):
        moment = load * np.maximum(at - x, 0) + even * (length - x) ** 2 / 2
        return np.array([y[1], moment / stiffness])

    x = np.unique(np.concatenate([np.linspace(0, at, 400), np.linspace(at, length, 400)]))
    start = np.zeros((2, x.size))
    done = solve_bvp(slope, lambda a, b: np.array([a[0], a[1]]), x, start, tol=1e-10, max_nodes=200_000)
    assert done.success
    got = ours("beam", **beam, load=load, at=at, even=even, tip_mass=0.3)
    compare(f"{guide}: tip's movement", "scipy solve_bvp", done.sol(length)[0], got["tip"], 1e-6)
    compare(f"{guide}: tip's slope", "scipy solve_bvp", done.sol(length)[1], got["slope"], 1e-6)
    root = slope(np.zeros(1), np.zeros((2, 1)))[1, 0] * stiffness
    compare(f"{guide}: moment at the clamp", "statics", root, got["root_moment"], 1e-12)


@pytest.mark.parametrize("guide", GUIDES)
@pytest.mark.parametrize("tip_mass", [0.0, 0.1, 2.0])
def test_first_frequency(ours, compare, guide, tip_mass):
    """Twenty Euler-Bernoulli beam elements with consistent masses, by scipy.linalg.eigh."""
    beam = GUIDES[guide]
    count = 20
    h = beam["length"] / count
    stiffness = beam["modulus"] * beam["second_moment"]
    k = stiffness / h**3 * np.array(
        [[12, 6 * h, -12, 6 * h], [6 * h, 4 * h * h, -6 * h, 2 * h * h], [-12, -6 * h, 12, -6 * h], [6 * h, 2 * h * h, -6 * h, 4 * h * h]]
    )
    m = beam["mass_per_length"] * h / 420 * np.array(
        [[156, 22 * h, 54, -13 * h], [22 * h, 4 * h * h, 13 * h, -3 * h * h], [54, 13 * h, 156, -22 * h], [-13 * h, -3 * h * h, -22 * h, 4 * h * h]]
    )
    whole_k, whole_m = np.zeros((2, 2 * count + 2, 2 * count + 2))
    for i in range(count):
        part = slice(2 * i, 2 * i + 4)
        whole_k[part, part] += k
        whole_m[part, part] += m
    whole_m[-2, -2] += tip_mass
    lowest = eigh(whole_k[2:, 2:], whole_m[2:, 2:], eigvals_only=True, subset_by_index=[0, 0])[0]
    got = ours("beam", **beam, load=0.0, at=0.0, even=0.0, tip_mass=tip_mass)
    label = f"{guide} with {tip_mass:g} kg: first frequency"
    compare(label, "finite elements, scipy eigh", np.sqrt(lowest) / (2 * np.pi), got["frequency"], 1e-6)
