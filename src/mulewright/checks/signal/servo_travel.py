"""How far is a servo sent: too short for its task, into its own stop, or into a linkage that binds?"""

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
from mulewright.facts.servo_travel import LinkedServoFacts, ServoTravelFacts

JAW = (
    'mechanism.jaw={ kind = "gripper" }',
    'mechanism.jaw.linkage={ needed = "60 deg", limit_low = "-45 deg", limit_high = "45 deg" }',
    "servo.tilt.moves=mechanism.jaw",
    "servo.tilt.need=?",
    "radio.control.KN.commands=jaw",
)


@check(
    "S03",
    on=ServoTravelFacts,
    severity=Severity.STOP,
    why="The mechanism stops half way and neither opens nor closes as far as the task needs.",
    seen="Servo stops before its way is done",
    symptom=Symptom.STILL,
    fixes=(
        "Raise the endpoints of its channel, both ways, as far as the servo's own stops allow.",
        "Take a servo that turns further for each microsecond.",
        "Change the ratio of the linkage so that a smaller angle is enough.",
    ),
    levers=("radio.channel.*.travel", "servo.*.part", "servo.*.gain", "servo.*.need"),
    examples=(
        Example("aisle-carrier", Outcome.TRIP, "servo.tilt", severity=Severity.STOP),
        Example("aisle-carrier", Outcome.PASS, "servo.tilt", ("servo.tilt.need=70 deg",)),
        Example("aisle-carrier", Outcome.CANNOT_TELL, "servo.tilt", ("servo.tilt.need=?",)),
        Example("aisle-carrier", Outcome.PASS, "servo.tilt", JAW),
    ),
    flips=(
        Flip("aisle-carrier", "servo.tilt", "servo.tilt.need", "110 deg", "60 deg"),
        Flip("aisle-carrier", "servo.tilt", "servo.tilt.gain", "0.09 deg/us", "0.2 deg/us"),
    ),
)
def servo_travel_short(servo: ServoTravelFacts, limits: Limits) -> Answer:
    """The angle between the ends of a servo's control, against the angle that its task needs.

    Worked out: longest less shortest pulse, times the servo's angle for each microsecond. 100 % travel is 800
    us from end to end on one radio and 1000 us on another.

    Not covered: a servo that does not turn evenly, and what its own stops allow (S04).

    Source: the servo's sheet.
    """
    return below(
        servo.swing,
        {Severity.STOP: servo.need},
        "It turns {value} from end to end, between {shortest} and {longest}; the task needs {limit}.",
        shortest=servo.shortest,
        longest=servo.longest,
    )


@check(
    "S04",
    on=ServoTravelFacts,
    severity=Severity.STOP,
    why="A servo that is sent beyond its own stop draws its stall current until something burns or strips.",
    seen="Servo buzzes and gets hot at the end of its way",
    symptom=Symptom.HOT,
    fixes=(
        "Lower the endpoint of its channel on that side.",
        "Move its middle with the sub-trim, if only one side is too long.",
        "Take a servo whose stops lie further out.",
    ),
    levers=("radio.channel.*.travel", "servo.*.stop_high", "servo.*.stop_low"),
    limits=Limit("100 %", "percent", mark="common practice"),
    examples=(
        Example("aisle-carrier", Outcome.PASS, "servo.tilt"),
        Example("aisle-carrier", Outcome.TRIP, "servo.tilt", ("servo.tilt.stop_high=1850 us",)),
        Example("aisle-carrier", Outcome.TRIP, "servo.tilt", ("servo.tilt.stop_low=1150 us",)),
        Example("aisle-carrier", Outcome.CANNOT_TELL, "servo.tilt", ("radio.channel.5.travel=?",)),
    ),
    flips=(Flip("aisle-carrier", "servo.tilt", "servo.tilt.stop_high", "1700 us", "2500 us"),),
)
def servo_over_driven(servo: ServoTravelFacts, limits: Limits) -> Answer:
    """The longest and the shortest pulse that a servo is sent, against the pulses of its own stops.

    Worked out: each pulse from the servo's middle, as a share of the way to the stop on that side; the larger
    share counts. A servo without a sheet is taken to follow 800 to 2200 us.

    Not covered: stops outside of it (S05), and how far single servos of one kind differ.

    Source: the servo's sheet; the assumed stops are common practice, no source.
    """
    return above(
        servo.stop_share,
        limits,
        "From {shortest} to {longest} it goes {value:%} of the way to its own stop; {limit:%} is the stop.",
        shortest=servo.shortest,
        longest=servo.longest,
    )


@check(
    "S05",
    on=LinkedServoFacts,
    severity=Severity.STOP,
    why="A linkage that binds stalls the servo with more leverage than its own stop, and bends the horn.",
    seen="Linkage binds, the servo buzzes, and a horn bends",
    symptom=Symptom.HOT,
    fixes=(
        "Set both endpoints from the angles at which the linkage binds, and not by ear.",
        "Change the linkage so that it binds further out.",
    ),
    levers=(
        "radio.channel.*.travel",
        "mechanism.*.linkage.limit_high",
        "mechanism.*.linkage.limit_low",
        "servo.*.part",
        "tester.*.mode",
        "tester.*.part",
    ),
    limits=Limit("3 deg", "angle", mark="judgement"),
    follows=("S04",),
    examples=(
        Example("aisle-carrier", Outcome.PASS, "servo.tilt", JAW),
        Example(
            "aisle-carrier", Outcome.TRIP, "servo.tilt", (*JAW, "mechanism.jaw.linkage.limit_high=38 deg")
        ),
        Example(
            "aisle-carrier", Outcome.TRIP, "servo.tilt", (*JAW, "mechanism.jaw.linkage.limit_low=-38 deg")
        ),
        Example(
            "aisle-carrier", Outcome.CANNOT_TELL, "servo.tilt", (*JAW, "mechanism.jaw.linkage.limit_low=?")
        ),
    ),
    flips=(
        Flip("aisle-carrier", "servo.tilt", "mechanism.jaw.linkage.limit_high", "36 deg", "44 deg", sets=JAW),
    ),
)
def linkage_hits_first(servo: LinkedServoFacts, limits: Limits) -> Answer:
    """The angles to which a servo is sent, against the angles at which its linkage binds.

    Worked out: longest and shortest pulse as angles from the servo's middle; what is left on each side before
    the linkage binds, the smaller one counts. Angles below the middle are negative.

    Not covered: slack and a frame that gives way, both of which make the bind softer.

    Source: the margin is a judgement, about 33 us of a servo with 90 degrees for each millisecond.
    """
    return below(
        servo.clearance,
        limits,
        "From {low} to {high}, its way ends {value:side} the place where the linkage binds; at least {limit} "
        "before it is expected.",
        low=servo.lowest,
        high=servo.highest,
    )
