"""Can the drive push as hard as its task asks, and can a person stop it where they want?"""

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
from mulewright.facts.placing import PlacedDriveFacts
from mulewright.facts.pushing import WantedPushFacts


@check(
    "M33",
    on=WantedPushFacts,
    severity=Severity.NOTE,
    seen="Wheels spin against a load, and it stands",
    symptom=Symptom.WEAK,
    why="Push is the smaller of grip and torque, so a bigger motor may change nothing.",
    fixes=(
        "Put more weight on the driven wheels.",
        "Take tyres that grip better.",
        "Put more reduction between motors and wheels where torque is the smaller of the two.",
    ),
    levers=("drive.wheel.friction", "body.mass", "body.center_ahead", "motor.*.gears.*.ratio"),
    examples=(
        Example("tray-cart", Outcome.TRIP, "drive", ("drive.wanted_push=40 N",)),
        Example("tray-cart", Outcome.PASS, "drive", ("drive.wanted_push=20 N",)),
        Example("aisle-carrier", Outcome.TRIP, "drive", ("drive.wanted_push=60 N",)),
        Example(
            "tray-cart", Outcome.CANNOT_TELL, "drive", ("drive.wanted_push=20 N", "drive.wheel.friction=?")
        ),
    ),
    flips=(Flip("tray-cart", "drive", "drive.wanted_push", "10 N", "60 N"),),
)
def weaker_push_than_wanted(drive: WantedPushFacts, limits: Limits) -> Answer:
    """The push that the drive has at most, against the one that the task asks for.

    Worked out: grip times the weight on the driven wheels, over the square root of two for 45-degree roller
    wheels; or the torque of all motors held fast at full stick on the rested battery, through gears and
    wheels, if that is less.

    Not covered: weight that shifts while it pushes; a push to the side or across a slope.

    Source: Coulomb friction and balance of forces.
    """
    return below(
        drive.driving.push,
        {Severity.NOTE: drive.wanted_push},
        "It pushes with {value} at most, and the task asks for {limit}: its wheels grip with {grip}, "
        "its motors have {motors}.",
        grip=drive.driving.standing.grip,
        motors=drive.driving.motor_push,
    )


@check(
    "M35",
    on=PlacedDriveFacts,
    severity=Severity.WARN,
    seen="Hits things before anybody can stop it",
    symptom=Symptom.COARSE,
    why="A person who sees the obstacle cannot stop in time.",
    fixes=("Lower the rate of forward.", "Put more reduction before the wheels.", "Take a larger room."),
    levers=("radio.control.*.rate", "motor.*.gears.*.ratio", "drive.wheel.diameter", "room.free"),
    limits=Limit(1 / 3, "ratio", mark="judgement"),
    examples=(
        Example("tray-cart", Outcome.PASS, "drive"),
        Example("tray-cart", Outcome.TRIP, "drive", ("room.free=1 m",)),
        Example("tray-cart", Outcome.TRIP, "drive", ("drive.wheel.diameter=400 mm",)),
        Example("tray-cart", Outcome.CANNOT_TELL, "drive", ("room.free=?",)),
    ),
    flips=(
        Flip("tray-cart", "drive", "room.free", "0.5 m", "5 m"),
        Flip("tray-cart", "drive", "drive.wheel.diameter", "100 mm", "400 mm"),
    ),
)
def too_fast_to_place(drive: PlacedDriveFacts, limits: Limits) -> Answer:
    """The way that it goes at top speed until a driver has stopped it, over the free way in the room.

    Worked out: top speed with nothing to push, on the rested battery, times a person's reaction and the delay
    of the link; then braking as hard as the tyres grip, over the square root of two for roller wheels.

    Not covered: a driver who looks ahead; a controller that does not brake so hard; a slope.

    Source: uniform motion and Coulomb friction; the reaction is common practice, no source, and the limit a
    judgement.
    """
    return above(
        drive.hand_stop_share,
        limits,
        "At {speed} it goes {way} until a driver has stopped it, {value:%} of the {free} that are free; "
        "the limit is {limit:%}.",
        speed=drive.driving.top_speed,
        way=drive.hand_stop,
        free=drive.room.free,
    )
