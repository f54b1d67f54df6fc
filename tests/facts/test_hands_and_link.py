"""What hurts hands, what keeps the link: numbers that were worked out by hand for the shipped mules."""

from __future__ import annotations

import pytest

from mulewright.facts.catalog import find
from tests.designs import evaluation
from tests.published import as_printed


def value(design: str, fact: str, *sets: str) -> float:
    return float(find(evaluation(design, sets), fact).value)


def test_energy_in_the_rope_of_the_winch() -> None:
    assert value("log-winch", "mechanism.winch.stretch_energy") == as_printed(
        "12"
    )  # 436 N squared over 16 kN/m


def test_energy_in_the_wheels_of_the_thrower() -> None:
    assert value("seed-ball-thrower", "mechanism.flywheel.spin_energy") == as_printed("56")
    more = value("seed-ball-thrower", "mechanism.flywheel.spin_energy", "radio.channel.3.travel=125 %")
    assert more / value("seed-ball-thrower", "mechanism.flywheel.spin_energy") == as_printed("1.65")


def test_worst_turn_of_the_tray_cart_is_about_its_inner_wheel() -> None:
    speed = value("tray-cart", "drive.top_speed")
    assert value("tray-cart", "drive.turning_acceleration") == pytest.approx((speed / 2) ** 2 / 0.15)
    assert value("tray-cart", "drive.tips_aside_at") == as_printed("21.0")  # 9.81 * 0.15 / 0.07


def test_a_slow_turn_counts_only_as_far_as_it_goes() -> None:
    both = [
        value("tray-cart", f"drive.{one}_rim_speed", "radio.control.RH.rate=30 %")
        for one in ("forward", "turn")
    ]
    limit = value("tray-cart", "drive.limit_rim_speed", "radio.control.RH.rate=30 %")
    found = value("tray-cart", "drive.turning_acceleration", "radio.control.RH.rate=30 %")
    assert both[1] < limit / 2
    assert found == pytest.approx(both[1] * (limit - both[1]) / 0.15)


def test_two_sticks_turn_like_a_full_mix() -> None:
    sets = [
        "drive.kind=two-sticks", "drive.commands=['left','right']", "radio.mix=[]",
        "radio.control.RV.commands=left", "radio.control.RH.commands=right",
    ]  # fmt: skip
    speed = value("tray-cart", "drive.top_speed", *sets)
    assert value("tray-cart", "drive.turning_acceleration", *sets) == pytest.approx(speed**2 / 0.6)


def test_roller_wheels_turn_on_the_longer_lever() -> None:
    assert value("aisle-carrier", "drive.turning_lever") == as_printed("0.31")  # half of 0.30 and of 0.32


def test_force_and_speed_of_what_closes() -> None:
    assert value("soft-fruit-gripper", "mechanism.gripper.closing_force") == as_printed(
        "25"
    )  # 2.0 N m over 0.08 m
    assert value("log-winch", "mechanism.winch.closing_force") == as_printed("436")
    lift = "mechanism.lift.closing_"
    pull = value("vine-lift", "motor.lift.held_torque") / 0.020
    assert value("vine-lift", f"{lift}force") == pytest.approx(
        pull / 2
    )  # the basket goes twice as far as the rope
    assert value(
        "aisle-carrier", "servo.tilt.closing_force", "servo.tilt.closing_radius=50 mm"
    ) == as_printed("30")


def test_a_linear_regulator_warms_the_controller_that_it_sits_in() -> None:
    # 0.10 A over 12.6 - 6.0 V is 0.66 W, at 30 K/W; 10 mohm at 0.70 A add hardly anything
    sets = ("controller.left.resistance=10 mohm",)
    assert value("tray-cart", "controller.left.regulator.surface_rise") == as_printed("19.8")
    assert value("tray-cart", "controller.left.surface_rise", *sets) == as_printed("19.9")
    assert value("tray-cart", "controller.right.regulator.surface_rise") == 0  # its red wire is pulled


def test_a_motor_that_lifts_without_a_pause() -> None:
    # 3.50 A through 2.18 ohm are 26.7 W, 0.40 kg shed 4.0 W
    assert value("long-reach-pruner", "motor.arm.heat_share") == as_printed("6.7")
    assert value("seed-ball-thrower", "motor.feeder.outside") == as_printed("0.05")


def test_a_second_radio_delays_too() -> None:
    late = value("tray-cart", "drive.late_way")
    assert late == pytest.approx(0.05 * value("tray-cart", "drive.top_speed"))
    sets = ("second_radio={part='tx8', latency='0.2 s'}",)
    assert value("tray-cart", "drive.delay", *sets) == 0.2
