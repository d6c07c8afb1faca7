"""REPORT.md says what the tests of this run compared. Runs last."""

from conftest import HERE, check_fresh


def test_report_is_fresh(request, report):
    check_fresh(HERE, request, report)
