"""Do the shipped mules come out as they were planned on paper? Worked out by hand, as it was written down.

Two ways of reckoning: *nominal* takes 12.0 V at the controllers; *coupled* takes the rested battery with all
loads solved together. The paper left the wires out: where that shows, they are cut to nothing here.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
import pytest

from mulewright.design.mule import link
from mulewright.design.resolve import load
from mulewright.facts.catalog import find
from mulewright.facts.graph import Evaluation
from mulewright.models.hold import friction_volts, gravity_volts
from tests.designs import EXAMPLES, evaluation
from tests.published import as_printed

DEGREE, PERCENT, MM = np.pi / 180, 0.01, 1e-3


class Wanted(NamedTuple):
    """One number of the paper."""

    design: str
    variant: str | None
    sets: tuple[str, ...]
    fact: str
    unit: float  # [SI] what the printed number counts
    printed: str


NO_WIRES = ("wire.*.length=0.000001 m",)
STIFF = ("battery.main.resistance=0.000001 ohm",)
NOMINAL = (*NO_WIRES, *STIFF, "battery.main.rested=12.0 V")
SAG_FREE = (*NO_WIRES, *STIFF)

VINE, PRUNER, THROWER, WINCH = "vine-lift", "long-reach-pruner", "seed-ball-thrower", "log-winch"
GRIPPER, SWEEPER, BENCHES = "soft-fruit-gripper", "leaf-sweeper", "two-benches"
DEAD_BAND_OF_THE_PAPER = ("controller.*.dead_band=25 us",)  # the sheet of these says 30 us: 0.97 m/s

ANY_BATTERY = [
    Wanted(VINE, None, (), "mechanism.lift.rope_force", 1, "30.4"),
    Wanted(VINE, None, (), "mechanism.lift.asked", 1, "0.76"),
    Wanted(VINE, None, (), "mechanism.lift.share_of_stall", PERCENT, "32"),
    Wanted(VINE, None, (), "mechanism.lift.creep", MM, "39"),
    Wanted(VINE, None, (), "mechanism.lift.energy", 1, "15"),
    Wanted(VINE, None, (), "controller.lift.full_duty", 1, "0.789"),
    Wanted(PRUNER, None, (), "mechanism.arm.torque", 1, "9.42"),
    Wanted(PRUNER, None, (), "mechanism.arm.asked", 1, "7.39"),
    Wanted(PRUNER, None, (), "mechanism.arm.share_of_stall", PERCENT, "62"),
    Wanted(PRUNER, None, (), "mechanism.arm.creep", DEGREE, "14"),
    Wanted(PRUNER, None, (), "mechanism.arm.energy", 1, "9.4"),
    Wanted(PRUNER, None, (), "body.margin_ahead", MM, "25"),
    Wanted(PRUNER, None, (), "body.margin_share", PERCENT, "19"),
    Wanted(PRUNER, None, (), "body.tips_forward_at", 1, "1.8"),
    Wanted(PRUNER, None, (), "drive.braking", 1, "5.9"),
    Wanted(WINCH, None, (), "mechanism.winch.asked", 1, "2.2"),
    Wanted(WINCH, None, (), "mechanism.winch.share_of_stall", PERCENT, "25"),
    Wanted(WINCH, None, (), "mechanism.winch.current", 1, "5.6"),
    Wanted(WINCH, None, (), "mechanism.winch.drum_radius", MM, "17"),
    Wanted(WINCH, None, (), "mechanism.winch.creep", MM, "15"),
    Wanted(WINCH, None, (), "mechanism.winch.energy", 1, "59"),
    Wanted(WINCH, None, (), "controller.winch.full_duty", 1, "1.00"),
    Wanted(GRIPPER, None, (), "servo.left.swing", DEGREE, "189"),
    Wanted(BENCHES, None, (), "controller.front_left.full_duty", 1, "0.789"),
    Wanted(BENCHES, None, ("radio.control.RV.rate=60 %",), "controller.front_left.full_duty", 1, "0.453"),
    Wanted(BENCHES, None, (), "drive.tips_forward_ratio", 1, "0.67"),
    Wanted(BENCHES, None, (), "mechanism.lift.asked", 1, "3.0"),
    Wanted(BENCHES, None, (), "mechanism.lift.current", 1, "7.3"),
]

AT_NOMINAL = [
    Wanted(PRUNER, None, (), "mechanism.arm.nominal_margin", 1, "1.28"),
    Wanted(PRUNER, None, (), "mechanism.arm.nominal_available", 1, "9.5"),
    Wanted(PRUNER, None, (), "mechanism.arm.hold_low", PERCENT, "11"),
    Wanted(PRUNER, None, (), "mechanism.arm.hold_high", PERCENT, "58"),
    Wanted(PRUNER, None, NOMINAL, "motor.arm.stop_time", 1, "15.0"),
    Wanted(THROWER, None, NOMINAL, "controller.flywheel.stall_current", 1, "11.05"),
    Wanted(SWEEPER, None, DEAD_BAND_OF_THE_PAPER, "drive.nominal_top_speed", 1, "0.98"),
    Wanted(SWEEPER, None, (), "mechanism.roller.roller_speed", 1, "0.54"),
    Wanted(SWEEPER, None, (), "mechanism.roller.rim_ratio", 1, "0.56"),
    Wanted(SWEEPER, "mended-roller", (), "mechanism.roller.rim_ratio", 1, "2.1"),
    Wanted(BENCHES, None, (*SAG_FREE, "battery.main.rested=11.4 V"), "drive.top_speed", 1, "1.9"),
]

ON_THE_BATTERY = [
    Wanted(VINE, None, NO_WIRES, "mechanism.lift.working_voltage", 1, "9.05"),
    Wanted(VINE, None, NO_WIRES, "mechanism.lift.margin", 1, "1.88"),
    Wanted(VINE, None, (), "motor.lift@lift-stalled.voltage", 1, "7.6"),
    Wanted(VINE, None, (), "motor.left@drive-stalled.voltage", 1, "5.5"),
    Wanted(VINE, None, (), "motor.lift@all-stalled.voltage", 1, "4.3"),
    Wanted(VINE, "nimh-pack", NO_WIRES, "board.main@all-stalled.voltage", 1, "11.05"),
    Wanted(PRUNER, None, SAG_FREE, "motor.arm.stop_time", 1, "13.6"),
    Wanted(THROWER, "lithium-pack", NO_WIRES, "controller.flywheel.stall_current", 1, "11.4"),
    Wanted(VINE, None, (), "rail.receiver.lowest_voltage", 1, "3.3"),
    Wanted(VINE, "nimh-pack", (), "rail.receiver.lowest_voltage", 1, "6.0"),
    Wanted(WINCH, None, (), "motor.winch@winch-stalled.current", 1, "16.6"),
    Wanted(WINCH, None, (), "controller.winch@all-stalled.share", PERCENT, "17.6"),
    Wanted(WINCH, None, (), "controller.winch@winch-working.share", PERCENT, "5.9"),
]


@pytest.mark.parametrize("wanted", [*ANY_BATTERY, *AT_NOMINAL, *ON_THE_BATTERY], ids=lambda one: one.fact)
def test_comes_out_as_on_paper(wanted: Wanted) -> None:
    node = find(evaluation(wanted.design, wanted.sets, wanted.variant), wanted.fact)
    assert node.value / wanted.unit == as_printed(wanted.printed)


def test_pruner_holds_against_gravity_and_friction() -> None:
    on = evaluation(PRUNER)
    high, low = (find(on, f"mechanism.arm.{end}").value for end in ("hold_high", "hold_low"))
    assert gravity_volts(high, low, 12.0) == as_printed("4.2")
    assert friction_volts(high, low, 12.0) == as_printed("2.8")


def test_counterbalance_halves_the_load_and_only_the_strong_one_holds() -> None:
    half, strong = (evaluation(PRUNER, variant=name) for name in ("counterbalance", "strong-counterbalance"))
    assert find(half, "mechanism.arm.nominal_margin").value > 2
    assert find(half, "mechanism.arm.creep").value > 2 * DEGREE
    assert find(strong, "mechanism.arm.creep").value < 2 * DEGREE


def test_target_asks_more_of_the_same_machine() -> None:
    mule = evaluation(BENCHES)
    target = Evaluation(link(load(EXAMPLES / BENCHES / "target.toml")))
    duties = [find(on, "controller.front_left.full_duty").value for on in (mule, target)]
    assert duties[1] / duties[0] == as_printed("1.267")
    assert find(target, "drive.tips_forward_ratio").value == as_printed("1.07")
    measured = mule.mule.file.accepted.quantity("loaded_voltage")
    to_come = target.mule.table("target").quantity("loaded_voltage")
    assert measured is not None
    assert to_come is not None
    assert to_come.value / measured.value == as_printed("1.158")
