"""Texts to time with: designs, and Python that holds as much."""

import pathlib
import random
import re

import generate

WORDS = "wind height speed mass length tilt thrust drag lean margin travel time".split()


def python(seed, lines=None, size=None):
    """Small functions, until there are so many lines, or so many bytes."""
    rng = random.Random(seed)
    text, count = '"""Made for timing."""\n', 0
    while (lines and text.count("\n") < lines) or (size and len(text) < size):
        count += 1
        one, other, third = rng.sample(WORDS, 3)
        text += f"\n\ndef f{count}({one}, {other}):\n    {third} = {one} * {rng.randint(2, 99)}\n"
        text += f"    if {third} > {other}:\n        return {third}\n    return {other}\n"
    return text


def python_folder(folder, count, size):
    for i in range(count):
        sub = folder / f"d{i // 500:03d}"
        sub.mkdir(parents=True, exist_ok=True)
        (sub / f"f{i:05d}.py").write_text(python(i, size=size), encoding="utf-8")


def pads(count):
    """A design with so many pads, and the place of its flight's name."""
    text = (generate.EXAMPLES[0].parent / "dune_lark.finw").read_text(encoding="utf-8")
    more = ""
    for i in range(1, count):
        length = 900 + 40 * i
        rail = f"rod {{ diameter: {3 + i % 4} mm; length: {length} mm; material: steel }}; end: capped"
        if i % 2:
            rail = f"rail {{ slot: {('mini', 'slim', 'standard')[i % 3]}; length: {length} mm }}"
        more += f"pad more{i} {{ {rail}; stop: 50 mm; tilt: 2 deg }}\n"
    return text.replace("\nsite ", f"\n{more}site ")


def comment_spot(text, mark):
    """The text with a comment of six digits on the blank line nearest to its middle, and where the digits stand."""
    lines = text.split("\n")
    middle = len(lines) // 2
    line = min((i for i, line in enumerate(lines) if not line), key=lambda i: abs(i - middle))
    lines[line] = f"{mark} 000000"
    return "\n".join(lines), (line, len(mark) + 1)


def mass_spot(text):
    """The text with six decimals on the mass of its cord, which every flight carries, and where the decimals stand."""
    found = re.search(r"cord {[^}]*mass: (\d+)(\.\d+)? g", text)
    start = found.end(1)
    text = text[:start] + ".000000" + text[found.end() - 2:]
    before = text[:start + 1]
    return text, (before.count("\n"), len(before) - before.rfind("\n") - 1)
