"""The rows of the table that `compare` prints: (work, ours, beside, ratio, must, aim, whether more is better)."""

import json
import os
import pathlib
import re
import statistics
import subprocess
import sys
import time
from dataclasses import dataclass

import generate
import texts
from client import Editor

ROUNDS = 5
SIX = 6


@dataclass
class Sides:
    """Where everything is that takes part."""

    built: pathlib.Path
    tools: pathlib.Path
    work: pathlib.Path
    root: pathlib.Path

    def ours(self, path):
        return Editor([self.built / "finwright", "lsp"], path, "finwright")

    def ruff(self, path):
        return Editor([self.tools / "ruff", "server"], path, "python")

    def echo(self, path):
        return Editor([sys.executable, pathlib.Path(__file__).parent / "echo.py"], path, "plaintext")

    def file(self, name, text):
        folder = self.work / "editor" / name.replace(".", "_")
        folder.mkdir(parents=True, exist_ok=True)
        (folder / name).write_text(text, encoding="utf-8")
        return folder / name


def all_rows(sides, quick):
    yield batch(sides, 1_000 if quick else 10_000)
    spread = []
    for lines, must in ((100, 1.5), (500, 1.2), (5_000, 1.2)):
        row, tails = typing(sides, lines, comments, 30 if quick else 100)
        spread.append((f"comment, {lines:,} lines", tails))
        yield (f"a comment changes, {lines:,} lines, against ruff", *row, must, 1, False)
    row, tails = typing(sides, 5_000, numbers, 20 if quick else 60)
    spread.append(("180 flights, 5,000 lines", tails))
    yield ("a number moves 180 flights, 5,000 lines, against ruff", *row, 4, 2, False)
    for name, (ours, echo) in spread:
        yield (f"p99 over p50: {name}", f"{ours:.2f}", f"{echo:.2f}", ours, max(3, 1.5 * echo), 2, False)
    yield flight(sides, 200 if quick else 2_000)
    yield reading(sides)
    yield from hovering(sides, 5 if quick else 10)
    yield growth(sides, 3_000 if quick else 30_000)


def batch(sides, count):
    """The command line over a folder of designs, against ruff over Python of the same size, in processor time."""
    designs, python = sides.work / f"designs{count}", sides.work / f"python{count}"
    if not designs.exists():
        subprocess.run([sys.executable, pathlib.Path(generate.__file__), designs, str(count)], check=True)
        texts.python_folder(python, count, 3_800)
    ours = [sides.built / "finwright", "check", "--format", "line", designs]
    ruff = [sides.tools / "ruff", "check", "--no-cache", "--isolated", python]
    for command in (ours, ruff):
        run(command)
    pairs = [(run(ours), run(ruff)) for _ in range(ROUNDS)]
    return (f"check of {count:,} designs, against ruff", *told(pairs, "s", 1), 3, 1.5, False)


