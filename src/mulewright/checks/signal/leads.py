"""Is each servo lead short enough, its plug seated well, and its pulse high enough for what listens?"""

from __future__ import annotations

from mulewright.checks.engine import (
    Answer,
    Example,
    Flip,
    Limit,
    Limits,
    Outcome,
    Severity,
    above,
    below,
    check,
    either,
    flagged,
    together,
)
from mulewright.checks.symptoms import Symptom
from mulewright.facts.leads import LeadFacts
from mulewright.facts.levels import InputLevelFacts

ALONE = ("servo.tilt.beside_motor_leads=false",)


@check(
    "S39",
    on=InputLevelFacts,
    severity=Severity.WARN,
    why="A pulse that only just counts as high is missed when it is warm or the rail is up.",
    seen="Works cold, and jitters or misses later",
    symptom=Symptom.BY_ITSELF,
    fixes=("Put a buffer into the lead that lifts the pulse.", "Lower the rail of the device that listens."),
    levers=("receiver.signal_high", "controller.*.signal_high", "servo.*.signal_high"),
    examples=(
        Example("tray-cart", Outcome.PASS, "controller.left"),
        Example("tray-cart", Outcome.TRIP, "controller.left", ("controller.left.signal_high=4.2 V",), Severity.WARN),
        Example("tray-cart", Outcome.CANNOT_TELL, "controller.left", ("receiver.signal_high=?",)),
        Example("tray-cart", Outcome.CANNOT_TELL, "controller.left", ("controller.left.signal_high=?",)),
        Example("tray-cart", Outcome.CANNOT_TELL, "controller.left", ("controller.left.signal=?",)),
        Example("hose-tug", Outcome.TRIP, "mixer.tug", ("mixer.tug.signal_high=4.2 V",)),
        Example("hose-tug", Outcome.PASS, "controller.left", ("controller.left.signal_high=4.2 V",)),
    ),
)  # fmt: skip
def pulses_too_low(listener: InputLevelFacts, limits: Limits) -> Answer:
    """The voltage of the pulses that a device gets, against the lowest that it takes for high.

    Worked out: the plug is followed through Y-leads to the receiver, tester, box or in-line device whose pulses
    come out there. Many inputs want 0.7 of their own supply, which is 4.2 V on a rail of 6 V.

    Not covered: what long leads and noise take off a pulse; inputs of in-line devices.

    Source: sheets of both devices.
    """
    return below(
        listener.gets,
        {Severity.WARN: listener.signal_high},
        "It gets pulses of {value} from {source} and wants {limit} at least.",
        source=listener.source,
    )


@check(
    "S41",
    on=LeadFacts,
    severity=Severity.WARN,
    why="A long lead catches the noise of motor leads, and the device twitches when motors run.",
    seen="Servo twitches when motors run",
    symptom=Symptom.BY_ITSELF,
    fixes=(
        "Shorten the lead, or move the receiver nearer.",
        "Lay it away from motor leads, twist it, and put a ferrite ring on it.",
    ),
    levers=("controller.*.lead_length", "servo.*.lead_length", "servo.*.way_to_socket", "servo.*.beside_motor_leads"),
    limits=Limit("1 m", "length", mark="judgement"),
    also={"bundled": Limit("0.3 m", "length", mark="judgement")},
    examples=(
        Example("aisle-carrier", Outcome.PASS, "servo.tilt"),
        Example("aisle-carrier", Outcome.PASS, "servo.tilt", (*ALONE, "servo.tilt.lead_length=0.9 m")),
        Example("aisle-carrier", Outcome.TRIP, "servo.tilt", (*ALONE, "servo.tilt.lead_length=1.2 m"), Severity.WARN),
        Example(
            "aisle-carrier", Outcome.TRIP, "servo.tilt",
            ("servo.tilt.beside_motor_leads=true", "servo.tilt.lead_length=0.5 m"),
        ),
        Example("aisle-carrier", Outcome.TRIP, "servo.tilt", (*ALONE, "servo.tilt.way_to_socket=1.2 m")),
        Example("aisle-carrier", Outcome.CANNOT_TELL, "servo.tilt", ("servo.tilt.lead_length=0.5 m",)),
    ),
    flips=(Flip("aisle-carrier", "servo.tilt", "servo.tilt.lead_length", "0.5 m", "2 m", sets=ALONE),),
)  # fmt: skip
def signal_lead_long(lead: LeadFacts, limits: Limits) -> Answer:
    """The length of a servo lead, against 1 m, or 0.3 m where it is bundled with motor leads.

    Worked out: as noted; where the way to its socket is longer, that, for it is extended. A lead of which nothing
    is noted is taken to have the usual length, which is short enough anywhere.

    Not covered: extensions that are longer than the way, and shielded leads.

    Source: common practice, no source; both thresholds are judgements.
    """
    long = "It is {value} long and lies {place}; {limit} is the most."
    return either(
        above(lead.laid, limits, long, place=lead.place),
        together(
            above(lead.laid, {Severity.WARN: limits.also["bundled"]}, long, place=lead.place),
            flagged(lead.beside, Severity.WARN, ""),
        ),
    )


