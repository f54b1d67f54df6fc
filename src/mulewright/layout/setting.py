"""What has to be written into a mule file for a layout, and what is left to do by hand?"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from mulewright.design.mule import Mule
from mulewright.design.paths import path_of
from mulewright.layout.pricing import Priced
from mulewright.layout.problem import Problem, Seat

FORGOTTEN = "?"  # what was said of a control's old function is no longer known


def settings(mule: Mule, problem: Problem, priced: Priced) -> dict[str, Any]:
    """Values by their path that give a mule file a layout: controls, plugs, and the inputs of mixes.

    Parameters
    ----------
    mule : Mule
        The mule.
    problem : Problem
        What was laid out.
    priced : Priced
        The layout.

    Returns
    -------
    values : dict
        Only what differs from the file.
    """
    found = [
        *_commands(mule, problem, priced), *_plugs(problem, priced), *_mixes(mule, problem, priced),
    ]  # fmt: skip
    return {path_of(id): value for id, value in found}


def by_hand(mule: Mule, problem: Problem, priced: Priced) -> list[str]:
    """What cannot be written for the user, in the order in which to do it."""
    now = problem.present
    numbers = {
        seat.channel.number
        for name, seat in priced.layout.items()
        if seat.channel is not None and seat != now.get(name)
    }
    found = []
    if numbers:
        which = f"channel{'s' if len(numbers) > 1 else ''} {', '.join(map(str, sorted(numbers)))}"
        found = [
            f"go through travel, reverse, trims and fail-safe of {which}: they stay with the number",
            "try the fail-safe again, wheels up, transmitter off",
        ]
    for entry in priced.entries:
        function, channel = entry.function, entry.seat.channel
        if len(function.leads) > 1 and channel is not None and any(
            problem.plugged.get(lead) != channel.socket for lead in function.leads
        ):  # fmt: skip
            found.append(f"join {' and '.join(map(_device, function.leads))} by a Y-lead")
        if function.follows and function.at is None and channel is not None:
            control = priced.layout[function.follows].control or ""
            name = control.rsplit(".", 1)[1]
            found.append(f"make a mix of the radio by which {name} moves channel {channel.number} too")
    return found


def _commands(mule: Mule, problem: Problem, priced: Priced) -> Iterator[tuple[str, Any]]:
    wanted: dict[str, list[str]] = {one.id: [] for one in problem.controls}
    for entry in priced.entries:
        if entry.seat.control is not None:
            wanted[entry.seat.control] += entry.function.names
    laid = {name for names in wanted.values() for name in names}
    for id, names in wanted.items():
        before = mule.commands_of[id]
        kept = [name for name in before if name not in laid]
        after = [*kept, *names]
        if sorted(before) != sorted(after):
            yield f"{id}.commands", after[0] if len(after) == 1 else after
            if getattr(mule.table(id), "pushes_to", None) is not None:
                yield f"{id}.pushes_to", FORGOTTEN
        for seat in priced.layout.values():
            moved = getattr(mule.table(id), "channel", None)
            if seat.control == id and seat.channel is not None and seat.channel.number != moved:
                yield f"{id}.channel", seat.channel.number


def _plugs(problem: Problem, priced: Priced) -> Iterator[tuple[str, Any]]:
    for entry in priced.entries:
        channel = entry.seat.channel
        for lead in entry.function.leads if channel is not None else ():
            if channel is not None and problem.plugged.get(lead) != channel.socket:
                yield lead, channel.socket


def _mixes(mule: Mule, problem: Problem, priced: Priced) -> Iterator[tuple[str, Any]]:
    """Mixes follow the functions that they take in."""
    for radio in ("radio", "second_radio"):
        table = getattr(mule.file, radio)
        for number, mix in enumerate(table.mix if table is not None else ()):
            moved = dict(_moved(problem, priced, radio))
            inputs = [moved.get(name, name) for name in mix.inputs or ()]
            if mix.active is not False and inputs != (mix.inputs or []):
                yield f"{radio}.mix.{number}.inputs", inputs


def _moved(problem: Problem, priced: Priced, radio: str) -> Iterator[tuple[str, str]]:
    """The old control and the new one of each function that a mix takes in."""
    led = {one.follows for one in problem.functions}
    for entry in priced.entries:
        if entry.function.outputs or entry.function.name in led:
            old = problem.present.get(entry.function.name, Seat(None, None)).control or ""
            new = entry.seat.control or ""
            if old != new and old.startswith(f"{radio}.") and new.startswith(f"{radio}."):
                yield old.rsplit(".", 1)[1], new.rsplit(".", 1)[1]


def _device(lead: str) -> str:
    return lead.removesuffix(".signal")
