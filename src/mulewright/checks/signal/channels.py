"""Are there channels enough, and has each function one to itself?"""

from __future__ import annotations

from mulewright.checks.engine import Answer, Example, Limits, Outcome, Severity, above, check, flagged
from mulewright.checks.symptoms import Symptom
from mulewright.facts.channels import ChannelPlanFacts, MixedInFacts

FAN = (
    "receiver.channels=6",
    'motor.fan={ part = "mo-raw", runs = "one-way" }',
    'controller.fan={ part = "ctl-6l", feeds = "motor.fan", signal = [] }',
)
GRIPPER = 'servo.grip={ part = "sv-std", need = "40 deg", signal = "receiver.1" }'
ON_MIXED_CHANNEL = (
    GRIPPER,
    "controller.right.signal=receiver.3",
    'radio.control.KN={ commands = "grip", channel = 1 }',
)


@check(
    "S18",
    on=ChannelPlanFacts,
    severity=Severity.STOP,
    why="At least one function has no channel left, so the mule cannot be controlled as it is planned.",
    seen="A plug is left over, and no channel is free for it",
    symptom=Symptom.STILL,
    fixes=(
        "Join servos that do the same with a Y-lead, or move two things by one mechanism with end stops.",
        "Put two functions that are only switched on and off on one three-position switch.",
        "Leave a function away, such as strafing, which saves its box as well; or make a gripper passive.",
        "Take a second transmitter with a second driver, or a receiver and a transmitter with more channels.",
    ),
    levers=("radio.part", "receiver.part", "radio.control.*.commands"),
    examples=(
        Example("aisle-carrier", Outcome.PASS, "radio"),
        Example("aisle-carrier", Outcome.TRIP, "radio", FAN),
        Example("aisle-carrier", Outcome.TRIP, "radio", ("radio.channels=5", "receiver.channels=6"), Severity.STOP),
        Example("aisle-carrier", Outcome.PASS, "radio", (*FAN, "radio.part=tx8")),
        Example("aisle-carrier", Outcome.CANNOT_TELL, "radio", ("receiver.channels=?",)),
        Example("soft-fruit-gripper", Outcome.PASS, "radio", variant="mended"),
        Example(
            "soft-fruit-gripper", Outcome.TRIP, "radio", ("radio.channels=1",), Severity.STOP, "mended"
        ),
    ),
)  # fmt: skip
def too_few_channels(plan: ChannelPlanFacts, limits: Limits) -> Answer:
    """The channels that all functions need, after everything that may share one does, against those there are.

    Worked out: a drive needs one for each side, or one for each command where a box mixes; a mechanism needs
    one for its motors and one for its servos, two where some are mirrored. Functions on one control share a
    channel, and so could two on a three-position switch that are only switched on and off. What there is, is
    the smaller number of transmitter and receiver.

    Not covered: whether the controls that are left suit the functions; sharing by mechanics.

    Source: common practice, no source.
    """
    return above(
        plan.needed,
        {Severity.STOP: plan.available},
        "It needs {value} channels ({words}); there are {limit}.",
        words=plan.in_words,
    )


@check(
    "S19",
    on=MixedInFacts,
    severity=Severity.STOP,
    why="It moves whenever the other control is moved, and nobody meant that.",
    seen="Gripper twitches when the mule is steered",
    symptom=Symptom.BY_ITSELF,
    fixes=("Move its plug and its control to a channel on which no mix acts.", "Switch the mix off."),
    levers=("radio.mix.*.active", "radio.mix.*.channels", "servo.*.signal", "controller.*.signal"),
    examples=(
        Example("tray-cart", Outcome.PASS, "controller.left"),
        Example("tray-cart", Outcome.TRIP, "servo.grip", ON_MIXED_CHANNEL, Severity.STOP),
        Example("tray-cart", Outcome.PASS, "servo.grip", (*ON_MIXED_CHANNEL, "radio.mix.0.active=false")),
        Example("tray-cart", Outcome.CANNOT_TELL, "servo.grip", (*ON_MIXED_CHANNEL, "radio.mix.0.active=?")),
        Example("tray-cart", Outcome.CANNOT_TELL, "servo.grip", (*ON_MIXED_CHANNEL, "servo.grip.signal=?")),
        Example("soft-fruit-gripper", Outcome.PASS, "servo.right", variant="mended"),
    ),
)  # fmt: skip
def moved_by_a_mix(device: MixedInFacts, limits: Limits) -> Answer:
    """Whether a radio's mix adds a control to a device that the plan does not give its function.

    Worked out: the plug is followed back to its channel; every mix that drives this channel brings its
    controls with it. Mixing that the drive needs, and a slave channel that follows the function's own control,
    pass.

    Not covered: mixes that switch themselves on with another switch.

    Source: common practice, no source.
    """
    return flagged(device.mixed_in, Severity.STOP, "As set, {words}.", words=device.in_words)
