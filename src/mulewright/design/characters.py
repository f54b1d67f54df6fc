"""What does a function do with its command: go to a place, run steadily, or run as fast as it is told?"""

from __future__ import annotations

from typing import Literal

from mulewright.design.mule import Mule
from mulewright.design.schema.functions import Flywheel
from mulewright.design.schema.radio import Radio

Character = Literal["position", "constant", "speed"]


def character(mule: Mule, function: str) -> Character:
    """What a function does with its command: ``constant`` for one that is switched on and left running."""
    serving = mule.functions[function]
    if serving == "drive":
        return "speed"
    file = mule.file
    servos = [one for name, one in file.servo.items() if serving in (f"servo.{name}", one.moves)]
    motors = {f"motor.{n}": one for n, one in file.motor.items() if serving in (f"motor.{n}", one.turns)}
    if servos and not motors:
        return "speed" if all(servo.rotation == "continuous" for servo in servos) else "position"
    if motors and all(_goes_to_a_place(mule, motor) for motor in motors):
        return "position"
    one_way = bool(motors) and all(motor.runs == "one-way" for motor in motors.values())
    return "constant" if one_way or isinstance(mule.things[serving], Flywheel) else "speed"


def control_kind(mule: Mule, control: str) -> str | None:
    """What a control is: stick, switch, knob; None where the file does not say."""
    radio, _, name = control.partition(".control.")
    table = mule.things.get(radio)
    found = table.control.get(name) if isinstance(table, Radio) else None
    return found.kind if found is not None else None


def _goes_to_a_place(mule: Mule, motor: str) -> bool:
    controller = mule.controller_of.get(motor)
    if controller is None:
        return False
    loop = mule.file.controller[controller.split(".", 1)[1]].closed_loop
    return loop is not None and loop.command == "position"
