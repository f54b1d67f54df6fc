"""Is a servo strong enough for its load, and quick enough under it?"""

from __future__ import annotations

from mulewright.checks.engine import Answer, Example, Flip, Limit, Limits, Outcome, Severity, above, check
from mulewright.checks.symptoms import Symptom
from mulewright.facts.servo_torque import ServoLoadFacts, ServoMoveFacts

STRONGER = (
    "Take a stronger servo.",
    "Shorten the lever, or bring the load closer to the axis.",
    "Balance the load with a spring or a weight.",
)
TILT = ("servo.tilt.transit=0.16 s/60deg", "servo.tilt.load_inertia=0.02 kg m2")


@check(
    "M17",
    on=ServoLoadFacts,
    severity=Severity.STOP,
    why="A servo that holds a large share of its stall torque gets hot, sinks, and in the end burns.",
    seen="A servo buzzes while it holds still, gets hot, and gives way",
    symptom=Symptom.HOT,
    fixes=STRONGER,
    levers=("servo.*.part", "servo.*.load_torque", "regulator.*.voltage"),
    limits={
        Severity.STOP: Limit("60 %", "ratio", mark="judgement"),
        Severity.WARN: Limit("35 %", "ratio", mark="judgement"),
    },
    examples=(
        Example("aisle-carrier", Outcome.PASS, "servo.tilt"),
        Example(
            "aisle-carrier", Outcome.TRIP, "servo.tilt", ("servo.tilt.load_torque=0.6 N m",), Severity.WARN
        ),
        Example(
            "aisle-carrier", Outcome.TRIP, "servo.tilt", ("servo.tilt.load_torque=1 N m",), Severity.STOP
        ),
        Example("aisle-carrier", Outcome.CANNOT_TELL, "servo.tilt", ("servo.tilt.load_torque=?",)),
    ),
    flips=(Flip("aisle-carrier", "servo.tilt", "servo.tilt.load_torque", "0.3 N m", "0.8 N m"),),
)
def servo_holds_too_much(servo: ServoLoadFacts, limits: Limits) -> Answer:
    """The torque that a servo holds for long, over its stall torque at the volts that it gets.

    Worked out: the load's torque as it was noted, or from the arm that it moves, shared by all servos that
    move it. The stall torque lies on a straight line through the two voltages of the sheet; with one voltage
    it is taken in proportion to the volts. While nothing feeds the servo, the volts are those of its sheet.

    Not covered: friction of the linkage, a sagging rail, the grip of jaws, a load held for a moment only.

    Source: judgement; sheets give the torque at which a servo stands still and burns.
    """
    return above(
        servo.load_share,
        limits,
        "It holds {load}, {value:%} of the {torque} at which it stalls; the limit is {limit:%}.",
        load=servo.load,
        torque=servo.servo.torque,
    )


@check(
    "M18",
    on=ServoMoveFacts,
    severity=Severity.WARN,
    why="It falls behind, runs past its place, and the stop at the end goes into its teeth.",
    seen="An arm on a servo whips and rings, or strips teeth when it stops",
    symptom=Symptom.HOT,
    fixes=("Let it take more time.", "Make what it moves lighter, or bring it closer to the axis.", STRONGER[0]),
    levers=("servo.*.wanted_time", "servo.*.load_inertia", "servo.*.load_torque", "servo.*.part"),
    limits=Limit("80 %", "ratio", mark="judgement"),
    examples=(
        Example("aisle-carrier", Outcome.TRIP, "servo.tilt", (*TILT, "servo.tilt.wanted_time=0.9 s")),
        Example("aisle-carrier", Outcome.TRIP, "servo.tilt", (*TILT, "servo.tilt.wanted_time=0.3 s")),
        Example("aisle-carrier", Outcome.PASS, "servo.tilt", (*TILT, "servo.tilt.wanted_time=2 s")),
        Example(
            "aisle-carrier",
            Outcome.CANNOT_TELL,
            "servo.tilt",
            ("servo.tilt.wanted_time=2 s", "servo.tilt.transit=0.16 s/60deg"),
        ),
    ),
    flips=(
        Flip("aisle-carrier", "servo.tilt", "servo.tilt.wanted_time", "0.7 s", "2 s", TILT),
        Flip(
            "aisle-carrier", "servo.tilt", "servo.tilt.load_inertia", "0.01 kg m2", "0.2 kg m2",
            (TILT[0], "servo.tilt.wanted_time=1.5 s"),
        ),
    ),
)  # fmt: skip
def servo_too_weak_to_swing_its_load(servo: ServoMoveFacts, limits: Limits) -> Answer:
    """The torque to swing a load in the wanted time, over the torque that the servo has at that speed.

    Worked out: half of the time it speeds up and half of it slows down, so the acceleration is four times the
    angle over the square of the time, and the speed in the middle twice the mean. Inertia times acceleration
    and the load's own torque are added. A servo's torque falls evenly to nothing at its free speed.

    Not covered: play, the spring of the linkage, how the servo's electronics brakes.

    Source: dynamics of a rigid body; the limit is a judgement.
    """
    return above(
        servo.moving_share,
        limits,
        "To swing its load in {wanted} takes {needed}, {value:%} of the {left} that it has at {speed}; "
        "the limit is {limit:%}.",
        wanted=servo.wanted_time,
        needed=servo.moving_torque,
        left=servo.torque_left,
        speed=servo.swing_speed,
    )


@check(
    "M19",
    on=ServoMoveFacts,
    severity=Severity.NOTE,
    why="The time on the sheet holds without load; with one it is longer.",
    seen="A servo takes much longer than its sheet says",
    symptom=Symptom.WEAK,
    fixes=("Leave the servo more torque in reserve.", "Shorten its way.", "Take a faster servo."),
    levers=("servo.*.load_torque", "servo.*.transit", "servo.*.need", "servo.*.part"),
    examples=(
        Example("aisle-carrier", Outcome.TRIP, "servo.tilt", (TILT[0], "servo.tilt.wanted_time=0.35 s")),
        Example("aisle-carrier", Outcome.PASS, "servo.tilt", (TILT[0], "servo.tilt.wanted_time=0.6 s")),
        Example("aisle-carrier", Outcome.CANNOT_TELL, "servo.tilt", ("servo.tilt.wanted_time=0.6 s",)),
    ),
    flips=(
        Flip("aisle-carrier", "servo.tilt", "servo.tilt.wanted_time", "0.2 s", "1 s", (TILT[0],)),
        Flip(
            "aisle-carrier", "servo.tilt", "servo.tilt.load_torque", "0.3 N m", "1.2 N m",
            (TILT[0], "servo.tilt.wanted_time=0.6 s"),
        ),
    ),
)  # fmt: skip
def servo_slower_than_wanted(servo: ServoMoveFacts, limits: Limits) -> Answer:
    """The time that a servo takes over its way with its load, against the time that is wanted.

    Worked out: the sheet's speed in proportion to the volts that it gets, less the share of its stall torque
    that the load takes; the way is the angle that the task needs.

    Not covered: the time to get up to speed and to stop, a sagging rail, friction of the linkage.

    Source: a motor's speed falls evenly with its torque.
    """
    return above(
        servo.move_time,
        {Severity.NOTE: servo.wanted_time},
        "With its load it takes {value} over its way, {speed} instead of {free}; {limit} are wanted.",
        speed=servo.loaded_speed,
        free=servo.servo.free_speed,
    )
