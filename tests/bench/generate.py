#!/usr/bin/env python3
"""Make a folder of designs of about 100 lines for timing: the examples, with other numbers and more motors to fly.

  generate.py FOLDER [COUNT] [LINES]

The same arguments give the same files.  Every number with a unit is scaled by up to 3 %, so that no two files are alike.
Real files grow by motors: each one more is a thrust curve of some twenty points, a line each, and a flight with it.
"""
import pathlib, random, re, sys

GOOD = pathlib.Path(__file__).parent.parent / "designs" / "good"
# Named, so that a table of today is of the same designs as last month's.
EXAMPLES = [GOOD / f"{name}.finw" for name in ("barn_owlet", "class_kit", "dune_lark", "fen_raft_spider")]
# A guide made for a section of another size than rails have would fit none.
NUMBER = re.compile(r"(?<![\w./])(?<!profile: )(\d+(?:\.\d+)?)( (?:mm|g|N|m|s)\b)")
POINTS = 20


def motor(text, name, rng):
    """One more motor like the first of the text, its curve with more points."""
    block = re.search(r"^motor \w+ \{.*?^\}", text, re.M | re.S)[0]
    field = {word: re.search(rf"\b{word}: ([^;\n]+)", block)[1] for word in ("diameter", "length", "mass", "propellant", "delay")}
    curve = re.search(r"curve: \[(.*?)\]", block, re.S)[1]
    points = [tuple(float(n) for n in re.findall(r"([\d.]+) [sN]", row)) for row in curve.split(",") if row.strip()]
    push = 1 + rng.uniform(-0.05, 0.05)
    rows = ["0 s: 0 N"]
    for i in range(1, POINTS):
        t = points[-1][0] * i / POINTS
        (t0, f0), (t1, f1) = next(pair for pair in zip(points, points[1:]) if pair[0][0] <= t <= pair[1][0])
        rows.append(f"{t:.4f} s: {push * (f0 + (f1 - f0) * (t - t0) / (t1 - t0)):.3f} N")
    rows.append(f"{points[-1][0]:.4f} s: 0 N")
    fields = "; ".join(f"{word}: {value}" for word, value in field.items())
    return f"\nmotor {name} {{\n  {fields}\n  curve: [\n    " + ",\n    ".join(rows) + "\n  ]\n}\n"


def design(seed, lines):
    rng = random.Random(seed)
    text = EXAMPLES[seed % len(EXAMPLES)].read_text(encoding="utf-8")
    flight = next(line for line in text.splitlines() if line.startswith("flight "))
    # One factor a file keeps parts that fit each other fitting.
    scale = 1 + rng.uniform(-0.03, 0.03)
    text = NUMBER.sub(lambda m: f"{float(m[1]) * scale:.6g}{m[2]}", text)
    more = 0
    while text.count("\n") < lines:
        more += 1
        text += motor(text, f"more_{more}", rng)
        text += re.sub(r"motor: \w+", f"motor: more_{more}", re.sub(r"flight \w+", f"flight with_{more}", flight)) + "\n"
    return text


def main():
    if len(sys.argv) < 2 or sys.argv[1].startswith("-"):
        sys.exit(__doc__)
    folder = pathlib.Path(sys.argv[1])
    count = int(sys.argv[2]) if len(sys.argv) > 2 else 10_000
    lines = int(sys.argv[3]) if len(sys.argv) > 3 else 100
    for i in range(count):
        sub = folder / f"d{i // 500:03d}"
        sub.mkdir(parents=True, exist_ok=True)
        (sub / f"f{i:05d}.finw").write_text(design(i, lines), encoding="utf-8")


if __name__ == "__main__":
    main()
