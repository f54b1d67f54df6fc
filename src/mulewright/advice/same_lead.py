"""What moves along with a device because it hangs on the same lead, or works on the same part?"""

from __future__ import annotations

from mulewright.design.mule import Mule
from mulewright.design.schema.electrics import Servo, YLead


def on_the_same_lead(mule: Mule, device: str) -> list[str]:
    """Controllers and servos that get the same pulses through a Y-lead."""
    split = {one for one in mule.signals.trace(device).hops if isinstance(mule.things.get(one), YLead)}
    return [
        other
        for other in mule.signals.leads
        if other != device
        and other.startswith(("servo.", "controller."))
        and split.intersection(mule.signals.trace(other).hops)
    ]


def on_the_same_part(mule: Mule, servo: str) -> list[str]:
    """Other servos that work on what a servo works on."""
    own = mule.things[servo]
    assert isinstance(own, Servo)
    found = []
    for name, other in mule.file.servo.items():
        id = f"servo.{name}"
        coupled = own.coupled_with == id or other.coupled_with == servo
        if id != servo and (coupled or (own.moves is not None and own.moves == other.moves)):
            found.append(id)
    return found
