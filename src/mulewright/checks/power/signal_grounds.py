"""Does a pulse find its way back to where it came from?"""

from __future__ import annotations

from mulewright.checks.engine import Answer, Example, Limits, NotApplicable, Outcome, Severity, check, lacking
from mulewright.checks.symptoms import Symptom
from mulewright.facts.common_ground import ListenerFacts

SIGNAL_ONLY = ("servo.tilt.ground_wire=pulled",)
OWN_PACK = (*SIGNAL_ONLY, "servo.tilt.power=battery.servo", 'battery.servo={ rested = "6 V" }')


@check(
    "P14",
    on=ListenerFacts,
    severity=Severity.STOP,
    why="A pulse without a return is noise: the device does nothing, or anything.",
    seen="A device does not respond, or moves at random, though its lead is plugged in",
    symptom=Symptom.STILL,
    fixes=(
        "Put the ground wire of the lead back into its plug.",
        "Join the minus of the device's own supply to the ground of the receiver.",
    ),
    levers=("servo.*.ground_wire", "controller.*.ground_wire", "servo.*.power"),
    examples=(
        Example("aisle-carrier", Outcome.PASS, "servo.tilt"),
        Example("aisle-carrier", Outcome.PASS, "mixer.drive"),
        Example("aisle-carrier", Outcome.PASS, "controller.lift", ("controller.lift.ground_wire=pulled",)),
        Example("aisle-carrier", Outcome.TRIP, "servo.tilt", OWN_PACK, Severity.STOP),
        Example("aisle-carrier", Outcome.CANNOT_TELL, "servo.tilt", ("servo.tilt.signal=?",)),
        Example("aisle-carrier", Outcome.NOT_APPLICABLE, "servo.tilt", ("servo.tilt.signal=[]",)),
    ),
)
def pulses_without_a_return(device: ListenerFacts, limits: Limits) -> Answer:
    """Whether what takes pulses shares a ground with where they come from.

    Worked out: grounds are followed through the ground wires of servo leads and through the minus of power
    wires. A plug brings its ground wire with it unless it is noted as pulled.

    Not covered: broken wires, and plugs that sit turned or one pin off.

    Source: common practice, no source.
    """
    if not device.sources:
        return NotApplicable(f"{device.id} is plugged in nowhere")
    what = "{device} takes pulses from {sources}: {grounds}."
    return lacking(
        device.grounded, Severity.STOP, what, device=device.id, sources=" and ".join(device.sources),
        grounds=device.words,
    )  # fmt: skip
