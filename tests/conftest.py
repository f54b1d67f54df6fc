"""A test that did not run proves nothing: with MULEWRIGHT_NO_SKIPS set, skips fail the whole run."""

import os
from pathlib import Path

import pytest

from tests import values

UNPROVED = ("skipped", "xfailed", "xpassed")


def unproved(reporter: pytest.TerminalReporter) -> list[str]:
    """One line for each test that was left out or excused."""
    return [
        f"{outcome}: {getattr(report, 'nodeid', report)}"
        for outcome in UNPROVED
        for report in reporter.stats.get(outcome, [])
    ]


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    if os.environ.get(values.ASKED):
        values.keep_comparisons(items)


def pytest_sessionfinish(session: pytest.Session) -> None:
    if file := os.environ.get(values.ASKED):
        values.write(Path(file))
    reporter = session.config.pluginmanager.get_plugin("terminalreporter")
    if not os.environ.get("MULEWRIGHT_NO_SKIPS") or not isinstance(reporter, pytest.TerminalReporter):
        return
    if left_out := unproved(reporter):
        reporter.write_line("")
        for line in left_out:
            reporter.write_line(f"not allowed here, {line}", red=True)
        session.exitstatus = pytest.ExitCode.TESTS_FAILED
