"""Is the pack up to what is asked of it, and does anything stop it in time?"""

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
    together,
)
from mulewright.checks.symptoms import Symptom
from mulewright.facts.packs import PackFacts, PowerLeadFacts
from mulewright.facts.wiring import BatteryFacts

DRY = ("battery.main.part=b-dry",)
NO_FUSE = ('wire.main.path=["battery.main", "switch.main", "board.main"]',)
FAR = ("fuse.main.from_battery=0.5 m",)
RECEIVER_PACK = ('battery.small={ feeds = ["receiver.8"], rested = "4.8 V" }',)
DARK = ("controller.left.red_wire=pulled",)
TWO_PACKS = 'y_lead.packs={{ kind = "{}", carries = "power", joins = ["battery.main"] }}'


@check(
    "P23",
    on=PackFacts,
    severity=Severity.BLOCK,
    why="A pinched lead on a strong pack is a fire.",
    seen="Nothing shows until a lead is pinched, and then it burns",
    fixes=("Put a fuse into the plus, close to the battery.", "Move the fuse closer to the battery."),
    levers=("fuse.*.from_battery", "wire.*.path", "battery.*.part"),
    limits=Limit("30 A", "current", "common practice"),
    examples=(
        Example("tray-cart", Outcome.PASS, "battery.main"),
        Example("tray-cart", Outcome.TRIP, "battery.main", NO_FUSE, Severity.BLOCK),
        Example("tray-cart", Outcome.TRIP, "battery.main", FAR, Severity.BLOCK),
        Example("tray-cart", Outcome.PASS, "battery.main", (*NO_FUSE, *DRY)),
        Example("tray-cart", Outcome.PASS, "battery.main", (*FAR, *DRY)),
        Example("tray-cart", Outcome.NOT_APPLICABLE, "battery.small", RECEIVER_PACK),
        Example("tray-cart", Outcome.CANNOT_TELL, "battery.main", ("fuse.main.from_battery=?",)),
    ),
    flips=(Flip("tray-cart", "battery.main", "battery.main.resistance", "0.05 ohm", "2 ohm", FAR),),
)
def no_main_fuse(pack: PackFacts, limits: Limits) -> Answer:
    """The current that a pack can give, where no fuse lies within 0.2 m of it.

    Worked out: rested volts over the resistance of the pack is what a short circuit draws. Each wire that
    leaves the pack needs a fuse, and the longest piece between the two counts.

    Not covered: a fuse inside the pack, and receiver packs that feed a rail through a servo lead.

    Source: common practice, no source; the marine rule of ABYC E-11, known from articles, asks for 0.18 m.
    """
    if not pack.runs:
        return NotApplicable(f"no wire leaves {pack.id}")
    if pack.unfused:
        what = "{pack} can give {value} into a short circuit, and no fuse lies in {wires}."
        return above(pack.short_circuit, limits, what, pack=pack.id, wires=", ".join(pack.unfused))
    what = "{pack} can give {value} into a short circuit, and its first fuse lies {distance} away."
    strong = above(pack.short_circuit, limits, what, pack=pack.id, distance=pack.bare_wire)
    return together(strong, above(pack.bare_wire, {Severity.BLOCK: 0.2}, ""))


