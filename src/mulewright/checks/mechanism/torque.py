"""Does a motor have the torque to raise its load, with something to spare?"""

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
)
from mulewright.checks.symptoms import Symptom
from mulewright.facts.holding import RaisingFacts

TORQUE_FIXES = (
    "Put more reduction between motor and load.",
    "Take a stronger motor.",
    "Take weight off, or add a counterbalance.",
)
TORQUE_LEVERS = (
    "motor.*.part",
    "motor.*.gears.*.ratio",
    "mechanism.*.counterbalance",
    "mechanism.*.counter_force",
    "mechanism.*.drum_diameter",
    "mechanism.*.load",
)


@check(
    "M05",
    on=RaisingFacts,
    severity=Severity.STOP,
    why="It will not move, or only empty and on a fresh battery.",
    seen="Lifts only when empty, or only the first part of its way",
    symptom=Symptom.WEAK,
    fixes=(*TORQUE_FIXES, "Let the full stick reach the whole supply."),
    levers=(*TORQUE_LEVERS, "battery.*.part", "radio.channel.*.travel"),
    limits={
        Severity.STOP: Limit(1, "ratio", mark="published", source="balance of torques"),
        Severity.WARN: Limit(2, "ratio", mark="common practice"),
    },
    examples=(
        Example("aisle-carrier", Outcome.PASS, "mechanism.lift"),
        Example(
            "aisle-carrier", Outcome.TRIP, "mechanism.lift", ("mechanism.lift.load=6 kg",), Severity.WARN
        ),
        Example(
            "aisle-carrier", Outcome.TRIP, "mechanism.lift", ("mechanism.lift.load=12 kg",), Severity.STOP
        ),
        Example("aisle-carrier", Outcome.CANNOT_TELL, "mechanism.lift", ("battery.main.resistance=?",)),
    ),
    flips=(
        Flip("aisle-carrier", "mechanism.lift", "mechanism.lift.load", "3 kg", "8 kg"),
        Flip("aisle-carrier", "mechanism.lift", "mechanism.lift.drum_diameter", "30 mm", "60 mm"),
    ),
)
def too_weak_for_its_load(raising: RaisingFacts, limits: Limits) -> Answer:
    """The torque that the motor has at full stick, over the torque that its load asks of it.

    Worked out: the sheet's stall torque, times the duty of a full stick, times the volts that are left at
    the controller while it raises the load from the rested battery. The load's torque comes from weight,
    lever or drum, the gear stages and their losses.

    Not covered: friction of guides beyond the efficiency that was typed, a jerk at the start, other motors
    that run at the same time, a controller that limits its current by itself.

    Source: common practice, no source; twice the torque leaves room for a tired battery and a warm winding.
    """
    return below(
        raising.margin,
        limits,
        "It has {value} times the torque that its load asks ({available} against {asked}); "
        "{limit} times is expected.",
        available=raising.available,
        asked=raising.held.asked,
    )


@check(
    "M06",
    on=RaisingFacts,
    severity=Severity.WARN,
    why="A motor that works far below its free speed is slow, and turns most of its power into heat.",
    seen="Slow under its load, and the motor gets hot",
    symptom=Symptom.WEAK,
    fixes=TORQUE_FIXES,
    levers=TORQUE_LEVERS,
    limits={
        Severity.STOP: Limit("80 %", "ratio", mark="common practice"),
        Severity.WARN: Limit("50 %", "ratio", mark="common practice"),
        Severity.NOTE: Limit("25 %", "ratio", mark="common practice"),
    },
    examples=(
        Example("aisle-carrier", Outcome.TRIP, "mechanism.lift", (), Severity.NOTE),
        Example(
            "aisle-carrier", Outcome.TRIP, "mechanism.lift", ("mechanism.lift.load=7 kg",), Severity.WARN
        ),
        Example(
            "aisle-carrier", Outcome.TRIP, "mechanism.lift", ("mechanism.lift.load=10 kg",), Severity.STOP
        ),
        Example("aisle-carrier", Outcome.PASS, "mechanism.lift", ("mechanism.lift.load=2 kg",)),
        Example("aisle-carrier", Outcome.CANNOT_TELL, "mechanism.lift", ("mechanism.lift.carriage=?",)),
    ),
    flips=(Flip("aisle-carrier", "mechanism.lift", "mechanism.lift.load", "1 kg", "4 kg"),),
)
def loaded_too_deep(raising: RaisingFacts, limits: Limits) -> Answer:
    """The torque that a steady load asks of its motor, over the torque at which the motor stands still.

    Worked out: weight, lever or drum, gear stages and their losses give the torque asked; the stall torque
    is the sheet's, at its own volts.

    Not covered: how long it works; a motor may be loaded deep for a few seconds at a time.

    Source: common practice, no source; a brushed motor is most efficient at a tenth to a quarter of its
    stall torque and gives most power at half.
    """
    return above(
        raising.held.share_of_stall,
        limits,
        "Its load asks for {value:%} of its motor's stall torque ({asked} of {stall}); "
        "the limit is {limit:%}.",
        asked=raising.held.asked,
        stall=raising.motor.stall_torque,
    )
