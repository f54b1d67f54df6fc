"""Facts about how far a servo is sent: its pulses, the angle between, its stops, its linkage."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Self

from mulewright.design.characters import control_kind
from mulewright.design.schema.electrics import Servo
from mulewright.design.schema.functions import Gripper
from mulewright.facts.controls import ChannelFacts
from mulewright.facts.descriptors import fact, given
from mulewright.facts.graph import Evaluation, Facts
from mulewright.facts.linkage_turn import LinkageTurnFacts
from mulewright.facts.nodes import Missing, Value
from mulewright.facts.outputs import OutputFacts
from mulewright.facts.rest import RestFacts, on_tester
from mulewright.models.arithmetic import difference, largest, quotient, smallest
from mulewright.models.bus import total
from mulewright.models.pulses import servo_angle
from mulewright.models.senses import chain_product, position_deviation


class TesterPulseFacts(Facts):
    """What a servo tester sends."""

    kind = "servo tester"
    none = "no servo tester is described"

    low = given()
    high = given()

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        return cls.each(evaluation, "tester")


class EndFacts(Facts):
    """A servo with its control at one end, or its switch at one position: ``servo.tilt@1``."""

    kind = "end of a servo's way"
    none = "no servo is commanded by a transmitter"

    def __init__(self, evaluation: Evaluation, id: str) -> None:
        super().__init__(evaluation, id)
        servo, place = id.split("@")
        self.servo, self.place = self.of(ServoTravelFacts, servo), int(place)

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        ends = [end.id for servo in ServoTravelFacts.all(evaluation) for end in servo.known_ends]
        return [evaluation.entity(cls, id) for id in ends]

    @fact("1", "what the control commands there")
    def command(self) -> Value:
        control = self.servo.output.main[0].control
        if control_kind(self.mule, control.id) != "switch":
            return self.found(
                3 - 2 * self.place, f"{control.name} at its {'upper' if self.place == 1 else 'lower'} end"
            )
        positions = control.choice("positions")
        noted = positions[self.place - 1]
        return self.found(noted.value, f"position {self.place} of {control.name} is noted as {noted.text}")

    @fact("s", "pulse from the middle of the channel, before its reverse")
    def shift(self) -> Value:
        output = self.servo.output
        return self.by(
            position_deviation, command=self.command, upward=output.reach, downward=output.reach_back
        )

    @fact("s", "the same after the channel's reverse")
    def turned(self) -> Value:
        channel = self.of(ChannelFacts, self.servo.output.main[0].term.channel)
        return self.by(chain_product, factors=[channel.sense, self.shift])

    @fact("s", "pulse that the servo gets there")
    def pulse(self) -> Value:
        return self.by(total, values=[self.of(RestFacts, self.servo.id).rest_pulse, self.turned])


class ServoTravelFacts(Facts):
    """A servo that goes to an angle, and the pulses that it is sent."""

    kind = "servo"
    none = "no servo that goes to an angle is described"

    gain = given()
    neutral = given(assume="neutral_pulse")
    stop_low = given(assume="servo_stop.low")
    stop_high = given(assume="servo_stop.high")
    noted_need = given(key="need")

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        servos = evaluation.mule.file.servo.items()
        return [
            evaluation.entity(cls, f"servo.{name}")
            for name, servo in servos
            if servo.rotation != "continuous"
        ]

    @property
    def servo(self) -> Servo:
        """Its table."""
        assert isinstance(self.table, Servo)
        return self.table

    @property
    def output(self) -> OutputFacts:
        """The pulses that reach it."""
        return self.of(OutputFacts, self.id)

    @property
    def known_ends(self) -> list[EndFacts]:
        """It at each end of its control, as far as a transmitter commands it and they are noted."""
        if not self.output.terms:
            return []
        main = self.output.main[0]
        switch = control_kind(self.mule, main.term.control) == "switch"
        count = len(main.control.control.positions or []) if switch else 2
        return [self.of(EndFacts, f"{self.id}@{place}") for place in range(1, count + 1)]

    @property
    def ends(self) -> list[EndFacts]:
        """It at each end of its control.

        Raises
        ------
        Missing
            If nothing commands it, or the positions of its switch are not noted.
        """
        ends = self.known_ends
        if not ends:
            raise Missing(f"{self.output.main[0].control.id}.positions")
        return ends

    @property
    def linkage(self) -> str | None:
        """The table of the linkage that it moves."""
        moves = self.servo.moves
        table = self.mule.things.get(moves or "")
        return f"{moves}.linkage" if isinstance(table, Gripper) else None

    @property
    def _tester(self) -> TesterPulseFacts | None:
        source = self.mule.signals.trace(self.id).source
        return self.of(TesterPulseFacts, source or "") if on_tester(self.mule, self.id) else None

    @fact("s", "longest pulse that it is sent")
    def longest(self) -> Value:
        if self._tester is not None:
            return self._tester.high
        return self.by(largest, values=[end.pulse for end in self.ends])

    @fact("s", "shortest pulse that it is sent")
    def shortest(self) -> Value:
        if self._tester is not None:
            return self._tester.low
        return self.by(smallest, values=[end.pulse for end in self.ends])

    @fact("rad", "angle between the ends of its control")
    def swing(self) -> Value:
        return self.by(servo_angle, servo_gain=self.gain, pulse=self.longest, reference=self.shortest)

    @fact("rad", "angle that the task needs")
    def need(self) -> Value:
        if self.linkage is None:
            return self.noted_need
        linkage = self.of(LinkageFacts, self.linkage)
        return self.first(
            ("as noted for the servo", lambda: self.noted_need),
            ("as noted for its linkage", lambda: linkage.needed),
            ("from the lengths of its linkage", lambda: self.of(LinkageTurnFacts, linkage.id).swing),
        )

    # --- its own stops --------------------------------------------------------------------------------------

    @fact("s", "longest pulse, from its middle")
    def way_up(self) -> Value:
        return self.by(difference, first=self.longest, second=self.neutral)

    @fact("s", "shortest pulse, from its middle, downwards")
    def way_down(self) -> Value:
        return self.by(difference, first=self.neutral, second=self.shortest)

    @fact("s", "pulse from its middle to its upper stop")
    def room_up(self) -> Value:
        return self.by(difference, first=self.stop_high, second=self.neutral)

    @fact("s", "pulse from its middle to its lower stop")
    def room_down(self) -> Value:
        return self.by(difference, first=self.neutral, second=self.stop_low)

    @fact("1", "how far it is sent upwards, as a share of the way to its stop")
    def share_up(self) -> Value:
        return self.by(quotient, part=self.way_up, whole=self.room_up)

    @fact("1", "how far it is sent downwards, as a share of the way to its stop")
    def share_down(self) -> Value:
        return self.by(quotient, part=self.way_down, whole=self.room_down)

    @fact("1", "the larger of both shares; above 1 it pushes against its own stop")
    def stop_share(self) -> Value:
        return self.by(largest, values=[self.share_up, self.share_down])


class LinkageFacts(Facts):
    """A linkage between a servo and a jaw: ``mechanism.jaw.linkage``."""

    kind = "linkage"
    none = LinkageTurnFacts.none

    needed = given()
    limit_low = given()
    limit_high = given()

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        return [evaluation.entity(cls, linkage.id) for linkage in LinkageTurnFacts.all(evaluation)]


class LinkedServoFacts(Facts):
    """A servo on a linkage that binds somewhere."""

    kind = "servo on a linkage"
    none = "no servo moves the linkage of a gripper"

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        linked = [one.id for one in ServoTravelFacts.all(evaluation) if one.linkage is not None]
        return [evaluation.entity(cls, id) for id in linked]

    @property
    def travel(self) -> ServoTravelFacts:
        """How far it is sent."""
        return self.of(ServoTravelFacts, self.id)

    @property
    def linkage(self) -> LinkageFacts:
        """Where its linkage binds."""
        return self.of(LinkageFacts, self.travel.linkage or "")

    @fact("rad", "angle from its middle at its longest pulse")
    def highest(self) -> Value:
        travel = self.travel
        return self.by(servo_angle, servo_gain=travel.gain, pulse=travel.longest, reference=travel.neutral)

    @fact("rad", "angle from its middle at its shortest pulse")
    def lowest(self) -> Value:
        travel = self.travel
        return self.by(servo_angle, servo_gain=travel.gain, pulse=travel.shortest, reference=travel.neutral)

    @fact("rad", "angle left at its longest pulse before the linkage binds")
    def clear_up(self) -> Value:
        return self.by(difference, first=self.linkage.limit_high, second=self.highest)

    @fact("rad", "angle left at its shortest pulse before the linkage binds")
    def clear_down(self) -> Value:
        return self.by(difference, first=self.lowest, second=self.linkage.limit_low)

    @fact("rad", "the smaller of both; below 0 the linkage binds first")
    def clearance(self) -> Value:
        return self.by(smallest, values=[self.clear_up, self.clear_down])
