"""Does the switch bear what it switches, and does it switch everything?"""

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
)
from mulewright.checks.symptoms import Symptom
from mulewright.facts.switches import SwitchPeakFacts

AUX_SWITCH = (
    'regulator.aux={ kind = "switching", voltage = "6.0 V", current = "3 A" }',
    'switch.aux={ rating = "5 A" }',
    'wire.aux={ path = ["board.main", "switch.aux", "regulator.aux"], gauge = "20 AWG", length = "0.2 m" }',
)
RECEIVER_PACK = ('battery.small={ feeds = ["receiver.8"], rested = "4.8 V" }',)


@check(
    "P37",
    on=SwitchPeakFacts,
    severity=Severity.WARN,
    why="Its contacts weld together, and then nobody can switch the mule off.",
    seen="Switch gets warm, and one day it no longer switches off",
    symptom=Symptom.HOT,
    fixes=("Take a switch made for the current.", "Use a plug or a loop that one pulls as the switch."),
    levers=("switch.*.rating", "radio.channel.*.travel"),
    limits=Limit(1.0, "ratio", "common practice"),
    examples=(
        Example("tray-cart", Outcome.PASS, "switch.main"),
        Example("tray-cart", Outcome.TRIP, "switch.main", ("switch.main.rating=5 A",), Severity.WARN),
        Example("tray-cart", Outcome.CANNOT_TELL, "switch.main", ("switch.main.rating=?",)),
        Example("tray-cart", Outcome.NOT_APPLICABLE, "switch.aux", AUX_SWITCH),
    ),
    flips=(Flip("tray-cart", "switch.main", "switch.main.rating", "5 A", "30 A"),),
)
def switch_too_small(switch: SwitchPeakFacts, limits: Limits) -> Answer:
    """The current through a switch with every motor behind it held fast, against its rating.

    Worked out: all motors behind it at full stick, solved together with the battery's sag and all wires.

    Not covered: what it breaks for a moment when motors are switched off while they turn.

    Source: common practice, no source.
    """
    if not switch.feeds_motors:
        return NotApplicable(f"no controller with a motor lies behind {switch.id}")
    what = "Every motor held fast draws {current} through {switch}, {value:%} of the {rating} that it bears."
    return above(
        switch.multiple, limits, what, switch=switch.id, current=switch.current, rating=switch.rating
    )


@check(
    "P41",
    on=SwitchPeakFacts,
    severity=Severity.STOP,
    why="Off is not off: the receiver lives on, motors may still move, and hands go in.",
    seen="Receiver stays lit with the main switch off",
    symptom=Symptom.BY_ITSELF,
    fixes=(
        "Put every source of the receiver behind the one switch.",
        "Pull the red wire of the source that stays on.",
    ),
    levers=("wire.*.path", "controller.*.red_wire", "battery.*.feeds"),
    examples=(
        Example("tray-cart", Outcome.PASS, "switch.main"),
        Example("tray-cart", Outcome.TRIP, "switch.main", RECEIVER_PACK, Severity.STOP),
        Example("tray-cart", Outcome.NOT_APPLICABLE, "switch.aux", AUX_SWITCH),
        Example("tray-cart", Outcome.CANNOT_TELL, "switch.main", ("controller.left.red_wire=?",)),
    ),
)
def receiver_lives_on_when_off(switch: SwitchPeakFacts, limits: Limits) -> Answer:
    """Whether anything feeds a receiver on past the switch that takes the power from every motor.

    Worked out: sources of the receiver's rail are followed along the middle wires; those that do not lie
    behind the switch stay on.

    Not covered: a second switch that belongs to the habit of switching off.

    Source: common practice, no source.
    """
    if not switch.stops_all:
        return NotApplicable(f"{switch.id} does not take the power from every motor")
    what = "Sources that feed a receiver on with {switch} off: {value}."
    return above(switch.kept_on, {Severity.STOP: 0}, what, switch=switch.id)
