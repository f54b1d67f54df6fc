"""What does the grip of the wheels mean for the motors, and how straight does the machine run?"""

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
from mulewright.facts.slipping import SlipFacts


@check(
    "M04",
    on=SlipFacts,
    severity=Severity.NOTE,
    why="The wheels spin before the motors stall, so the currents of a stall are not seen while it drives.",
    seen="Wheels spin in place when it pushes a wall",
    symptom=Symptom.WEAK,
    relief=True,
    fixes=(
        "Nothing has to be cured, but weight or grip that is added raises this current.",
        "Count on the stall current all the same where a wheel can jam.",
    ),
    levers=("body.mass", "drive.wheel.friction", "drive.wheel.diameter"),
    examples=(
        Example("tray-cart", Outcome.TRIP, "motor.left"),
        Example("tray-cart", Outcome.PASS, "motor.left", ("body.mass=60 kg",)),
        Example("tray-cart", Outcome.CANNOT_TELL, "motor.left", ("drive.wheel.friction=?",)),
        Example("aisle-carrier", Outcome.TRIP, "motor.front_left"),
    ),
    flips=(Flip("tray-cart", "motor.left", "body.mass", "6 kg", "60 kg"),),
)
def wheels_slip_first(motor: SlipFacts, limits: Limits) -> Answer:
    """The current at which a wheel slips, against the peak that its controller bears; lower is a relief.

    Worked out: grip times the weight on the wheel times its radius gives the torque at which it slips,
    divided by the square root of two for a 45-degree roller wheel; gear stages and the motor's sheet turn
    it into a current. The weight is that of standing still, shared evenly by the driven wheels.

    Not covered: weight that shifts while it speeds up or stands askew; a wheel that is held by an obstacle.

    Source: Coulomb friction; see the limit of grip in any textbook of mechanics.
    """
    return below(
        motor.controller_slip_current,
        {Severity.NOTE: motor.rating.peak_current},
        "Its wheel slips at {value}; its controller bears {limit} for a moment.",
    )


@check(
    "M37",
    on=DrivingFacts,
    severity=Severity.NOTE,
    why="Without a sensor it drives a circle, and a driver steers against it all the time.",
    seen="Drives a curve although only forward is pushed",
    symptom=Symptom.WRONG,
    fixes=(
        "Measure the offset after a straight run, and lower the endpoint of the faster side.",
        "Leave it to a closed loop on the machine to come.",
    ),
    levers=("drive.side_mismatch", "room.straight_run", "body.track"),
    limits=Limit("0.10 m", "length", mark="judgement"),
    examples=(
        Example("tray-cart", Outcome.CANNOT_TELL, "drive"),
        Example("tray-cart", Outcome.TRIP, "drive", ("drive.side_mismatch=3 %",)),
        Example("tray-cart", Outcome.PASS, "drive", ("drive.side_mismatch=0.4 %",)),
    ),
    flips=(Flip("tray-cart", "drive", "drive.side_mismatch", "0.1 %", "5 %"),),
)
def drives_a_circle(drive: DrivingFacts, limits: Limits) -> Answer:
    """How far aside it ends up after the straight run that the task asks for.

    Worked out: the side that is faster by a share drives an arc; the offset is that share times the square
    of the way over twice the track.

    Not covered: a wheel that starts earlier, a sloping floor, a driver who steers against it.

    Source: geometry of a flat arc; the limit is a judgement.
    """
    return above(
        drive.drift,
        limits,
        "After {run} it is {value} aside; the limit is {limit}.",
        run=drive.room.straight_run,
    )
