"""REPORT.md says what the tests of this run compared. Runs last."""

import pytest
from conftest import HERE, REPORT


def rows(text):
    """(quantity, source, limit) and (theirs, ours) of every row. The differences aren't compared:
    another machine's last bits may move them over a power of ten."""
    cells = [[cell.strip() for cell in line.split("|")[1:-1]] for line in text.splitlines() if line.startswith("| ")]
    names = [(c[0], c[1], c[5]) for c in cells[1:]]
    numbers = [float(c[i]) for c in cells[1:] for i in (2, 3)]
    return names, numbers


def test_report_is_fresh(request, report):
    collected = {item.path.name for item in request.session.items}
    whole = {path.name for path in HERE.glob("test_*.py")} == collected
    if not whole or request.config.option.keyword:
        pytest.skip("only a whole run can tell")
    assert report.rows
    if request.config.getoption("--write-report"):
        REPORT.write_text(report.text(), encoding="utf-8")
    names, numbers = rows(REPORT.read_text(encoding="utf-8"))
    now, fresh = rows(report.text())
    assert names == now, "stale: run with --write-report"
    assert numbers == pytest.approx(fresh, rel=2e-5), "stale: run with --write-report"
