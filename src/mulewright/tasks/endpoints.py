"""Which endpoints does a servo need, by the angles that its linkage needs and bears?"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from pathlib import Path

from mulewright.facts.endpoints import BINDS, NEEDED, SENT, SIDES, STOPS, PlannedEndFacts, TypedNeedFacts
from mulewright.facts.nodes import number
from mulewright.facts.servo_travel import ServoTravelFacts
from mulewright.tasks.opening import open_mule
from mulewright.tasks.sheets import Cell, Sheet, Sheets, figure, refuse
from mulewright.units.shown import people

COLUMNS = ("end", "angle", "pulse", "this radio", "of its limit", "500 us radio")
WORDS = {
    SENT: "sent now",
    NEEDED: "needed",
    BINDS: "linkage, less 3 deg",
    STOPS: "its own stop",
}
READ = (
    "Set no more than the smaller of what the linkage and the servo's own stop bear, and no less than needed.",
    "Above 100 % of its limit this radio cannot send the pulse: change the linkage or the servo.",
    "A needed angle that is typed is shared evenly about the servo's middle.",
)


def endpoints(
    path: str | Path, function: str, settings: Sequence[str] = (), variant: str | None = None
) -> Sheets:
    """Work out the endpoints of every servo that serves a function.

    Raises
    ------
    NotFound
        If no servo that goes to an angle serves it.
    """
    opened = open_mule(path, settings, variant)
    servos = {
        servo.id: opened.mule.function_of(servo.id) for servo in ServoTravelFacts.all(opened.evaluation)
    }
    wanted = [id for id, serves in servos.items() if function in (serves, id.split(".", 1)[1])]
    if not wanted:
        known = list(dict.fromkeys(name for name in servos.values() if name))
        otherwise = "a function that a servo serves; this mule has no servo that goes to an angle"
        refuse(f"no servo serves {function!r}", str(path), function, known, otherwise)
    ends = PlannedEndFacts.all(opened.evaluation)
    typed = {need.id: need for need in TypedNeedFacts.all(opened.evaluation)}
    sheets = [_sheet(id, [end for end in ends if end.servo.id == id], typed.get(id)) for id in wanted]
    return Sheets(opened, tuple(sheets), {"function": function})


def _sheet(servo: str, ends: Sequence[PlannedEndFacts], typed: TypedNeedFacts | None) -> Sheet:
    places = {"high": "above", "low": "below"}
    assert set(places) == set(SIDES)
    rows = tuple(_row(end, f"{WORDS[end.what]}, {places[end.side]}") for end in ends)
    return Sheet(f"{servo}: endpoints by geometry", COLUMNS, rows, (), (*_differing(typed), *READ))


def _differing(typed: TypedNeedFacts | None) -> Iterator[str]:
    """Say where the typed angle is not that of the lengths."""
    if typed is None:
        return
    share, noted = number(typed.node("differs_share")), number(typed.node("typed"))
    swing = number(typed.linkage.node("swing"))
    if share is not None and noted is not None and swing is not None and abs(share) > 1:
        yield (
            f"{people(noted, 'rad')} from open to closed are typed, the lengths give {people(swing, 'rad')}: "
            "measure both again."
        )


def _row(end: PlannedEndFacts, words: str) -> tuple[Cell, ...]:
    return (
        words,
        figure(end, "end_angle"),
        figure(end, "end_pulse"),
        figure(end, "end_travel", as_percent=True),
        figure(end, "limit_share", as_percent=True),
        figure(end, "full_range_travel", as_percent=True),
    )
