"""Motors held fast and motors running free, against numbers worked by hand for the shipped machines."""

from __future__ import annotations

import numpy as np
import pytest

from mulewright.facts.controller_load import LoneControllerFacts, SharedControllerFacts
from mulewright.facts.driving import DrivingFacts, WantedSpeedFacts
from mulewright.facts.holding import RaisingFacts
from mulewright.facts.motors import MotorFacts
from mulewright.facts.running import RollerFacts, WheelRunFacts
from mulewright.facts.sheet import NotedRatioFacts, SheetFacts
from mulewright.facts.stalls import GearboxFacts, StalledFacts
from mulewright.facts.sweeping import SweepingFacts
from tests.designs import evaluation
from tests.published import as_printed

NO_WIRES = ("wire.main.length=1 um", "wire.branches.length=1 um")


def test_the_pruners_motor_held_fast_is_more_than_its_gearbox_bears() -> None:
    on = evaluation("long-reach-pruner", NO_WIRES)
    assert on.entity(StalledFacts, "motor.arm").held_torque == as_printed("9.5")
    assert on.entity(GearboxFacts, "motor.arm").gearbox_share > 1


def test_the_log_winch_stalls_above_the_peak_of_its_controller() -> None:
    controller = evaluation("log-winch").entity(LoneControllerFacts, "controller.winch")
    assert controller.stall_current == as_printed("16.6")
    assert controller.hard_limit == controller.rating.peak_current == 15


def test_a_wheel_that_slips_first_takes_the_limit_off_its_controller() -> None:
    def limit(*sets: str) -> float:
        on = evaluation("tray-cart", sets)
        return float(on.entity(LoneControllerFacts, "controller.left").hard_limit)

    assert np.isinf(limit())
    assert limit("body.mass=60 kg") == 15


def test_two_motors_on_one_controller_add_up() -> None:
    # a battery of 12 V without resistance and without wires: 0.789 * 12 / 1.71 for each
    stiff = (*NO_WIRES, "battery.main.rested=12 V", "battery.main.resistance=0 ohm")
    controller = evaluation("seed-ball-thrower", stiff).entity(SharedControllerFacts, "controller.flywheel")
    assert controller.stall_current == as_printed("11.05")


def test_tray_cart_at_top_speed() -> None:
    cart = evaluation("tray-cart", NO_WIRES).entity(DrivingFacts, "drive")
    assert cart.top_speed == as_printed("1.05")
    wanted = evaluation("tray-cart").entity(WantedSpeedFacts, "drive")
    volts = wanted.of(WheelRunFacts, "motor.left").running.voltage
    # by hand: 200 rpm, 480 us into 500 us beyond a dead band of 25 us, on wheels of 0.05 m, times 0.85
    by_hand = 0.85 * 200 * np.pi / 30 * 455 / 475 * volts / 12 * 0.05
    assert wanted.expected == pytest.approx(float(by_hand))


def test_a_task_without_a_wanted_speed_has_nothing_to_compare() -> None:
    assert WantedSpeedFacts.all(evaluation("tray-cart", ("drive.wanted_speed=?",))) == []


def test_the_leaf_sweepers_roller_and_cart() -> None:
    on = evaluation("leaf-sweeper", ("drive.wheel.diameter=120 mm",))
    assert on.entity(RollerFacts, "mechanism.roller").roller_speed == as_printed("0.54")
    assert on.entity(DrivingFacts, "drive").nominal_top_speed == as_printed("0.97")
    assert on.entity(SweepingFacts, "mechanism.roller").rim_ratio == as_printed("0.56")


def test_a_larger_roller_without_reduction_sweeps_twice_as_fast_as_the_cart() -> None:
    sets = ("mechanism.roller.diameter=50 mm", "motor.roller.gears=?")
    roller = evaluation("leaf-sweeper", sets).entity(SweepingFacts, "mechanism.roller")
    assert roller.rim_ratio == as_printed("2.1")


def test_a_lift_on_dry_cells_without_wires() -> None:
    raising = evaluation("vine-lift", NO_WIRES).entity(RaisingFacts, "mechanism.lift")
    assert raising.margin == as_printed("1.88")
    assert raising.working_voltage == as_printed("9.05")


@pytest.mark.parametrize(("torque", "believed"), [("24 N m", False), ("0.24 N m", False), ("2.4 N m", True)])
def test_a_slip_of_ten_in_the_torque_is_seen(torque: str, believed: bool) -> None:
    on = evaluation("tray-cart", (f"motor.left.stall_torque={torque}",))
    assert bool(on.entity(SheetFacts, "motor.left").doubt <= 1) == believed


def test_a_sheet_that_promises_too_much_still_gives_numbers() -> None:
    motor = evaluation("tray-cart", ("motor.left.stall_torque=24 N m",)).entity(MotorFacts, "motor.left")
    assert motor.sheet_efficiency > 1
    assert motor.sheet_back_efficiency == 1


def test_a_noted_ratio_against_its_stages() -> None:
    arm = evaluation("long-reach-pruner", ("motor.arm.total_ratio=1.6",)).entity(NotedRatioFacts, "motor.arm")
    assert arm.ratio_error == pytest.approx(0.1 / 1.5)
    assert NotedRatioFacts.all(evaluation("long-reach-pruner")) == []
