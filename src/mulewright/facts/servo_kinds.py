"""Facts about whether a device is of the right kind: for its task, for the receiver's frame, for its pulses."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Self

from mulewright.design.schema.electrics import Servo
from mulewright.design.signals import Trace
from mulewright.facts.descriptors import fact, given
from mulewright.facts.graph import Evaluation, Facts
from mulewright.facts.nodes import Missing, Value
from mulewright.models.arithmetic import difference, magnitude, quotient

TO_AN_ANGLE = ("gripper", "arm")  # mechanisms that a servo brings to a place
FOR_EVER = (
    "roller",
    "flywheel",
    "spinner",
    "winch",
    "lift",
)  # mechanisms on a shaft that goes round and round
MEANT = {"angle": "goes to an angle", "continuous": "turns for ever"}


class ServoKindFacts(Facts):
    """A servo, and whether its task is a place or a turning."""

    kind = "servo"
    none = "no servo is described"

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        return cls.each(evaluation, "servo")

    @property
    def servo(self) -> Servo:
        """Its table."""
        assert isinstance(self.table, Servo)
        return self.table

    @property
    def wanted(self) -> str:
        """What its task wants of it: ``angle`` or ``continuous``.

        Raises
        ------
        Missing
            If nothing says so.
        """
        mechanism = getattr(self.mule.things.get(self.servo.moves or ""), "kind", None)
        if self.servo.need is not None or mechanism in TO_AN_ANGLE:
            return "angle"
        if mechanism in FOR_EVER:
            return "continuous"
        raise Missing(f"{self.id}.need")

    @property
    def in_words(self) -> str:
        """What it does, and what its task wants, for people."""
        return f"it {MEANT[self.choice('rotation')]}, and its task wants one that {MEANT[self.wanted]}"

    @fact("1", "1 where it goes to an angle as its task wants, or turns for ever as its task wants")
    def fits_its_task(self) -> Value:
        return self.found(self.choice("rotation") == self.wanted, self.in_words)


class ReceiverFrameFacts(Facts):
    """How often a receiver sends a pulse on each channel."""

    kind = "receiver"
    none = "no receiver is described"

    frame = given()

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        receivers = ("receiver", "second_receiver")
        return [evaluation.entity(cls, one) for one in receivers if one in evaluation.mule.things]

    @fact("Hz", "pulses in a second on one channel")
    def rate(self) -> Value:
        return self.by(quotient, part=1.0, whole=self.frame)


class AnalogueServoFacts(Facts):
    """A servo that is not known to be digital, on a receiver."""

    kind = "analogue servo on a receiver"
    none = "no analogue servo hangs on a receiver"

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        found = []
        for name, servo in evaluation.mule.file.servo.items():
            if servo.signal_kind == "digital":
                continue
            one = evaluation.entity(cls, f"servo.{name}")
            if one.start is None or not one.start.startswith("tester."):
                found.append(one)
        return found

    @property
    def start(self) -> str | None:
        """Where its pulses start; behind a box, where those of the box do."""
        signals, boxes = self.mule.signals, set[str]()
        trace = signals.trace(self.id)
        while trace.mixer is not None and trace.mixer[0] not in boxes:
            box = trace.mixer[0]
            boxes.add(box)
            inputs = (signals.trace(lead) for lead in signals.leads if lead.startswith(f"{box}."))
            trace = next(inputs, Trace(box, (), None))
        return trace.source if trace.mixer is None else None

    @property
    def receiver(self) -> ReceiverFrameFacts:
        """The receiver whose pulses it gets.

        Raises
        ------
        Missing
            If it is not said where its plug sits.
        """
        if self.start is None:
            raise Missing(f"{self.id}.signal")
        return self.of(ReceiverFrameFacts, self.start.split(".", 1)[0])

    @property
    def known_kind(self) -> str:
        """How it treats the pulse."""
        kind: str = self.choice("signal_kind")
        return kind

    @fact("Hz", "pulses in a second that it gets")
    def pulse_rate(self) -> Value:
        return self.receiver.rate


class MiddleFacts(Facts):
    """A device that takes pulses about a middle: a servo, or a controller that goes both ways."""

    kind = "device with a middle"
    none = "nothing takes pulses about a middle: no servo and no controller that goes both ways is described"

    neutral = given()

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        file = evaluation.mule.file
        both_ways = (name for name, one in file.controller.items() if one.direction != "one-way")
        ids = [f"controller.{name}" for name in both_ways] + [f"servo.{name}" for name in file.servo]
        return [evaluation.entity(cls, id) for id in ids]

    @property
    def goes_both_ways(self) -> bool:
        """Whether it is certain that its pulses have a middle.

        Raises
        ------
        Missing
            If it is a controller of which that is not said.
        """
        return self.id.startswith("servo.") or self.choice("direction") != "one-way"

    @fact("s", "its middle, from the usual one")
    def middle_offset(self) -> Value:
        return self.by(difference, first=self.neutral, second=self.assumed("neutral_pulse"))

    @fact("s", "the same without its sign")
    def off_usual(self) -> Value:
        if not self.goes_both_ways:
            return self.found(0, "it runs one way, so its pulses have no middle")
        return self.by(magnitude, value=self.middle_offset)
