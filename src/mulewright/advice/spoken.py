"""How does a person at the bench call a thing of the mule file, and how do they read a fact about it?"""

from __future__ import annotations

from collections.abc import Iterable

from mulewright.facts.nodes import Node, number
from mulewright.units.quantity import Origin
from mulewright.units.shown import people, percent

UNKNOWN, ENDLESS = "?", "without end"
_WORDS = {"y_lead": "Y-lead", "inline": "in-line device"}


def spoken(id: str) -> str:
    """The name of a thing, or of a place on it, as people say it.

    >>> spoken("controller.lift"), spoken("receiver.3"), spoken("mixer.drive.out1")
    ('controller lift', 'receiver socket 3', 'mixer drive out1')
    """
    kind, _, name = id.partition(".")
    word = _WORDS.get(kind, kind.replace("_", " "))
    if kind.endswith("receiver") and name:
        return f"{word} socket {name}"
    return f"{word} {name.replace('.', ' ')}".rstrip()


def control_word(control: str, *, several: bool) -> str:
    """The name of a control, with its transmitter where there are several.

    >>> control_word("radio.control.RV", several=False), control_word("second_radio.control.RV", several=True)
    ('RV', 'RV of the second transmitter')
    """
    radio, _, name = control.partition(".control.")
    which = "second transmitter" if radio.startswith("second") else "transmitter"
    return f"{name} of the {which}" if several else name


def listed(names: Iterable[str], last: str = "and") -> str:
    """Several names in one sentence.

    >>> listed(["arm", "lift", "pump"]), listed([])
    ('arm, lift and pump', 'nothing')
    """
    *first, end = list(names) or ["nothing"]
    return f"{', '.join(first)} {last} {end}" if first else end


def read(node: Node, digits: int = 2, *, as_percent: bool = False) -> str:
    """The value of a fact, short, with its unit; a question mark where it is unknown."""
    if not node.known:
        return UNKNOWN
    value = number(node)
    if value is None:
        return ENDLESS
    return percent(value, digits) if as_percent else people(value, node.unit, digits)


def read_with_doubt(node: Node, digits: int = 2) -> str:
    """The same, with a word where nobody measured what it rests on."""
    return f"{read(node, digits)}{' (assumed)' if node.known and node.origin is Origin.ASSUMED else ''}"
