"""Do receivers and boxes get the volts that they live on, and what is left at the end of a servo's lead?"""

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
    below,
    check,
    either,
)
from mulewright.checks.symptoms import Symptom
from mulewright.facts.fed_volts import FedBoxFacts, FedFacts, FedReceiverFacts, ServoLeadFacts

LEFT_VOLTS = "controller.left.regulator.voltage={} V"
LIFT_VOLTS = "controller.lift.regulator.voltage={} V"
DARK = ("controller.left.red_wire=pulled",)
TESTER_PACK = "high-voltage-pack"
OTHER_SUPPLY = (
    "Take a supply of other volts for the rail.",
    "Put a regulator between the supply and the rail.",
)


@check(
    "P09",
    on=FedReceiverFacts,
    severity=Severity.BLOCK,
    why="Too many volts kill a receiver at once, and with too few it restarts while the mule moves.",
    seen="The receiver's light flickers, or it never lights again",
    symptom=Symptom.CUTS_OUT,
    fixes=OTHER_SUPPLY,
    levers=("receiver.*_voltage", "controller.*.regulator.voltage", "regulator.*.voltage", "battery.*.feeds"),
    examples=(
        Example("tray-cart", Outcome.PASS, "receiver"),
        Example("tray-cart", Outcome.TRIP, "receiver", (LEFT_VOLTS.format(9),), Severity.BLOCK),
        Example("tray-cart", Outcome.TRIP, "receiver", (LEFT_VOLTS.format(3.3),), Severity.STOP),
        Example("tray-cart", Outcome.CANNOT_TELL, "receiver", ("receiver.max_voltage=?",)),
        Example("tray-cart", Outcome.NOT_APPLICABLE, "receiver", DARK),
    ),
    flips=(
        Flip("tray-cart", "receiver", "controller.left.regulator.voltage", "10 V", "6 V"),
        Flip("tray-cart", "receiver", "controller.left.regulator.voltage", "2 V", "6 V"),
    ),
)
def receiver_gets_wrong_volts(receiver: FedReceiverFacts, limits: Limits) -> Answer:
    """The volts of a receiver's rail, against the lowest and the highest on its sheet.

    Worked out: of several sources the one set highest gives the rail its volts; a pack counts as rested.
    Above the highest it is a BLOCK, below the lowest a STOP.

    Not covered: how far the rail falls when motors are held fast, which has a check of its own, and a pack
    fresh from the charger.

    Source: the receiver's sheet.
    """
    return _between(receiver, Severity.STOP)


@check(
    "P11",
    on=FedBoxFacts,
    severity=Severity.BLOCK,
    why="The box between receiver and controllers dies, or commands the motors at random.",
    seen="The mixer box or the tester gets warm, or its outputs do what they like",
    symptom=Symptom.HOT,
    fixes=OTHER_SUPPLY,
    levers=("mixer.*_voltage", "tester.*_voltage", "controller.*.regulator.voltage", "tester.*.power"),
    examples=(
        Example("hose-tug", Outcome.PASS, "mixer.tug"),
        Example("aisle-carrier", Outcome.TRIP, "mixer.drive", (LIFT_VOLTS.format(9),), Severity.BLOCK),
        Example(
            "aisle-carrier", Outcome.TRIP, "mixer.drive", ("mixer.drive.min_voltage=7 V",), Severity.BLOCK
        ),
        Example("aisle-carrier", Outcome.CANNOT_TELL, "mixer.drive", ("mixer.drive.min_voltage=?",)),
        Example("soft-fruit-gripper", Outcome.NOT_APPLICABLE, "tester.bench"),
        Example("soft-fruit-gripper", Outcome.PASS, "tester.bench", variant=TESTER_PACK),
    ),
    flips=(
        Flip("aisle-carrier", "mixer.drive", "controller.lift.regulator.voltage", "10 V", "6 V"),
        Flip("aisle-carrier", "mixer.drive", "mixer.drive.min_voltage", "8 V", "4 V"),
    ),
)
def box_gets_wrong_volts(box: FedBoxFacts, limits: Limits) -> Answer:
    """The volts of the rail that a mixer box or a tester lives from, against those on its sheet.

    Worked out: of several sources the one set highest gives the rail its volts; a pack counts as rested.

    Not covered: a pack fresh from the charger, and boxes whose two sides have rails of their own: the side of
    the outputs counts.

    Source: the sheet of the box.
    """
    return _between(box, Severity.BLOCK)


def _between(fed: FedFacts, too_low: Severity) -> Answer:
    if not fed.rail.sources:
        return NotApplicable(f"nothing feeds {fed.rail.id}")
    volts, most = fed.rail.voltage, {Severity.BLOCK: fed.consumer.max_voltage}
    low = below(
        volts, {too_low: fed.consumer.min_voltage}, "{thing} gets {value}; it needs at least {limit}.", thing=fed.id
    )  # fmt: skip
    high = above(volts, most, "{thing} gets {value}; it bears at most {limit}.", thing=fed.id)
    return either(low, high)


@check(
    "P28",
    on=ServoLeadFacts,
    severity=Severity.WARN,
    why="That one servo restarts whenever it has to hold against something, and everybody suspects the servo.",
    seen="One servo at the end of a long lead jitters, the others do not",
    symptom=Symptom.CUTS_OUT,
    fixes=(
        "Shorten the lead, or take thicker wire for it.",
        "Feed the servo from a supply close to it, with its ground joined.",
    ),
    levers=("servo.*.lead_length", "servo.*.lead_gauge", "servo.*.stall_current", "servo.*.power"),
    limits=Limit("4.0 V", "voltage", "common practice"),
    follows=("P27",),
    examples=(
        Example("aisle-carrier", Outcome.PASS, "servo.tilt"),
        Example("aisle-carrier", Outcome.TRIP, "servo.tilt", ("servo.tilt.lead_length=4 m",), Severity.WARN),
        Example("aisle-carrier", Outcome.CANNOT_TELL, "servo.tilt", ("servo.tilt.stall_current=?",)),
        Example("aisle-carrier", Outcome.NOT_APPLICABLE, "servo.tilt", ("servo.tilt.red_wire=pulled",)),
    ),
    flips=(Flip("aisle-carrier", "servo.tilt", "servo.tilt.lead_length", "0.3 m", "10 m"),),
)
def servo_lead_costs_volts(servo: ServoLeadFacts, limits: Limits) -> Answer:
    """The volts left at a servo that is held fast, against those below which servos and receivers restart.

    Worked out: the volts of the rail, less the current of the held servo times the resistance of its lead,
    there and back, and of the two contacts of its plug. A lead that is not described counts as a short thin
    one.

    Not covered: extensions and Y-leads on the way, which add contacts, and a rail that sags meanwhile.

    Source: common practice, no source; the resistance of copper from IEC 60028.
    """
    if not servo.rail.sources:
        return NotApplicable(f"nothing feeds {servo.rail.id}")
    what = "Held fast, {servo} loses {lost} in its lead: {value} are left of {volts}, and {limit} are needed."
    return below(servo.left, limits, what, servo=servo.id, lost=servo.lost, volts=servo.rail.voltage)