@check(
    "S46",
    on=LeadFacts,
    severity=Severity.WARN,
    why="With the plug turned round signal and ground are exchanged, so the device gets power and no pulses.",
    seen="Device is powered, and dead to every control",
    symptom=Symptom.STILL,
    fixes=("Turn the plug, and mark the header so that it is seen.",),
    levers=("controller.*.plug", "servo.*.plug", "checklist.plugs_seated"),
    examples=(
        Example("tray-cart", Outcome.PASS, "controller.left"),
        Example(
            "tray-cart", Outcome.TRIP, "controller.left", ("controller.left.plug=turned",), Severity.WARN
        ),
        Example("tray-cart", Outcome.PASS, "controller.left", ("controller.left.plug=one pin off",)),
        Example("tray-cart", Outcome.CANNOT_TELL, "controller.left", ("checklist.plugs_seated=?",)),
    ),
)
def plug_turned(lead: LeadFacts, limits: Limits) -> Answer:
    """Whether the plug of a servo lead sits the wrong way round.

    Worked out: as noted for the lead, else as ticked in the checklist for all of them. The middle pin is the
    plus, so it stays where it is and nothing burns as a rule.

    Not covered: plugs of boxes' inputs, and old plugs with another order of pins.

    Source: common practice, no source; from memory.
    """
    return flagged(
        lead.plug_turned,
        Severity.WARN,
        "Its plug sits {how}, as {from_}.",
        how=lead.seated,
        from_=lead.evidence,
    )


@check(
    "S47",
    on=LeadFacts,
    severity=Severity.BLOCK,
    why="One pin off the plus meets a signal or nothing, which is a short or a dead device.",
    seen="A servo lead gets warm, or its device is dark",
    symptom=Symptom.HOT,
    fixes=("Seat the plug on all three pins of its own row, and mark the header.",),
    levers=("controller.*.plug", "servo.*.plug", "checklist.plugs_seated"),
    examples=(
        Example("tray-cart", Outcome.PASS, "controller.left"),
        Example(
            "tray-cart",
            Outcome.TRIP,
            "controller.left",
            ("controller.left.plug=one pin off",),
            Severity.BLOCK,
        ),
        Example("tray-cart", Outcome.PASS, "controller.left", ("controller.left.plug=turned",)),
        Example("tray-cart", Outcome.CANNOT_TELL, "controller.left", ("checklist.plugs_seated=?",)),
    ),
)
def plug_one_pin_off(lead: LeadFacts, limits: Limits) -> Answer:
    """Whether the plug of a servo lead sits one pin or one row beside its place.

    Worked out: as noted for the lead, else as ticked in the checklist for all of them; each row has a signal,
    a plus and a ground.

    Not covered: plugs of boxes' inputs.

    Source: common practice, no source.
    """
    return flagged(
        lead.plug_one_off,
        Severity.BLOCK,
        "Its plug sits {how}, as {from_}.",
        how=lead.seated,
        from_=lead.evidence,
    )
