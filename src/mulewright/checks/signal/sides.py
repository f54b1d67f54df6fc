"""Does what works side by side get the same curve and rate, and does it make the same of a pulse?"""

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
    check,
    either,
    flagged,
)
from mulewright.checks.symptoms import Symptom
from mulewright.facts.sides import SideBySideFacts, WheelControllersFacts

TWO_STICKS = (
    "drive.kind=two-sticks",
    "radio.mix=[]",
    "radio.control.RV.commands=right",
    "radio.control.RH.commands=?",
    "radio.control.LV.commands=left",
    "controller.left.signal=receiver.3",
    "controller.right.signal=receiver.2",
)


@check(
    "S31",
    on=SideBySideFacts,
    severity=Severity.WARN,
    why="The sides agree at full stick only, so the mule pulls to one side on the way there.",
    seen="Straight at full stick, but a curve at half stick",
    symptom=Symptom.WRONG,
    fixes=("Set curve and rate of all these controls alike.",),
    levers=("radio.control.*.expo", "radio.control.*.rate"),
    limits=Limit("5 %", "percent", mark="judgement"),
    also={"rate": Limit("3 %", "percent", mark="judgement")},
    examples=(
        Example("tray-cart", Outcome.PASS, "drive", TWO_STICKS),
        Example(
            "tray-cart", Outcome.TRIP, "drive", (*TWO_STICKS, "radio.control.LV.expo=40 %"), Severity.WARN
        ),
        Example("tray-cart", Outcome.TRIP, "drive", (*TWO_STICKS, "radio.control.LV.rate=95 %")),
        Example("tray-cart", Outcome.PASS, "drive", (*TWO_STICKS, "radio.control.LV.rate=98 %")),
        Example("tray-cart", Outcome.CANNOT_TELL, "drive", (*TWO_STICKS, "radio.control.LV.expo=?")),
    ),
    flips=(Flip("tray-cart", "drive", "radio.control.LV.expo", "30 %", "42 %", sets=TWO_STICKS),),
)  # fmt: skip
def curves_unequal(function: SideBySideFacts, limits: Limits) -> Answer:
    """The curves and rates of controls that move things side by side: the two sticks of a drive, twin motors.

    Worked out: the roundest curve less the straightest, and the highest rate less the lowest, of which 3 % are
    allowed. Forward and turn of a mixed drive are meant to differ and are left out.

    Not covered: endpoints that differ (S32), and sides whose motors differ.

    Source: common practice, no source; both thresholds are judgements.
    """
    return either(
        above(
            function.expo_gap,
            limits,
            "The curves of {names} lie {value:%} apart; {limit:%} is the most.",
            names=function.names,
        ),
        above(
            function.rate_gap,
            {Severity.WARN: limits.also["rate"]},
            "The rates of {names} lie {value:%} apart; {limit:%} is the most.",
            names=function.names,
        ),
    )


@check(
    "S33",
    on=WheelControllersFacts,
    severity=Severity.WARN,
    why="One side starts before the other, so the mule twists each time it sets off.",
    seen="Twists when it sets off, and then runs straight",
    symptom=Symptom.WRONG,
    fixes=(
        "Take controllers of one kind for all wheels.",
        "Set their dead bands alike, and teach all of them the same range.",
    ),
    levers=(
        "controller.*.part",
        "controller.*.dead_band",
        "controller.*.calibrated_to",
        "controller.*.response",
    ),
    limits=Limit("10 us", "pulse", mark="judgement"),
    also={"half-range": Limit("10 us", "pulse", mark="judgement")},
    examples=(
        Example("tray-cart", Outcome.PASS, "drive"),
        Example("tray-cart", Outcome.TRIP, "drive", ("controller.left.dead_band=40 us",), Severity.WARN),
        Example("tray-cart", Outcome.TRIP, "drive", ("controller.left.part=ctl-6l",), Severity.WARN),
        Example("tray-cart", Outcome.TRIP, "drive", ("controller.left.response=jump",)),
        Example("tray-cart", Outcome.TRIP, "drive", ("controller.left.calibrated_to=480 us",)),
        Example("tray-cart", Outcome.CANNOT_TELL, "drive", ("controller.left.response=?",)),
        Example("tray-cart", Outcome.CANNOT_TELL, "drive", ("controller.left.dead_band=?",)),
    ),
    flips=(Flip("tray-cart", "drive", "controller.left.dead_band", "25 us", "45 us"),),
)
def controllers_mixed(drive: WheelControllersFacts, limits: Limits) -> Answer:
    """The controllers of all wheels against each other: kind, dead band, range, what follows the dead band.

    Worked out: the widest dead band less the narrowest; the widest range less the narrowest, as on the sheet or
    as taught, of which 10 us are allowed; and whether part, way of reversing and response are the same.

    Not covered: single controllers of one kind, which differ a little too.

    Source: common practice, no source; the thresholds are judgements.
    """
    return either(
        above(
            drive.band_gap,
            limits,
            "The dead bands of its controllers lie {value} apart; {limit} is the most.",
        ),
        above(
            drive.range_gap,
            {Severity.WARN: limits.also["half-range"]},
            "The ranges of its controllers lie {value} apart; {limit} is the most.",
        ),
        flagged(drive.differing, Severity.WARN, "Differences found: {value}; {words}.", words=drive.in_words),
    )
