"""Do the numbers that were typed fit each other?"""

from __future__ import annotations

from mulewright.checks.engine import Answer, Example, Flip, Limit, Limits, Outcome, Severity, above, check
from mulewright.checks.symptoms import Symptom
from mulewright.facts.sheet import NotedRatioFacts, SheetFacts


@check(
    "M00",
    on=SheetFacts,
    severity=Severity.STOP,
    why="A wrong unit on a sheet makes every later number wrong.",
    seen="Nothing shows until it is far weaker or stronger than the sums said",
    symptom=Symptom.ON_PAPER,
    fixes=(
        "Read the torque's unit again: 1 kgf cm is 0.0981 N m, 1 ozf in is 0.00706 N m.",
        "Measure volts over amperes with the shaft held, and the free speed.",
    ),
    levers=("motor.*.stall_torque", "motor.*.stall_current", "motor.*.free_speed", "motor.*.nominal_voltage"),
    limits=Limit(1, "ratio", mark="judgement"),
    examples=(
        Example("tray-cart", Outcome.PASS, "motor.left"),
        Example("tray-cart", Outcome.TRIP, "motor.left", ("motor.left.stall_torque=24 N m",)),
        Example("tray-cart", Outcome.TRIP, "motor.left", ("motor.left.stall_torque=0.24 N m",)),
        Example("tray-cart", Outcome.CANNOT_TELL, "motor.left", ("motor.left.free_speed=?",)),
    ),
    flips=(
        Flip("tray-cart", "motor.left", "motor.left.stall_torque", "2.4 N m", "6 N m"),
        Flip("tray-cart", "motor.left", "motor.left.stall_torque", "0.2 N m", "2.4 N m"),
    ),
)
def motor_sheet_contradicts_itself(sheet: SheetFacts, limits: Limits) -> Answer:
    """Stall torque times free speed, over volts times stall current, against what a brushed motor can have.

    Worked out: above one it would give more power than it takes; far below it, a factor of ten or so is
    missing somewhere.

    Not covered: which of the four numbers is wrong; a sheet that is wrong by less than that.

    Source: energy balance; the range is a judgement.
    """
    return above(
        sheet.doubt,
        limits,
        "Stall torque times free speed over volts times stall current is {ratio}; "
        "{low} to {high} is believed.",
        ratio=sheet.power_ratio,
        low=sheet.lowest_ratio,
        high=sheet.highest_ratio,
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
