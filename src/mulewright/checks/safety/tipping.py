"""Does it tip over?"""

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
from mulewright.facts.driving import DrivingFacts
from mulewright.facts.reach import ReachFacts


@check(
    "X01",
    on=DrivingFacts,
    severity=Severity.STOP,
    why="A full stick lifts the front wheels, and it goes over backwards.",
    seen="Front wheels lift when it starts hard",
    symptom=Symptom.FALLS,
    fixes=(
        "Lower the rate of forward.",
        "Bring the centre of gravity forward or down.",
        "Move the rear wheels further back.",
    ),
    levers=("body.center_height", "body.center_ahead", "body.wheelbase", "radio.control.*.rate"),
    limits={
        Severity.STOP: Limit(
            1, "ratio", mark="published", source="balance of moments about the rear contacts"
        ),
        Severity.WARN: Limit(0.6, "ratio", mark="common practice"),
    },
    examples=(
        Example("tray-cart", Outcome.PASS, "drive"),
        Example("tray-cart", Outcome.TRIP, "drive", ("body.center_height=0.12 m",), Severity.WARN),
        Example("tray-cart", Outcome.TRIP, "drive", ("body.center_height=0.20 m",), Severity.STOP),
        Example("tray-cart", Outcome.CANNOT_TELL, "drive", ("body.center_height=?",)),
    ),
    flips=(
        Flip("tray-cart", "drive", "body.center_height", "0.07 m", "0.12 m"),
        Flip("tray-cart", "drive", "body.center_ahead", "0.04 m", "0.12 m"),
    ),
)
def tips_over_backwards(drive: DrivingFacts, limits: Limits) -> Answer:
    """The acceleration that it can make, over the one at which its front wheels leave the ground.

    Worked out: it pushes as hard as the driven wheels grip, or as its motors pull on the rested battery if
    that is less; weight on the wheels as when standing still. It tips at gravity times the distance of the
    centre of gravity from the rear contacts over its height.

    Not covered: a raised arm or lift, a slope, soft tyres, the weight that moves to the rear while it
    speeds up.

    Source: balance of moments; the limit of the warning is common practice, no source.
    """
    return above(
        drive.tips_back_ratio,
        limits,
        "Full stick makes {acceleration}, and {tipping} tip it backwards: a ratio of {value}, "
        "where the limit is {limit}.",
        acceleration=drive.acceleration,
        tipping=drive.body.tips_back_at,
    )


@check(
    "X02",
    on=DrivingFacts,
    severity=Severity.STOP,
    why="The stick thrown back lifts the rear wheels, and it goes over its nose.",
    seen="Tail lifts when it stops or reverses hard",
    symptom=Symptom.FALLS,
    fixes=(
        "Set a slow ramp, or a lower rate of reverse.",
        "Bring the centre of gravity back or down.",
        "Move the front contacts further ahead.",
    ),
    levers=("body.center_height", "body.center_ahead", "body.wheelbase"),
    limits={
        Severity.STOP: Limit(
            1, "ratio", mark="published", source="balance of moments about the front contacts"
        ),
        Severity.WARN: Limit(0.6, "ratio", mark="common practice"),
    },
    examples=(
        Example("tray-cart", Outcome.PASS, "drive"),
        Example("two-benches", Outcome.TRIP, "drive", (), Severity.WARN),
        Example("long-reach-pruner", Outcome.TRIP, "drive", (), Severity.STOP),
        Example("tray-cart", Outcome.CANNOT_TELL, "drive", ("body.wheelbase=?",)),
        Example("long-reach-pruner", Outcome.CANNOT_TELL, "drive", ("mechanism.arm.pivot_height=?",)),
    ),
    flips=(
        Flip("tray-cart", "drive", "body.center_height", "0.07 m", "0.15 m"),
        Flip("long-reach-pruner", "drive", "body.wheelbase", "0.3 m", "0.6 m"),
    ),
)
def tips_over_its_nose(drive: DrivingFacts, limits: Limits) -> Answer:
    """The deceleration that its wheels can make, over the one at which its rear wheels leave the ground.

    Worked out: a flick into reverse draws up to twice the stall current, so that grip alone decides: friction
    times gravity, as if every wheel braked, and that over the square root of two for roller wheels. The
    centre of gravity is that with every arm straight out.

    Not covered: a lift that is up, a slope, soft tyres.

    Source: balance of moments; the limit of the warning is common practice, no source.
    """
    return above(
        drive.tips_forward_ratio,
        limits,
        "Braking makes {braking}, and {tipping} tip it over its nose: a ratio of {value}, "
        "where the limit is {limit}.",
        braking=drive.braking,
        tipping=drive.out.tips_forward_at,
    )


