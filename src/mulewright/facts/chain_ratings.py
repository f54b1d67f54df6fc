"""Facts about what each thing between a battery and a rope bears: currents, torques, pulls."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Self

from mulewright.design.schema.electrics import Gear
from mulewright.facts.descriptors import fact, given
from mulewright.facts.graph import Evaluation, Facts
from mulewright.facts.hubs import HubFacts
from mulewright.facts.motors import GearFacts, MotorFacts
from mulewright.facts.nodes import Missing, Value
from mulewright.facts.session_heat import SessionMotorFacts
from mulewright.facts.wiring import FuseFacts
from mulewright.models.arithmetic import product, quotient
from mulewright.models.chain import current_for_heat, sprocket_radius
from mulewright.models.fuse import HOLDS_UP_TO, MAY_BLOW_FROM


class BenchLimitFacts(Facts):
    """The current limit of a bench supply."""

    kind = "bench supply"
    none = "no bench supply is described"

    current_limit = given()

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        return cls.each(evaluation, "bench_supply")


class FuseBandFacts(Facts):
    """The two edges of a blade fuse's band that matter before it blows."""

    kind = "band of a fuse"
    none = FuseFacts.none

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        return [evaluation.entity(cls, fuse.id) for fuse in FuseFacts.all(evaluation)]

    def _times(self, multiple: float) -> Value:
        kind: str = self.choice("kind")
        if not kind.startswith("blade"):
            raise Missing(f"the curve of {self.id}, a fuse of the kind {kind}")
        return self.by(product, first=multiple, second=self.of(FuseFacts, self.id).rating)

    @fact("A", "current up to which every such fuse holds for 100 h and more")
    def holds_up_to(self) -> Value:
        return self._times(HOLDS_UP_TO)

    @fact("A", "current from which it may blow within a second, and has to blow within half an hour")
    def may_blow_from(self) -> Value:
        return self._times(MAY_BLOW_FROM)


class SwitchRatingFacts(Facts):
    """A switch on the way of the current."""

    kind = "switch"
    none = "no switch is described"

    rating = given()

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        return cls.each(evaluation, "switch")


class ControllerHoldFacts(Facts):
    """A controller that holds its motor back by itself."""

    kind = "controller with a current limit"
    none = "no controller has a current limit of its own"

    current_limit = given()

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        found = evaluation.mule.file.controller.items()
        return [evaluation.entity(cls, f"controller.{name}") for name, one in found if one.current_limit]


class MotorLimitFacts(Facts):
    """What a motor draws for its torque, and what it bears."""

    kind = "motor's limit"
    none = MotorFacts.none

    gearbox_limit = given()
    hub_limit = given()

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        return cls.each(evaluation, "motor")

    @property
    def motor(self) -> MotorFacts:
        """The motor."""
        return self.of(MotorFacts, self.id)

    @fact("A/(N m)", "current through it for each newton metre of its shaft")
    def draw(self) -> Value:
        return self.by(quotient, part=1.0, whole=self.motor.torque_constant)

    @fact("A/(N m)", "current out of the battery for each newton metre of its shaft, at full stick")
    def supply_draw(self) -> Value:
        return self.by(product, first=self.motor.duty, second=self.draw)

    @fact("A", "current out of the battery with nothing on its shaft, at full stick")
    def supply_idle(self) -> Value:
        return self.by(product, first=self.motor.duty, second=self.motor.free_current)

    @fact("A", "current that it bears for ever")
    def lasting(self) -> Value:
        return self.by(
            current_for_heat,
            power=self.of(SessionMotorFacts, self.id).shed_heat,
            resistance=self.motor.resistance,
        )

    @fact("N m", "torque at which its shaft breaks or its hub slips")
    def hub(self) -> Value:
        if self.motor.motor.shaft != "round":
            return self.hub_limit
        return self.first(
            ("as noted", lambda: self.hub_limit),
            ("set screws on a round shaft", lambda: self.of(HubFacts, self.id).hub_grip),
        )

    @fact("1", "torque on what it turns for each newton metre of its shaft, losses taken off")
    def gain(self) -> Value:
        return self.by(product, first=self.motor.ratio, second=self.motor.train)


class StageLimitFacts(Facts):
    """What a gear stage, its chain or its belt bears: ``motor.arm.gears.0``."""

    kind = "gear stage's limit"
    none = GearFacts.none

    limit = given()
    breaking = given()
    pitch = given()

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        return [evaluation.entity(cls, gear.id) for gear in GearFacts.all(evaluation)]

    @property
    def flexible(self) -> bool:
        """Whether it is a chain or a belt."""
        gear = self.table
        assert isinstance(gear, Gear)
        return gear.kind in ("chain", "belt")

    @fact("m", "radius at which its chain or belt pulls on the far side")
    def radius(self) -> Value:
        if not self.flexible:
            return self.found(float("inf"), "no chain and no belt")
        return self.by(
            sprocket_radius, pitch=self.pitch, teeth=self.of(GearFacts, self.id).driven_teeth
        )  # fmt: skip

    @fact("N m", "torque that its far side bears")
    def bears(self) -> Value:
        if not self.flexible:
            return self.limit
        return self.first(
            ("as noted", lambda: self.limit),
            ("as its chain or belt breaks", lambda: self.by(
                product, first=self.breaking, second=self.radius
            )),
        )  # fmt: skip
