"""Facts about what has to be written down for the programmers: signs, hold tests, places for sensors, zeros."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Self

from mulewright.design.mule import Mule
from mulewright.design.schema.functions import Arm, Function, Held, Lift, Winch
from mulewright.facts.descriptors import fact, given
from mulewright.facts.graph import Evaluation, Facts
from mulewright.facts.handover import AcceptedFacts, HandoverFacts, kept
from mulewright.facts.loads import HeldFacts
from mulewright.facts.nodes import Value
from mulewright.models.hold import friction_volts, gravity_volts

AXIS = "axis."


class AxisFacts(HandoverFacts):
    """A function that the mule's driver commands and the target has too: ``axis.forward``."""

    kind = "axis"
    none = "the target has no function of the mule"

    @classmethod
    def names(cls, evaluation: Evaluation) -> list[str]:
        return [f"{AXIS}{name}" for name in evaluation.mule.functions if kept(evaluation, [name])]

    @property
    def convention(self) -> str:
        """What positive means, and where from; empty where nobody wrote it."""
        name = self.id.removeprefix(AXIS)
        files = (self.target.mule, self.mule)
        return next((words for mule in files if (words := _positive(mule, name))), "")

    @fact("1", "1 where it is written what a positive command does")
    def signed(self) -> Value:
        words = f"positive is {self.convention}" if self.convention else "nothing is written"
        return self.found(float(bool(self.convention)), words)


def _positive(mule: Mule, name: str) -> str:
    """What one file says that positive means: for the target, or at the function itself."""
    said = mule.file.target.polarity.get(name) if mule.file.target is not None else None
    if said is not None and said.positive:
        return f"{said.positive}{f', seen from {said.seen_from}' if said.seen_from else ''}"
    table = mule.things.get(mule.functions.get(name, ""))
    return (table.positive or "") if isinstance(table, Function) else ""


class HoldTestFacts(Facts):
    """A hold test as it was measured: ``mechanism.arm.hold_test``."""

    kind = "hold test"
    none = "no hold test is written"

    rising_duty = given()
    sinking_duty = given()
    voltage = given()

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        found = evaluation.mule.file.mechanism.items()
        return [
            evaluation.entity(cls, f"mechanism.{name}.hold_test")
            for name, table in found
            if isinstance(table, Held) and table.hold_test is not None
        ]

    @fact("V", "volts that gravity alone asks: the middle of the hold band")
    def gravity(self) -> Value:
        return self.by(
            gravity_volts, rising_duty=self.rising_duty, sinking_duty=self.sinking_duty, voltage=self.voltage
        )

    @fact("V", "volts that friction asks: half of the hold band")
    def friction(self) -> Value:
        return self.by(
            friction_volts, rising_duty=self.rising_duty, sinking_duty=self.sinking_duty, voltage=self.voltage
        )


class JointFacts(HandoverFacts):
    """An arm, a lift or a winch of the mule that the target keeps."""

    kind = "joint"
    none = "the target keeps no arm, lift or winch of the mule"

    @classmethod
    def names(cls, evaluation: Evaluation) -> list[str]:
        mechanisms = evaluation.mule.file.mechanism.items()
        found = [f"mechanism.{name}" for name, one in mechanisms if isinstance(one, Arm | Lift | Winch)]
        return [id for id in found if kept(evaluation, [id])]

    @property
    def joint(self) -> Arm | Lift | Winch:
        """Its table."""
        table = self.table
        assert isinstance(table, Arm | Lift | Winch)
        return table

    @property
    def driven_to_a_place(self) -> bool:
        """Whether the target has to drive it to a place by itself; a noted tolerance says so too.

        Raises
        ------
        Missing
            If neither is noted.
        """
        if self.joint.needs_feedback is None and self.joint.repeatability is not None:
            return True
        return bool(self.choice("needs_feedback"))

    @fact("1", "1 where a sensor would find room on it")
    def sensor_place(self) -> Value:
        noted = self.choice("sensor_place")
        return self.found(float(noted), f"it is noted that it has {'' if noted else 'no '}room for a sensor")


class HeldJointFacts(JointFacts):
    """A joint that gravity pulls on."""

    kind = "joint that gravity pulls on"
    none = "nothing that the target keeps is raised against gravity"

    @classmethod
    def names(cls, evaluation: Evaluation) -> list[str]:
        held = {one.id for one in HeldFacts.all(evaluation)}
        return [id for id in super().names(evaluation) if id in held]

    @fact("1", "1 where a hold test is written")
    def hold_tested(self) -> Value:
        test = self.joint.hold_test
        words = f"a hold test{f' of {test.on}' if test.on else ''}" if test is not None else "no hold test"
        return self.found(float(test is not None), f"{words} is written")

    @property
    def measured(self) -> HoldTestFacts:
        """The test."""
        return self.of(HoldTestFacts, f"{self.id}.hold_test")


class ScaleFacts(HandoverFacts):
    """What a number of the hand-over needs beside it: the run (volts, load), or a joint (its zero)."""

    kind = "scale of the numbers handed over"
    none = "nothing is handed over"

    @classmethod
    def names(cls, evaluation: Evaluation) -> list[str]:
        return [AcceptedFacts.alone, *JointFacts.names(evaluation)]

    @property
    def lacking(self) -> list[str]:
        """Paths of what is left out."""
        if self.id == AcceptedFacts.alone:
            run = self.mule.file.accepted
            carries = bool(HeldFacts.all(self.evaluation))
            needed = {"loaded_voltage": True, "load": carries}
            return [f"accepted.{key}" for key, due in needed.items() if due and getattr(run, key) is None]
        tables = (self.mule.things.get(self.id), self.target.mule.things.get(self.id))
        zeros = [table.zero for table in tables if isinstance(table, Function)]
        return [] if any(zeros) else [f"{self.id}.zero"]

    @property
    def words(self) -> str:
        """What is left out, for people."""
        return " and ".join(self.lacking) or "nothing"

    @fact("1", "what is left out of its scale")
    def left_out(self) -> Value:
        return self.found(len(self.lacking), f"left out: {self.words}")
