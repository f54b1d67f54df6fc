"""Does a raised load stay up when the stick is let go?"""

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
    check,
    together,
)
from mulewright.checks.symptoms import Symptom
from mulewright.facts.holding import RaisingFacts, RaisingOnRopeFacts

STANDS_STILL = 1.0  # [1] of the speed that passes for standing still
HOLD_FIXES = (
    "Fit a ratchet, or a gear that its load cannot turn.",
    "Take the weight off with a counterbalance.",
    "Set the controller to brake.",
)
HOLD_LEVERS = (
    "mechanism.*.ratchet",
    "mechanism.*.counterbalance",
    "mechanism.*.counter_force",
    "controller.*.stopping",
    "motor.*.gears.*.ratio",
)


@check(
    "M07",
    on=RaisingFacts,
    severity=Severity.WARN,
    why="Nobody holds the load once the stick is back in the middle.",
    seen="Arm or lift sinks slowly after the stick is let go",
    symptom=Symptom.BY_ITSELF,
    fixes=(*HOLD_FIXES, "Hold it with the stick inside its hold band, and write down where that is."),
    levers=HOLD_LEVERS,
    limits={
        Severity.STOP: Limit(STANDS_STILL, "ratio", mark="judgement"),
        Severity.WARN: Limit(STANDS_STILL, "ratio", mark="judgement"),
    },
    examples=(
        Example("aisle-carrier", Outcome.TRIP, "mechanism.lift", (), Severity.STOP),
        Example(
            "aisle-carrier",
            Outcome.TRIP,
            "mechanism.lift",
            ("mechanism.lift.near_hands=false",),
            Severity.WARN,
        ),
        Example("aisle-carrier", Outcome.PASS, "mechanism.lift", ("mechanism.lift.ratchet=true",)),
        Example("aisle-carrier", Outcome.CANNOT_TELL, "mechanism.lift", ("controller.lift.stopping=?",)),
    ),
    flips=(Flip("aisle-carrier", "mechanism.lift", "mechanism.lift.load", "0.1 kg", "3 kg"),),
)
def creeps_when_let_go(raising: RaisingFacts, limits: Limits) -> Answer:
    """The speed at which a load moves by itself at neutral, over the speed that passes for standing still.

    Worked out: in brake mode the load turns the motor as a generator on its own winding; the gears hold
    back as much as they lose when driven, so a train that is at most half efficient holds by itself. In
    coast mode nothing holds. An arm may creep 2 degrees a second, a lift 5 millimetres a second. It is a
    STOP where hands come under it.

    Not covered: dry friction in guides and bearings, which helps; an arm whose counterbalance lifts it when
    it is empty; a controller that lets go when the battery is unplugged.

    Source: energy balance of a gear train driven backwards; both speeds are judgements.
    """
    level = Severity.STOP if raising.held.near_hands else Severity.WARN
    return above(
        raising.measured.creep_share,
        {level: limits[level]},
        "Let go, it moves by itself at {creep}; up to {still} passes for standing still.",
        creep=raising.measured.creep,
        still=raising.measured.still,
    )


@check(
    "M25",
    on=RaisingOnRopeFacts,
    severity=Severity.STOP,
    why="It comes down on a hand the moment the stick centres.",
    seen="Lift comes down as soon as the stick is let go",
    symptom=Symptom.FALLS,
    fixes=(*HOLD_FIXES, "Prop it before hands go under it."),
    levers=HOLD_LEVERS,
    limits=Limit("5 J", "energy", mark="common practice"),
    examples=(
        Example("aisle-carrier", Outcome.TRIP, "mechanism.lift"),
        Example("aisle-carrier", Outcome.PASS, "mechanism.lift", ("mechanism.lift.ratchet=true",)),
        Example("aisle-carrier", Outcome.PASS, "mechanism.lift", ("mechanism.lift.travel=0.1 m",)),
        Example("aisle-carrier", Outcome.CANNOT_TELL, "mechanism.lift", ("mechanism.lift.travel=?",)),
    ),
    flips=(Flip("aisle-carrier", "mechanism.lift", "mechanism.lift.travel", "0.05 m", "0.8 m"),),
)
def lift_drops(raising: RaisingOnRopeFacts, limits: Limits) -> Answer:
    """The energy held up at the top of a lift that does not stay up by itself.

    Worked out: mass times height, each stage by its own way; whether it stays up is found as for any raised
    load.

    Not covered: how fast it comes down; a slow lift with much energy trips too, because one plug pulled
    makes it fast.

    Source: common practice, no source.
    """
    return together(
        above(
            raising.rope.energy,
            limits,
            "{value} are held up, and let go it moves by itself at {creep}; the limit is {limit}.",
            creep=raising.creep,
        ),
        above(raising.creep_share, {Severity.STOP: STANDS_STILL}, ""),
    )


@check(
    "M09",
    on=RaisingFacts,
    severity=Severity.NOTE,
    why="Between both ends of the band it stays; where the upper end is out of reach, it never rises.",
    seen="Hums at full stick, and the load does not rise",
    symptom=Symptom.STILL,
    fixes=(
        "Note the band: it gives the volts of gravity and of friction.",
        "Put more reduction between them.",
    ),
    levers=("motor.*.gears.*.ratio", "mechanism.*.load", "radio.channel.*.travel"),
    follows=("M05",),
    examples=(
        Example("aisle-carrier", Outcome.PASS, "mechanism.lift"),
        Example("aisle-carrier", Outcome.TRIP, "mechanism.lift", ("mechanism.lift.load=12 kg",)),
        Example("aisle-carrier", Outcome.CANNOT_TELL, "mechanism.lift", ("mechanism.lift.efficiency=?",)),
    ),
    flips=(Flip("aisle-carrier", "mechanism.lift", "mechanism.lift.load", "3 kg", "12 kg"),),
)
def hold_band_out_of_reach(raising: RaisingFacts, limits: Limits) -> Answer:
    """The duty above which a load starts to rise, against that of a full stick.

    Worked out: the duty at which the motor's torque balances the load and the losses, at nominal volts; the
    lower end of the band is where the load just does not turn the motor back.

    Not covered: the free current, with which the upper end is a little higher; dry friction in guides.

    Source: energy balance of a gear train driven both ways.
    """
    return above(
        raising.hold_high,
        {Severity.NOTE: raising.motor.duty},
        "It stays where it is between {low:%} and {value:%} of the supply; full stick gives {limit:%}.",
        low=raising.hold_low,
    )
