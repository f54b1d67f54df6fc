"""Tipping, rolling on and presets, against numbers worked by hand for the shipped machines."""

from __future__ import annotations

import numpy as np
import pytest

from mulewright.facts.checklist import DressFacts, MountFacts
from mulewright.facts.driving import DrivingFacts
from mulewright.facts.presets import PresetControllerFacts, PresetFacts, ServoLinkFacts
from mulewright.facts.reach import ReachFacts
from mulewright.facts.records import StartFacts
from mulewright.facts.runaway import RunawayFacts
from tests.designs import evaluation
from tests.published import as_printed


def test_the_pruner_with_its_arm_out() -> None:
    reach = evaluation("long-reach-pruner").entity(ReachFacts, "body")
    assert reach.margin_ahead == as_printed("0.025")
    assert reach.margin_share == as_printed("0.19")
    assert reach.tips_forward_at == as_printed("1.8")
    assert evaluation("long-reach-pruner").entity(DrivingFacts, "drive").braking == as_printed("5.9")


def test_without_an_arm_the_centre_is_that_of_the_body() -> None:
    on = evaluation("tray-cart")
    assert ReachFacts.all(on) == []
    drive = on.entity(DrivingFacts, "drive")
    assert drive.out.center_out == drive.body.center_ahead
    assert drive.tips_forward_ratio == pytest.approx(0.8 / (0.14 / 0.07))


def test_the_two_benches_brake_at_two_thirds_of_what_tips_them() -> None:
    assert evaluation("two-benches").entity(DrivingFacts, "drive").tips_forward_ratio == as_printed("0.67")


def test_roller_wheels_brake_less_by_the_root_of_two() -> None:
    drive = evaluation("aisle-carrier").entity(DrivingFacts, "drive")
    assert drive.braking == pytest.approx(0.6 * 9.81 / np.sqrt(2))


def test_slopes_by_hand() -> None:
    drive = evaluation("tray-cart", ("room.steepest=45 deg",)).entity(DrivingFacts, "drive")
    assert drive.tips_on_slope_ratio == pytest.approx(0.07 / 0.08)
    assert drive.climbing_force == pytest.approx(6 * 9.81 * np.sqrt(0.5) * 1.035)


def test_the_tray_cart_rolls_on_for() -> None:
    cart = evaluation("tray-cart").entity(RunawayFacts, "drive")
    assert cart.runaway == as_printed("1.67")
    assert cart.blind_way == pytest.approx(1.5 * cart.speed)


def test_a_cart_whose_fail_safe_holds_rolls_on_for_ever() -> None:
    assert np.isinf(evaluation("aisle-carrier").entity(RunawayFacts, "drive").runaway)


def test_a_measured_preset_goes_before_the_noted_one() -> None:
    on = evaluation("tray-cart", ("radio.channel.2.failsafe_pulse=1460 us", "receiver.fail_safe.1=1512 us"))
    assert on.entity(PresetFacts, "receiver.2").preset_shift == pytest.approx(-40e-6)
    assert on.entity(PresetFacts, "receiver.1").preset_offset == pytest.approx(12e-6)
    assert on.entity(PresetControllerFacts, "controller.left").preset_error == pytest.approx(40e-6)


def test_presets_of_a_box_add_up() -> None:
    sets = ("receiver.fail_safe.1=1512 us", "receiver.fail_safe.2=1480 us")
    controller = evaluation("hose-tug", sets).entity(PresetControllerFacts, "controller.left")
    assert controller.preset_error == pytest.approx(32e-6)


def test_a_servo_on_a_tester_loses_no_link() -> None:
    assert ServoLinkFacts.all(evaluation("soft-fruit-gripper")) == []
    assert [servo.id for servo in ServoLinkFacts.all(evaluation("aisle-carrier"))] == ["servo.tilt"]


def test_controls_that_stay_where_they_were_left() -> None:
    assert [one.id.rsplit(".", 1)[1] for one in StartFacts.all(evaluation("aisle-carrier"))] == [
        "LV",
        "KN",
        "SW2",
    ]
    assert StartFacts.all(evaluation("tray-cart")) == []


@pytest.mark.parametrize(
    ("design", "sets", "things", "eyes"),
    [
        ("aisle-carrier", "checklist.eyes=?", "mechanism.lift", 0),
        ("long-reach-pruner", "checklist.eyes=?", "motor.arm", 1),  # a chain alone throws nothing
        ("long-reach-pruner", "mechanism.arm.counterbalance=4 N m", "mechanism.arm, motor.arm", 1),
    ],
)
def test_what_catches_and_what_flies(design: str, sets: str, things: str, eyes: int) -> None:
    (dress,) = DressFacts.all(evaluation(design, (sets,)))
    assert dress.because == things
    assert dress.eyes == eyes


def test_nothing_to_be_caught_by_on_a_plain_cart() -> None:
    assert DressFacts.all(evaluation("tray-cart")) == []


def test_a_note_on_the_pack_goes_before_the_tick() -> None:
    def held(*sets: str) -> float:
        return float(evaluation("tray-cart", sets).entity(MountFacts, "battery.main").strapped)

    assert held() == 1
    assert held("battery.main.retained=false") == 0
    assert held("checklist.battery_strapped=?") == 0
    assert held("checklist.battery_strapped=?", "battery.main.retained=true") == 1
