"""Channels that are needed, foreign controls in a mix, and what works side by side, counted by hand."""

from __future__ import annotations

import pytest

from mulewright.facts.channels import ChannelPlanFacts, MixedInFacts, NeededFacts
from mulewright.facts.sides import SideBySideFacts, WheelControllersFacts
from tests.designs import evaluation

FAN = (
    'motor.fan={ part = "mo-raw", runs = "one-way" }',
    'controller.fan={ feeds = "motor.fan", signal = [] }',
)


def plan(design: str, *sets: str, variant: str | None = None) -> ChannelPlanFacts:
    return evaluation(design, sets, variant).entity(ChannelPlanFacts, "radio")


@pytest.mark.parametrize(
    ("design", "variant", "needed", "available"),
    [
        ("tray-cart", None, 2, 8),
        ("aisle-carrier", None, 6, 7),  # three into the box, lift, tilt and pump
        ("two-benches", None, 5, 8),  # two sides, lift, tray and gate
        ("seed-ball-thrower", "two-controllers", 2, 8),  # both motors of the flywheel on one Y-lead
        ("soft-fruit-gripper", "mended", 2, 8),  # two servos that face each other
        ("soft-fruit-gripper", "radio-bench", 2, 8),
    ],
)
def test_channels_needed_and_there(design: str, variant: str | None, needed: int, available: int) -> None:
    one = plan(design, variant=variant)
    assert one.needed == needed
    assert one.available == available


def test_servos_that_turn_alike_share_a_y_lead() -> None:
    assert plan("soft-fruit-gripper", "servo.right.mirrored=false", variant="mended").needed == 1


def test_a_switch_with_three_positions_saves_a_channel() -> None:
    assert plan("aisle-carrier", *FAN).needed == 7
    assert plan("aisle-carrier", *FAN, "radio.part=tx8").needed == 6
    in_the_plan = plan(
        "aisle-carrier", *FAN, "radio.part=tx8", 'radio.control.SW3={ commands = ["pump", "fan"] }'
    )
    assert in_the_plan.needed == 6


def test_a_second_transmitter_adds_its_channels() -> None:
    second = ("second_radio={ channels = 4 }", "second_receiver={ channels = 6 }")
    assert plan("tray-cart", *second).available == 12
    assert plan("tray-cart", second[0]).node("available").gaps == {"second_receiver.channels"}


def test_what_hangs_on_a_tester_needs_no_channel() -> None:
    assert not NeededFacts.all(evaluation("soft-fruit-gripper"))


def test_four_roller_wheels_without_a_box_need_one_each() -> None:
    sockets = zip(("front_left", "front_right", "rear_left", "rear_right"), range(1, 5), strict=True)
    straight = [f"controller.{wheel}.signal=receiver.{port}" for wheel, port in sockets]
    on = evaluation("aisle-carrier", (*straight, "controller.lift.signal=[]", "mixer.drive=?"))
    assert on.entity(NeededFacts, "drive").channels == 4


def test_a_slave_that_follows_its_own_control_is_no_stranger() -> None:
    mended = evaluation("soft-fruit-gripper", variant="mended")
    assert [one.id for one in MixedInFacts.all(mended)] == ["servo.left", "servo.right"]
    assert not any(one.strangers for one in MixedInFacts.all(mended))
    for design in ("tray-cart", "hose-tug", "two-benches", "leaf-sweeper"):
        assert not any(float(one.mixed_in) for one in MixedInFacts.all(evaluation(design))), design


def test_a_slave_that_follows_another_control_is_one() -> None:
    mix = '{ kind = "slave", active = true, inputs = ["RH"], channels = [3], weight = "20 %" }'
    lift = evaluation("vine-lift", (f"radio.mix=[{mix}]",)).entity(MixedInFacts, "controller.lift")
    assert lift.in_words == "radio.mix.0 adds RH to it"


def test_sides_of_a_mixed_drive_follow_the_same_sticks() -> None:
    assert not SideBySideFacts.all(evaluation("tray-cart"))


def test_controllers_of_a_drive_against_each_other() -> None:
    drive = evaluation("tray-cart", ("controller.left.dead_band=40 us",)).entity(
        WheelControllersFacts, "drive"
    )
    assert drive.band_gap == pytest.approx(15e-6)
    taught = evaluation("tray-cart", ("controller.left.calibrated_to=480 us",))
    assert taught.entity(WheelControllersFacts, "drive").range_gap == pytest.approx(20e-6)
    other = evaluation("tray-cart", ("controller.left.part=ctl-car",)).entity(WheelControllersFacts, "drive")
    assert "controller.left ctl-car and controller.right ctl-10l" in other.in_words
