"""How much energy waits to be set free?"""

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
    flagged,
    together,
)
from mulewright.checks.symptoms import Symptom
from mulewright.facts.loads import HeldFacts
from mulewright.facts.stored import SpinningFacts, StretchedRopeFacts


@check(
    "X07",
    on=HeldFacts,
    severity=Severity.WARN,
    why="A raised load is a hammer over the hands that come under it.",
    seen="Load comes down when the power is taken away",
    symptom=Symptom.FALLS,
    fixes=(
        "Prop or pin it before hands go in.",
        "Lower it before anybody touches the machine.",
        "Keep hands out by a guard.",
    ),
    levers=("mechanism.*.load", "mechanism.*.travel", "mechanism.*.near_hands"),
    limits=Limit("5 J", "energy", mark="common practice"),
    examples=(
        Example("aisle-carrier", Outcome.TRIP, "mechanism.lift"),
        Example("aisle-carrier", Outcome.TRIP, "mechanism.lift", ("mechanism.lift.ratchet=true",)),
        Example("aisle-carrier", Outcome.PASS, "mechanism.lift", ("mechanism.lift.travel=0.1 m",)),
        Example("aisle-carrier", Outcome.PASS, "mechanism.lift", ("mechanism.lift.near_hands=false",)),
        Example("aisle-carrier", Outcome.CANNOT_TELL, "mechanism.lift", ("mechanism.lift.near_hands=?",)),
    ),
    flips=(Flip("aisle-carrier", "mechanism.lift", "mechanism.lift.travel", "0.05 m", "0.8 m"),),
)
def falls_on_hands(held: HeldFacts, limits: Limits) -> Answer:
    """The energy of a load at the top of its way where hands or feet come under it, ratchet or not.

    Worked out: mass times height; for a lift each stage by its own way, for an arm between the highest and
    the lowest point of its swing. A counterbalance is not taken off: its spring may be unhooked.

    Not covered: springs and ropes under tension, a load that rolls off by itself.

    Source: common practice, no source.
    """
    return together(
        above(
            held.energy,
            limits,
            "{value} are held up; the limit is {limit} where hands come under it.",
        ),
        flagged(held.over_hands, Severity.WARN, ""),
    )


@check(
    "X08",
    on=StretchedRopeFacts,
    severity=Severity.WARN,
    why="A stretched rope that lets go whips back along its line.",
    seen="Rope end whips when the hook lets go",
    symptom=Symptom.FALLS,
    fixes=(
        "Lay a cover or a heavy cloth over the rope, and stand aside of its line.",
        "Limit the travel of the channel, so that the motor pulls less.",
        "Take a stiffer rope.",
    ),
    levers=("radio.channel.*.travel", "mechanism.*.rope.stiffness", "mechanism.*.drum_diameter"),
    limits=Limit("5 J", "energy", mark="judgement"),
    examples=(
        Example("log-winch", Outcome.TRIP, "mechanism.winch"),
        Example("log-winch", Outcome.PASS, "mechanism.winch", (), variant="mended"),
        Example("log-winch", Outcome.TRIP, "mechanism.winch", ("mechanism.winch.use=pulling",)),
        Example("log-winch", Outcome.CANNOT_TELL, "mechanism.winch", ("mechanism.winch.rope.stiffness=?",)),
    ),
    flips=(
        Flip("log-winch", "mechanism.winch", "mechanism.winch.rope.stiffness", "8 kN/m", "40 kN/m"),
        Flip("log-winch", "mechanism.winch", "radio.channel.3.travel", "125 %", "60 %"),
    ),
)
def rope_whips_back(winch: StretchedRopeFacts, limits: Limits) -> Answer:
    """The energy that a winch stretches into its rope when its motors are held fast.

    Worked out: the pull on the first layer with the motors held fast at full stick on the rested battery, if
    nothing were lost on the way, squared, over twice the stiffness of the rope in use.

    Not covered: springs, ropes of lifts, a hook that flies.

    Source: energy of a spring; the limit is a judgement.
    """
    return above(
        winch.stretch_energy,
        limits,
        "Held fast, it pulls {pull} and stretches {value} into its rope; the limit is {limit}.",
        pull=winch.winch.stall_pull,
    )


@check(
    "X06",
    on=SpinningFacts,
    severity=Severity.STOP,
    why="A wheel that bursts or comes loose throws its parts in its plane.",
    seen="Rising whine, a wobble, and something flies",
    symptom=Symptom.FALLS,
    fixes=(
        "Fit a guard that would catch its parts, and let nobody stand in its plane.",
        "Limit its speed by the travel of its channel.",
        "Take lighter or smaller wheels.",
    ),
    levers=("mechanism.*.guard", "radio.channel.*.travel", "mechanism.*.wheel_inertia"),
    limits={
        Severity.STOP: Limit("100 J", "energy", mark="common practice"),
        Severity.WARN: Limit("20 J", "energy", mark="common practice"),
    },
    examples=(
        Example("seed-ball-thrower", Outcome.TRIP, "mechanism.flywheel", (), Severity.WARN),
        Example("seed-ball-thrower", Outcome.PASS, "mechanism.flywheel", ("mechanism.flywheel.guard=true",)),
        Example(
            "seed-ball-thrower",
            Outcome.TRIP,
            "mechanism.flywheel",
            ("mechanism.flywheel.wheel_inertia=7e-4 kg m2", "mechanism.flywheel.guard=true"),
            Severity.STOP,
        ),
        Example("seed-ball-thrower", Outcome.PASS, "mechanism.flywheel", ("radio.channel.3.travel=55 %",)),
        Example(
            "seed-ball-thrower", Outcome.CANNOT_TELL, "mechanism.flywheel", ("mechanism.flywheel.guard=?",)
        ),
    ),
    flips=(
        Flip(
            "seed-ball-thrower",
            "mechanism.flywheel",
            "mechanism.flywheel.wheel_inertia",
            "3000 g cm2",
            "9000 g cm2",
            ("mechanism.flywheel.guard=true",),
        ),
        Flip("seed-ball-thrower", "mechanism.flywheel", "radio.channel.3.travel", "50 %", "100 %"),
    ),
)
def flywheel_without_a_guard(flywheel: SpinningFacts, limits: Limits) -> Answer:
    """The energy of all the wheels of a thrower at full speed, against what needs a guard, and what is too much.

    Worked out: half the moment of inertia of all wheels times the square of their speed at full stick and
    nominal volts with nothing in them. A guard settles the lower limit, and nothing the upper one.

    Not covered: whether the guard would hold, cracks, hubs that slip, a battery fresh off the charger.

    Source: energy of rotation; the limits are common practice, no source.
    """
    levels = {Severity.STOP: limits[Severity.STOP]} if flywheel.guard else limits
    return above(
        flywheel.spin_energy,
        levels,
        "Its wheels hold {value} at full speed, {guard} guard; the limit is {limit}.",
        guard="behind a" if flywheel.guard else "without a",
    )
