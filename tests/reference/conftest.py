"""Shared pieces: the Rust side's numbers, and the report of what was compared."""

import json
import pathlib
import subprocess
import sys

import pytest

HERE = pathlib.Path(__file__).parent
ROOT = HERE.parent.parent
sys.path.insert(0, str(HERE.parent))
import built  # noqa: E402

REPORT = HERE / "REPORT.md"
OUTSIDE = HERE / "outside"

HEAD = """\
# Ours and theirs

Written by `pytest tests/reference --write-report` and `pytest tests/reference/outside --write-report`, each its own
part; a whole run of either fails when its part is stale.

## How far one can trust a number

Most rows below say that finwright computes what it means to compute. Whether that is what a rocket does is another
question, which only the rows of kind `library` and `method` touch, and no row is a measurement.

* **Mass, balance, inertia**: the sums are right to 1e-5 of what the file says. What the file says decides.
* **A margin** is as good as Barrowman's method, not as its digits. Beside a vortex lattice with a body the whole
  normal-force slope is 12 to 23 % low, because the lift that fins put on the body is left out. With three or four ordinary
  fins the centre of pressure lies, on a rocket 8 calibres long, from 0.15 calibres too far forward to 0.07 too far aft; 12
  long, from 0.3 too far forward to 0.01 too far aft; 20 long, from 0.1 to 0.6 too far forward. The example designs' lies
  0.1 to 0.43 too far forward. All but those few hundredths are on the careful side. **Broad low fins are not**: with roots
  over 4 calibres and spans of about 1 it lies 0.3 to 0.5 calibres too far aft, so that a margin of 1.0 is more like 0.6.
  Small fins on a fat body: 1 too far forward. The lattice is itself good to about 0.1 calibres, and knows no separated
  flow, no thick fins and no angle beyond a few degrees. Tube fins against a body, and a margin in a gust, with the body's
  own lift: nobody has checked.
* **A margin by the second method**, which stands beside it where it differs by 0.1 calibres or more and is judged where it
  is the lesser, is a small lattice of our own: within 2 % of slope and 0.02 calibres of a fine one for 3 to 8 fins, roots of
  0.4 to 5.2 calibres and spans of 0.2 to 3, with no tip and swept forward too. Beside sources on the wall of a body that
  ends with the fins both lie up to 0.1 calibres off. Sets of fins are taken one by one, and fins on a cone as on a cylinder.
* **A height**: given the drag coefficient, the flight is right to 0.05 % beside a flight-dynamics engine. The drag itself
  is only the same published formulas worked twice, from memory. A fifth more or less of it, which is what such sums are
  usually off by (common practice, no source), moves the example designs' heights by 6 to 11 %: count on 10 %, and on more
  near Mach 0.9 or for an odd shape. One's own measured flights beat any sum.
* **A speed at the rod's end** hardly depends on the air: right to 1e-6 of what thrust curve, mass and length say.

## What the kinds mean

* `library`: an outside library or engine works it out by itself.
* `method`: another method, written in Python for these tests and itself checked against the outside.
* `solver`: our equations, written a second time in Python and solved by an outside integrator, quadrature or root finder.
  It shows that our numerics are right, not that the equations are.
* `again`: the same formula worked a second time in Python, or a published result, from memory. It shows slips of the pen.
* `fed`, behind one of these: finwright's own output is part of what they were given.

Rows that begin with "check of the lattice" have that Python lattice as "ours".

SI units. A difference is relative to theirs, rounded up to a power of ten, or to a digit in degrees, per cent or calibres
where the quantity says so; "limit" is what the test demands.
"""

COLUMNS = """
| quantity | source | kind | theirs | ours | difference | limit |
|---|---|---|---|---|---|---|
"""

# The report's parts, by the folder of the tests that write them.
PARTS = {HERE: "## Formulas, sums and flights", OUTSIDE: "## Motion and method"}

KINDS = {
    "Barrowman 1967": "again",
    "Barrowman 1967 by mpmath": "again",
    "Barrowman 1967, cross-flow": "again",
    "NACA TN 4197": "again",
    "Newton's law": "again",
    "aerosandbox": "library",
    "ambiance": "library",
    "finite elements, scipy eigh": "solver",
    "fluids": "library",
    "geometry": "again",
    "jsbsim": "library",
    "scipy": "solver",
    "scipy airy": "solver",
    "scipy DOP853": "solver",
    "scipy DOP853, Newton's law": "solver",
    "scipy DOP853, fluids": "solver",
    "scipy DOP853, optimize": "solver",
    "numpy": "solver",
    "scipy brentq": "solver",
    "scipy quad": "solver",
    "scipy quad, fluids": "solver",
    "scipy solve_bvp": "solver",
    "shapely": "library",
    "shapely buffer": "library",
    "slender-body theory": "again",
    "statics": "again",
    "sums over frusta": "again",
    "theory": "again",
    "trimesh": "library",
    "uncertainties": "library",
    "vortex lattice": "method",
    "vortex lattice, sources": "method",
}


