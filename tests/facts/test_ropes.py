"""Ropes of the log winch and the vine lift, worked by hand: pull, strength, layers, stages."""

from __future__ import annotations

import numpy as np
import pytest

from mulewright.facts.ropes import LiftPullFacts, WinchRopeFacts
from tests.designs import evaluation
from tests.published import as_printed

WINCH = "mechanism.winch"


def winch(*sets: str) -> WinchRopeFacts:
    return evaluation("log-winch", sets).entity(WinchRopeFacts, WINCH)


def test_pull_of_the_log_winch_held_fast() -> None:
    # 16.6 A less 0.9 A, times 0.471 N m/A, over the 17 mm of the first layer
    assert winch().stall_pull == as_printed("436")
    assert winch("radio.channel.3.travel=63 %").stall_pull == as_printed("237")


def test_a_knot_halves_and_lifting_asks_more_than_pulling() -> None:
    assert winch().allowed_pull == pytest.approx(400 / 5)
    assert winch("mechanism.winch.use=pulling").allowed_pull == pytest.approx(400 / 3)
    assert winch("mechanism.winch.rope.knots=true").allowed_pull == pytest.approx(400 / 2 / 5)


def test_two_motors_pull_twice() -> None:
    stiff = ("battery.main.resistance=0.000001 ohm", "wire.main.length=0.000001 m")
    second = ("motor.second={part='gm-heavy', turns='mechanism.winch'}",)
    feeds = ("controller.winch.feeds=['motor.winch', 'motor.second']",)
    assert winch(*stiff, *second, *feeds).stall_pull / winch(*stiff).stall_pull == pytest.approx(2, rel=1e-5)


def test_drum_grows_by_half_in_three_layers() -> None:
    assert winch().radius_growth == as_printed("0.47")  # 17 mm to 25 mm


def test_efficiency_of_the_lift_counts_once() -> None:
    lift = evaluation("vine-lift").entity(LiftPullFacts, "mechanism.lift")
    assert lift.lift.rope_force == as_printed("30.4")  # (0.5 + 2 * 0.3 + 2 * 1.0) kg
    np.testing.assert_allclose(lift.available_pull, lift.raising.available * 0.8 / 0.020)
    np.testing.assert_allclose(lift.pull_margin, lift.raising.margin)


def test_in_continuous_rigging_each_mass_counts_once() -> None:
    lift = evaluation("vine-lift", ("mechanism.lift.rigging=continuous",))
    assert lift.entity(LiftPullFacts, "mechanism.lift").lift.rope_force == as_printed("17.7")
