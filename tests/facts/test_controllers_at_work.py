"""Controllers for long and in a flick, holding heat, hubs and time budgets, worked by hand."""

from __future__ import annotations

import numpy as np
import pytest

from mulewright.facts.budgets import BudgetFacts
from mulewright.facts.controller_work import ControllerWorkFacts, FreshReversalFacts, ReversalFacts
from mulewright.facts.driving import WantedSpeedFacts
from mulewright.facts.hold_heat import HoldHeatFacts
from mulewright.facts.holding import RaisingOnRopeFacts
from mulewright.facts.hubs import HubFacts
from mulewright.facts.sheet import SheetFacts
from tests.designs import evaluation
from tests.published import as_printed

NO_WIRES = ("wire.*.length=0.000001 m",)


def left(*sets: str) -> ReversalFacts:
    return evaluation("tray-cart", sets).entity(ReversalFacts, "controller.left")


def test_flick_of_the_tray_cart_with_and_without_sag() -> None:
    assert left(*NO_WIRES).reversal_current == as_printed("12.9")
    stiff = left(*NO_WIRES, "battery.main.resistance=0.000001 ohm")
    volts = 0.9579 * 12.6  # at the motor; what it generates is less by 0.4 A through 1.6 ohm
    assert stiff.reversal_current == pytest.approx((2 * volts - 0.64) / 1.6, rel=1e-3)


def test_flick_straight_off_the_charger() -> None:
    fresh = evaluation("tray-cart").entity(FreshReversalFacts, "motor.left")
    assert fresh.fresh_voltage == pytest.approx(14.4)
    assert fresh.fresh_reversal == as_printed("16.8")


def test_sag_leaves_no_less_than_nothing() -> None:
    # dry cells would be driven below nothing; then only what the motor generates is left
    dry = evaluation("vine-lift").entity(ReversalFacts, "controller.left")
    load = dry._held("motor.left")
    assert load.voltage < 0
    np.testing.assert_allclose(
        dry.reversal_current, load.motor.back_emf_constant * load.running_speed / load.motor.resistance
    )


def test_wheels_that_slip_leave_no_limit() -> None:
    assert left("controller.left.peak_current=5 A").reversal_limit == np.inf
    assert left("controller.left.peak_current=10 A", "body.mass=60 kg").reversal_limit == 10
    winch = evaluation("log-winch").entity(ReversalFacts, "controller.winch")
    assert winch.reversal_limit == winch.rating.peak_current


def test_two_motors_at_work_add_up() -> None:
    thrower = evaluation("seed-ball-thrower").entity(ControllerWorkFacts, "controller.flywheel")
    assert thrower.work_current == pytest.approx(2 * 0.35)
    assert evaluation("log-winch").entity(ControllerWorkFacts, "controller.winch").work_current == as_printed(
        "5.6"
    )


def test_pruner_held_by_the_stick() -> None:
    arm = evaluation("long-reach-pruner").entity(HoldHeatFacts, "mechanism.arm")
    assert arm.hold_volts == as_printed("4.2")
    assert arm.hold_heat_share == pytest.approx((float(arm.hold_volts) / 12) ** 2)


def test_what_a_hub_has_to_carry() -> None:
    carrier = evaluation("aisle-carrier", ("motor.lift.shaft=round", "motor.lift.shaft_diameter=6 mm"))
    lift = carrier.entity(HubFacts, "motor.lift")
    assert lift.hub_load == as_printed("0.699")
    assert lift.hub_grip == pytest.approx(0.3 * 1000 * 0.003)
    wheel = carrier.entity(HubFacts, "motor.front_left")
    assert wheel.hub_load == pytest.approx(0.6 * 11 * 9.80665 / 4 * 0.06 / np.sqrt(2), rel=1e-3)
    roller = evaluation("leaf-sweeper").entity(HubFacts, "motor.roller")
    assert roller.hub_load > 0.3  # held fast: nothing else limits it


def test_time_budgets() -> None:
    on = evaluation(
        "tray-cart", ("course.length=10 m", "course.time_budget=10 s", "drive.wanted_speed=1 m/s")
    )
    expected = on.entity(WantedSpeedFacts, "drive").expected
    assert expected == pytest.approx(0.85 * 1.05, rel=0.02)
    assert on.entity(BudgetFacts, "course").full_stick_time == pytest.approx(10 / float(expected))
    lift = evaluation("aisle-carrier").entity(RaisingOnRopeFacts, "mechanism.lift")
    assert lift.allowed_time == np.inf


def test_bare_motor_with_torque_that_does_not_fit() -> None:
    sheet = evaluation("seed-ball-thrower").entity(SheetFacts, "motor.upper")
    assert sheet.bare
    assert sheet.constants_ratio == as_printed("0.79")
