"""REPORT.md says what the outside checks of this run compared. Runs last."""

from conftest import OUTSIDE, check_fresh


def test_report_is_fresh(request, report):
    check_fresh(OUTSIDE, request, report)
