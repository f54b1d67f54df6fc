"""Facts about the machine as one mass on its wheels, and the room that it drives in."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Self

from mulewright.facts.descriptors import fact, given
from mulewright.facts.graph import Evaluation, Facts
from mulewright.facts.nodes import Value
from mulewright.models.arithmetic import difference, product
from mulewright.models.body import tipping_acceleration
from mulewright.models.rope import carried_force


class BodyFacts(Facts):
    """The machine as a lump with contacts to the floor."""

    kind = "body"
    none = "no body is described"

    mass = given()
    center_height = given()
    center_ahead = given()
    center_aside = given()
    wheelbase = given()
    track = given()

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        return [evaluation.entity(cls, "body")]

    @fact("N", "weight of the machine")
    def weight(self) -> Value:
        return self.by(carried_force, mass=self.mass, acceleration=0.0)

    @fact("m", "centre of gravity behind the front contacts")
    def center_behind(self) -> Value:
        return self.by(difference, first=self.wheelbase, second=self.center_ahead)

    @fact("m", "half the wheelbase")
    def half_wheelbase(self) -> Value:
        return self.by(product, first=0.5, second=self.wheelbase)

    @fact("m", "half the track")
    def half_track(self) -> Value:
        return self.by(product, first=0.5, second=self.track)

    @fact("m/s2", "acceleration that takes the weight off the front wheels")
    def tips_back_at(self) -> Value:
        return self.by(tipping_acceleration, distance=self.center_ahead, height=self.center_height)


class WheelFacts(Facts):
    """The driven wheels."""

    kind = "driven wheels"
    none = "nothing drives this mule over the floor"

    diameter = given()
    friction = given()
    rolling_resistance = given(assume="rolling_resistance")

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        return [evaluation.entity(cls, "drive.wheel")] if evaluation.mule.file.drive is not None else []

    @fact("m", "radius over the tread")
    def radius(self) -> Value:
        return self.by(product, first=0.5, second=self.diameter)


class RoomFacts(Facts):
    """Where it is driven."""

    kind = "room"
    none = "no room is described"

    free = given()
    straight_run = given()
    steepest = given()

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        return [evaluation.entity(cls, "room")]

    @fact("1", "1 where people walk")
    def walked(self) -> Value:
        people = self.choice("people")
        return self.found(float(people), f"people {'walk' if people else 'do not walk'} there")
