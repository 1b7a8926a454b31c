"""The report of published values: `pytest -m published --published-report`."""

from __future__ import annotations

import pytest

from tests.published import LEAST_PLACES, places_table


def pytest_addoption(parser: pytest.Parser) -> None:
    parser.addoption(
        "--published-report",
        action="store_true",
        help=f"list published values by source and place; fewer than {LEAST_PLACES} places is a failure",
    )


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    for item in items:
        mark = item.get_closest_marker("published")
        if mark is not None:
            item.user_properties.append(("published", (mark.kwargs["source"], mark.kwargs["place"])))


def _held(reporter: pytest.TerminalReporter) -> tuple[list[str], int]:
    passed = reporter.stats.get("passed", [])
    # Beside other workers a tuple comes back as a list.
    return places_table(
        tuple(value) for report in passed for name, value in report.user_properties if name == "published"
    )


def pytest_terminal_summary(terminalreporter: pytest.TerminalReporter, config: pytest.Config) -> None:
    if config.getoption("published_report"):
        terminalreporter.section("published values that hold")
        for line in _held(terminalreporter)[0]:
            terminalreporter.line(line)


@pytest.hookimpl(trylast=True)
def pytest_sessionfinish(session: pytest.Session) -> None:
    reporter = session.config.pluginmanager.get_plugin("terminalreporter")
    if session.config.getoption("published_report") and reporter is not None and _held(reporter)[1] < LEAST_PLACES:
        session.exitstatus = pytest.ExitCode.TESTS_FAILED
