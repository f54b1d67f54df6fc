"""Can one pull the power off at any moment, is it charged switched off, and is noise kept from the receiver?"""

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
    below,
    check,
    flagged,
    lacking,
)
from mulewright.checks.symptoms import Symptom
from mulewright.facts.habits import ChargingFacts, DisconnectFacts, NoiseFacts

UNTICKED = ("checklist.disconnect_reachable=?",)
HIDDEN = (*UNTICKED, "switch.main.reachable=false")
NOISY = ("checklist.noise_parts=false",)
CLOSE = (*NOISY, "receiver.antenna_clear=20 mm")
LIVE = "battery.main.charge_lead_reachable=true"


@check(
    "P42",
    on=DisconnectFacts,
    severity=Severity.STOP,
    why="When it matters, one runs after the mule instead of stopping it.",
    seen="Somebody chases the mule to switch it off",
    symptom=Symptom.BY_ITSELF,
    fixes=(
        "Put a loop or a plug that one can pull on top, away from everything that moves.",
        "Write down that it is in reach, or tick it.",
    ),
    levers=("checklist.disconnect_reachable", "switch.*.reachable"),
    examples=(
        Example("tray-cart", Outcome.PASS, "checklist"),
        Example("tray-cart", Outcome.PASS, "checklist", UNTICKED),
        Example("tray-cart", Outcome.TRIP, "checklist", HIDDEN, Severity.STOP),
        Example("aisle-carrier", Outcome.PASS, "checklist"),
        Example("aisle-carrier", Outcome.TRIP, "checklist", UNTICKED, Severity.STOP),
    ),
)
def disconnect_out_of_reach(mule: DisconnectFacts, limits: Limits) -> Answer:
    """Whether it is noted that a disconnect is in reach while anything moves.

    Worked out: ticked on the checklist, or written at a switch that takes the power from every motor. A
    record that is missing counts as no.

    Not covered: whether it would be in reach of the driver as well.

    Source: common practice, no source.
    """
    what = "A disconnect in reach while anything moves: {noted}."
    return lacking(mule.reachable, Severity.STOP, what, noted=mule.noted)


@check(
    "P44",
    on=NoiseFacts,
    severity=Severity.NOTE,
    why="The sparks of brushes reach the receiver as noise.",
    seen="Twitches, or the range is short, only while motors run",
    symptom=Symptom.CUTS_OUT,
    fixes=(
        "Solder noise capacitors to the terminals of the motors.",
        "Lead the antenna at least 50 mm away from motors, their leads, metal and battery.",
    ),
    levers=("checklist.noise_parts", "motor.*.suppressed", "receiver.antenna_clear"),
    limits=Limit("50 mm", "length", "common practice"),
    examples=(
        Example("tray-cart", Outcome.PASS, "receiver"),
        Example("tray-cart", Outcome.TRIP, "receiver", CLOSE, Severity.NOTE),
        Example("tray-cart", Outcome.PASS, "receiver", (*NOISY, "receiver.antenna_clear=80 mm")),
        Example("tray-cart", Outcome.PASS, "receiver", (*CLOSE, "motor.*.suppressed=true")),
        Example("tray-cart", Outcome.TRIP, "receiver", (*CLOSE, "motor.left.suppressed=false")),
        Example("tray-cart", Outcome.CANNOT_TELL, "receiver", (*NOISY, "receiver.antenna_clear=?")),
        Example("tray-cart", Outcome.CANNOT_TELL, "receiver", ("checklist.noise_parts=?",)),
    ),
    flips=(Flip("tray-cart", "receiver", "receiver.antenna_clear", "10 mm", "90 mm", NOISY),),
)
def motor_noise_reaches_receiver(receiver: NoiseFacts, limits: Limits) -> Answer:
    """How far an antenna lies from what disturbs it, where motors have no noise parts.

    Worked out: noise parts are ticked, or written at each motor; only without them the antenna's distance
    counts.

    Not covered: noise along supply wires, and controllers that disturb by themselves.

    Source: common practice, no source.
    """
    what = "Without noise parts: {motors}. The antenna lies {value} away; {limit} is asked for."
    if not receiver.bare:
        return flagged(receiver.noisy, Severity.NOTE, "Motors without noise parts: {value}.")
    return below(receiver.antenna_clear, limits, what, motors=", ".join(receiver.bare))


@check(
    "P45",
    on=ChargingFacts,
    severity=Severity.NOTE,
    why="A charger on a live system meets the wrong path and the wrong volts.",
    seen="The charger reports an error, or a regulator is hot after charging",
    symptom=Symptom.HOT,
    fixes=(
        "Unplug the pack from the machine before charging.",
        "Place the charge lead where it can only be reached with the pack unplugged.",
    ),
    levers=("battery.*.charge_lead_reachable", "habits.charges_on_board"),
    examples=(
        Example("tray-cart", Outcome.PASS, "battery.main"),
        Example("tray-cart", Outcome.TRIP, "battery.main", (LIVE,), Severity.NOTE),
        Example("tray-cart", Outcome.CANNOT_TELL, "battery.main", ("battery.main.charge_lead_reachable=?",)),
        Example("tray-cart", Outcome.NOT_APPLICABLE, "battery.main", (LIVE, "habits.charges_on_board=false")),
        Example("vine-lift", Outcome.NOT_APPLICABLE, "battery.main"),
    ),
)
def charged_while_switched_on(pack: ChargingFacts, limits: Limits) -> Answer:
    """Whether a pack can be charged while the machine is switched on.

    Worked out: read off what was written about its charge lead.

    Not covered: chargers that are made to stay connected; write such a pack down as deliberate.

    Source: common practice, no source.
    """
    if pack.dry:
        return NotApplicable(f"the cells of {pack.id} are dry and never charged")
    if pack.taken_out:
        return NotApplicable("packs are not charged in the machine, says the file")
    what = "The charge lead of {pack} is {reach} while it is switched on."
    return flagged(pack.live, Severity.NOTE, what, pack=pack.id, reach=pack.reach)
