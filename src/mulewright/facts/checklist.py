"""Facts about the checklist: which items are ticked, and what on the mule makes them needed."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Self

from mulewright.design.schema.functions import Arm, Flywheel, Lift, Winch
from mulewright.design.schema.people import Checklist
from mulewright.facts.controls import RadioFacts
from mulewright.facts.descriptors import fact
from mulewright.facts.graph import Evaluation, Facts
from mulewright.facts.nodes import Value
from mulewright.facts.wiring import BatteryFacts
from mulewright.models.arithmetic import smallest


class ChecklistFacts(Facts):
    """The items that somebody ticks, and what makes them needed."""

    kind = "checklist"
    none = "nothing on this mule moves"

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        return [evaluation.entity(cls, "checklist")] if evaluation.mule.file.motor else []

    def said(self, item: str) -> str:
        """What is noted about an item, for people."""
        ticked = bool(getattr(self.mule.file.checklist, item))
        return f"{Checklist.model_fields[item].description}: {'ticked' if ticked else 'not ticked'}"

    def _ticked(self, item: str) -> Value:
        return self.found(float(bool(getattr(self.mule.file.checklist, item))), self.said(item))

    @fact("1", "1 where the first power with the wheels up is ticked")
    def wheels_up(self) -> Value:
        return self._ticked("wheels_up")


class RangeWalkFacts(ChecklistFacts):
    """The range walk."""

    kind = "range walk"
    none = RadioFacts.none

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        return [evaluation.entity(cls, "checklist")] if RadioFacts.all(evaluation) else []

    @fact("1", "1 where the range walk is ticked")
    def range_walk(self) -> Value:
        return self._ticked("range_walk")


class DressFacts(ChecklistFacts):
    """What people wear near what catches and what flies."""

    kind = "dress"
    none = "no flywheel, rope, spring or chain on this mule"

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        found = evaluation.entity(cls, "checklist")
        return [found] if found.flying or found.catching else []

    @property
    def flying(self) -> list[str]:
        """Flywheels, ropes and springs."""
        return [
            f"mechanism.{name}"
            for name, one in self.mule.file.mechanism.items()
            if isinstance(one, Flywheel | Lift | Winch)
            or (isinstance(one, Arm) and one.counterbalance is not None)
        ]

    @property
    def catching(self) -> list[str]:
        """Chains and belts."""
        motors = self.mule.file.motor.items()
        stages = ((name, gear) for name, motor in motors for gear in motor.gears or [])
        return [f"motor.{name}" for name, gear in stages if gear.kind in ("chain", "belt")]

    @property
    def because(self) -> str:
        """What makes it needed, for people."""
        return ", ".join(dict.fromkeys([*self.flying, *self.catching]))

    @fact("1", "1 where hair, sleeves and lanyards are ticked as out of the way")
    def tied(self) -> Value:
        return self._ticked("hair_and_sleeves")

    @fact("1", "1 where eye protection is ticked, or nothing flies")
    def eyes(self) -> Value:
        if not self.flying:
            return self.found(1, "nothing on it flies: no flywheel, rope or spring")
        return self._ticked("eyes")

    @fact("1", "1 where all of that is ticked")
    def dressed(self) -> Value:
        return self.by(smallest, values=[self.tied, self.eyes])


class MountFacts(Facts):
    """How a pack sits in the machine."""

    kind = "battery"
    none = BatteryFacts.none

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        return [evaluation.entity(cls, battery.id) for battery in BatteryFacts.all(evaluation)]

    @property
    def mount_note(self) -> str:
        """What is noted about it, for people."""
        retained = self.mule.file.battery[self.id.split(".", 1)[1]].retained
        if retained is None:
            strapped = self.mule.file.checklist.battery_strapped
            return "ticked as strapped" if strapped else "neither noted nor ticked"
        return "noted as held" if retained else "noted as not held"

    @fact("1", "1 where it is noted or ticked that the pack is held, away from sharp edges")
    def strapped(self) -> Value:
        return self.found(float(self.mount_note in ("ticked as strapped", "noted as held")), self.mount_note)
