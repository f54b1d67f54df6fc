"""What should each wheel do on each push, and whose part is it that a wheel did? Signs, read both ways."""

from __future__ import annotations

from dataclasses import dataclass

from mulewright.design.commands import SIGNS
from mulewright.design.mule import Mule
from mulewright.design.references import outputs_of
from mulewright.design.schema.machine import FOUR_WHEELS
from mulewright.design.schema.people import Pushes

Word = tuple[int, ...]
"""Signs of one wheel: one for each command of the drive, in the order of the commands."""

SIDES = ("left", "right")
PLACES = {"two-sides": SIDES, "four-roller-wheels": FOUR_WHEELS}  # what each output of a mix is meant for
READS = {"+": 1, "-": -1, "0": 0}


@dataclass(frozen=True)
class Part:
    """The part of the drive that a wheel was seen to play, and whether it played it backwards."""

    places: tuple[str, ...]  # several where the pushes cannot tell them apart
    sense: int


def code(mule: Mule) -> dict[str, Word]:
    """What each place of the drive, a wheel or a side, should do on a push of each command."""
    drive, commands = mule.file.drive, mule.drive_commands
    if drive is None or drive.kind is None:
        return {}
    if drive.kind == "two-sticks":
        return {side: tuple(int(command == side) for command in commands) for side in SIDES}
    mix = "four-roller-wheels" if drive.kind == "four-roller-wheels" else "two-sides"
    return {
        place: tuple(row.get(command, 0) for command in commands)
        for place, row in zip(PLACES[mix], SIGNS[mix], strict=True)
    }


def place_of(mule: Mule, wheel: str) -> str:
    """The place of a wheel in the code: itself, or its side."""
    skid_steer = mule.file.drive is not None and mule.file.drive.kind == "skid-steer"
    return wheel.rsplit("_", 1)[-1] if skid_steer else wheel


def newest(mule: Mule, wheel: str) -> tuple[str, Pushes] | None:
    """The table in which the last pushes of a wheel stand, with its name: as left, else as found."""
    tables = (("as_left", mule.file.as_left), ("as_found", mule.file.as_found))
    return next(((name, pushes) for name, pushes in tables if wheel in pushes.wheels), None)


def seen(mule: Mule, wheel: str) -> Part | None:
    """The part that a wheel played when last pushed; None where a sign was not seen, or they fit no place."""
    found = newest(mule, wheel)
    if found is None:
        return None
    _, pushes = found
    signs = dict(zip(pushes.order or (), pushes.wheels[wheel], strict=False))
    read = [READS.get(signs.get(command, "")) for command in mule.drive_commands]
    word = tuple(sign for sign in read if sign is not None)
    return decoded(mule, word) if len(word) == len(read) else None


def decoded(mule: Mule, word: Word) -> Part | None:
    """The part that signs belong to; None where they fit none, or fit one forwards and another backwards."""
    found = [
        Part(places, sense)
        for sense in (1, -1)
        if (places := tuple(place for place, own in code(mule).items() if own == _times(sense, word)))
    ]
    return found[0] if len(found) == 1 else None


def _times(sense: int, word: Word) -> Word:
    return tuple(sense * sign for sign in word)


def plugged_place(mule: Mule, device: str) -> str | None:
    """The place for which the output at a device's plug is meant; None where nothing mixes before it."""
    trace = mule.signals.trace(device)
    if trace.mixer is not None:
        mixer = mule.signals.mixer(trace.mixer[0])
        places = dict(zip(outputs_of(mixer), PLACES.get(mixer.mixes or "", ()), strict=False))
        return places.get(trace.mixer[1])
    if trace.port is None:
        return None
    receiver, number = trace.port
    radio = mule.file.second_radio if receiver == "second_receiver" else mule.file.radio
    mixes = [mix for mix in radio.mix if mix.kind == "two-sides" and mix.active is not False] if radio else []
    found = [dict(zip(mix.channels or (), SIDES, strict=False)).get(number) for mix in mixes]
    return next((place for place in reversed(found) if place is not None), None)
