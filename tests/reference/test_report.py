"""REPORT.md says what the tests of this run compared. Runs last."""

import pytest
from conftest import HERE, REPORT


def test_report_is_fresh(request, report):
    collected = {item.path.name for item in request.session.items}
    whole = {path.name for path in HERE.glob("test_*.py")} == collected
    if not whole or request.config.option.keyword:
        pytest.skip("only a whole run can tell")
    assert report.rows
    if request.config.getoption("--write-report"):
        REPORT.write_text(report.text(), encoding="utf-8")
    assert REPORT.read_text(encoding="utf-8") == report.text(), "stale: run with --write-report"
