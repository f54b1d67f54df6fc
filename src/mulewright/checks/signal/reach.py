"""How far does a full stick reach: all of the controller's range, and all of the servo's way?"""

from __future__ import annotations

from mulewright.checks.engine import Answer, Example, Flip, Limit, Limits, Outcome, Severity, below, check
from mulewright.checks.symptoms import Symptom
from mulewright.facts.outputs import ControllerSignalFacts


@check(
    "S01",
    on=ControllerSignalFacts,
    severity=Severity.WARN,
    why="Speed, force and currents all stay below the sheet, so ratios chosen on such a mule come out wrong.",
    seen="Slower than the sheet says, although the battery is full",
    symptom=Symptom.WEAK,
    fixes=(
        "Set the channel's travel so that the pulse reaches the controller's full range.",
        "Teach the controller this radio's range, if it can be taught.",
        "Or keep it and write it down as deliberate, so that every later number uses this duty.",
    ),
    levers=("radio.channel.*.travel", "radio.control.*.rate", "controller.*.calibrated_to"),
    limits=Limit(0.95, "ratio", mark="judgement"),
    examples=(
        Example("tray-cart", Outcome.PASS, "controller.left"),
        Example("tray-cart", Outcome.TRIP, "controller.left", ("radio.channel.others.travel=100 %",)),
        Example("tray-cart", Outcome.CANNOT_TELL, "controller.left", ("controller.left.dead_band=?",)),
    ),
    flips=(Flip("tray-cart", "controller.left", "radio.channel.others.travel", "100 %", "125 %"),),
)
def range_short(controller: ControllerSignalFacts, limits: Limits) -> Answer:
    """The largest duty that a full stick asks of a controller, against nearly all of it.

    Worked out: the radio's half range, times travel, rate and mix shares, gives the pulse from neutral; the
    controller's dead band and range turn it into a duty. 100 % travel is 400 us on one radio and 500 us on
    another.

    Not covered: a controller that limits its output by itself, and a battery that sags.

    Source: common practice, no source; the threshold is a judgement.
    """
    return below(
        controller.full_duty,
        limits,
        "Full stick gives {value:%} of the supply; at least {limit:%} is expected.",
    )
