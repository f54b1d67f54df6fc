"""Facts about what keeps the link to one machine: antenna, model memory, other radios nearby, delay."""

from __future__ import annotations

from collections.abc import Sequence
from math import pi
from typing import Self

from mulewright.design.schema.people import Checklist
from mulewright.design.schema.radio import Radio, Receiver
from mulewright.facts.controls import RadioFacts
from mulewright.facts.descriptors import fact, given
from mulewright.facts.driving import DrivingFacts
from mulewright.facts.graph import Evaluation, Facts
from mulewright.facts.nodes import Missing, Value
from mulewright.facts.runaway import RunawayFacts
from mulewright.models.arithmetic import difference, largest, magnitude, product


class AntennaFacts(Facts):
    """The antennas of a receiver."""

    kind = "receiver"
    none = "no receiver is described"

    antenna_clear = given()
    antenna_angle = given()

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        receivers = ("receiver", "second_receiver")
        return [
            evaluation.entity(cls, name)
            for name in receivers
            if getattr(evaluation.mule.file, name) is not None
        ]

    @property
    def several(self) -> bool:
        """Whether it has more than one, so that they can stand square to each other."""
        count: int = self.choice("antennas")
        return count > 1

    @fact("rad", "angle between its antennas, less a right angle")
    def off_right_angle(self) -> Value:
        assert isinstance(self.table, Receiver)
        if not self.several:
            return self.found(0, "it has one antenna")
        return self.by(difference, first=self.antenna_angle, second=pi / 2)

    @fact("rad", "how far its antennas are from square to each other")
    def off_square(self) -> Value:
        return self.by(magnitude, value=self.off_right_angle)


class MemoryFacts(Facts):
    """The model memory of a transmitter."""

    kind = "model memory"
    none = RadioFacts.none

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        return [evaluation.entity(cls, radio.id) for radio in RadioFacts.all(evaluation)]

    @property
    def in_use(self) -> str:
        """The memory in use, as its display says."""
        name: str = self.choice("memory")
        return name

    @property
    def planned(self) -> str:
        """The memory that the plan says."""
        name: str = self.choice("planned_memory")
        return name

    @fact("1", "1 where the model memory in use is the one in the plan")
    def as_planned(self) -> Value:
        same = self.in_use.casefold().split() == self.planned.casefold().split()
        return self.found(float(same), f"in use is {self.in_use}, the plan says {self.planned}")


class NeighbourFacts(Facts):
    """A transmitter among others of its kind."""

    kind = "radio among others"
    none = RadioFacts.none

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        return [evaluation.entity(cls, radio.id) for radio in RadioFacts.all(evaluation)]

    @property
    def twin(self) -> bool:
        """Whether the mule itself has two transmitters of one kind."""
        first, second = self.mule.file.radio, self.mule.file.second_radio
        parts = [one.part for one in (first, second) if isinstance(one, Radio)]
        return len(parts) == 2 and parts[0] is not None and parts[0] == parts[1]

    @property
    def others_on(self) -> bool:
        """Whether another of its kind is on nearby.

        Raises
        ------
        Missing
            If it is not noted.
        """
        if self.mule.file.room.other_radios is None and not self.twin:
            raise Missing("room.other_radios")
        return self.twin or bool(self.mule.file.room.other_radios)

    @property
    def neighbours(self) -> str:
        """Which others of its kind are on, for people."""
        if self.twin:
            return "the mule itself has two transmitters of this kind"
        return f"another one of this kind is {'on' if self.others_on else 'not on'} nearby"

    @fact("1", "1 where another transmitter of its kind is on nearby")
    def accompanied(self) -> Value:
        return self.found(float(self.others_on), self.neighbours)

    @property
    def bind_note(self) -> str:
        """What is ticked about binding, for people."""
        ticked = "ticked" if self.mule.file.checklist.bind_alone else "not ticked"
        return f"{Checklist.model_fields['bind_alone'].description}: {ticked}"

    @fact("1", "1 where it is ticked that it was bound with no other of its kind switched on")
    def bound_alone(self) -> Value:
        return self.found(float(bool(self.mule.file.checklist.bind_alone)), self.bind_note)


class RadioDelayFacts(Facts):
    """How late a transmitter's commands arrive."""

    kind = "delay of a link"
    none = RadioFacts.none

    latency = given(assume="link_delay")

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        return [evaluation.entity(cls, radio.id) for radio in RadioFacts.all(evaluation)]


class LateDriveFacts(Facts):
    """A drive on a receiver, and how late it follows."""

    kind = "drive on a receiver"
    none = RunawayFacts.none

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        return [evaluation.entity(cls, drive.id) for drive in RunawayFacts.all(evaluation)]

    @fact("s", "time from stick to motor")
    def delay(self) -> Value:
        links = RadioDelayFacts.all(self.evaluation)
        return (
            links[0].latency if len(links) == 1 else self.by(largest, values=[one.latency for one in links])
        )

    @fact("m", "way at top speed before it follows the stick")
    def late_way(self) -> Value:
        return self.by(product, first=self.delay, second=self.of(DrivingFacts, "drive").top_speed)
