"""Facts about a drift that was measured: mismatch of the sides, and the endpoint that makes it run straight."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Self

from mulewright.design.schema.machine import Drive
from mulewright.facts.controls import ChannelFacts
from mulewright.facts.descriptors import fact, given
from mulewright.facts.directions import WheelMotorFacts
from mulewright.facts.driving import DrivingFacts
from mulewright.facts.graph import Evaluation, Facts
from mulewright.facts.nodes import Missing, Value
from mulewright.facts.outputs import ControllerSignalFacts, OutputFacts, TermFacts
from mulewright.models.arithmetic import magnitude, product
from mulewright.models.straightness import side_mismatch, straight_travel

OTHER = {"left": "right", "right": "left"}


class DriftFacts(Facts):
    """A drive whose drift was measured with a tape."""

    kind = "drive with a measured drift"
    none = DrivingFacts.none

    drift_run = given()
    drift_seen = given()

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        return [evaluation.entity(cls, drive.id) for drive in DrivingFacts.all(evaluation)]

    @property
    def drifts_to(self) -> str | None:
        """The side to which it drifted, if that is noted."""
        table = self.table
        assert isinstance(table, Drive)
        return table.drifts_to

    @fact("m", "size of the drift")
    def drift_size(self) -> Value:
        return self.by(magnitude, value=self.drift_seen)

    @fact("1", "how much faster one side is, by that drift")
    def drift_mismatch(self) -> Value:
        return self.by(
            side_mismatch, offset=self.drift_size, distance=self.drift_run,
            track=self.of(DrivingFacts, "drive").body.track,
        )  # fmt: skip


class FasterSideFacts(Facts):
    """One side of the drive, taken as the faster one: the controller of one of its wheels."""

    kind = "wheel whose endpoint may be lowered"
    none = DrivingFacts.none

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        ids = dict.fromkeys(
            evaluation.mule.controller_of.get(motor.id, "") for motor in WheelMotorFacts.all(evaluation)
        )
        return [evaluation.entity(cls, id) for id in ids if id]

    @property
    def side(self) -> str:
        """The side that it drives."""
        wheel = WheelMotorFacts.first_on(self.evaluation, self.id).wheel
        return wheel.rsplit("_", 1)[-1]

    @property
    def boxed(self) -> bool:
        """Whether a box mixes before it, so that no channel is its own."""
        return self.mule.signals.trace(self.id).mixer is not None

    @property
    def part(self) -> TermFacts:
        """The part of forward in its signal.

        Raises
        ------
        Missing
            If its signal comes from no channel of its own.
        """
        if self.boxed:
            raise Missing(f"a channel of its own for {self.id}")
        return self.of(OutputFacts, self.id).main[0]

    @property
    def channel(self) -> ChannelFacts:
        """Its channel."""
        return self.part.channel

    @fact("1", "endpoint of its channel ahead, as it is set now")
    def travel_ahead(self) -> Value:
        return self.channel.upward

    @fact("1", "endpoint of its channel backwards, as it is set now")
    def travel_back(self) -> Value:
        return self.channel.downward

    def _straight(self, travel: Value) -> Value:
        return self.by(
            straight_travel, travel=travel, mismatch=self.of(DriftFacts, "drive").drift_mismatch,
            half_range=self.part.radio.half_range, dead_band=self.of(ControllerSignalFacts, self.id).dead_band,
        )  # fmt: skip

    @fact("1", "endpoint ahead that makes it run straight, if this side is the faster one")
    def straight_ahead(self) -> Value:
        return self._straight(self.travel_ahead)

    @fact("s", "pulse from neutral that this endpoint sends")
    def straight_pulse(self) -> Value:
        return self.by(product, first=self.part.radio.half_range, second=self.straight_ahead)
