"""Is each device of the right kind: for its task, for the frame of its receiver, for the usual pulses?"""

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
    lacking,
)
from mulewright.checks.symptoms import Symptom
from mulewright.facts.servo_kinds import AnalogueServoFacts, MiddleFacts, ServoKindFacts

BRUSH = (
    'mechanism.brush={ kind = "roller" }',
    "servo.tilt.moves=mechanism.brush",
    "servo.tilt.need=?",
    "radio.control.KN.commands=brush",
)
SHORT_FRAME = "radio-bench"


@check(
    "S37",
    on=ServoKindFacts,
    severity=Severity.STOP,
    why="One kind spins for ever where an angle is wanted, the other runs to one end and stays there.",
    seen="Servo spins for ever, or runs to one end and stays there",
    symptom=Symptom.BY_ITSELF,
    fixes=("Exchange it for a servo of the other kind.",),
    levers=("servo.*.rotation", "servo.*.part"),
    examples=(
        Example("aisle-carrier", Outcome.PASS, "servo.tilt"),
        Example(
            "aisle-carrier", Outcome.TRIP, "servo.tilt", ("servo.tilt.rotation=continuous",), Severity.STOP
        ),
        Example("aisle-carrier", Outcome.TRIP, "servo.tilt", BRUSH),
        Example("aisle-carrier", Outcome.PASS, "servo.tilt", (*BRUSH, "servo.tilt.rotation=continuous")),
        Example("aisle-carrier", Outcome.CANNOT_TELL, "servo.tilt", ("servo.tilt.rotation=?",)),
        Example("aisle-carrier", Outcome.CANNOT_TELL, "servo.tilt", ("servo.tilt.need=?",)),
        Example("soft-fruit-gripper", Outcome.PASS, "servo.left"),
    ),
)
def servo_of_the_wrong_kind(servo: ServoKindFacts, limits: Limits) -> Answer:
    """What a servo does with its pulse, against what its task wants: go to an angle, or turn for ever.

    Worked out: grippers, arms and every servo with an angle that it needs want an angle; rollers, flywheels,
    drums and whatever just turns want turning.

    Not covered: servos that somebody rebuilt, which then are of the other kind.

    Source: common practice, no source.
    """
    return lacking(servo.fits_its_task, Severity.STOP, "As described, {words}.", words=servo.in_words)


@check(
    "S38",
    on=AnalogueServoFacts,
    severity=Severity.WARN,
    why="An analogue servo pushes once for each pulse, so pulses that come too often overwork its electronics.",
    seen="Servo hums, gets hot and is weak, although nothing loads it",
    symptom=Symptom.HOT,
    fixes=(
        "Set the receiver to a longer frame, if it has such a mode.",
        "Take a digital servo.",
    ),
    levers=("receiver.frame", "servo.*.part"),
    limits={
        Severity.WARN: Limit("70 Hz", "frequency", mark="common practice"),
        Severity.STOP: Limit("100 Hz", "frequency", mark="common practice"),
    },
    examples=(
        Example("soft-fruit-gripper", Outcome.TRIP, "servo.left", (), Severity.WARN, SHORT_FRAME),
        Example("soft-fruit-gripper", Outcome.PASS, "servo.left", ("receiver.frame=20 ms",), None, SHORT_FRAME),
        Example(
            "soft-fruit-gripper", Outcome.TRIP, "servo.left", ("receiver.frame=7 ms",), Severity.STOP, SHORT_FRAME
        ),
        Example(
            "soft-fruit-gripper", Outcome.CANNOT_TELL, "servo.left", ("receiver.frame=?",), None, SHORT_FRAME
        ),
        Example("aisle-carrier", Outcome.CANNOT_TELL, "servo.tilt", ("servo.tilt.signal_kind=?",)),
        Example("aisle-carrier", Outcome.PASS, "servo.tilt", ("servo.tilt.part=sv-std",)),
    ),
    flips=(
        Flip(
            "aisle-carrier", "servo.tilt", "receiver.frame", "20 ms", "10.5 ms", sets=("servo.tilt.part=sv-std",)
        ),
    ),
)  # fmt: skip
def frame_too_short(servo: AnalogueServoFacts, limits: Limits) -> Answer:
    """How often an analogue servo gets a pulse, against what analogue servos are made for.

    Worked out: one over the frame of the receiver. Usual are 50 pulses in a second. A digital servo makes its
    own pushes and does not care.

    Not covered: servo testers, most of which keep to the usual frame.

    Source: common practice, no source.
    """
    return above(
        servo.pulse_rate,
        limits,
        "It is {kind} and gets {value}; {limit} is the most.",
        kind=servo.known_kind,
    )


@check(
    "S40",
    on=MiddleFacts,
    severity=Severity.BLOCK,
    why="A device made for narrow pulses takes a usual one for far beyond its end and slams into its stop.",
    seen="Servo slams to one side the moment it is powered",
    symptom=Symptom.BY_ITSELF,
    fixes=("Exchange it for one with the usual middle of 1500 us.",),
    levers=("servo.*.neutral", "servo.*.part", "controller.*.neutral"),
    limits=Limit("50 us", "pulse", mark="common practice"),
    examples=(
        Example("aisle-carrier", Outcome.PASS, "servo.tilt"),
        Example("aisle-carrier", Outcome.TRIP, "servo.tilt", ("servo.tilt.neutral=760 us",), Severity.BLOCK),
        Example("aisle-carrier", Outcome.TRIP, "controller.lift", ("controller.lift.neutral=1560 us",)),
        Example("aisle-carrier", Outcome.CANNOT_TELL, "servo.tilt", ("servo.tilt.neutral=?",)),
        Example("aisle-carrier", Outcome.CANNOT_TELL, "controller.lift", ("controller.lift.direction=?",)),
    ),
    flips=(Flip("aisle-carrier", "servo.tilt", "servo.tilt.neutral", "1500 us", "1600 us"),),
)
def narrow_pulses_wanted(device: MiddleFacts, limits: Limits) -> Answer:
    """The pulse of a device's middle, against 1500 us, which radios and testers send.

    Worked out: the size of the difference. Controllers that run one way have no middle and are left out.

    Not covered: radios that can be set to narrow pulses as well.

    Source: common practice, no source; some servos have their middle at 760 us.
    """
    return above(
        device.off_usual,
        limits,
        "Its middle is at {middle}, {value} from the usual one; {limit} is the most.",
        middle=device.neutral,
    )
