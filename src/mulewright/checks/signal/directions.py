"""Does each wheel turn the right way, and does it get its own signal, as described and as pushed?"""

from __future__ import annotations

from mulewright.checks.engine import (
    Answer,
    Example,
    Limits,
    Outcome,
    Severity,
    above,
    below,
    check,
    lacking,
    together,
)
from mulewright.checks.symptoms import Symptom
from mulewright.facts.boxes import DriveBoxFacts
from mulewright.facts.directions import WheelMotorFacts


@check(
    "S06",
    on=WheelMotorFacts,
    severity=Severity.STOP,
    why="A wheel that turns against its command makes the mule spin where it should drive straight.",
    seen="A wheel turns backwards when forward is pushed",
    symptom=Symptom.WRONG,
    fixes=(
        "Swap the two motor leads at its controller.",
        "Reverse its channel, if the mix is made in the radio or there is none.",
        "If a control and not a wheel is wrong, reverse the channel of that control.",
    ),
    levers=("controller.*.polarity", "motor.*.mirrored", "radio.channel.*.reverse"),
    examples=(
        Example("tray-cart", Outcome.PASS, "motor.right"),
        Example("tray-cart", Outcome.TRIP, "motor.right", ("controller.right.polarity=straight",)),
        Example("tray-cart", Outcome.TRIP, "motor.left", ("radio.channel.2.reverse=true",)),
        Example("tray-cart", Outcome.CANNOT_TELL, "motor.right", ("controller.right.polarity=?",)),
        Example("hose-tug", Outcome.TRIP, "motor.right", severity=Severity.STOP),
        Example("hose-tug", Outcome.TRIP, "motor.right", variant="radio-mix-off"),
        Example("aisle-carrier", Outcome.PASS, "motor.rear_right"),
        Example("aisle-carrier", Outcome.TRIP, "motor.rear_right", variant="as-found"),
        Example("aisle-carrier", Outcome.PASS, "motor.front_right", variant="as-found"),
    ),
)
def turns_the_wrong_way(motor: WheelMotorFacts, limits: Limits) -> Answer:
    """The sense in which a wheel turns, against the sense that the drive needs.

    Worked out: where the signs of its last pushes are noted and fit a wheel of this drive, they decide; their
    negative means that it turns backwards. Else each link is followed from control to wheel: channel reverse,
    sign of the mix, in-line devices, motor leads, mirror-wise mount, gear stages. A mount is compared with
    that of the twin. Two wrong signs that make up for each other pass.

    Not covered: mechanisms, since no lead says which way a drum or an arm winds; push and look. Straight
    leads on a motor that is not mirrored are taken to drive forward.

    Source: the signs of sum and difference for two sides, and of 45 degree rollers for four wheels.
    """
    return below(
        motor.direction,
        {Severity.STOP: 0.0},
        "Sense of {wheel}, {evidence}: {value}; 1 is the right way round, -1 the wrong one.",
        wheel=motor.wheel,
        evidence=motor.evidence,
    )


@check(
    "S44",
    on=WheelMotorFacts,
    severity=Severity.STOP,
    why="Two wheels that have each other's signal drive straight and turn or strafe wrongly.",
    seen="Another wheel turns than the one that should",
    symptom=Symptom.WRONG,
    fixes=(
        "Exchange the signal plugs of the two wheels, push again and note the signs.",
        "In the radio's mix, exchange the channels of the two sides instead.",
    ),
    levers=("controller.*.signal",),
    follows=("S08",),
    examples=(
        Example("aisle-carrier", Outcome.PASS, "motor.front_right"),
        Example("aisle-carrier", Outcome.TRIP, "motor.front_right", variant="as-found"),
        Example("aisle-carrier", Outcome.TRIP, "motor.rear_left", variant="as-found"),
        Example("aisle-carrier", Outcome.PASS, "motor.rear_right", variant="as-found"),
        Example(
            "tray-cart",
            Outcome.TRIP,
            "motor.left",
            ("controller.left.signal=receiver.1", "controller.right.signal=receiver.2"),
        ),
        Example("tray-cart", Outcome.CANNOT_TELL, "motor.left", ("controller.left.signal=?",)),
    ),
)
def signal_of_another_wheel(motor: WheelMotorFacts, limits: Limits) -> Answer:
    """The wheel whose signal a motor gets, against the wheel that it turns.

    Worked out: where the signs of its last pushes are noted, they name the output that feeds it, backwards or
    not. Else the plug does: first output of a mix is the left or front left wheel, and so on. A plug at
    another output passes where everything together still turns the wheel the right way on every push.

    Not covered: two wheels of one side that follow the same signal, which no push tells apart.

    Source: each wheel's signs on the pushes are a code that no other wheel shares.
    """
    return lacking(
        motor.placed,
        Severity.STOP,
        "It turns {wheel} and gets the signal of {plugged}, {evidence}.",
        wheel=motor.wheel,
        plugged=motor.plugged or "its own control",
        evidence=motor.evidence,
    )


@check(
    "S45",
    on=DriveBoxFacts,
    severity=Severity.NOTE,
    why="A channel reverse in front of a box turns a control round for all wheels, not for one.",
    seen="One wheel is wrong, and channel reverse makes it worse",
    symptom=Symptom.WRONG,
    fixes=(
        "Swap the motor leads of the wheels that turn the wrong way.",
        "Or exchange plugs so that the signs come out right, and note which.",
    ),
    levers=("controller.*.polarity",),
    examples=(
        Example("aisle-carrier", Outcome.PASS, "mixer.drive"),
        Example("aisle-carrier", Outcome.TRIP, "mixer.drive", variant="as-found"),
        Example("hose-tug", Outcome.TRIP, "mixer.tug", severity=Severity.NOTE),
        Example("hose-tug", Outcome.TRIP, "mixer.tug", variant="radio-mix-off"),
        Example("hose-tug", Outcome.PASS, "mixer.tug", ("controller.left.polarity=swapped",)),
        Example("hose-tug", Outcome.CANNOT_TELL, "mixer.tug", ("controller.left.polarity=?",)),
    ),
)
def wheel_reversed_behind_a_box(box: DriveBoxFacts, limits: Limits) -> Answer:
    """How many wheels behind a mixer box turn the wrong way: some, but not all of them.

    Worked out: the sense of each wheel as in S06, counted over the wheels whose signal comes from the box.

    Not covered: which fix is the cheapest.

    Source: common practice, no source.
    """
    return together(
        above(
            box.reversed_wheels,
            {Severity.NOTE: 0.5},
            "Wheels behind this box that turn the wrong way round: {value} of {count}.",
            count=box.wheel_count,
        ),
        below(box.reversed_share, {Severity.NOTE: 1.0}, ""),
    )
