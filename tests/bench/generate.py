#!/usr/bin/env python3
"""Make a folder of designs of about 100 lines for timing: the examples, with other numbers and more flights.

  generate.py FOLDER [COUNT] [LINES]

The same arguments give the same files.  Every number with a unit is scaled by up to 3 %, so that no two files are alike.
"""
import pathlib, random, re, sys

EXAMPLES = sorted((pathlib.Path(__file__).parent.parent / "designs" / "good").glob("*.finw"))
NUMBER = re.compile(r"(?<![\w./])(\d+(?:\.\d+)?)( (?:mm|g|N|m|s)\b)")


def design(seed, lines):
    rng = random.Random(seed)
    text = EXAMPLES[seed % 4].read_text(encoding="utf-8")
    flight = next(line for line in text.splitlines() if line.startswith("flight "))
    # One factor a file keeps parts that fit each other fitting.
    scale = 1 + rng.uniform(-0.03, 0.03)
    text = NUMBER.sub(lambda m: f"{float(m[1]) * scale:.6g}{m[2]}", text)
    more = 0
    while text.count("\n") < lines:
        more += 1
        if more % 8 == 0:
            text += re.sub(r"flight \w+", f"flight extra_{more}", flight) + "\n"
        else:
            text += f"let spare_{more} = {rng.uniform(10, 99):.2f} mm * 2 + 1/8 in   # a value that nothing uses\n"
    return text


def main():
    folder = pathlib.Path(sys.argv[1])
    count = int(sys.argv[2]) if len(sys.argv) > 2 else 10_000
    lines = int(sys.argv[3]) if len(sys.argv) > 3 else 100
    for i in range(count):
        sub = folder / f"d{i // 500:03d}"
        sub.mkdir(parents=True, exist_ok=True)
        (sub / f"f{i:05d}.finw").write_text(design(i, lines), encoding="utf-8")


if __name__ == "__main__":
    main()
