"""Throwers, jams, whips, play, motors on one shaft and heat over a session, against numbers worked by hand."""

from __future__ import annotations

import numpy as np
import pytest

from mulewright.facts.coupled_motors import CoupledFacts
from mulewright.facts.jams import JamFacts
from mulewright.facts.play import CreepingFacts, SlackFacts
from mulewright.facts.session_heat import SessionMotorFacts
from mulewright.facts.throwing import ThrowerFacts
from mulewright.facts.whipping import WhipFacts
from mulewright.facts.work import RollingFacts
from tests.designs import evaluation
from tests.published import as_printed

WHEEL = "mechanism.flywheel"


def thrower(*sets: str) -> ThrowerFacts:
    return evaluation("seed-ball-thrower", sets).entity(ThrowerFacts, WHEEL)


def test_the_seed_ball_thrower() -> None:
    found = thrower()
    assert found.throwing_speed == as_printed("424")
    assert found.exit_speed == as_printed("10.6")
    assert found.throw == as_printed("11.4")
    assert found.speed_drop == as_printed("0.091")
    assert found.speeding_time == as_printed("1.55")
    assert found.recovery == as_printed("2.3")


def test_an_inertia_that_was_not_noted_is_that_of_a_disc() -> None:
    assert thrower("mechanism.flywheel.wheel_inertia=?").wheel_inertia == pytest.approx(3.125e-4)


def test_two_wheels_against_each_other() -> None:
    one, two = thrower(), thrower("mechanism.flywheel.layout=two-wheels")
    assert two.exit_speed == pytest.approx(2 * one.exit_speed)
    assert two.inertia_of_a_side == pytest.approx(3.125e-4)
    # 0.06 kg * (0.05 m)^2 / (2 * 3.125e-4 kg m2) = 0.24
    assert two.speed_drop == pytest.approx(0.24 / 1.24)


def test_a_reduction_makes_a_thrower_slower_and_quicker_to_recover() -> None:
    geared = thrower(
        *(
            f"motor.{name}.gears=[{{kind='belt', driver_teeth=10, driven_teeth=20}}]"
            for name in ("upper", "lower")
        )
    )
    assert geared.throwing_speed == pytest.approx(thrower().throwing_speed / 2)
    assert geared.speeding_time == pytest.approx(thrower().speeding_time / 4)


def test_a_jammed_roller() -> None:
    no_wires = ("wire.main.length=1 um", "wire.branches.length=1 um", "battery.main.resistance=0 ohm")
    jam = evaluation("leaf-sweeper", no_wires).entity(JamFacts, "mechanism.roller")
    current = 375 / 475 * 12.6 / 1.6  # 400 us into 500 us beyond a dead band of 25 us
    assert jam.stalled.held_current == pytest.approx(current)
    assert jam.jam_time == pytest.approx(80 * 0.015 * 385 / (current**2 * 1.6), rel=1e-3)
    torque = 0.50 / 7.1 * (current - 0.4)
    assert jam.jam_pull == pytest.approx(torque * 3 * 0.95 * 0.95 / 0.02)


def test_an_arm_that_meets_its_stop() -> None:
    arm = evaluation("long-reach-pruner").entity(WhipFacts, "mechanism.arm")
    # 1.2 kg at 0.30 m and 1 kg at 0.60 m
    assert arm.swing_inertia == pytest.approx(0.108 + 0.36)
    assert arm.whip == pytest.approx(0.468 * float(arm.swing_speed) ** 2 / 2)
    noted = evaluation("long-reach-pruner", ("mechanism.arm.inertia=0.5 kg m2",))
    assert noted.entity(WhipFacts, "mechanism.arm").swing_inertia == 0.5


def test_an_arm_on_a_servo_is_not_swung_by_a_motor() -> None:
    sets = ("motor.arm=?", "controller.arm=?", "servo.arm={part='sv-std', moves='mechanism.arm'}")
    assert WhipFacts.all(evaluation("long-reach-pruner", sets)) == []


