"""Can the regulators bear what hangs on the rail: on average, with every servo held fast, in the long run?"""

from __future__ import annotations

from mulewright.checks.engine import (
    Answer,
    Example,
    Flip,
    Limit,
    Limits,
    NotApplicable,
    Outcome,
    Severity,
    above,
    check,
)
from mulewright.checks.symptoms import Symptom
from mulewright.facts.rail import RailFacts

OWN_SUPPLY = "own-servo-supply"
HUNGRY = ("servo.tilt.moving_current=0.8 A",)
NO_SOURCE = ("controller.left.red_wire=pulled",)
PACK_ALONE = (*NO_SOURCE, 'battery.small={ feeds = ["receiver.8"] }')
ONE_LINEAR = tuple(f"controller.{c}.red_wire=pulled" for c in ("front_left", "front_right", "rear_left"))
SEPARATE = ("Give the servos a supply of their own.", "Take servos that draw less.")


@check(
    "P04",
    on=RailFacts,
    severity=Severity.WARN,
    why="The regulator warms up until it protects itself, and the receiver resets after some minutes.",
    seen="Receiver restarts after some minutes of driving",
    symptom=Symptom.CUTS_OUT,
    fixes=SEPARATE,
    levers=("servo.*.power", "servo.*.moving_current", "controller.*.regulator.current"),
    limits=Limit(0.8, "ratio", "common practice"),
    examples=(
        Example("aisle-carrier", Outcome.PASS, "rail.receiver"),
        Example("aisle-carrier", Outcome.TRIP, "rail.receiver", HUNGRY, Severity.WARN),
        Example(
            "aisle-carrier", Outcome.CANNOT_TELL, "rail.receiver", ("controller.lift.regulator.current=?",)
        ),
        Example("tray-cart", Outcome.NOT_APPLICABLE, "rail.receiver", NO_SOURCE),
        Example("tray-cart", Outcome.NOT_APPLICABLE, "rail.receiver", PACK_ALONE),
    ),
    flips=(Flip("aisle-carrier", "rail.receiver", "servo.tilt.moving_current", "0.2 A", "1.5 A"),),
)
def regulator_overloaded(rail: RailFacts, limits: Limits) -> Answer:
    """The average current of everything on a rail, against what its regulators give for ever.

    Worked out: the average currents of receiver, mixers and servos are added. With several regulators the
    strongest one counts alone, because the one set highest carries all.

    Not covered: testers and lights on the rail, and heat, which has a check of its own.

    Source: common practice, no source.
    """
    if unlimited := _unlimited(rail):
        return NotApplicable(unlimited)
    what = (
        "{rail} takes {average} on average, {value:%} of the {planned} to plan on; at most {limit:%} is fine."
    )
    return above(
        rail.average_share, limits, what, rail=rail.id, average=rail.demand.average, planned=rail.planned
    )


@check(
    "P05",
    on=RailFacts,
    severity=Severity.STOP,
    why="The rail collapses, the receiver restarts, and for that time nobody drives the mule.",
    seen="Receiver restarts when a servo pushes hard, as a gripper does",
    symptom=Symptom.CUTS_OUT,
    fixes=(*SEPARATE, "Set the endpoints so that no servo is held fast at its stop."),
    levers=("servo.*.power", "servo.*.part", "servo.*.stall_current", "controller.*.regulator.peak_current"),
    limits=Limit(1.0, "ratio", "common practice"),
    examples=(
        Example("aisle-carrier", Outcome.TRIP, "rail.receiver", severity=Severity.STOP),
        Example("aisle-carrier", Outcome.PASS, "rail.servo.tilt", variant=OWN_SUPPLY),
        Example("aisle-carrier", Outcome.CANNOT_TELL, "rail.receiver", ("servo.tilt.stall_current=?",)),
        Example("tray-cart", Outcome.NOT_APPLICABLE, "rail.receiver"),
        Example("aisle-carrier", Outcome.NOT_APPLICABLE, "rail.servo.tilt", ("servo.tilt.red_wire=pulled",)),
    ),
    flips=(Flip("aisle-carrier", "rail.receiver", "servo.tilt.stall_current", "0.3 A", "3 A"),),
)
def stalled_servos_overload_regulator(rail: RailFacts, limits: Limits) -> Answer:
    """The current of every servo on a rail held fast at once, against what its regulators give for a moment.

    Worked out: the stall currents of the sheets are added. With several regulators the strongest one counts
    alone, because the one set highest carries all. A peak that no sheet names is taken as the continuous
    current.

    Not covered: servos that can never be held fast together, and what the receiver draws besides.

    Source: common practice, no source.
    """
    if rail.evaluation.is_target:
        return NotApplicable("the servos of a target are held against what it has for them (H06)")
    if not rail.demand.servos:
        return NotApplicable(f"no servo lives from {rail.id}")
    if unlimited := _unlimited(rail):
        return NotApplicable(unlimited)
    what = "Servos held fast draw {stalled} from {rail}, {value:%} of the {planned} to plan on."
    return above(
        rail.stall_share, limits, what, rail=rail.id, stalled=rail.demand.stalled, planned=rail.planned_peak
    )


