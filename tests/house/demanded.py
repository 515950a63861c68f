"""Where REPAIRLOG_REQUIRE_ALL=1 demands every test, one that was skipped has failed; elsewhere tests that are skipped
for one reason are told in one line. A plugin of pytest."""

import os
from collections.abc import Generator

import pytest

NOBODY_INSTALLS = "REPAIRLOG_FILINGS names no folder with real lists"
"""Why a test of real lists is skipped. They are no part of the project and in no registry, so where they do not lie
beside the checkout nobody can demand them."""


@pytest.hookimpl(wrapper=True)
def pytest_runtest_makereport() -> Generator[None, pytest.TestReport, pytest.TestReport]:
    """For a test that skips itself, or whose fixture does."""
    return _demanded((yield))


@pytest.hookimpl(wrapper=True)
def pytest_make_collect_report() -> Generator[None, pytest.CollectReport, pytest.CollectReport]:
    """For a file that skips itself as a whole."""
    return _demanded((yield))


def _demanded(report):
    if report.skipped and isinstance(report.longrepr, tuple):
        _path, _line, reason = report.longrepr
        report.longrepr = ("tests", None, reason)  # pytest folds into one line what was skipped at one place
    demanded = os.environ.get("REPAIRLOG_REQUIRE_ALL") == "1" and NOBODY_INSTALLS not in str(report.longrepr)
    if demanded and report.skipped and not hasattr(report, "wasxfail"):
        report.outcome = "failed"
        report.longrepr = f"skipped, where REPAIRLOG_REQUIRE_ALL=1 demands every test: {report.longrepr}"
    return report
