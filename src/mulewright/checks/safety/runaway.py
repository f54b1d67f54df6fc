"""How far does it go when nobody steers it, and what does it hit with?"""

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
from mulewright.facts.driving import DrivingFacts
from mulewright.facts.runaway import RunawayFacts

SLOWER = ("Lower the rate of forward, above all for new drivers.",)


@check(
    "X10",
    on=RunawayFacts,
    severity=Severity.WARN,
    why="Nobody may stand where it can roll after the link is lost.",
    seen="Rolls on across the room after the link is lost",
    symptom=Symptom.BY_ITSELF,
    fixes=(*SLOWER, "Take a larger room, or a tether.", "Set a fail-safe that lets the wheels go."),
    levers=(
        "room.free",
        "radio.control.*.rate",
        "receiver.fail_safe_delay",
        "drive.wheel.diameter",
        "motor.*.gears.*.ratio",
    ),
    follows=("R02",),
    examples=(
        Example("tray-cart", Outcome.PASS, "drive"),
        Example("tray-cart", Outcome.TRIP, "drive", ("room.free=1.5 m",)),
        Example("aisle-carrier", Outcome.TRIP, "drive"),
        Example("tray-cart", Outcome.CANNOT_TELL, "drive", ("room.free=?",)),
    ),
    flips=(Flip("tray-cart", "drive", "room.free", "1 m", "5 m"),),
)
def rolls_further_than_the_room(drive: RunawayFacts, limits: Limits) -> Answer:
    """The way from a lost link at top speed until it stands, against the free way in the room.

    Worked out: top speed times the time until the receiver acts and people react, and then the way of rolling
    out; no end to it where the fail-safe holds.

    Not covered: slopes, a receiver that restarts, a battery fresh off the charger.

    Source: uniform motion; times and rolling out are assumed unless measured.
    """
    return above(
        drive.runaway,
        {Severity.WARN: drive.room.free},
        "After a lost link at {speed} it rolls {value}; the free way is {limit}.",
        speed=drive.speed,
    )


@check(
    "X11",
    on=DrivingFacts,
    severity=Severity.WARN,
    why="Shins and furniture take what a moving machine carries.",
    seen="Leaves dents where it hits something",
    symptom=Symptom.COARSE,
    fixes=(*SLOWER, "Fit bumpers.", "Keep people out."),
    levers=(
        "radio.control.*.rate",
        "body.mass",
        "room.people",
        "drive.wheel.diameter",
        "motor.*.gears.*.ratio",
    ),
    limits=Limit("20 J", "energy", mark="common practice"),
    examples=(
        Example("two-benches", Outcome.PASS, "drive"),
        Example("two-benches", Outcome.TRIP, "drive", ("body.mass=12 kg",)),
        Example("two-benches", Outcome.PASS, "drive", ("body.mass=12 kg", "room.people=false")),
        Example("two-benches", Outcome.CANNOT_TELL, "drive", ("room.people=?",)),
    ),
    flips=(Flip("two-benches", "drive", "body.mass", "6 kg", "15 kg"),),
)
def moves_with_too_much_energy(drive: DrivingFacts, limits: Limits) -> Answer:
    """The energy of the machine at its top speed, where people walk.

    Worked out: half its mass times the square of its speed with nothing to push, at full stick, on the rested
    battery.

    Not covered: what it carries, sharp edges, what it drags along.

    Source: common practice, no source.
    """
    return together(
        above(
            drive.moving_energy,
            limits,
            "At {speed} it carries {value}; the limit is {limit} where people walk.",
            speed=drive.top_speed,
        ),
        flagged(drive.room.walked, Severity.WARN, ""),
    )
