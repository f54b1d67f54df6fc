"""Kinds of servo, frames, middles, testers, clicks and learned neutrals, worked by hand on the shipped designs."""

from __future__ import annotations

import pytest

from mulewright.facts.detents import UnsprungFollowerFacts
from mulewright.facts.learning import LearningFacts
from mulewright.facts.servo_kinds import AnalogueServoFacts, MiddleFacts, ServoKindFacts
from mulewright.facts.testers import BenchTesterFacts
from tests.designs import evaluation
from tests.published import as_printed

ON_LIFT = (
    'tester.st={ own_supply = true, low = "1000 us", high = "2200 us" }',
    "controller.lift.signal=tester.st",
)


def test_a_frame_of_11_ms_is_91_hertz() -> None:
    on = evaluation("soft-fruit-gripper", variant="radio-bench")
    assert on.entity(AnalogueServoFacts, "servo.left").pulse_rate == as_printed("91")


def test_digital_servos_and_testers_have_no_frame_to_mind() -> None:
    assert not AnalogueServoFacts.all(evaluation("aisle-carrier"))
    assert not AnalogueServoFacts.all(evaluation("soft-fruit-gripper", ("servo.left.part=sv-std",)))


def test_a_servo_behind_a_box_gets_the_frame_of_the_receiver_before_it() -> None:
    sets = ("servo.tilt.part=sv-std", "servo.tilt.signal=mixer.drive.out1", "controller.front_left.signal=[]")
    assert evaluation("aisle-carrier", sets).entity(
        AnalogueServoFacts, "servo.tilt"
    ).pulse_rate == as_printed("50")


@pytest.mark.parametrize(
    ("sets", "wanted"),
    [
        ((), "angle"),
        (
            ("servo.tilt.need=?", 'mechanism.fan={ kind = "spinner" }', "servo.tilt.moves=mechanism.fan"),
            "continuous",
        ),
        (
            ("servo.tilt.need=?", 'mechanism.jaw={ kind = "gripper" }', "servo.tilt.moves=mechanism.jaw"),
            "angle",
        ),
    ],
)
def test_the_task_says_which_kind_of_servo_it_wants(sets: tuple[str, ...], wanted: str) -> None:
    moved = (*sets, "radio.control.KN.commands=?")
    assert evaluation("aisle-carrier", moved).entity(ServoKindFacts, "servo.tilt").wanted == wanted


def test_a_one_way_controller_has_no_middle() -> None:
    one_way = evaluation("aisle-carrier", ("controller.pump.direction=one-way",))
    assert "controller.pump" not in {one.id for one in MiddleFacts.all(one_way)}
    narrow = evaluation("aisle-carrier", ("servo.tilt.neutral=760 us",)).entity(MiddleFacts, "servo.tilt")
    assert narrow.off_usual == pytest.approx(740e-6)


def test_a_tester_is_fed_through_its_leads_or_by_itself() -> None:
    def bench(*sets: str, variant: str | None = None) -> BenchTesterFacts:
        return evaluation("soft-fruit-gripper", sets, variant).entity(BenchTesterFacts, "tester.bench")

    assert bench().supplied == 0
    assert bench(variant="high-voltage-pack").supplied == 1
    assert bench("tester.bench.own_supply=true").supplied == 1
    assert bench(variant="receiver-left-plugged").receivers == ["receiver.5"]


def test_the_farther_side_of_a_tester_counts() -> None:
    # by hand: 700 us up and 500 us down, against 400 us both ways
    tester = evaluation("aisle-carrier", ON_LIFT).entity(BenchTesterFacts, "tester.st")
    assert tester.reach_share == pytest.approx(1.75)
    unplanned = evaluation("aisle-carrier", (*ON_LIFT, "radio.control.LV.commands=?"))
    assert unplanned.entity(BenchTesterFacts, "tester.st").reach_share == 0


def test_only_axes_that_stay_and_should_rest_in_the_middle_count() -> None:
    assert [one.id for one in UnsprungFollowerFacts.all(evaluation("aisle-carrier"))] == ["controller.lift"]
    assert not UnsprungFollowerFacts.all(evaluation("seed-ball-thrower"))  # its flywheel is left running
    lift = evaluation("aisle-carrier").entity(UnsprungFollowerFacts, "controller.lift")
    assert lift.error == as_printed("20e-6")


def test_a_trim_counts_against_the_dead_band() -> None:
    learns = (
        "controller.left.learns_neutral=true",
        "checklist.transmitter_first=true",
        "radio.channel.2.trim=5 us",
    )
    left = evaluation("tray-cart", learns).entity(LearningFacts, "controller.left")
    assert left.unsure == pytest.approx(0.2)  # by hand: 5 us of 25 us
    assert "its trim is 5 us" in left.in_words
