"""What happens while the receiver restarts?"""

from __future__ import annotations

from mulewright.checks.engine import Answer, Example, Flip, Limits, Outcome, Severity, above, check
from mulewright.checks.symptoms import Symptom
from mulewright.facts.runaway import RunawayFacts


@check(
    "R08",
    on=RunawayFacts,
    severity=Severity.WARN,
    why="While its receiver restarts nobody drives it.",
    seen="Rolls on for seconds while the receiver restarts",
    symptom=Symptom.BY_ITSELF,
    fixes=("Make the receiver's supply stiffer.", "Lower the rate of forward.", "Take a larger room."),
    levers=("room.free", "radio.control.*.rate", "receiver.restart", "receiver.part", "drive.wheel.diameter"),
    follows=("P27",),
    examples=(
        Example("vine-lift", Outcome.TRIP, "drive"),
        Example("tray-cart", Outcome.PASS, "drive"),
        Example("tray-cart", Outcome.CANNOT_TELL, "drive", ("drive.wheel.diameter=?",)),
    ),
    flips=(Flip("vine-lift", "drive", "room.free", "1 m", "5 m"),),
)
def drives_blind_through_the_room(drive: RunawayFacts, limits: Limits) -> Answer:
    """The way at top speed while the receiver restarts, against the free way in the room.

    Worked out: top speed times the restart time of the receiver.

    Not covered: whether it restarts at all, which is another finding; what it does after that.

    Source: uniform motion; the receiver's sheet.
    """
    return above(
        drive.blind_way,
        {Severity.WARN: drive.room.free},
        "A restart takes {restart}, and at {speed} it goes {value} meanwhile; the free way is {limit}.",
        restart=drive.restart,
        speed=drive.speed,
    )