def run(command):
    """Seconds of the processors that a command takes, its children's with it: others' work doesn't count."""
    before = os.times()
    ended = subprocess.run(command, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
    if ended.returncode not in (0, 1):
        raise OSError(f"{command} ended with {ended.returncode}")
    after = os.times()
    return after.children_user - before.children_user + after.children_system - before.children_system


def told(pairs, unit, scale):
    """Both medians in words, and the median of the ratios."""
    ours, beside = (statistics.median(side) for side in zip(*pairs))
    ratio = statistics.median(one / other for one, other in pairs)
    return f"{ours * scale:.2f} {unit}", f"{beside * scale:.2f} {unit}", ratio


def typing(sides, lines, edits, times):
    """Change to diagnostics, in rounds that take turns, against ruff; and the tails of ours and of the echo."""
    design, python = generate.design(0, lines), texts.python(2, lines=lines)
    design, spot = edits(design, "#")
    python, ruff_spot = texts.comment_spot(python, "#")
    path, ruff_path = sides.file(f"typing{lines}.finw", design), sides.file(f"typing{lines}.py", python)
    pairs, tails = [], []
    with sides.ours(path) as ours, sides.ruff(ruff_path) as ruff, sides.echo(path) as echo:
        for number in range(ROUNDS + 1):
            mine = [change(ours, spot, i) for i in counted(number, times)]
            theirs = [change(ruff, ruff_spot, i) for i in counted(number, times)]
            bare = [change(echo, spot, i) for i in counted(number, times)]
            if number > 0:
                pairs.append((statistics.median(mine), statistics.median(theirs)))
                tails.append((tail(mine), tail(bare)))
    return told(pairs, "ms", 1e3), tuple(statistics.median(side) for side in zip(*tails))


def comments(text, mark):
    return texts.comment_spot(text, mark)


def numbers(text, _):
    return texts.mass_spot(text)


def counted(number, times):
    return range(1 + number * times, 1 + (number + 1) * times)


def change(editor, spot, count):
    """Six digits become others, so that no text comes twice."""
    return editor.change(spot, (spot[0], spot[1] + SIX), f"{count:06d}")


def tail(seconds):
    """The time that one in a hundred exceeds, over the median."""
    ordered = sorted(seconds)
    return ordered[-(-len(ordered) * 99 // 100) - 1] / statistics.median(ordered)


def flight(sides, times):
    """One flight to the ground, against scipy by its pair of fifth and fourth order at the same tolerance as ours."""
    sys.path.insert(0, str(sides.root / "tests" / "reference"))
    from free_flight import flight as fly

    question = json.loads((pathlib.Path(__file__).parent / "flight.json").read_text(encoding="utf-8"))
    asked = json.dumps([{**question, "what": "flight", "times": times}]).encode()
    example = sides.built / "examples" / "numbers"
    pairs = []
    for _ in range(ROUNDS):
        answer = subprocess.run([example], input=asked, capture_output=True, check=True).stdout
        begun = time.perf_counter()
        fly(question, rtol=1e-6, atol=1e-4, method="RK45", samples=0)
        pairs.append((time.perf_counter() - begun, json.loads(answer)[0]["seconds"]))
    scipy, ours, ratio = told(pairs, "us", 1e6)
    return ("a flight to the ground, times as quick as scipy", ours, scipy, ratio, 1_500, 3_000, True)


def reading(sides):
    """Reading whole designs, against the grammar alone; where the example that reads both ways is built."""
    example = sides.built / "examples" / "reading"
    work = "reading designs, times as quick as the grammar alone"
    if not example.exists():
        return (work, "", "", None, 4, 8, True)
    files = sorted((sides.work / "designs1000").rglob("*.finw"))[:200]
    files = files or sorted(next(sides.work.glob("designs*")).rglob("*.finw"))[:200]
    said = subprocess.run([example, "both", "11", *files], capture_output=True, text=True, check=True).stdout
    ratio, each = (float(n) for n in re.search(r"([\d.]+) times as quick, ([\d.]+) ns", said).groups())
    return (work, f"{each:.0f} ns a line", "", ratio, 4, 8, True)


def hovering(sides, times):
    """The flight's hover, which compares every pad, against a plain one; and a change sent while it's worked out."""
    text, spot = texts.mass_spot(texts.pads(43))
    lines = text.split("\n")
    flight = next(i for i, line in enumerate(lines) if line.startswith("flight "))
    path = sides.file("pads.finw", text)
    pairs, typing = [], []
    with sides.ours(path) as editor:
        for number in range(ROUNDS):
            great, plain, alone, meanwhile = [], [], [], []
            for i in range(times):
                count = 1 + 3 * (number * times + i)
                change(editor, spot, count)
                seconds, said = editor.hover(flight, 8)
                if said is None or "more42" not in json.dumps(said):
                    raise ValueError("the hover doesn't compare the pads")
                great.append(seconds)
                plain.append(editor.hover(spot[0], spot[1])[0])
                alone.append(change(editor, spot, count + 1))
                editor.settle()
                editor.send_hover(flight, 8)
                time.sleep(0.005)
                meanwhile.append(change(editor, spot, count + 2))
            median = statistics.median
            pairs.append((median(great), median(plain)))
            typing.append((median(meanwhile), median(alone)))
    yield ("hover on a flight with 43 pads, against a plain one", *told(pairs, "ms", 1e3), 200, "", False)
    yield ("typing during that hover, against without", *told(typing, "ms", 1e3), 1.5, 1, False)


def growth(sides, edits):
    """Memory from a tenth of the edits to the last, half of them of a comment and half of a number."""
    text, remark = texts.comment_spot(generate.design(0, 600), "#")
    text, mass = texts.mass_spot(text)
    held = []
    with sides.ours(sides.file("growing.finw", text)) as editor:
        for count in range(1, edits + 1):
            change(editor, (remark, mass)[count % 2], count)
            if count * 10 % edits == 0:
                held.append(editor.memory())
    grown = max(held[1:]) - held[0]
    work = f"MB grown over {edits:,} edits of 600 lines"
    return (work, f"{held[0]:.1f} to {max(held[1:]):.1f} MB", "", grown, 2, "", False)