@check(
    "P30",
    on=PackFacts,
    severity=Severity.STOP,
    why="A motor starts and everything resets; half of what was paid for heats the pack.",
    seen="Everything slows down or restarts as soon as a motor starts",
    symptom=Symptom.CUTS_OUT,
    fixes=("Take a rechargeable pack for high currents.", "Do not let so many motors pull at once."),
    levers=("battery.*.part", "battery.*.resistance", "radio.channel.*.travel"),
    limits=Limit(0.35, "ratio", "common practice"),
    examples=(
        Example("tray-cart", Outcome.PASS, "battery.main"),
        Example("tray-cart", Outcome.TRIP, "battery.main", DRY, Severity.STOP),
        Example("tray-cart", Outcome.NOT_APPLICABLE, "battery.small", RECEIVER_PACK),
        Example("tray-cart", Outcome.CANNOT_TELL, "battery.main", ("battery.main.resistance=?",)),
    ),
    flips=(Flip("tray-cart", "battery.main", "battery.main.resistance", "0.1 ohm", "3 ohm"),),
)
def battery_too_soft(pack: PackFacts, limits: Limits) -> Answer:
    """The share of its volts that a pack loses inside with every motor held fast.

    Worked out: its resistance times the current, over its rested volts; the current is solved with the sag
    itself.

    Not covered: cells that are cold, old or half empty, which are softer.

    Source: common practice, no source.
    """
    if not pack.drives:
        return NotApplicable(f"no motor is fed from {pack.id}")
    what = "Every motor held fast draws {peak}; {value:%} of the volts stay in {pack}, at most {limit:%} may."
    return above(pack.sag, limits, what, pack=pack.id, peak=pack.peak)


@check(
    "P31",
    on=BatteryFacts,
    severity=Severity.STOP,
    why="It runs well to the end, the cells are ruined the next day, and ruined cells burn on the charger.",
    seen="Nothing shows while it drives; the pack is dead the day after",
    fixes=(
        "Fit an alarm and set it to 3.3 to 3.5 V a cell.",
        "Set the cut-off of a controller for this pack and write it down.",
    ),
    levers=("battery.*.alarm", "controller.*.cut_off", "battery.*.part"),
    examples=(
        Example("hose-tug", Outcome.TRIP, "battery.main", severity=Severity.STOP),
        Example("hose-tug", Outcome.PASS, "battery.main", ("battery.main.alarm=3.4 V",)),
        Example("hose-tug", Outcome.PASS, "battery.main", ("controller.left.cut_off=three cells lithium",)),
        Example("tray-cart", Outcome.NOT_APPLICABLE, "battery.main"),
        Example("hose-tug", Outcome.CANNOT_TELL, "battery.main", ("battery.main.chemistry=?",)),
    ),
)
def lithium_unwatched(battery: BatteryFacts, limits: Limits) -> Answer:
    """Whether anything watches the voltage of a lithium pack.

    Worked out: an alarm written at the pack, or a cut-off written at a controller that it feeds. A record
    that is missing counts as none.

    Not covered: whether the alarm is set to a sensible voltage, and whether somebody hears it.

    Source: common practice, no source.
    """
    if not battery.lithium:
        return NotApplicable(f"the cells of {battery.id} are {battery.choice('chemistry')}, not lithium")
    what = "Below 3.0 V a cell under load {battery} is ruined; what watches it: {watches}."
    watches = ", ".join(battery.watches) or "nothing that is written down"
    return lacking(battery.watched, Severity.STOP, what, battery=battery.id, watches=watches)


@check(
    "P35",
    on=PowerLeadFacts,
    severity=Severity.BLOCK,
    why="Twice the volts reach everything at once, and everything dies; the lead looks like the right one.",
    seen="A bang or smoke when the battery is plugged in",
    symptom=Symptom.HOT,
    fixes=("Meter the lead, mark it, and take one that joins in parallel.",),
    levers=("y_lead.*.kind",),
    examples=(
        Example("tray-cart", Outcome.TRIP, "y_lead.packs", (TWO_PACKS.format("series"),), Severity.BLOCK),
        Example("tray-cart", Outcome.PASS, "y_lead.packs", (TWO_PACKS.format("parallel"),)),
        Example("tray-cart", Outcome.CANNOT_TELL, "y_lead.packs", (TWO_PACKS.format("?"),)),
    ),
)
def y_lead_in_series(lead: PowerLeadFacts, limits: Limits) -> Answer:
    """Whether a Y-lead joins packs one behind the other.

    Worked out: read off what was written about the lead.

    Not covered: machines that are meant for the sum of the volts; write such a lead down as deliberate.

    Source: common practice, no source.
    """
    what = "{lead} joins its packs in {kind}."
    return flagged(lead.in_series, Severity.BLOCK, what, lead=lead.id, kind=lead.choice("kind"))