def pytest_addoption(parser):
    parser.addoption("--write-report", action="store_true", help="write the run's part of REPORT.md anew")


def pytest_ignore_collect(collection_path, config):
    # The outside checks need packages of their own and run by themselves.
    asked = [pathlib.Path(argument.split("::")[0]).resolve() for argument in config.args]
    if collection_path == OUTSIDE and not any(path.is_relative_to(OUTSIDE) for path in asked):
        return True
    return None


def pytest_collection_modifyitems(items):
    # The report's own check reads what all other tests have put in.
    items.sort(key=lambda item: "report" in item.path.name)


@pytest.fixture(scope="session")
def program():
    """Path of the built `numbers` example."""
    return built.numbers()


@pytest.fixture(scope="session")
def ours(program):
    """Asks the Rust side: `ours("nose", shape="cone", ...)` gives its numbers."""

    def ask(what, **question):
        text = json.dumps([{"what": what, **question}])
        done = subprocess.run([program], input=text, capture_output=True, text=True)
        assert done.returncode == 0, done.stderr
        return json.loads(done.stdout)[0]

    return ask


@pytest.fixture(scope="session")
def finwright():
    """Runs the command: `finwright("show", path)` gives its output and exit status."""
    command = built.finwright()

    def run(*arguments):
        done = subprocess.run([command, *map(str, arguments)], capture_output=True, encoding="utf-8")
        assert not done.stderr, done.stderr
        return done.stdout, done.returncode

    return run


class Report:
    def __init__(self):
        self.rows = []

    def text(self):
        return COLUMNS + "".join(sorted(self.rows))


@pytest.fixture(scope="session")
def report():
    return Report()


@pytest.fixture
def compare(report):
    """`compare(quantity, source, theirs, ours, limit)`: asserts and notes a row in the report. The limit is relative, or
    `of` a unit: a number of calibres, degrees or the like that the difference may have. `fed` says that finwright's own
    output is part of theirs."""

    def check(quantity, source, theirs, ours, limit, of=None, fed=False):
        kind = KINDS[source] + (", fed" if fed else "")
        off = ours - theirs
        least, most = limit if isinstance(limit, tuple) else (-limit, limit)
        if of is None:
            off /= abs(theirs)
            shown = decade(abs(off))
            demand = f"{limit:.0e}"
        else:
            shown = f"{off:+.2g} {of}"
            demand = f"{least:g} to {most:+g} {of}"
        report.rows.append(f"| {quantity} | {source} | {kind} | {theirs:.6g} | {ours:.6g} | {shown} | {demand} |\n")
        assert least <= off <= most, f"{quantity}: theirs {theirs!r}, ours {ours!r}"

    return check


def decade(difference):
    """The power of ten that the difference stays under, from 1e-9 up: below, machines may differ."""
    power = -9
    while difference > 10.0**power:
        power += 1
    return f"< 1e{power}"


def parts(text):
    """The report's text by its parts: the head, then each part of `PARTS` by its heading."""
    headings = list(PARTS.values())
    found = {None: ""}
    at = None
    for line in text.splitlines(keepends=True):
        at = line.strip() if line.strip() in headings else at
        found[at] = found.get(at, "") + line
    return found


def written(folder, report):
    """The whole report with the part of this folder's tests anew."""
    old = parts(REPORT.read_text(encoding="utf-8")) if REPORT.exists() else {}
    own = f"\n{PARTS[folder]}\n{report.text()}"
    others = {heading: "\n" + old[heading].strip("\n") + "\n" for heading in PARTS.values() if heading in old}
    return HEAD + "".join(own if at == folder else others.get(heading, "") for at, heading in PARTS.items())


def rows(text):
    """(quantity, source, kind, limit) and (theirs, ours) of every row. The differences aren't compared: another machine's
    last bits may move them over a power of ten."""
    cells = [[cell.strip() for cell in line.split("|")[1:-1]] for line in text.splitlines() if line.startswith("| ")]
    names = [(c[0], c[1], c[2], c[6]) for c in cells[1:]]
    numbers = [float(c[i]) for c in cells[1:] for i in (3, 4)]
    return names, numbers


def check_fresh(folder, request, report):
    """That REPORT.md holds its head and what this whole run of a folder's tests compared; writes it where asked to."""
    collected = {item.path.name for item in request.session.items}
    whole = {path.name for path in folder.glob("test_*.py")} == collected
    if not whole or request.config.option.keyword:
        pytest.skip("only a whole run can tell")
    assert report.rows
    if request.config.getoption("--write-report"):
        REPORT.write_text(written(folder, report), encoding="utf-8")
    text = REPORT.read_text(encoding="utf-8")
    assert text.startswith(HEAD), "stale: run with --write-report"
    names, numbers = rows(parts(text)[PARTS[folder]])
    now, fresh = rows(report.text())
    assert names == now, "stale: run with --write-report"
    assert numbers == pytest.approx(fresh, rel=2e-5, abs=1e-9), "stale: run with --write-report"
