"""Links that nobody wrote are found, and no check concludes anything from what was not found behind them."""

from __future__ import annotations

import pytest

from mulewright.checks import CHECKS
from mulewright.checks.engine import Outcome, run
from mulewright.design.unsaid import CONTROL_KINDS, FEEDS, MIX_INPUTS, SERVO_SIGNALS, SIGNALS, WIRES, unsaid
from tests.designs import evaluation, mule


@pytest.mark.parametrize(
    ("setting", "pattern"),
    [
        ("controller.left.feeds", FEEDS),
        ("controller.left.signal", SIGNALS),
        ("wire.branches.path", WIRES),
        ("radio.mix.0.inputs", MIX_INPUTS),
    ],
)
def test_a_link_that_was_left_out_is_found(setting: str, pattern: str) -> None:
    assert list(unsaid(mule("tray-cart").file, pattern)) == []
    assert list(unsaid(mule("tray-cart", (f"{setting}=?",)).file, pattern)) == [setting]


def test_what_is_not_there_at_all_says_nothing() -> None:
    assert list(unsaid(mule("tray-cart").file, SERVO_SIGNALS)) == []
    assert list(unsaid(mule("soft-fruit-gripper").file, CONTROL_KINDS)) == []  # it has no radio


@pytest.mark.parametrize(
    ("id", "design", "link"),
    [
        ("M01", "log-winch", "controller.winch.feeds"),
        ("P26", "log-winch", "controller.winch.feeds"),
        ("R07", "seed-ball-thrower", "controller.flywheel.feeds"),
        ("P16", "hose-tug", "wire.main.path"),
        ("P30", "vine-lift", "wire.branches.path"),
        ("P27", "vine-lift", "controller.lift.feeds"),
        ("S13", "leaf-sweeper", "controller.roller.feeds"),
        ("S20", "hose-tug", "radio.mix.0.channels"),
        ("S23", "leaf-sweeper", "radio.mix.0.kind"),
        ("S25", "soft-fruit-gripper", "servo.left.signal"),
        ("S45", "hose-tug", "mixer.tug.forward"),
    ],
)
def test_a_check_names_the_link_that_it_needs(id: str, design: str, link: str) -> None:
    before = run(evaluation(design), [CHECKS[id]])
    found = run(evaluation(design, (f"{link}=?",)), [CHECKS[id]])
    told = [verdict for verdict in found if verdict.outcome is Outcome.CANNOT_TELL]
    assert any(link in verdict.needs for verdict in told), found
    assert not any(verdict.outcome is Outcome.CANNOT_TELL and link in verdict.needs for verdict in before)


def test_a_controller_that_feeds_nothing_says_so_with_an_empty_list() -> None:
    found = run(evaluation("tray-cart", ("controller.spare={ feeds = [] }",)), [CHECKS["M01"], CHECKS["M03"]])
    assert not any(verdict.outcome is Outcome.CANNOT_TELL and not verdict.entity for verdict in found)


@pytest.mark.parametrize("id", ["R07", "S13", "S14"])
def test_where_there_can_be_none_of_a_kind_nothing_is_asked_for(id: str) -> None:
    (told,) = run(evaluation("tray-cart", ("controller.left.feeds=?",)), [CHECKS[id]])
    assert told.outcome is Outcome.NOT_APPLICABLE  # neither a flywheel nor a switch is in the plan


def test_a_link_is_asked_for_once() -> None:
    found = run(evaluation("tray-cart", ("controller.left.feeds=?",)), [CHECKS["R08"]])
    assert [verdict.entity for verdict in found if "controller.left.feeds" in verdict.needs] == ["drive"]
