"""Grip, push, tipping and drift of the shipped carts, worked by hand."""

from __future__ import annotations

import pytest

from mulewright.facts.driving import DrivingFacts
from mulewright.facts.slipping import SlipFacts
from mulewright.facts.stalls import StalledFacts
from mulewright.facts.standing import StandingFacts
from tests.designs import evaluation
from tests.published import as_printed


def drive(design: str, *sets: str) -> DrivingFacts:
    return evaluation(design, sets).entity(DrivingFacts, "drive")


def slip(design: str, motor: str, *sets: str) -> SlipFacts:
    return evaluation(design, sets).entity(SlipFacts, motor)


@pytest.mark.parametrize(
    ("design", "motor", "current"),
    [("tray-cart", "motor.left", "2.6"), ("aisle-carrier", "motor.rear_left", "2.43")],
)
def test_current_at_which_a_wheel_slips(design: str, motor: str, current: str) -> None:
    assert slip(design, motor).slip_current == as_printed(current)


def test_tray_cart_speeding_up_by_hand() -> None:
    # 6 kg, centre 0.08 m ahead of the rear axle of 0.22 m: 14/22 of the weight is on the driven wheels
    cart = drive("tray-cart")
    assert cart.standing.driven_load == pytest.approx(6 * 9.81 * 14 / 22)
    assert cart.acceleration == pytest.approx(0.8 * 9.81 * 14 / 22)
    assert cart.tips_back_ratio == as_printed("0.45")


@pytest.mark.parametrize(("driven", "share"), [("rear", 14 / 22), ("front", 8 / 22), ("all", 1)])
def test_weight_on_the_driven_wheels_by_hand(driven: str, share: float) -> None:
    cart = evaluation("tray-cart", (f"drive.driven={driven}",)).entity(StandingFacts, "drive")
    assert cart.driven_load == pytest.approx(6 * 9.81 * share)


def test_which_axle_is_driven_has_to_be_noted() -> None:
    cart = evaluation("tray-cart", ("drive.driven=?",)).entity(StandingFacts, "drive")
    assert cart.node("driven_load").gaps == {"drive.driven"}


def test_weak_motors_push_less_than_the_grip_allows() -> None:
    cart = drive("tray-cart", *(f"motor.{side}.stall_torque=0.5 N m" for side in ("left", "right")))
    assert cart.motor_push < cart.standing.grip
    assert cart.push == cart.motor_push
    held = [cart.of(StalledFacts, motor).held_torque for motor in cart.motors]
    assert cart.motor_push == pytest.approx(sum(held) / 0.05)


def test_gears_lower_the_current_at_which_a_wheel_slips() -> None:
    geared = slip("tray-cart", "motor.left", "motor.left.gears=[{kind='belt', ratio=2, efficiency=0.9}]")
    plain = slip("tray-cart", "motor.left")
    assert geared.shaft_slip_torque == pytest.approx(plain.shaft_slip_torque / 1.8)


def test_two_motors_share_a_wheel_and_two_wheels_a_controller() -> None:
    plain = slip("tray-cart", "motor.left")
    twin = slip(
        "tray-cart", "motor.left", "motor.twin={part='gm-drive', turns='wheel.left'}",
        "controller.left.feeds=['motor.left', 'motor.twin']",
    )  # fmt: skip
    assert twin.shaft_slip_torque == pytest.approx(plain.shaft_slip_torque / 2)
    assert twin.controller_slip_current == pytest.approx(2 * twin.slip_current)


def test_drift_by_hand() -> None:
    # 3 % over 3 m with a track of 0.35 m: 0.03 * 9 / 0.7 = 0.386 m
    assert drive("tray-cart", "drive.side_mismatch=3 %", "body.track=0.35 m").drift == as_printed("0.39")
    assert drive("tray-cart").node("drift").gaps == {"drive.side_mismatch"}