@check(
    "X03",
    on=ReachFacts,
    severity=Severity.STOP,
    why="It stands while nothing moves, and goes over at the first hard stop.",
    seen="Stands with the arm out, and goes over when it stops",
    symptom=Symptom.FALLS,
    fixes=(
        "Move the front contacts further ahead.",
        "Put weight at the rear.",
        "Note the speed that is allowed with the arm out.",
    ),
    levers=("body.wheelbase", "body.center_ahead", "mechanism.*.load", "mechanism.*.pivot_ahead"),
    limits={
        Severity.STOP: Limit("10 %", "ratio", mark="judgement"),
        Severity.WARN: Limit("25 %", "ratio", mark="judgement"),
    },
    examples=(
        Example("long-reach-pruner", Outcome.TRIP, "body", (), Severity.WARN),
        Example("long-reach-pruner", Outcome.TRIP, "body", ("mechanism.arm.load=1.5 kg",), Severity.STOP),
        Example("long-reach-pruner", Outcome.PASS, "body", ("body.wheelbase=0.38 m",)),
        Example("long-reach-pruner", Outcome.CANNOT_TELL, "body", ("mechanism.arm.load=?",)),
    ),
    flips=(Flip("long-reach-pruner", "body", "body.wheelbase", "0.26 m", "0.38 m"),),
)
def arm_reaches_too_far(reach: ReachFacts, limits: Limits) -> Answer:
    """What is left from the centre of gravity to the front contacts, over half the wheelbase, arms out.

    Worked out: the centre of gravity of the body, of every mass on the arms and of their loads, arms level
    and ahead.

    Not covered: arms that reach to the side, lifts, a floor that slopes.

    Source: centre of gravity of several masses; the limits are judgements.
    """
    return below(
        reach.margin_share,
        limits,
        "With the arms out {margin} are left to the front contacts, {value:%} of half the wheelbase; "
        "the limit is {limit:%}.",
        margin=reach.margin_ahead,
    )


@check(
    "X05",
    on=DrivingFacts,
    severity=Severity.WARN,
    why="It falls backwards on the slope.",
    seen="Front gets light on the ramp",
    symptom=Symptom.FALLS,
    fixes=(
        "Bring the centre of gravity forward or down.",
        "Go up with everything lowered.",
        "Go another way.",
    ),
    levers=("room.steepest", "body.center_height", "body.center_ahead"),
    limits=Limit(0.6, "ratio", mark="common practice"),
    examples=(
        Example("tray-cart", Outcome.PASS, "drive", ("room.steepest=10 deg",)),
        Example("tray-cart", Outcome.TRIP, "drive", ("room.steepest=40 deg",)),
        Example("tray-cart", Outcome.CANNOT_TELL, "drive", ("room.steepest=?",)),
    ),
    flips=(Flip("tray-cart", "drive", "room.steepest", "5 deg", "45 deg"),),
)
def slope_tips_it(drive: DrivingFacts, limits: Limits) -> Answer:
    """The steepest slope over the one on which it falls backwards, both as rise over run.

    Worked out: it falls where the centre of gravity stands above the rear contacts.

    Not covered: speeding up on the slope, going down or across it, a raised arm or lift.

    Source: balance of moments; the limit is common practice, no source.
    """
    return above(
        drive.tips_on_slope_ratio,
        limits,
        "A slope of {slope} is {value} of the one that tips it; the limit is {limit}.",
        slope=drive.room.steepest,
    )
