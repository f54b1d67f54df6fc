"""What is written on a box and beside a wire?"""

from __future__ import annotations

from mulewright.design.commands import channel_terms
from mulewright.design.harness import Conductor
from mulewright.design.mule import Mule
from mulewright.design.references import as_list
from mulewright.design.schema.electrics import Motor, Placed, Servo, YLead
from mulewright.design.signals import RECEIVERS
from mulewright.paper.wiring.plan import kind_of
from mulewright.units.table import Table

RADIO_OF = {"receiver": "radio", "second_receiver": "second_radio"}
UNPLACED = "PLUG NOT NOTED"
PULLED = "RED PULLED"


def heading(thing: str) -> str:
    """The name of a thing as it stands in the file, without its kind."""
    return thing.split(".", 1)[-1] if "." in thing else thing.replace("_", " ")


def under_heading(mule: Mule, thing: str) -> list[str]:
    """What kind of thing it is, and what one recognises it by."""
    kind = kind_of(thing)
    noun = {"y_lead": "Y-lead", "inline": "in-line device", "tester": "servo tester", "mixer": "mixer box"}
    lines = [] if kind in RECEIVERS else [noun.get(kind, kind.replace("_", " "))]
    return lines + [line for line in (_known_by(mule.things[thing]),) if line]


def _known_by(table: Table) -> str:
    if isinstance(table, Motor | Servo):
        drives = table.turns if isinstance(table, Motor) else table.moves
        if drives:
            return drives.removeprefix("mechanism.").replace("wheel.", "wheel ")
    if isinstance(table, YLead):
        return table.kind or ""
    rating = getattr(table, "rating", None)
    part = table.part if isinstance(table, Placed) else None
    return rating.text if rating is not None else part or ""


def socket_words(mule: Mule, thing: str, name: str) -> str:
    """What commands a socket of a receiver, in the words of the functions."""
    if thing not in RADIO_OF or not name.isdigit():
        return ""
    found: dict[str, None] = {}
    for term in channel_terms(mule, RADIO_OF[thing], int(name)):
        found |= dict.fromkeys(as_list(mule.commands_of.get(term.control, [])))
    return " + ".join(found)


def wire_words(one: Conductor) -> str:
    """Thickness and length of a wire, as far as they are known."""
    gauge = one.area.text if one.area is not None else ""
    length = one.length.text if one.length is not None else ""
    return "  ".join(word for word in (gauge, length) if word)


def flag(one: Conductor) -> str:
    """What somebody has to do about the plug of a lead."""
    if one.kind not in ("servo lead", "supply lead"):
        return "" if one.sure else "POLARITY NOT NOTED"
    flags = [PULLED] if one.red_pulled else ["RED WIRE?"] if one.red_pulled is None else []
    return ", ".join([*flags, *(["GROUND PULLED"] if one.ground_pulled else [])])
