"""What gives way when something is stopped by force: a roller that jams, an arm that meets its stop?"""

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
    below,
    check,
    either,
)
from mulewright.checks.symptoms import Symptom
from mulewright.facts.jams import JamFacts
from mulewright.facts.whipping import WhipFacts

ROLLER = "mechanism.roller"
FAST = "mechanism.roller.slips=false"
LONG = "motor.roller.copper_mass=60 g"


@check(
    "M32",
    on=JamFacts,
    severity=Severity.WARN,
    seen="The roller stands, its motor is silent and smells",
    symptom=Symptom.HOT,
    why="A jam is a stall with the command still on, and nobody looks into the roller.",
    fixes=(
        "Set the endpoint to 60 % or less.",
        "Let a belt or a clutch slip before the motor stalls.",
        "Put the roller on a sprung control, so that letting go stops it.",
    ),
    levers=("mechanism.*.slips", "radio.channel.*.travel", "motor.*.copper_mass", "mechanism.*.bears"),
    limits=Limit("15 s", "time", mark="common practice"),
    examples=(
        Example("leaf-sweeper", Outcome.NOT_APPLICABLE, ROLLER),
        Example("leaf-sweeper", Outcome.TRIP, ROLLER, (FAST,)),
        Example("leaf-sweeper", Outcome.TRIP, ROLLER, (FAST, "mechanism.roller.bears=200 N")),
        Example("leaf-sweeper", Outcome.PASS, ROLLER, (FAST, LONG)),
        Example("leaf-sweeper", Outcome.TRIP, ROLLER, (FAST, LONG, "mechanism.roller.bears=20 N")),
        Example("leaf-sweeper", Outcome.PASS, ROLLER, (FAST, LONG, "mechanism.roller.bears=200 N")),
        Example("leaf-sweeper", Outcome.CANNOT_TELL, ROLLER, ("mechanism.roller.slips=?",)),
        Example("leaf-sweeper", Outcome.CANNOT_TELL, ROLLER, (FAST, "motor.roller.copper_mass=?")),
    ),
    flips=(
        Flip("leaf-sweeper", ROLLER, "motor.roller.copper_mass", "15 g", "60 g", (FAST,)),
        Flip("leaf-sweeper", ROLLER, "mechanism.roller.bears", "20 N", "200 N", (FAST, LONG)),
    ),
)
def roller_jams_under_power(roller: JamFacts, limits: Limits) -> Answer:
    """The time for which its motor bears a jammed roller, and the pull of its rim against what that bears.

    Worked out: the heat of the stall current from the rested battery into the copper of the winding, until it
    is 80 K hotter, as for a motor at its stop. The stall torque through the gear stages gives the pull of the
    rim; it is compared where it is noted what flaps and axle bear.

    Not covered: a jam that only slows the roller; a controller that limits its current by itself.

    Source: heat balance; the time is common practice, no source.
    """
    if roller.slips:
        return NotApplicable("a clutch or a belt slips before a jam stalls its motor")
    burns = below(
        roller.jam_time,
        limits,
        "Jammed it takes {current}, and its winding is {rise} hotter after {value}; {limit} are wanted. "
        "Its rim pulls with {pull}.",
        rise=roller.jam_rise,
        pull=roller.jam_pull,
        current=roller.stalled.held_current,
    )
    if not roller.bearing_noted:
        return burns
    breaks = above(
        roller.jam_pull, {Severity.WARN: roller.bears}, "Jammed its rim pulls with {value}; it bears {limit}."
    )
    return either(burns, breaks)


@check(
    "M43",
    on=WhipFacts,
    severity=Severity.WARN,
    seen="Cracked bracket, or teeth that skip, where the arm meets its stop",
    symptom=Symptom.HOT,
    why="All the energy of the swing ends in the stop and in the teeth behind it.",
    fixes=(
        "Put rubber on the stop.",
        "Put more reduction before the arm.",
        "Lower the endpoint of its channel.",
    ),
    levers=("motor.*.gears.*.ratio", "radio.channel.*.travel", "mechanism.*.load", "mechanism.*.inertia"),
    limits=Limit("2 J", "energy", mark="common practice"),
    examples=(
        Example("long-reach-pruner", Outcome.PASS, "mechanism.arm"),
        Example("long-reach-pruner", Outcome.TRIP, "mechanism.arm", ("mechanism.arm.load=6 kg",)),
        Example("long-reach-pruner", Outcome.TRIP, "mechanism.arm", ("mechanism.arm.inertia=2 kg m2",)),
        Example("long-reach-pruner", Outcome.CANNOT_TELL, "mechanism.arm", ("mechanism.arm.load_at=?",)),
    ),
    flips=(
        Flip("long-reach-pruner", "mechanism.arm", "mechanism.arm.inertia", "0.5 kg m2", "3 kg m2"),
        Flip("long-reach-pruner", "mechanism.arm", "mechanism.arm.load", "1 kg", "8 kg"),
    ),
)
def arm_whips_into_its_stop(arm: WhipFacts, limits: Limits) -> Answer:
    """The energy of an arm that meets its stop at full speed.

    Worked out: its moment of inertia about the pivot, noted or made of its lumps and its load as points,
    and its speed at full stick and nominal volts with nothing to raise.

    Not covered: the rotor, which adds its inertia times the square of all reduction; a fall, which may be
    faster; arms that a servo swings.

    Source: energy of a turning body; the limit is common practice, no source.
    """
    return above(
        arm.whip,
        limits,
        "It meets its stop at {speed} with {value}; the limit is {limit}.",
        speed=arm.swing_speed,
    )
