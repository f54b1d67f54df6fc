"""Does everything get volts that it lives on: servo, receiver in the sag, controller on a fresh pack?"""

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
)
from mulewright.checks.symptoms import Symptom
from mulewright.facts.packs import FreshPackFacts
from mulewright.facts.rail import ServoRailFacts
from mulewright.facts.rail_sag import SaggedRailFacts

DRY = ("battery.main.part=b-dry",)
DARK = ("controller.left.red_wire=pulled",)


@check(
    "P10",
    on=ServoRailFacts,
    severity=Severity.BLOCK,
    why="It burns: first it is fast, then it jitters, then it smokes.",
    seen="Servo is quick and jittery, and then it smells",
    symptom=Symptom.HOT,
    fixes=("Lower the volts of the rail.", "Take a servo made for these volts."),
    levers=("servo.*.max_voltage", "controller.*.regulator.voltage", "regulator.*.voltage", "servo.*.power"),
    limits=Limit(1.0, "ratio", "common practice"),
    examples=(
        Example("aisle-carrier", Outcome.PASS, "servo.tilt"),
        Example("aisle-carrier", Outcome.TRIP, "servo.tilt", ("controller.lift.regulator.voltage=8.4 V",)),
        Example("aisle-carrier", Outcome.CANNOT_TELL, "servo.tilt", ("servo.tilt.max_voltage=?",)),
        Example("aisle-carrier", Outcome.NOT_APPLICABLE, "servo.tilt", ("servo.tilt.red_wire=pulled",)),
    ),
    flips=(Flip("aisle-carrier", "servo.tilt", "servo.tilt.max_voltage", "4.8 V", "8.4 V"),),
)
def servo_gets_too_many_volts(servo: ServoRailFacts, limits: Limits) -> Answer:
    """The volts of a servo's rail, against the highest that its sheet allows.

    Worked out: of several sources the one set highest gives the rail its volts; a pack counts as rested.

    Not covered: a pack fresh from the charger, which stands above its rested volts for a while.

    Source: common practice, no source.
    """
    if not servo.rail.sources:
        return NotApplicable(f"nothing feeds {servo.rail.id}")
    what = "{servo} gets {volts}, {value:%} of the {most} that it bears."
    return above(
        servo.voltage_share,
        limits,
        what,
        servo=servo.id,
        volts=servo.rail.voltage,
        most=servo.servo.max_voltage,
    )


@check(
    "P27",
    on=SaggedRailFacts,
    severity=Severity.STOP,
    why="The receiver restarts, and for that time the mule moves without a driver.",
    seen="Resets when the arm lifts or the drive starts hard",
    symptom=Symptom.CUTS_OUT,
    fixes=(
        "Take a stiffer pack.",
        "Give the receiver a pack of its own.",
        "Do not let so many motors pull at once.",
        "Lower the travel or the rate, so that less is drawn.",
    ),
    levers=("battery.*.part", "battery.*.resistance", "radio.channel.*.travel", "wire.*.gauge"),
    limits={
        Severity.WARN: Limit("4.0 V", "voltage", "common practice"),
        Severity.STOP: Limit("3.5 V", "voltage", "common practice"),
    },
    follows=("P30",),
    examples=(
        Example("tray-cart", Outcome.PASS, "rail.receiver"),
        Example("tray-cart", Outcome.TRIP, "rail.receiver", DRY, Severity.STOP),
        Example(
            "tray-cart", Outcome.TRIP, "rail.receiver", ("battery.main.resistance=1.4 ohm",), Severity.WARN
        ),
        Example("tray-cart", Outcome.NOT_APPLICABLE, "rail.receiver", DARK),
        Example("aisle-carrier", Outcome.NOT_APPLICABLE, "rail.servo.tilt", variant="own-servo-supply"),
        Example("tray-cart", Outcome.CANNOT_TELL, "rail.receiver", ("battery.main.resistance=?",)),
    ),
    flips=(Flip("tray-cart", "rail.receiver", "battery.main.resistance", "0.1 ohm", "3 ohm"),),
)
def receiver_browns_out(rail: SaggedRailFacts, limits: Limits) -> Answer:
    """The volts of a receiver rail with every motor held fast, against what receivers live on.

    Worked out: battery, wires and all motors at full stick are solved together; a regulator gives no more
    than its input less its dropout. Of several sources the highest carries the rail; a pack on it does not
    sag with the motors.

    Not covered: how long it lasts, capacitors that bridge it, cold cells, and what servos draw meanwhile.

    Source: common practice, no source.
    """
    if not rail.rail.carries_signals:
        return NotApplicable(f"neither a receiver nor a tester is on {rail.id}")
    if not rail.rail.sources:
        return NotApplicable(f"nothing feeds {rail.id}")
    what = "With every motor held fast {rail} stands at {value}; a receiver may restart below {limit}."
    return below(rail.lowest_voltage, limits, what, rail=rail.id)


@check(
    "P34",
    on=FreshPackFacts,
    severity=Severity.BLOCK,
    why="What ran for weeks on half-full packs dies with the first fresh one.",
    seen="Cuts out, or something dies, only with a pack straight off the charger",
    symptom=Symptom.CUTS_OUT,
    fixes=(
        "Take a pack of fewer cells, or of other cells.",
        "Take a controller made for these volts.",
        "Let the pack rest after charging, if the sheet allows what is left.",
    ),
    levers=(
        "battery.*.part",
        "battery.*.fresh",
        "battery.*.off_charger",
        "controller.*.max_voltage",
        "controller.*.part",
    ),
    limits={
        Severity.WARN: Limit(0.97, "ratio", "judgement"),
        Severity.BLOCK: Limit(1.0, "ratio", "common practice"),
    },
    examples=(
        Example("tray-cart", Outcome.PASS, "controller.left"),
        Example(
            "tray-cart",
            Outcome.TRIP,
            "controller.left",
            ("controller.left.max_voltage=14 V",),
            Severity.BLOCK,
        ),
        Example(
            "tray-cart",
            Outcome.TRIP,
            "controller.left",
            ("controller.left.max_voltage=14.5 V",),
            Severity.WARN,
        ),
        Example("tray-cart", Outcome.CANNOT_TELL, "controller.left", ("controller.left.max_voltage=?",)),
        Example("tray-cart", Outcome.NOT_APPLICABLE, "controller.left", ("battery.main.off_charger=false",)),
    ),
    flips=(Flip("tray-cart", "controller.left", "controller.left.max_voltage", "12 V", "18 V"),),
)
def fresh_pack_has_too_many_volts(controller: FreshPackFacts, limits: Limits) -> Answer:
    """The volts of the pack straight off the charger, against the highest that a controller bears.

    Worked out: as noted for the pack, or its cells in series times the volts of one fresh cell of their
    kind. A bench supply has the volts that it is set to.

    Not covered: volts that a braking motor adds, and other devices on the battery.

    Source: common practice, no source; volts of fresh cells from the table of assumptions.
    """
    if controller.rests_first:
        return NotApplicable(f"{controller.source.id} is not driven straight off the charger, says the file")
    what = "{pack} {fresh}, {value:%} of the {most} that {controller} bears."
    return above(
        controller.fresh_share, limits, what, pack=controller.words, fresh=controller.source.full,
        most=controller.max_voltage, controller=controller.id,
    )  # fmt: skip
