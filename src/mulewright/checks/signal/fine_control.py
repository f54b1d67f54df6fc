"""Is there fine control: how much of the stick about its middle does nothing?"""

from __future__ import annotations

from mulewright.checks.engine import Answer, Example, Flip, Limit, Limits, Outcome, Severity, above, check
from mulewright.checks.symptoms import Symptom
from mulewright.facts.controller_use import FineControlFacts


@check(
    "S30",
    on=FineControlFacts,
    severity=Severity.WARN,
    why="Nothing, nothing, then a jump: that is the opposite of the fine control that expo was set for.",
    seen="Stick does nothing at first, and then it jumps",
    symptom=Symptom.COARSE,
    fixes=(
        "Take less expo where the rate is low.",
        "Raise the rate, and gear the machine down instead.",
        "Set a smaller dead band, if the controller has one to set.",
    ),
    levers=("radio.control.*.expo", "radio.control.*.rate", "controller.*.dead_band"),
    limits=Limit(0.15, "ratio", mark="judgement"),
    examples=(
        Example("tray-cart", Outcome.PASS, "controller.left"),
        Example("hose-tug", Outcome.TRIP, "controller.left", severity=Severity.WARN),
        Example("hose-tug", Outcome.TRIP, "controller.right", variant="radio-mix-off"),
        Example("hose-tug", Outcome.PASS, "controller.left", ("radio.control.RV.expo=0 %",)),
        Example("tray-cart", Outcome.CANNOT_TELL, "controller.left", ("controller.left.dead_band=?",)),
    ),
    flips=(
        Flip("hose-tug", "controller.left", "radio.control.RV.expo", "60 %", "0 %"),
        Flip("tray-cart", "controller.left", "controller.left.dead_band", "10 us", "100 us"),
    ),
)
def dead_stick(controller: FineControlFacts, limits: Limits) -> Answer:
    """The share of a stick about its middle that does nothing.

    Worked out: the smallest stick whose pulse, after the curve, the rate and the mixes, gets past half the
    dead band of the controller. The curve is (1 - expo) x + expo x^3.

    Not covered: friction that has to be overcome on top, and radios whose curve is another one.

    Source: common practice, no source; the threshold is a judgement.
    """
    return above(
        controller.signal.dead_stick,
        limits,
        "{value:%} of the stick does nothing; {limit:%} is the most.",
    )
