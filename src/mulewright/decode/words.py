"""What does one say about a fault that is neither a plug nor a lead, and what is there to do about it?"""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple

from mulewright.decode import faults


class Words(NamedTuple):
    """What is the matter, and what to do next."""

    says: str
    do: str


WORDS: Mapping[str, Words] = {
    faults.DEAD_WHEEL: Words(
        "{wheels} follows no push.",
        "Is its hub tight on the shaft, is the light of its controller on? Else exchange its signal plug with that of "
        "a working neighbour: if the fault moves along, it lies before the plug. Then exchange the motor leads: if it "
        "moves along, it lies in the controller, else in the motor or its leads.",
    ),
    faults.DEAD_CONTROL: Words(
        "No wheel follows {commands}.",
        "Look at the lead of its channel, at the channel's endpoint and at its share in the mix; then push it again.",
    ),
    faults.TWICE: Words(
        "{commands} are mixed twice: each of them moves half of the wheels.",
        "Half-stick test: push one of them half of the way. If the wheels turn at full speed already, switch one of "
        "the two mixes off and push again.",
    ),
    faults.UNMIXED: Words(
        "{commands} are not mixed at all: each of them moves half of the wheels, as if they were mixed twice.",
        "Half-stick test: push one of them half of the way. If the wheels turn at half speed, switch the mix on, once, "
        "and push again.",
    ),
    faults.MIXED: Words(
        "{commands} are mixed, although each should move its own side.", "Switch the mix off and push again."
    ),
    faults.HALF: Words(
        "{wheels} follows one control only: the mix acts on another pair of channels.",
        "Put the signal plugs on the two channels of the mix, and push again.",
    ),
    faults.SAME_PORT: Words(
        "{wheels} follow one and the same output.",
        "If a second look shows the same, trace their plugs: a Y-lead joins them, or one channel is a copy of another.",
    ),
    faults.MIS_SEEN: Words(
        "No wiring shows this, but one mistaken look would explain it: {cells}.",
        "Push that again and look at that wheel alone.",
    ),
    faults.ROLLERS: Words(
        "Every wheel turns rightly on blocks, and the floor shows roller wheels of the wrong hand: {wheels}.",
        "Look down on them: the rollers on top must form an X. Exchange the wheels that do not.",
    ),
    faults.FLOOR: Words(
        "No wiring that fits the blocks moves it so over the floor.",
        "Put it on blocks and push again: the floor does not show wheels that fight each other.",
    ),
    faults.UNCLEAR: Words(
        "Neither a wiring nor a single fault shows this.",
        "Push everything again, one control at a time, all others at rest.",
    ),
}


def listed(names: list[str], joint: str = "and") -> str:
    """Names as one says them.

    >>> listed(["left", "right"])
    'left and right'
    """
    *most, last = names or [""]
    return f"{', '.join(most)} {joint} {last}" if most else last


def spoken(name: str) -> str:
    """A name of the file as one says it.

    >>> spoken("front_left")
    'front left'
    """
    return name.replace("_", " ")
