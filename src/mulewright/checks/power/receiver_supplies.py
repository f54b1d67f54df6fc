"""What feeds the receiver: nothing, one source, or several that work against each other?"""

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
    lacking,
)
from mulewright.checks.symptoms import Symptom
from mulewright.facts.consumers import MixerDrawFacts
from mulewright.facts.rail import RailFacts

BARE = ("controller.left.red_wire=pulled",)
SECOND = ("controller.right.red_wire=in",)
SWITCHING = (*SECOND, "controller.left.regulator.kind=switching")
PACK_TOO = ('battery.small={ feeds = ["receiver.8"], rested = "4.8 V" }',)
SPLIT = ("mixer.drive.passes_rail=false",)
OUTPUTS = ("front_left", "front_right", "rear_left", "rear_right")
UNSURE = (*SPLIT, *(f"controller.{name}.red_wire=?" for name in OUTPUTS))
DARK_SIDE = (*SPLIT, "controller.lift.red_wire=pulled", "controller.pump.red_wire=pulled")


@check(
    "P01",
    on=RailFacts,
    severity=Severity.BLOCK,
    why="Nothing works, and whoever looks for the reason soon bridges wires by hand.",
    seen="Receiver stays dark, and nothing answers",
    symptom=Symptom.STILL,
    fixes=(
        "Give the rail a receiver pack or a regulator of its own.",
        "Put a red wire back into its plug, where a controller with a regulator (BEC) hangs on the rail.",
    ),
    levers=(
        "controller.*.red_wire",
        "controller.*.part",
        "mixer.*.passes_rail",
        "regulator.*.feeds",
        "tester.*.power",
    ),
    examples=(
        Example("tray-cart", Outcome.PASS, "rail.receiver"),
        Example("tray-cart", Outcome.TRIP, "rail.receiver", BARE, Severity.BLOCK),
        Example("tray-cart", Outcome.CANNOT_TELL, "rail.receiver", ("controller.left.red_wire=?",)),
        Example("aisle-carrier", Outcome.NOT_APPLICABLE, "rail.servo.tilt", variant="own-servo-supply"),
    ),
)
def no_receiver_supply(rail: RailFacts, limits: Limits) -> Answer:
    """Whether anything feeds the middle wires from which a receiver or a tester lives.

    Worked out: middle wires are followed from plug to plug; a red wire that is pulled, and a mixer that does
    not bridge its two sides, end the rail. Controllers with a regulator, regulators of their own and packs
    feed it.

    Not covered: a regulator that is itself without power, and broken leads.

    Source: common practice, no source.
    """
    if not rail.carries_signals:
        return NotApplicable(f"neither a receiver nor a tester is on {rail.id}")
    return lacking(rail.fed, Severity.BLOCK, "What feeds {thirsty}: {sources}.", **_names(rail))


@check(
    "P02",
    on=RailFacts,
    severity=Severity.WARN,
    why="The source set a hair higher carries everything, and switching ones may feed back into each other.",
    seen="One controller gets hotter than the others while nothing moves",
    symptom=Symptom.HOT,
    fixes=(
        "Keep one red wire and pull the others out of their plugs.",
        "Give the rail one supply of its own and pull every red wire.",
    ),
    levers=("controller.*.red_wire",),
    examples=(
        Example("tray-cart", Outcome.PASS, "rail.receiver"),
        Example("tray-cart", Outcome.TRIP, "rail.receiver", SECOND, Severity.WARN),
        Example("tray-cart", Outcome.TRIP, "rail.receiver", SWITCHING, Severity.STOP),
        Example("aisle-carrier", Outcome.TRIP, "rail.receiver", severity=Severity.WARN),
        Example("tray-cart", Outcome.CANNOT_TELL, "rail.receiver", ("controller.right.red_wire=?",)),
    ),
)
def several_receiver_supplies(rail: RailFacts, limits: Limits) -> Answer:
    """How many sources feed one rail, against one.

    Worked out: controllers with a regulator whose red wire is in, regulators of their own and packs are
    counted along the middle wires. Linear ones, and ones of unknown kind, warn; a switching one among them
    is a STOP.

    Not covered: regulators that are made to share a load; write such a rail down as deliberate.

    Source: common practice, no source.
    """
    severity = Severity.STOP if rail.switching else Severity.WARN
    what = "Sources on {rail}: {value} ({sources}). One is enough."
    return above(rail.source_count, {severity: 1}, what, **_names(rail))


@check(
    "P03",
    on=RailFacts,
    severity=Severity.STOP,
    why="The highest one carries all, and a lower one may sink current instead of giving any.",
    seen="One controller is hot soon after the power comes on",
    symptom=Symptom.HOT,
    fixes=("Keep one red wire and pull the others out of their plugs.",),
    levers=("controller.*.red_wire", "controller.*.regulator.voltage"),
    limits=Limit("0.15 V", "voltage", "common practice"),
    follows=("P02",),
    examples=(
        Example("aisle-carrier", Outcome.TRIP, "rail.receiver", severity=Severity.STOP),
        Example("aisle-carrier", Outcome.PASS, "rail.receiver", ("controller.pump.red_wire=pulled",)),
        Example("tray-cart", Outcome.NOT_APPLICABLE, "rail.receiver"),
        Example("tray-cart", Outcome.NOT_APPLICABLE, "rail.receiver", BARE),
        Example(
            "aisle-carrier", Outcome.CANNOT_TELL, "rail.receiver", ("controller.pump.regulator.voltage=?",)
        ),
    ),
    flips=(Flip("aisle-carrier", "rail.receiver", "controller.pump.regulator.voltage", "5.0 V", "6.0 V"),),
)
def receiver_supplies_unequal(rail: RailFacts, limits: Limits) -> Answer:
    """How far the volts of the sources on one rail lie apart.

    Worked out: the highest output voltage less the lowest, as labelled; a pack counts with its rested volts.

    Not covered: two regulators with the same label still differ a little.

    Source: common practice, no source.
    """
    if len(rail.sources) < 2:
        return NotApplicable(f"{', '.join(rail.sources) or 'nothing'} alone feeds {rail.id}")
    what = "Sources of {lowest} to {highest} feed {rail}: {value} apart, where {limit} is the most expected."
    return above(rail.spread, limits, what, rail=rail.id, lowest=rail.lowest, highest=rail.voltage)


