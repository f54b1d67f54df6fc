"""What does the machine do when a controller or a servo has lost its link?"""

from __future__ import annotations

from collections.abc import Sequence

from mulewright.advice.spoken import UNKNOWN, listed, read
from mulewright.design.schema.functions import Flywheel, Gripper, Winch
from mulewright.design.schema.lost_link import HOLD
from mulewright.facts.body import RoomFacts
from mulewright.facts.driving import DrivingFacts
from mulewright.facts.fail_safe import LostLinkFacts
from mulewright.facts.graph import Evaluation
from mulewright.facts.holding import RaisingFacts
from mulewright.facts.nodes import known_number, number
from mulewright.facts.runaway import RunawayFacts
from mulewright.units.shown import people


def what_happens(lost: LostLinkFacts, *, on: bool) -> str:
    """What the motors of a controller do to the machine, whether they run on or are let go, in a few words."""
    said = {name: _drive(lost, on) if name == "drive" else _mechanism(lost, name, on) for name in lost.served}
    if len(said) == 1:
        return next(iter(said.values()))
    return listed(f"{name} {happens}" for name, happens in said.items()) if said else UNKNOWN


def _drive(lost: LostLinkFacts, on: bool) -> str:
    if on:
        speed = lost.of(DrivingFacts, "drive").node("top_speed")
        return f"drives on at up to {read(speed)}{_crossing(lost.evaluation)}, until it is disconnected"
    others = known_number(lost.of(RunawayFacts, "drive").node("drives_on"))
    return "this wheel stops, others drive on: it turns off its way" if others else "rolls out and stands"


def _crossing(evaluation: Evaluation) -> str:
    """How soon it has crossed the room, where both are known."""
    free = number(evaluation.entity(RoomFacts, "room").node("free"))
    speed = number(evaluation.entity(DrivingFacts, "drive").node("top_speed"))
    if free is None or not speed:
        return ""
    return f", through the {people(free, 'm', 2)} of this room in {people(free / speed, 's', 2)}"


def _mechanism(lost: LostLinkFacts, name: str, on: bool) -> str:
    raising = [one for one in RaisingFacts.all(lost.evaluation) if one.id == f"mechanism.{name}"]
    table = lost.mule.things.get(lost.mule.functions.get(name, ""))
    if on:
        return f"goes on{' into its stop' if raising else ''}"
    if raising:
        falls = known_number(raising[0].measured.node("creep_share")) > 1
        creep = raising[0].measured.node("creep")
        return f"does not stay, moves by itself at {read(creep)}" if falls else "stays where it is"
    if isinstance(table, Winch):
        return "stops pulling"
    return "runs down by itself" if isinstance(table, Flywheel) else "stops"


def servo_happens(evaluation: Evaluation, device: str, settings: Sequence[str]) -> str:
    """What a servo, or a controller that goes to an angle, does to the machine."""
    mule = evaluation.mule
    name = mule.function_of(device) or listed(evaluation.entity(LostLinkFacts, device).served)
    if set(settings) == {HOLD}:
        return "stays where it is"
    gripper = mule.things.get(mule.functions.get(name, ""))
    if isinstance(gripper, Gripper):
        harmless = "; noted as harmless" if gripper.release_harmless else ""
        return f"may let go of what it holds{harmless}"
    return "moves to another place, or hangs loose"
