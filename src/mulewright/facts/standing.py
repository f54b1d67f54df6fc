"""Facts about a drive that stands still: what its driven wheels carry, and what they grip with."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Self

from mulewright.design.schema.machine import Drive
from mulewright.facts.body import BodyFacts, WheelFacts
from mulewright.facts.descriptors import fact
from mulewright.facts.graph import Evaluation, Facts
from mulewright.facts.nodes import Value
from mulewright.models.arithmetic import product, quotient
from mulewright.models.body import axle_load
from mulewright.models.traction import roller_push

ROLLERS = "four-roller-wheels"
ALL_DRIVEN = (ROLLERS, "skid-steer")


class StandingFacts(Facts):
    """The drive at rest on level ground."""

    kind = "drive at rest"
    none = WheelFacts.none

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        return [evaluation.entity(cls, "drive")] if evaluation.mule.file.drive is not None else []

    @property
    def drive_kind(self) -> str:
        """How its wheels are arranged."""
        kind: str = self.choice("kind")
        return kind

    @property
    def body(self) -> BodyFacts:
        """The machine as one mass."""
        return self.of(BodyFacts, "body")

    @property
    def wheel(self) -> WheelFacts:
        """Its wheels."""
        return self.of(WheelFacts, "drive.wheel")

    @fact("N", "weight on the driven wheels, standing still on level ground")
    def driven_load(self) -> Value:
        drive = self.table
        assert isinstance(drive, Drive)
        if self.drive_kind in ALL_DRIVEN or drive.driven == "all":
            return self.body.weight
        lever = self.body.center_ahead if self.choice("driven") == "front" else self.body.center_behind
        return self.by(axle_load, mass=self.body.mass, lever=lever, wheelbase=self.body.wheelbase)

    @fact("1", "driven wheels")
    def driven_wheels(self) -> Value:
        return self.found(len(self.mule.wheels), f"a drive of the kind {self.drive_kind}")

    @fact("N", "weight on each driven wheel, all alike")
    def wheel_load(self) -> Value:
        return self.by(quotient, part=self.driven_load, whole=self.driven_wheels)

    @fact("N", "push ahead that the grip of the driven wheels allows")
    def grip(self) -> Value:
        if self.drive_kind == ROLLERS:
            return self.by(roller_push, friction=self.wheel.friction, load=self.driven_load, direction=0.0)
        return self.by(product, first=self.wheel.friction, second=self.driven_load)
