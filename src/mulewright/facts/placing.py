"""Facts about placing a drive by hand: how far it goes from seeing an obstacle until it stands."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Self

from mulewright.facts.body import RoomFacts
from mulewright.facts.descriptors import fact, given
from mulewright.facts.driving import DrivingFacts
from mulewright.facts.graph import Evaluation, Facts
from mulewright.facts.nodes import Value
from mulewright.models.arithmetic import quotient
from mulewright.models.bus import total
from mulewright.models.moving import stopping_distance


class LinkFacts(Facts):
    """The link from a stick to a motor."""

    kind = "link from stick to motor"
    none = "no transmitter is described"

    latency = given(assume="link_delay")

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        return [evaluation.entity(cls, "radio")] if evaluation.mule.file.radio is not None else []


class PlacedDriveFacts(Facts):
    """A drive that a person stops by hand."""

    kind = "drive placed by hand"
    none = DrivingFacts.none

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        return [evaluation.entity(cls, drive.id) for drive in DrivingFacts.all(evaluation)]

    @property
    def driving(self) -> DrivingFacts:
        """The drive."""
        return self.of(DrivingFacts, "drive")

    @property
    def room(self) -> RoomFacts:
        """Where it drives."""
        return self.of(RoomFacts, "room")

    @fact("s", "time from what the driver sees to what the motors do")
    def hand_delay(self) -> Value:
        links = LinkFacts.all(self.evaluation)
        link = links[0].latency if links else self.assumed("link_delay")
        return self.by(total, values=[self.assumed("reaction_time"), link])

    @fact("m", "way from top speed, from what the driver sees until it stands, braked as the tyres grip")
    def hand_stop(self) -> Value:
        return self.by(
            stopping_distance, speed=self.driving.top_speed, delay=self.hand_delay,
            deceleration=self.driving.braking,
        )  # fmt: skip

    @fact("1", "that way over the free way")
    def hand_stop_share(self) -> Value:
        return self.by(quotient, part=self.hand_stop, whole=self.room.free)
