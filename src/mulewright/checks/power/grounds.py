"""Does a motor's current find its way home through thick wire only, whatever is switched off?"""

from __future__ import annotations

from mulewright.checks.engine import (
    Answer,
    Example,
    Flip,
    Limit,
    Limits,
    NotApplicable,
    Outcome,
    Severity,
    above,
    check,
    flagged,
    together,
)
from mulewright.checks.symptoms import Symptom
from mulewright.facts.grounds import BreakFacts, ReturnFacts

BAD_PLUGS = ("wire.branches.contact_resistance=0.2 ohm",)
IN_MINUS = ("switch.main.conductor=minus",)
LONE = ("controller.right.signal=[]",)
NO_LEADS = (*IN_MINUS, "controller.left.signal=[]", "controller.right.signal=[]")


@check(
    "P15",
    on=ReturnFacts,
    severity=Severity.WARN,
    why="Ten amperes in a hair-thin lead melt it, and the receiver that they pass through with it.",
    seen="Thin signal lead gets hot or melts",
    symptom=Symptom.HOT,
    fixes=(
        "Make the minus of the controller thicker, shorter or with better contacts.",
        "Bring every minus to one point.",
        "Switch and fuse the plus only.",
    ),
    levers=("wire.*.gauge", "wire.*.length", "wire.*.contact_resistance", "switch.*.conductor"),
    limits=Limit(1.0, "ratio", "common practice"),
    follows=("P16",),
    examples=(
        Example("tray-cart", Outcome.PASS, "controller.left"),
        Example("tray-cart", Outcome.TRIP, "controller.left", BAD_PLUGS, Severity.WARN),
        Example("hose-tug", Outcome.TRIP, "controller.left", severity=Severity.STOP),
        Example("tray-cart", Outcome.NOT_APPLICABLE, "controller.left", LONE),
        Example("tray-cart", Outcome.CANNOT_TELL, "controller.left", ("wire.branches.gauge=?",)),
        Example("tray-cart", Outcome.CANNOT_TELL, "controller.left", ("switch.main.conductor=?",)),
    ),
    flips=(Flip("tray-cart", "controller.left", "wire.branches.contact_resistance", "0.001 ohm", "1 ohm"),),
)  # fmt: skip
def motor_returns_through_signal_ground(motor: ReturnFacts, limits: Limits) -> Answer:
    """The current that returns through the grounds of signal leads, against what such a lead bears.

    Worked out: beside a controller's minus lies a loop: the ground of its signal lead to the receiver, and
    from there back through the leads and minuses of all others on the battery, side by side. The current
    with the motors held fast, before the battery sags, divides between the two. Where a switch or a fuse can
    open the minus, all of it counts as left to the thin loop: that is a STOP, whatever the lead bears.

    Not covered: the leads between receiver and mixers, which are taken as nothing; minuses that only some of
    the others share, which are taken as separate.

    Source: common practice, no source; what thin leads bear is from the same.
    """
    if motor.alone:
        return NotApplicable(f"the signal ground of {motor.id} leads to no other way back to the battery")
    if motor.opening:
        what = (
            "{breaks} can open the minus of {motor}: all its current is then left to leads that bear {bears}."
        )
        breaks = ", ".join(motor.opening)
        return flagged(
            motor.can_open, Severity.STOP, what, motor=motor.id, breaks=breaks, bears=motor.bears
        )  # fmt: skip
    what = "{share:%} of the return of {motor}, {thin}, goes through signal grounds that bear {bears}."
    words = {"share": motor.share, "thin": motor.thin_current, "bears": motor.bears}
    return above(motor.load, limits, what, motor=motor.id, **words)


@check(
    "P16",
    on=BreakFacts,
    severity=Severity.BLOCK,
    why="Off is not off: what it should stop lives on, and motor current looks for a way through thin leads.",
    seen="Switched off, but a light stays on or something still answers",
    symptom=Symptom.BY_ITSELF,
    fixes=("Move it from the minus to the plus.",),
    levers=("switch.*.conductor", "fuse.*.conductor"),
    examples=(
        Example("hose-tug", Outcome.TRIP, "switch.main", severity=Severity.BLOCK),
        Example("tray-cart", Outcome.PASS, "switch.main"),
        Example("tray-cart", Outcome.TRIP, "switch.main", IN_MINUS, Severity.BLOCK),
        Example("tray-cart", Outcome.PASS, "switch.main", NO_LEADS),
        Example("tray-cart", Outcome.CANNOT_TELL, "switch.main", ("switch.main.conductor=?",)),
    ),
)
def minus_interrupted(item: BreakFacts, limits: Limits) -> Answer:
    """Whether a fuse or a switch opens the minus while signal grounds stay joined behind it.

    Worked out: everything behind it is looked through for signal leads whose grounds are joined to others. A
    charger, a meter or a second pack on one of them closes the circuit again.

    Not covered: whether such another way exists at this moment; it takes one plug to make it.

    Source: common practice, no source.
    """
    what = "{item} lies in the {conductor}; signal grounds that stay joined behind it: {grounds}."
    opens = flagged(
        item.in_minus, Severity.BLOCK, what, item=item.id, conductor=item.conductor, grounds=item.grounded
    )
    return together(opens, flagged(item.grounded, Severity.BLOCK, ""))
