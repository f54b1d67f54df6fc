"""What do the wires cost in volts?"""

from __future__ import annotations

from mulewright.checks.engine import Answer, Example, Flip, Limit, Limits, Outcome, Severity, above, check
from mulewright.checks.symptoms import Symptom
from mulewright.facts.drops import DropFacts

LONG = ("wire.branches.length=8 m",)
WORKING_WARN = ("wire.branches.length=16 m",)
WORKING_STOP = ("wire.branches.length=40 m",)


@check(
    "P26",
    on=DropFacts,
    severity=Severity.WARN,
    why="Lost volts are lost speed, and the receiver's rail sinks with them.",
    seen="Far fewer volts at the motor than at the battery, and a warm wire",
    symptom=Symptom.WEAK,
    fixes=("Take thicker wire.", "Shorten the wire, or move the battery."),
    levers=("wire.*.gauge", "wire.*.length", "wire.*.contact_resistance"),
    limits={
        Severity.WARN: Limit(0.05, "ratio", "common practice"),
        Severity.STOP: Limit(0.10, "ratio", "common practice"),
    },
    examples=(
        Example("tray-cart", Outcome.PASS, "controller.left@all-stalled"),
        Example("tray-cart", Outcome.TRIP, "controller.left@all-stalled", LONG, Severity.WARN),
        Example("aisle-carrier", Outcome.PASS, "controller.lift@lift-working"),
        Example("aisle-carrier", Outcome.TRIP, "controller.lift@lift-working", WORKING_WARN, Severity.WARN),
        Example("aisle-carrier", Outcome.TRIP, "controller.lift@lift-working", WORKING_STOP, Severity.STOP),
        Example("tray-cart", Outcome.CANNOT_TELL, "controller.left@all-stalled", ("wire.main.length=?",)),
    ),
    flips=(
        Flip("tray-cart", "controller.left@all-stalled", "wire.branches.length", "0.3 m", "20 m"),
        Flip("aisle-carrier", "controller.lift@lift-working", "wire.branches.length", "0.3 m", "20 m"),
    ),
)
def wires_cost_volts(drop: DropFacts, limits: Limits) -> Answer:
    """The volts lost between battery and controller, as a share of the battery's rested volts.

    Worked out: all loads of a case solved together. At the load of a lift, an arm or a winch the stricter
    pair of limits holds; with every motor held fast only the higher one, and it warns.

    Not covered: plugs whose resistance is not noted, and drives, whose steady load depends on the floor.

    Source: common practice, no source.
    """
    levels = {Severity.WARN: limits[Severity.STOP]} if drop.stalled else limits
    what = "{lost} are lost on the way to {place} while {case}: {value:%}, at most {limit:%} is fine."
    return above(drop.share, levels, what, place=drop.thing, lost=drop.lost, case=drop.words)
