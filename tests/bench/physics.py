"""How long a guided run and a whole flight take, and how many times as long scipy takes at the same tolerance, in one
run on this machine. Needs the packages of tests/reference/requirements.txt.

    python tests/bench/physics.py

Ours are the medians of shared/physics/examples/timing.rs; scipy integrates the same rocket, with one drag coefficient,
by its RK45, a pair of the same orders."""

import pathlib
import re
import statistics
import subprocess
import sys
import time

import numpy as np

ROOT = pathlib.Path(__file__).resolve().parent.parent.parent
sys.path.insert(0, str(ROOT / "tests" / "reference"))

import test_guided  # noqa: E402
from free_flight import flight  # noqa: E402

THRUST = [0, 5, 11, 13.5, 9, 6.4, 5.6, 5.3, 5.2, 5.1, 5.1, 5, 5, 4.9, 4.9, 4.8, 4.8, 4.6, 2.5, 0]
CURVE = [(1.8 * i / 19, 2.0 * f) for i, f in enumerate(THRUST)]
RUN = dict(mass=0.15, propellant=0.012, tilt=0.05, friction=0.2, side_force=0.3, drag=4e-4, front_leaves=0.7, last_leaves=1.0)


def main():
    build = ["cargo", "run", "-q", "--release", "-p", "finwright-physics", "--example", "timing"]
    said = subprocess.run(build, cwd=ROOT, check=True, capture_output=True, text=True).stdout
    ours = {m[1].strip(): float(m[2]) for m in re.finditer(r"^(.*?)\s+([\d.]+) us median", said, re.M)}

    solve = test_guided.solve_ivp
    at_ours = lambda *a, **k: solve(a[0], a[1], a[2], "RK45", **{**k, "rtol": 1e-9, "atol": 1e-10})
    test_guided.solve_ivp = at_ours
    run = test_guided.Scipy(CURVE, **RUN)
    leave = lambda: [run.run(lambda t, y, s=s: y[0] - s) for s in run.stops]
    t, (_, v) = leave()[1]
    guided = median(leave, 11)

    area = np.pi * 0.0208**2
    q = dict(
        curve=CURVE,
        dry=dict(mass=0.138, x=0.31, transverse=1.2e-3),
        propellant=dict(mass=0.012, x=0.52, transverse=1e-5),
        nozzle=0.563,
        area=area,
        body=[(2.0, 0.0622)],
        fins=[dict(points=[(0, 0), (0.038, 0.048), (0.078, 0.048), (0.07, 0)], count=3, body_radius=0.0208, x=0.49)],
        planform=0.0216,
        planform_x=0.32,
        k=1.1,
        cd=0.7,
        drag_area=0.127,
        delay=5.0,
        elevation=100.0,
        wind=4.0,
        wind_height=2.0,
        wind_exponent=1 / 7,
        release=dict(time=t, height=1.0, speed=v, tilt=0.05, rate=0.02),
    )
    whole = median(lambda: flight(q, rtol=1e-6, atol=1e-4, method="RK45", samples=0), 3)
    print("                          ours        scipy    ratio")
    for name, label, theirs in (("guided run", "guided run", guided), ("constant Cd", "flight, one Cd", whole)):
        print(f"{label:20} {ours[name]:8.2f} us {theirs:9.0f} us {theirs / ours[name]:8.0f}")
    print(f"{'flight, drag built up':20} {ours['whole flight']:7.2f} us")


def median(call, times):
    taken = []
    for _ in range(times):
        start = time.perf_counter()
        call()
        taken.append(1e6 * (time.perf_counter() - start))
    return statistics.median(taken)


if __name__ == "__main__":
    main()
