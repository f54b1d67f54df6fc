"""Facts about two servos that move one thing: do they get the same pulses, and do they agree about the middle?"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Self

from mulewright.design.mule import Mule
from mulewright.design.schema.electrics import Servo
from mulewright.facts.descriptors import fact, given
from mulewright.facts.graph import Evaluation, Facts
from mulewright.facts.nodes import Missing, Value
from mulewright.facts.servo_travel import ServoTravelFacts
from mulewright.models.arithmetic import deviation, magnitude
from mulewright.models.pulses import servo_angle


class ServoCenterFacts(Facts):
    """The middle of a servo, against that of its twin."""

    kind = "servo with a twin"
    none = "no servo is coupled with another"

    center_error = given()

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        servos = dict.fromkeys(id for pair in coupled(evaluation.mule) for id in pair)
        return [evaluation.entity(cls, id) for id in servos]


class ServoPairFacts(Facts):
    """Two servos that move one thing: ``servo.left>servo.right``."""

    kind = "pair of servos"
    none = "no two servos move one thing"

    def __init__(self, evaluation: Evaluation, id: str) -> None:
        super().__init__(evaluation, id)
        self.first_id, self.second_id = id.split(">")
        self.names = f"{self.first_id} and {self.second_id}"

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        return [evaluation.entity(cls, ">".join(pair)) for pair in pairs(evaluation.mule)]

    def _servo(self, id: str) -> Servo:
        table = self.mule.things[id]
        assert isinstance(table, Servo)
        return table

    @property
    def shared(self) -> str | None:
        """The socket or the lead from which both get their pulses, if it is one and the same.

        Raises
        ------
        Missing
            If they do not come from one lead, and it is not said where one of them is plugged.
        """
        first, second = (self.mule.signals.trace(id) for id in (self.first_id, self.second_id))
        known = [trace.source or "".join(trace.hops[-1:]) for trace in (first, second)]
        if known[0] == known[1] and known[0]:
            return known[0]
        loose = [trace for trace in (first, second) if trace.source is None]
        if loose:
            raise Missing(*(f"{''.join(trace.hops[-1:]) or trace.device}.signal" for trace in loose))
        return None

    def _mirrored(self, id: str) -> bool:
        if all(self._servo(one).mirrored is None for one in (self.first_id, self.second_id)):
            raise Missing(f"{id}.mirrored")
        return bool(self._servo(id).mirrored)

    def _reversed(self, id: str) -> bool:
        does = {hop: self._does(hop) for hop in self.mule.signals.trace(id).hops if hop.startswith("inline.")}
        return list(does.values()).count("reverses") % 2 == 1

    def _does(self, inline: str) -> str:
        does: str | None = getattr(self.mule.things[inline], "does", None)
        if does is None:
            raise Missing(f"{inline}.does")
        return does

    @property
    def how_mounted(self) -> str:
        """How both are mounted and whether something turns their pulses round, for people."""
        words = []
        for id in (self.first_id, self.second_id):
            turned = " behind a reverser" if self._reversed(id) else ""
            words.append(f"{id} is {'mirrored' if self._mirrored(id) else 'not mirrored'}{turned}")
        return " and ".join(words)

    @property
    def in_words(self) -> str:
        """Where their pulses come from, and how they are mounted where that matters, for people."""
        if self.shared is None:
            return "each has a signal of its own"
        return f"both get {self.shared}; {self.how_mounted}"

    @fact("1", "1 where both get the same pulses, and one of them has to turn the other way")
    def fights(self) -> Value:
        if self.shared is None:
            return self.found(0, self.in_words)
        senses = [self._mirrored(id) != self._reversed(id) for id in (self.first_id, self.second_id)]
        return self.found(senses[0] != senses[1], self.in_words)


class CoupledServosFacts(ServoPairFacts):
    """Two servos that are coupled rigidly, on one shaft or one jaw."""

    kind = "coupled servos"
    none = ServoCenterFacts.none

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        return [evaluation.entity(cls, ">".join(pair)) for pair in coupled(evaluation.mule)]

    @fact("s", "pulse between their middles")
    def center_pulse(self) -> Value:
        first, second = (self.of(ServoCenterFacts, id) for id in (self.first_id, self.second_id))
        return self.first(
            (f"noted for {first.id}", lambda: first.center_error),
            (f"noted for {second.id}", lambda: second.center_error),
        )

    @property
    def gains(self) -> list[Value]:
        """Angle for each microsecond of both."""
        return [self.of(ServoTravelFacts, id).gain for id in (self.first_id, self.second_id)]

    @fact("rad", "angle between their middles, with its sign")
    def center_angle(self) -> Value:
        return self.by(servo_angle, servo_gain=self.gains[0], pulse=self.center_pulse, reference=0.0)

    @fact("rad", "angle between their middles")
    def center_gap(self) -> Value:
        return self.by(magnitude, value=self.center_angle)

    @fact("1", "how far their angles for each microsecond lie apart")
    def gain_gap(self) -> Value:
        first, second = self.gains
        return self.by(deviation, value=second, reference=first)


def coupled(mule: Mule) -> list[tuple[str, str]]:
    """Servos of which it is noted that they are coupled, each pair once, in the order of the file."""
    return _in_order(mule, _noted(mule))


def pairs(mule: Mule) -> list[tuple[str, str]]:
    """Servos that are coupled, and those of one mechanism with the first one of it."""
    return _in_order(mule, [*_noted(mule), *_on_one_mechanism(mule)])


def _noted(mule: Mule) -> Iterator[tuple[str, str]]:
    for name, servo in mule.file.servo.items():
        if servo.coupled_with not in (None, f"servo.{name}"):
            yield f"servo.{name}", str(servo.coupled_with)


def _on_one_mechanism(mule: Mule) -> Iterator[tuple[str, str]]:
    firsts: dict[str, str] = {}
    for name, servo in mule.file.servo.items():
        if servo.moves is not None and firsts.setdefault(servo.moves, name) != name:
            yield f"servo.{firsts[servo.moves]}", f"servo.{name}"


def _in_order(mule: Mule, found: Iterator[tuple[str, str]] | list[tuple[str, str]]) -> list[tuple[str, str]]:
    place = {f"servo.{name}": number for number, name in enumerate(mule.file.servo)}
    ordered = ((a, b) if place[a] < place[b] else (b, a) for a, b in found)
    return list(dict.fromkeys(ordered))