@check(
    "P06",
    on=RailFacts,
    severity=Severity.STOP,
    why="It works for three minutes, is dead for one, and works again: the regulator protects itself.",
    seen="Works for minutes, is dead for one, and works again",
    symptom=Symptom.CUTS_OUT,
    fixes=(
        "Take a switching regulator for the rail, and pull the red wires of the linear ones.",
        "Give the servos a supply of their own.",
        "Take a battery of fewer volts, if the motors can do with it.",
    ),
    levers=("servo.*.power", "servo.*.moving_current", "battery.*.rested", "controller.*.red_wire"),
    limits={
        Severity.WARN: Limit(0.7, "ratio", "judgement"),
        Severity.STOP: Limit(1.3, "ratio", "judgement"),
    },
    examples=(
        Example("aisle-carrier", Outcome.TRIP, "rail.receiver", severity=Severity.WARN),
        Example("aisle-carrier", Outcome.TRIP, "rail.receiver", HUNGRY, Severity.STOP),
        Example("tray-cart", Outcome.PASS, "rail.receiver"),
        Example("aisle-carrier", Outcome.NOT_APPLICABLE, "rail.servo.tilt", variant=OWN_SUPPLY),
        Example("tray-cart", Outcome.CANNOT_TELL, "rail.receiver", ("controller.left.regulator.kind=?",)),
        Example("tray-cart", Outcome.CANNOT_TELL, "rail.receiver", ("battery.main.rested=?",)),
    ),
    flips=(Flip("aisle-carrier", "rail.receiver", "servo.tilt.moving_current", "0.1 A", "0.5 A"),),
)
def linear_regulator_too_hot(rail: RailFacts, limits: Limits) -> Answer:
    """The temperature rise of the linear regulator that carries a rail, against what such a part bears.

    Worked out: battery volts less rail volts, times the average current, is heat; times the thermal
    resistance it is the rise above the air, in the long run. With several linear regulators the one set
    highest carries all.

    Not covered: air that moves, a fresh pack above its rested volts, and how long it takes to get there.

    Source: common practice, no source.
    """
    if not rail.linear:
        return NotApplicable(f"no linear regulator feeds {rail.id}")
    what = (
        "With {average} a linear regulator on {rail} warms by {rise} above the air, "
        "{value:%} of what it bears; at most {limit:%} is fine."
    )
    return above(
        rail.rise_share, limits, what, rail=rail.id, average=rail.demand.average, rise=rail.rise
    )  # fmt: skip


@check(
    "P07",
    on=RailFacts,
    severity=Severity.NOTE,
    why="Whoever adds up their labels plans on current that is not there.",
    seen="One regulator is hot while the others stay cold",
    symptom=Symptom.HOT,
    fixes=(
        "Plan on the strongest one alone.",
        "Keep one red wire and pull the others out of their plugs.",
    ),
    levers=("controller.*.red_wire",),
    follows=("P02",),
    examples=(
        Example("aisle-carrier", Outcome.TRIP, "rail.receiver", severity=Severity.NOTE),
        Example("tray-cart", Outcome.PASS, "rail.receiver"),
        Example("tray-cart", Outcome.CANNOT_TELL, "rail.receiver", ("controller.left.regulator.kind=?",)),
        Example("tray-cart", Outcome.NOT_APPLICABLE, "rail.receiver", PACK_ALONE),
    ),
)
def one_regulator_carries_all(rail: RailFacts, limits: Limits) -> Answer:
    """How many linear regulators feed one rail, against one.

    Worked out: regulators set to the same volts differ by a little; the highest one gives all it can before
    the next one gives anything. So the current to plan on is that of the strongest, not their sum.

    Not covered: regulators that are made to share a load.

    Source: common practice, no source.
    """
    if unlimited := _unlimited(rail):
        return NotApplicable(unlimited)
    what = "Linear regulators on {rail}: {value}. Plan on {planned}, not on the {hoped} of all their labels."
    return above(
        rail.linear_count, {Severity.NOTE: 1}, what, rail=rail.id, planned=rail.planned, hoped=rail.hoped
    )


def _unlimited(rail: RailFacts) -> str:
    """Why no regulator limits a rail, where none does."""
    if not rail.sources:
        return f"nothing feeds {rail.id}"
    return f"{rail.packs[0].id} feeds {rail.id} directly, no regulator limits it" if rail.packs else ""
