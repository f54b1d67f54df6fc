"""Do the numbers that were typed fit each other?"""

from __future__ import annotations

from mulewright.checks.engine import (
    Answer,
    Example,
    Flip,
    Limit,
    Limits,
    Outcome,
    Severity,
    above,
    below,
    check,
    either,
)
from mulewright.checks.symptoms import Symptom
from mulewright.facts.sheet import NotedRatioFacts, SheetFacts


@check(
    "M00",
    on=SheetFacts,
    severity=Severity.STOP,
    why="A wrong unit on a sheet makes every later number wrong.",
    seen="Far weaker or stronger than the sums said",
    symptom=Symptom.ON_PAPER,
    fixes=(
        "Read the torque's unit again: 1 kgf cm is 0.0981 N m, 1 ozf in is 0.00706 N m.",
        "Measure volts over amperes with the shaft held, and the free speed.",
    ),
    levers=("motor.*.stall_torque", "motor.*.stall_current", "motor.*.free_speed", "motor.*.nominal_voltage"),
    limits={
        Severity.STOP: Limit(1, "ratio", mark="judgement"),
        Severity.NOTE: Limit(0.85, "ratio", mark="judgement"),
    },
    examples=(
        Example("tray-cart", Outcome.PASS, "motor.left"),
        Example("tray-cart", Outcome.PASS, "motor.left", ("motor.left.gearbox=?",)),
        Example("tray-cart", Outcome.TRIP, "motor.left", ("motor.left.stall_torque=24 N m",)),
        Example("tray-cart", Outcome.TRIP, "motor.left", ("motor.left.stall_torque=0.24 N m",)),
        Example("seed-ball-thrower", Outcome.TRIP, "motor.upper", (), Severity.NOTE),
        Example("seed-ball-thrower", Outcome.PASS, "motor.upper", ("motor.upper.stall_torque=0.13 N m",)),
        Example(
            "seed-ball-thrower",
            Outcome.TRIP,
            "motor.upper",
            ("motor.upper.stall_torque=1.1 N m",),
            Severity.STOP,
        ),
        Example("tray-cart", Outcome.CANNOT_TELL, "motor.left", ("motor.left.free_speed=?",)),
    ),
    flips=(
        Flip("tray-cart", "motor.left", "motor.left.stall_torque", "2.4 N m", "6 N m"),
        Flip("tray-cart", "motor.left", "motor.left.stall_torque", "0.2 N m", "2.4 N m"),
        Flip("seed-ball-thrower", "motor.upper", "motor.upper.stall_torque", "0.1 N m", "0.13 N m"),
    ),
)
def motor_sheet_contradicts_itself(sheet: SheetFacts, limits: Limits) -> Answer:
    """Stall torque times free speed, over volts times stall current, against what a brushed motor can have.

    Worked out: above one it would give more power than it takes; far below it, a factor of ten or so is
    missing somewhere. In a motor without a gearbox the torque for each ampere above the free current, and the
    volts for each radian a second, should be one number; where the first is much smaller, it is a NOTE.

    Not covered: which of the four numbers is wrong; a sheet that is wrong by less than that.

    Source: energy balance; the range is a judgement.
    """
    whole = above(
        sheet.doubt,
        {Severity.STOP: limits[Severity.STOP]},
        "Stall torque times free speed over volts times stall current is {ratio}; "
        "{low} to {high} is believed.",
        ratio=sheet.power_ratio,
        low=sheet.lowest_ratio,
        high=sheet.highest_ratio,
    )
    if not sheet.bare:
        return whole
    return either(
        whole,
        below(
            sheet.constants_ratio,
            {Severity.NOTE: limits[Severity.NOTE]},
            "A motor without a gearbox whose torque for each ampere is {value} of its volts for each rad/s: "
            "below {limit}, torque and current of its sheet do not fit each other.",
        ),
    )


@check(
    "M44",
    on=NotedRatioFacts,
    severity=Severity.STOP,
    why="A wrong ratio makes every later number wrong by a clean factor.",
    seen="Speed differs from the sums by the ratio of a pair of gears",
    symptom=Symptom.ON_PAPER,
    fixes=("Count the teeth again.", "Correct the noted total."),
    levers=("motor.*.total_ratio", "motor.*.gears.*.driver_teeth", "motor.*.gears.*.driven_teeth"),
    limits=Limit("1 %", "percent", mark="judgement"),
    examples=(
        Example("long-reach-pruner", Outcome.PASS, "motor.arm", ("motor.arm.total_ratio=1.5",)),
        Example("long-reach-pruner", Outcome.TRIP, "motor.arm", ("motor.arm.total_ratio=1.6",)),
        Example("long-reach-pruner", Outcome.TRIP, "motor.arm", ("motor.arm.total_ratio=1.4",)),
        Example(
            "long-reach-pruner",
            Outcome.CANNOT_TELL,
            "motor.arm",
            ("motor.arm.total_ratio=1.5", "motor.arm.gears=[{kind='chain'}]"),
        ),
    ),
    flips=(Flip("long-reach-pruner", "motor.arm", "motor.arm.total_ratio", "1.5", "1.6"),),
)
def noted_ratio_is_not_the_product(motor: NotedRatioFacts, limits: Limits) -> Answer:
    """The total ratio that somebody noted, against the product of the gear stages.

    Worked out: driven over driver teeth of each stage, multiplied.

    Not covered: chains and belts whose pitch does not fit their wheels.

    Source: counting; the limit is a judgement.
    """
    return above(
        motor.ratio_error,
        limits,
        "The noted ratio {noted} is {value:%} from the product of the stages, {product}; "
        "the limit is {limit:%}.",
        noted=motor.total_ratio,
        product=motor.motor.ratio,
    )
