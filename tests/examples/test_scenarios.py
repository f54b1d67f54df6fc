"""Exactly the findings that each shipped mule must give."""

from __future__ import annotations

import pytest

from mulewright.checks.engine import Outcome, Severity
from mulewright.tasks.checking import CheckReport, check_file
from tests.designs import DESIGNS, EXAMPLES
from tests.examples.scenarios import SCENARIOS, Scenario

each_scenario = pytest.mark.parametrize("scenario", SCENARIOS, ids=lambda scenario: scenario.title)


def report(scenario: Scenario) -> CheckReport:
    return check_file(EXAMPLES / scenario.design / "mule.toml", variant=scenario.variant)


def ids(of: CheckReport, outcome: Outcome) -> set[str]:
    return {verdict.check.id for verdict in of.of(outcome)}


@each_scenario
def test_exactly_these_trip(scenario: Scenario) -> None:
    found = report(scenario)
    assert ids(found, Outcome.TRIP) == scenario.named | scenario.besides.keys()
    assert ids(found, Outcome.CANNOT_TELL) == scenario.unknown
    assert all(reason for reason in scenario.besides.values())


@each_scenario
def test_those_stay_quiet(scenario: Scenario) -> None:
    found = report(scenario)
    assert scenario.quiet <= ids(found, Outcome.PASS) | ids(found, Outcome.NOT_APPLICABLE)
    assert not scenario.quiet & ids(found, Outcome.TRIP)


@each_scenario
def test_what_was_tried_clears_what_it_says(scenario: Scenario) -> None:
    before = ids(check_file(EXAMPLES / scenario.design / "mule.toml"), Outcome.TRIP)
    assert scenario.clears <= before
    assert not scenario.clears & ids(report(scenario), Outcome.TRIP)


def test_every_shipped_mule_is_held_to_its_list() -> None:
    held = {scenario.design for scenario in SCENARIOS} | {
        "two-benches"
    }  # which is held to its own, with its target
    assert held == set(DESIGNS)


def test_the_control_case_has_notes_only() -> None:
    found = report(SCENARIOS[0])
    assert {verdict.severity for verdict in found.of(Outcome.TRIP)} == {Severity.NOTE}


@pytest.mark.parametrize(
    ("id", "severity"),
    [
        ("R02", Severity.BLOCK),
        ("P02", Severity.WARN),
        ("P06", Severity.WARN),
        ("S11", Severity.STOP),
        ("M06", Severity.NOTE),
    ],
)
def test_severities_of_the_aisle_carrier(id: str, severity: Severity) -> None:
    found = [verdict for verdict in report(SCENARIOS[1]).of(Outcome.TRIP) if verdict.check.id == id]
    assert max(verdict.severity for verdict in found) is severity