def test_friction_is_what_was_measured_or_else_the_motors_own() -> None:
    def share(*sets: str) -> float:
        return float(evaluation("tray-cart", sets).entity(CreepingFacts, "motor.left").friction_share)

    assert share() == pytest.approx(0.4 * 1.6 / 12.6)
    assert share("motor.left.friction_voltage=1.26 V") == pytest.approx(0.1)


def test_a_motor_that_runs_one_way_is_not_crept_with() -> None:
    motors = {motor.id for motor in CreepingFacts.all(evaluation("aisle-carrier"))}
    assert "motor.lift" in motors
    assert "motor.front_left" in motors
    assert "motor.pump" not in motors


def test_slack_is_asked_only_where_a_place_is_wanted() -> None:
    (arm,) = SlackFacts.all(evaluation("long-reach-pruner"))
    assert arm.slack_share == pytest.approx(12 / 20)
    assert SlackFacts.all(evaluation("tray-cart")) == []


def test_motors_on_one_shaft() -> None:
    def pair(*sets: str, variant: str | None = None) -> CoupledFacts:
        return evaluation("seed-ball-thrower", sets, variant).entity(CoupledFacts, WHEEL)

    assert pair().speed_spread == 0
    assert pair().opposed == 0
    assert pair("motor.lower.free_speed=4000 rpm").speed_spread == pytest.approx(0.3)
    assert pair("motor.lower.mirrored=true").opposed == 1
    assert pair("controller.second.polarity=swapped", variant="two-controllers").opposed == 1
    unknown = pair("controller.second.polarity=?", variant="two-controllers").node("opposed")
    assert unknown.gaps == {"controller.second.polarity"}
    assert CoupledFacts.all(evaluation("tray-cart")) == []


def test_gears_count_for_motors_on_one_shaft() -> None:
    sets = ("motor.lower.gears=[{kind='spur', ratio=1.2, reverses=true}]",)
    pair = evaluation("seed-ball-thrower", sets).entity(CoupledFacts, WHEEL)
    assert pair.speed_spread == pytest.approx(0.2)
    assert pair.opposed == 1


def test_a_channel_turned_round_counts_for_motors_on_one_shaft() -> None:
    sets = (
        "controller.second.signal=receiver.4",
        "radio.control.LH.commands=flywheel",
        "radio.channel.4.reverse=true",
    )
    pair = evaluation("seed-ball-thrower", sets, "two-controllers").entity(CoupledFacts, WHEEL)
    assert pair.opposed == 1


def test_heat_of_rolling_along() -> None:
    on = evaluation("tray-cart", ("drive.wheel.rolling_resistance=0.05",))
    # 0.05 * 6 kg * 9.81 m/s2, on two wheels of 0.05 m
    assert on.entity(RollingFacts, "drive").torque_each == pytest.approx(0.07358, rel=1e-3)
    motor = on.entity(SessionMotorFacts, "motor.left")
    current = 0.4 + 0.073575 / (2.4 / 7.1)
    assert motor.session_heat == pytest.approx(0.5 * 1.6 * current**2, rel=1e-6)
    assert motor.shed_heat == pytest.approx(3.3)


def test_heat_of_a_lift_a_pump_and_a_flywheel() -> None:
    aisle = evaluation("aisle-carrier")
    lift = aisle.entity(SessionMotorFacts, "motor.lift")
    assert lift.steady.steady_current == as_printed("2.47")
    assert lift.session_heat == pytest.approx(0.1 * 1.6 * float(lift.steady.steady_current) ** 2)
    pump = aisle.entity(SessionMotorFacts, "motor.pump")
    assert pump.steady.steady_current == pytest.approx(0.35 + 0.03 * 6.65 / 0.11)
    wheel = evaluation("seed-ball-thrower").entity(SessionMotorFacts, "motor.upper")
    assert wheel.steady.steady_current == wheel.motor.free_current == 0.35


def test_a_spinner_takes_its_own_torque_and_a_motor_its_own_share() -> None:
    sets = ("motor.feeder.working_share=30 %", "motor.feeder.mass=0.3 kg")
    feeder = evaluation("seed-ball-thrower", sets).entity(SessionMotorFacts, "motor.feeder")
    assert feeder.steady.outside == 0.05
    assert feeder.session_share == pytest.approx(0.3)
    assert np.isfinite(feeder.session_heat)
