"""Are 45-degree roller wheels mounted and loaded as they have to be, and what is planned for sideways?"""

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
)
from mulewright.checks.symptoms import Symptom
from mulewright.facts.roller_wheels import RollerDriveFacts, StrafeFacts

LEFT = ("drive.hands.front_left=right", "drive.hands.rear_left=left")
RIGHT = ("drive.hands.front_right=left", "drive.hands.rear_right=right")


@check(
    "M38",
    on=RollerDriveFacts,
    severity=Severity.STOP,
    seen="Drives ahead, strafes the wrong way, scrubs in a turn",
    symptom=Symptom.WRONG,
    why="Wheels of the wrong hand work against each other, and no setting of the radio mends that.",
    fixes=(
        "Exchange left and right wheels, until the rollers on top form an X from above.",
        "Try forward, strafe and turn again, one after the other.",
    ),
    levers=("drive.hands.*",),
    examples=(
        Example("aisle-carrier", Outcome.PASS, "drive"),
        Example("aisle-carrier", Outcome.TRIP, "drive", (*LEFT, *RIGHT)),
        Example("aisle-carrier", Outcome.TRIP, "drive", LEFT[:1]),
        Example("aisle-carrier", Outcome.CANNOT_TELL, "drive", ("drive.hands=?",)),
        Example("aisle-carrier", Outcome.CANNOT_TELL, "drive", ("drive.hands.front_left=?",)),
    ),
)
def roller_wheels_of_the_wrong_hand(drive: RollerDriveFacts, limits: Limits) -> Answer:
    """The hand of each roller wheel, against the one that its corner needs.

    Worked out: seen from above the rollers on top of the four wheels have to form an X; those on the floor
    then form a diamond. With all four hands wrong the lever of a turn is the difference of half wheelbase and
    half track instead of their sum: next to nothing on a square machine. With one pair wrong, strafe and
    turn look exchanged although every wheel turns the right way on blocks.

    Not covered: plugs and leads, which give the same picture on the floor and another one on blocks.

    Source: Lynch and Park, Modern Robotics, section 13.2 (from memory).
    """
    return flagged(
        drive.wrong_hands,
        Severity.STOP,
        "Of the wrong hand: {wheels}. On the floor {effect}.",
        wheels=drive.swapped_in_words,
        effect=drive.effect,
    )


@check(
    "M39",
    on=StrafeFacts,
    severity=Severity.NOTE,
    seen="Strafes more slowly than it drives",
    symptom=Symptom.WEAK,
    why="A plan that counts on the speed ahead comes out late, and pushes too little.",
    fixes=("Plan with 0.7 to 0.85 of the speed ahead.", "Time it over a marked way, and note that."),
    levers=("drive.wheel.plan_loss",),
    limits=Limit(0.85, "ratio", mark="common practice"),
    examples=(
        Example("aisle-carrier", Outcome.PASS, "drive.wheel"),
        Example("aisle-carrier", Outcome.TRIP, "drive.wheel", ("drive.wheel.plan_loss=100 %",)),
        Example("aisle-carrier", Outcome.CANNOT_TELL, "drive.wheel", ("drive.wheel.plan_loss=?",)),
    ),
    flips=(Flip("aisle-carrier", "drive.wheel", "drive.wheel.plan_loss", "60 %", "100 %"),),
)
def strafe_planned_too_fast(wheels: StrafeFacts, limits: Limits) -> Answer:
    """The share of its speed ahead that is planned for sideways, against the most that roller wheels keep.

    Worked out: nothing; the rollers turn on small bearings under load, and what they lose is known from
    practice only: 0.7 to 0.85 of the speed and 0.6 to 0.8 of the push are left.

    Not covered: rollers that are dirty, soft floors, a wheel that hangs.

    Source: common practice, no source.
    """
    return above(
        wheels.planned_strafe,
        limits,
        "Sideways {value:%} of the speed ahead is planned; {limit:%} is the most to count on, "
        "and {push:%} of the push.",
        push=wheels.strafe_push,
    )


@check(
    "M41",
    on=RollerDriveFacts,
    severity=Severity.NOTE,
    seen="Nose or tail lags behind while it strafes",
    symptom=Symptom.WRONG,
    why="The end that carries more grips more, so a strafe turns it as well.",
    fixes=("Move the battery towards the middle of the wheels.",),
    levers=("body.center_ahead", "body.center_aside"),
    limits=Limit("10 %", "ratio", mark="judgement"),
    examples=(
        Example("aisle-carrier", Outcome.PASS, "drive"),
        Example("aisle-carrier", Outcome.TRIP, "drive", ("body.center_ahead=0.10 m",)),
        Example("aisle-carrier", Outcome.TRIP, "drive", ("body.center_aside=-50 mm",)),
        Example("aisle-carrier", Outcome.CANNOT_TELL, "drive", ("body.center_aside=?",)),
    ),
    flips=(
        Flip("aisle-carrier", "drive", "body.center_ahead", "0.15 m", "0.25 m"),
        Flip("aisle-carrier", "drive", "body.center_aside", "0 mm", "80 mm"),
    ),
)
def weight_off_the_middle(drive: RollerDriveFacts, limits: Limits) -> Answer:
    """How far the centre of gravity is from the middle of the four wheels, over the wheelbase.

    Worked out: along and across, whichever is more.

    Not covered: a load that is carried off the middle.

    Source: judgement.
    """
    return above(
        drive.off_middle_share,
        limits,
        "The centre of gravity is {way} off the middle, {value:%} of the wheelbase; the limit is {limit:%}.",
        way=drive.off_middle,
    )
