"""Does it get up the slope?"""

from __future__ import annotations

from mulewright.checks.engine import Answer, Example, Flip, Limits, Outcome, Severity, above, check
from mulewright.checks.symptoms import Symptom
from mulewright.facts.driving import DrivingFacts


@check(
    "M42",
    on=DrivingFacts,
    severity=Severity.WARN,
    why="It stops half way up, and rolls back.",
    seen="Stops on the ramp or rolls back down it",
    symptom=Symptom.WEAK,
    fixes=(
        "Put more reduction between motors and wheels.",
        "Put more weight on the driven wheels, or tyres that grip better.",
        "Go another way.",
    ),
    levers=("room.steepest", "motor.*.gears.*.ratio", "drive.wheel.friction", "body.mass"),
    examples=(
        Example("tray-cart", Outcome.PASS, "drive", ("room.steepest=10 deg",)),
        Example("tray-cart", Outcome.TRIP, "drive", ("room.steepest=35 deg",)),
        Example("tray-cart", Outcome.CANNOT_TELL, "drive", ("room.steepest=?",)),
    ),
    flips=(Flip("tray-cart", "drive", "room.steepest", "5 deg", "40 deg"),),
)
def too_weak_for_the_slope(drive: DrivingFacts, limits: Limits) -> Answer:
    """The push that the steepest slope asks for, rolling included, against the push that it has.

    Worked out: weight along the slope, and rolling resistance times the weight across it; the push is what
    the driven wheels grip with, or what the motors have at full stick on the rested battery if that is less.

    Not covered: the grip that a slope takes away, weight that moves to the rear, a start on the slope in
    gear.

    Source: balance of forces.
    """
    return above(
        drive.climbing_force,
        {Severity.WARN: drive.push},
        "A slope of {slope} asks for {value}; it has {limit}.",
        slope=drive.room.steepest,
    )
