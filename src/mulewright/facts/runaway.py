"""Facts about a drive whose link is lost: when it is let go, and how far it goes until then."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Self

from mulewright.design.unsaid import FEEDS
from mulewright.facts.body import RoomFacts
from mulewright.facts.descriptors import fact
from mulewright.facts.driving import DrivingFacts
from mulewright.facts.fail_safe import LostLinkFacts, ReceiverFacts
from mulewright.facts.graph import Evaluation, Facts
from mulewright.facts.nodes import Value
from mulewright.facts.slipping import wheel_motors
from mulewright.models.arithmetic import largest, product
from mulewright.models.moving import delay_until_stop, runaway_distance


class RunawayFacts(Facts):
    """A drive that is steered through a receiver."""

    kind = "drive on a receiver"
    none = "no drive hangs on a receiver"
    rests_on = (FEEDS,)

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        found = evaluation.entity(cls, "drive")
        return [found] if found.links else []

    @property
    def links(self) -> list[LostLinkFacts]:
        """The controllers of its wheels that are steered through a receiver."""
        controllers = {self.mule.controller_of.get(motor) for motor in wheel_motors(self.evaluation)}
        return [lost for lost in LostLinkFacts.all(self.evaluation) if lost.id in controllers]

    @property
    def receivers(self) -> list[ReceiverFacts]:
        """The receivers that steer it."""
        sockets = (socket.id.split(".", 1)[0] for link in self.links for socket in link.sockets)
        return [self.of(ReceiverFacts, name) for name in dict.fromkeys(sockets)]

    @property
    def room(self) -> RoomFacts:
        """Where it drives."""
        return self.of(RoomFacts, "room")

    @property
    def speed(self) -> Value:
        """Its top speed."""
        return self.of(DrivingFacts, "drive").top_speed

    @fact("1", "1 where any of its wheels goes on with the last command when the link is lost")
    def drives_on(self) -> Value:
        return self.by(largest, values=[link.runs_on for link in self.links])

    @fact("s", "time until its receiver takes the link for lost")
    def notice(self) -> Value:
        return self.by(largest, values=[receiver.fail_safe_delay for receiver in self.receivers])

    @fact("s", "time until its wheels are let go; unlimited where they are not")
    def let_go_after(self) -> Value:
        return self.by(delay_until_stop, delay=self.notice, runs_on=self.drives_on)

    @fact("m", "way from a lost link at top speed until it stands")
    def runaway(self) -> Value:
        return self.by(
            runaway_distance, speed=self.speed, fail_safe_delay=self.let_go_after,
            reaction_time=self.assumed("reaction_time"), deceleration=self.assumed("coasting_deceleration"),
        )  # fmt: skip

    @fact("s", "time that its receiver takes to restart")
    def restart(self) -> Value:
        return self.by(largest, values=[receiver.restart for receiver in self.receivers])

    @fact("m", "way at top speed while its receiver restarts")
    def blind_way(self) -> Value:
        return self.by(product, first=self.restart, second=self.speed)
