"""What is one end of a wire called by a person who looks for it? The words that stand on map and label."""

from __future__ import annotations

from mulewright.advice.spoken import spoken
from mulewright.design.harness import Pin
from mulewright.design.signals import RECEIVERS

SIGNS = {"+": "+", "-": "−"}  # as they are printed, for a plain hyphen is hard to see


def place(pin: Pin | None) -> str:
    """Where an end of a wire belongs, in words.

    >>> place(Pin("board.main", "+2")), place(Pin("receiver", "3")), place(Pin("mixer.drive", "turn"))
    ('board main +2', 'receiver socket 3', 'mixer drive turn')
    """
    if pin is None:
        return "? (nobody noted where)"
    words = spoken(pin.thing)
    if pin.name == "lead":  # a lead of its own needs no place
        return words
    if pin.thing in RECEIVERS and pin.name.isdigit():
        return f"{words} socket {pin.name}"
    sign = pin.name[:1]
    return f"{words} {SIGNS.get(sign, sign)}{pin.name[1:]}"