@check(
    "P08",
    on=RailFacts,
    severity=Severity.STOP,
    why="The receiver lives and that one device stays dark, which looks like a broken device.",
    seen="Receiver is lit, but one servo or the mixer is dead",
    symptom=Symptom.STILL,
    fixes=(
        "Put the red wire back into the plug of the device.",
        "Give the device a supply of its own, with its ground joined to the receiver's.",
    ),
    levers=("servo.*.red_wire", "servo.*.power", "mixer.*.red_wire"),
    follows=("P12",),
    examples=(
        Example("aisle-carrier", Outcome.TRIP, "rail.servo.tilt", ("servo.tilt.red_wire=pulled",)),
        Example("aisle-carrier", Outcome.PASS, "rail.servo.tilt", variant="own-servo-supply"),
        Example("aisle-carrier", Outcome.NOT_APPLICABLE, "rail.receiver"),
        Example("aisle-carrier", Outcome.CANNOT_TELL, "rail.mixer.drive", UNSURE),
    ),
)
def pulled_wire_leaves_device_dark(rail: RailFacts, limits: Limits) -> Answer:
    """Whether a servo or a mixer is cut off from every source although the receiver is not.

    Worked out: middle wires are followed as for the receiver; what is left without one needs its own source.

    Not covered: broken leads, and plugs that sit turned round.

    Source: common practice, no source.
    """
    if rail.carries_signals:
        return NotApplicable(f"a receiver or a tester is on {rail.id}")
    what = "What feeds {thirsty}, where no receiver is: {sources}."
    return lacking(rail.fed, Severity.STOP, what, **_names(rail))


@check(
    "P12",
    on=MixerDrawFacts,
    severity=Severity.STOP,
    why="One half works and the other half is dark, so that the fault is looked for in the wrong half.",
    seen="Only one side of the mixer box has power",
    symptom=Symptom.STILL,
    fixes=(
        "Give the dark side a source: put the red wire of one controller on that side in.",
        "Bridge the middle wires of the two sides.",
    ),
    levers=("mixer.*.passes_rail", "controller.*.red_wire"),
    examples=(
        Example("aisle-carrier", Outcome.NOT_APPLICABLE, "mixer.drive"),
        Example("aisle-carrier", Outcome.PASS, "mixer.drive", SPLIT),
        Example("aisle-carrier", Outcome.TRIP, "mixer.drive", DARK_SIDE, Severity.STOP),
        Example("aisle-carrier", Outcome.CANNOT_TELL, "mixer.drive", UNSURE),
    ),
)
def mixer_splits_rail(mixer: MixerDrawFacts, limits: Limits) -> Answer:
    """Whether a mixer that does not join the middle wires of its two sides has a source on each of them.

    Worked out: the rail is followed on the receiver's side and on the side of the outputs.

    Not covered: from which of its sides the mixer itself lives.

    Source: common practice, no source.
    """
    if mixer.bridges:
        return NotApplicable(f"{mixer.id} joins the middle wires of both its sides")
    what = "{mixer} keeps its two sides apart, and {fed}."
    return lacking(mixer.both_sides_fed, Severity.STOP, what, mixer=mixer.id, fed=mixer.side_words)


@check(
    "P13",
    on=RailFacts,
    severity=Severity.BLOCK,
    why="A regulator charges the pack without any control, and a pack that is charged so can burn.",
    seen="Receiver pack gets warm although nobody charges it",
    symptom=Symptom.HOT,
    fixes=("Take the receiver pack off the rail.", "Pull the red wires of all controllers on the rail."),
    levers=("battery.*.feeds", "controller.*.red_wire"),
    examples=(
        Example("tray-cart", Outcome.PASS, "rail.receiver"),
        Example("tray-cart", Outcome.TRIP, "rail.receiver", PACK_TOO, Severity.BLOCK),
        Example("tray-cart", Outcome.PASS, "rail.receiver", (*PACK_TOO, *BARE)),
        Example("tray-cart", Outcome.CANNOT_TELL, "rail.receiver", (*PACK_TOO, "controller.left.red_wire=?")),
    ),
)
def pack_and_regulator_on_one_rail(rail: RailFacts, limits: Limits) -> Answer:
    """Whether a pack and a regulator meet on one rail.

    Worked out: sources are followed along the middle wires; a pack feeds the rail without a regulator
    between.

    Not covered: diodes that keep the two apart; write such a rail down as deliberate.

    Source: common practice, no source.
    """
    what = "What feeds {rail}: {sources}. A pack and a regulator must never meet on one rail."
    return flagged(rail.pack_beside_regulator, Severity.BLOCK, what, **_names(rail))


def _names(rail: RailFacts) -> dict[str, str]:
    sources, thirsty = rail.demand.certain("feeds"), rail.demand.certain("draws")
    return {"rail": rail.id, "sources": ", ".join(sources) or "nothing", "thirsty": ", ".join(thirsty)}
