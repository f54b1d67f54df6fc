"""Does each device get a signal, and that of its own control?"""

from __future__ import annotations

from mulewright.checks.engine import Answer, Example, Limits, Outcome, Severity, check, lacking
from mulewright.checks.symptoms import Symptom
from mulewright.facts.plugs import PlannedPlugFacts, PlugFacts


@check(
    "S07",
    on=PlannedPlugFacts,
    severity=Severity.STOP,
    why="Another function moves than the one that the driver asks for.",
    seen="Stick of one function moves another",
    symptom=Symptom.WRONG,
    fixes=(
        "Move the plug to the channel of its control.",
        "Or give the function to the control that now reaches it.",
    ),
    levers=("controller.*.signal", "servo.*.signal", "radio.control.*.commands"),
    follows=("S10",),
    examples=(
        Example("aisle-carrier", Outcome.PASS, "controller.lift"),
        Example("aisle-carrier", Outcome.TRIP, "controller.lift", ("controller.lift.signal=receiver.7",)),
        Example("aisle-carrier", Outcome.CANNOT_TELL, "controller.lift", ("controller.lift.signal=?",)),
    ),
)
def plugged_into_the_wrong_channel(plug: PlannedPlugFacts, limits: Limits) -> Answer:
    """The controls that reach a device, against the controls that the plan gives its function.

    Worked out: the plug is followed back through leads, boxes and mixes; one of the planned controls is
    enough. A wheel may follow any control of the drive, or that of its own side.

    Not covered: wheels that are exchanged among each other (S44).

    Source: common practice, no source.
    """
    return lacking(plug.on_its_channel, Severity.STOP, "As plugged, {gets}.", gets=plug.in_words)


@check(
    "S10",
    on=PlugFacts,
    severity=Severity.STOP,
    why="A signal input that nothing drives is dead at best, and twitches at worst.",
    seen="One motor or servo is dead, or twitches now and then",
    symptom=Symptom.STILL,
    fixes=("Plug its signal lead in.", "Give a control the channel at which it is plugged."),
    levers=("controller.*.signal", "servo.*.signal", "radio.control.*.channel"),
    examples=(
        Example("aisle-carrier", Outcome.PASS, "servo.tilt"),
        Example("aisle-carrier", Outcome.TRIP, "servo.tilt", ("radio.control.KN.channel=7",)),
        Example("aisle-carrier", Outcome.TRIP, "servo.tilt", ("servo.tilt.signal=[]",)),
        Example("aisle-carrier", Outcome.CANNOT_TELL, "servo.tilt", ("servo.tilt.signal=?",)),
    ),
)
def nothing_drives_it(plug: PlugFacts, limits: Limits) -> Answer:
    """Whether pulses that a control or a tester makes reach the signal input of a controller or a servo.

    Worked out: the plug is followed back through Y-leads, in-line devices and boxes to a receiver or a
    tester; at a receiver at least one control has to move the channel. A plug written as [] sits nowhere.

    Not covered: broken leads.

    Source: common practice, no source.
    """
    return lacking(plug.driven, Severity.STOP, "As plugged, {gets}.", gets=plug.gets)
