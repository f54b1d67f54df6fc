"""Do the channel settings fit the controller: not beyond its range, not off its neutral, alike both ways?"""

from __future__ import annotations

from mulewright.checks.engine import Answer, Example, Flip, Limit, Limits, Outcome, Severity, above, check
from mulewright.checks.symptoms import Symptom
from mulewright.facts.controller_use import ControllerUseFacts
from mulewright.facts.drive_mix import SideChannelFacts
from mulewright.facts.rest import ControllerRestFacts


@check(
    "S02",
    on=ControllerUseFacts,
    severity=Severity.NOTE,
    why="The last part of the stick does nothing, and the two sides differ where their limits differ.",
    seen="Full speed long before the stick is at its end",
    symptom=Symptom.COARSE,
    fixes=(
        "Lower the endpoint of its channel.",
        "Or teach the controller this radio's range, if it can be taught.",
    ),
    levers=("radio.channel.*.travel", "controller.*.calibrated_to"),
    limits=Limit("105 %", "percent", mark="judgement"),
    examples=(
        Example("tray-cart", Outcome.PASS, "controller.left"),
        Example("tray-cart", Outcome.TRIP, "controller.left", ("controller.left.calibrated_to=400 us",)),
        Example("tray-cart", Outcome.CANNOT_TELL, "controller.left", ("controller.left.half_range=?",)),
    ),
    flips=(Flip("tray-cart", "controller.left", "controller.left.calibrated_to", "400 us", "500 us"),),
)
def range_long(controller: ControllerUseFacts, limits: Limits) -> Answer:
    """The largest pulse that a full stick sends, against the pulse at which the controller gives all it has.

    Worked out: radio's half range times travel, rate and mix shares, the larger of both ways, over the
    controller's half range or the range that it was taught.

    Not covered: mixes that push one side further than a single control does.

    Source: common practice, no source; the threshold is a judgement.
    """
    return above(
        controller.range_used,
        limits,
        "Full stick sends {value:%} of the controller's range; {limit:%} is the most.",
    )


@check(
    "S28",
    on=ControllerRestFacts,
    severity=Severity.WARN,
    why="With the sticks let go the motor creeps, or is about to.",
    seen="Rolls slowly at rest",
    symptom=Symptom.BY_ITSELF,
    fixes=(
        "Bring trim and sub-trim of its channel back to 0 us.",
        "Or teach the controller this radio's neutral, if it can be taught.",
    ),
    levers=("radio.channel.*.sub_trim", "radio.channel.*.trim", "controller.*.neutral"),
    limits={
        Severity.WARN: Limit("70 %", "percent", mark="judgement"),
        Severity.STOP: Limit("100 %", "percent", mark="common practice"),
    },
    examples=(
        Example("tray-cart", Outcome.PASS, "controller.left"),
        Example("tray-cart", Outcome.TRIP, "controller.left", ("radio.channel.2.trim=20 us",), Severity.WARN),
        Example(
            "tray-cart", Outcome.TRIP, "controller.left", ("radio.channel.2.trim=-30 us",), Severity.STOP
        ),
        Example("tray-cart", Outcome.CANNOT_TELL, "controller.left", ("radio.channel.2.trim=?",)),
        Example(
            "hose-tug", Outcome.TRIP, "controller.left", ("radio.channel.1.sub_trim=40 us",), Severity.STOP
        ),
    ),
    flips=(Flip("tray-cart", "controller.left", "radio.channel.2.sub_trim", "0 us", "24 us"),),
)
def neutral_off(controller: ControllerRestFacts, limits: Limits) -> Answer:
    """The pulse with every control at its middle, against the dead band about the controller's neutral.

    Worked out: the radio's middle, sub-trim and trim, less the controller's neutral, as a share of half the
    dead band; behind a box the inputs count with their shares and signs.

    Not covered: in-line devices, a stick that does not come back to the same place, and neutrals learned at
    switch-on.

    Source: common practice, no source; the first threshold is a judgement.
    """
    return above(
        controller.offset_share,
        limits,
        "At rest its pulse is {offset} off neutral, {value:%} of half its dead band; {limit:%} is the most.",
        offset=controller.offset,
    )


@check(
    "S32",
    on=SideChannelFacts,
    severity=Severity.WARN,
    why="The mule drives straight one way and in a curve the other way.",
    seen="Straight forwards, but a curve backwards",
    symptom=Symptom.WRONG,
    fixes=("Set both endpoints of the channel alike.", "Or record why they differ, as deliberate."),
    levers=("radio.channel.*.travel_plus", "radio.channel.*.travel_minus"),
    limits=Limit("3 %", "percent", mark="judgement"),
    examples=(
        Example("tray-cart", Outcome.PASS, "controller.left"),
        Example("tray-cart", Outcome.TRIP, "controller.left", ("radio.channel.2.travel_minus=108 %",)),
        Example("tray-cart", Outcome.CANNOT_TELL, "controller.left", ("radio.channel.2.travel=?",)),
    ),
    flips=(Flip("tray-cart", "controller.left", "radio.channel.2.travel_minus", "100 %", "119 %"),),
)
def ends_unequal(wheel: SideChannelFacts, limits: Limits) -> Answer:
    """The two endpoints of a channel that drives one wheel or one side.

    Worked out: their difference as a share of the larger one. Behind a box a wheel has no channel of its own.

    Not covered: two sides whose endpoints are unequal in the same way, which only makes reverse slower.

    Source: common practice, no source; the threshold is a judgement.
    """
    return above(
        wheel.ends_unequal,
        limits,
        "Its endpoints are {up:%} above and {down:%} below neutral, {value:%} apart; {limit:%} is the most.",
        up=wheel.channel.upward,
        down=wheel.channel.downward,
    )
