"""What does each bear alone, and not at the same moment?"""

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
    together,
)
from mulewright.checks.symptoms import Symptom
from mulewright.facts.gripping import GrippingRailFacts
from mulewright.facts.rail_sag import SaggedRailFacts

SOFT = ("battery.main.resistance=0.6 ohm",)
SMALL_SERVO = (*SOFT, "servo.tilt.stall_current=0.9 A")
OWN_SUPPLY = "own-servo-supply"


@check(
    "P43",
    on=GrippingRailFacts,
    severity=Severity.WARN,
    why="Each is fine alone, so nobody finds the reason: only together they bring the rail down.",
    seen="Resets only when it grips while it lifts",
    symptom=Symptom.CUTS_OUT,
    fixes=(
        "Do one after the other: first grip, then lift.",
        "Give the servos a supply of their own.",
        "Take a stiffer pack.",
    ),
    levers=("servo.*.stall_current", "servo.*.power", "battery.*.resistance", "battery.*.part"),
    limits=Limit("4.0 V", "voltage", "common practice"),
    follows=("P05", "P27"),
    examples=(
        Example("aisle-carrier", Outcome.TRIP, "rail.receiver", SMALL_SERVO, Severity.WARN),
        Example("aisle-carrier", Outcome.PASS, "rail.receiver"),
        Example("aisle-carrier", Outcome.PASS, "rail.receiver", SMALL_SERVO[1:]),
        Example("aisle-carrier", Outcome.PASS, "rail.receiver", SOFT),
        Example(
            "aisle-carrier", Outcome.PASS, "rail.receiver", ("battery.main.resistance=1 ohm", SMALL_SERVO[1])
        ),
        Example(
            "aisle-carrier",
            Outcome.NOT_APPLICABLE,
            "rail.receiver",
            (*SMALL_SERVO, "servo.tilt.used_with=[]"),
        ),
        Example(
            "aisle-carrier", Outcome.TRIP, "rail.receiver", (*SMALL_SERVO, 'servo.tilt.used_with=["lift"]')
        ),
        Example("aisle-carrier", Outcome.PASS, "rail.servo.tilt", variant=OWN_SUPPLY),
        Example("aisle-carrier", Outcome.CANNOT_TELL, "rail.receiver", ("battery.main.resistance=?",)),
        Example("aisle-carrier", Outcome.NOT_APPLICABLE, "rail.servo.tilt", ("servo.tilt.red_wire=pulled",)),
        Example("tray-cart", Outcome.NOT_APPLICABLE, "rail.receiver"),
        Example("soft-fruit-gripper", Outcome.NOT_APPLICABLE, "rail.receiver", variant="mended"),
    ),
    flips=(Flip("aisle-carrier", "rail.receiver", "servo.tilt.stall_current", "0.1 A", "0.95 A", SOFT),),
)
def servos_and_motors_held_at_once(gripping: GrippingRailFacts, limits: Limits) -> Answer:
    """The volts of a rail with its servos and every motor held fast at once, where each alone is borne.

    Worked out: the volts that held motors leave at the regulator's input, less what the current of the held
    servos costs in battery and wires besides; the regulator gives no more than that less its dropout. Servos
    that overload the regulator by themselves, and motors that bring the rail down by themselves, are left to
    checks of their own. Servos and motors count as used together unless the file says otherwise.

    Not covered: how the held motors give way to the servos, which leaves the rail a little higher, and a
    switching regulator, which draws less.

    Source: common practice, no source.
    """
    rail = gripping.rail
    if not rail.demand.servos:
        return NotApplicable(f"no servo lives from {rail.id}")
    if not rail.regulators or rail.packs:
        return NotApplicable(f"no regulator alone feeds {rail.id}")
    if not gripping.mule.file.motor:
        return NotApplicable("no motor is described")
    if gripping.apart:
        return NotApplicable(f"servos on {rail.id} are not used together with a motor, says the file")
    what = (
        "Servos and motors held fast at once leave {value} on {rail}; motors alone leave {alone}, servos alone take "
        "{share:%} of what its regulators give for a moment. A receiver may restart below {limit}."
    )
    alone = gripping.of(SaggedRailFacts, rail.id).lowest_voltage
    return together(
        below(gripping.held_voltage, limits, what, rail=rail.id, alone=alone, share=rail.stall_share),
        below(rail.stall_share, {Severity.WARN: 1.0}, ""),
        above(alone, {Severity.WARN: limits[Severity.WARN]}, ""),
    )
