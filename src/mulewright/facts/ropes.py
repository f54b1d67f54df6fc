"""Facts about ropes: what they bear, what a winch held fast pulls, how the drum fills, what a lift has to spare."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Self

from mulewright.design.schema.functions import Winch
from mulewright.facts.descriptors import fact, given
from mulewright.facts.graph import Evaluation, Facts
from mulewright.facts.holding import RaisingFacts
from mulewright.facts.loads import LiftFacts, RopeFacts, WinchFacts
from mulewright.facts.nodes import Value
from mulewright.facts.stalls import StalledFacts
from mulewright.models.arithmetic import deviation, product, quotient
from mulewright.models.bus import total
from mulewright.models.joint import safety_factor
from mulewright.models.rope import layer_radius, rope_pull


class WinchRopeFacts(Facts):
    """A winch, whether it lifts or pulls, and the rope on its drum."""

    kind = "winch and its rope"
    none = "no winch on this mule"

    layers = given()

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        found = evaluation.mule.file.mechanism.items()
        return [evaluation.entity(cls, f"mechanism.{name}") for name, one in found if isinstance(one, Winch)]

    @property
    def winch(self) -> WinchFacts:
        """Drum and motors."""
        return self.of(WinchFacts, self.id)

    @property
    def rope(self) -> RopeFacts:
        """The rope."""
        return self.of(RopeFacts, f"{self.id}.rope")

    @property
    def use(self) -> str:
        """Lifting or pulling."""
        use: str = self.choice("use")
        return use

    # --- the pull

    @fact("N m", "torque of all its motors held fast, full stick, rested battery, all wires")
    def stall_torque_in_all(self) -> Value:
        held = [self.of(StalledFacts, motor.id).held_torque for motor in self.winch.motors]
        return held[0] if len(held) == 1 else self.by(total, values=held)

    @fact("N", "pull of the rope on the first layer when its motors are held fast, nothing lost on the way")
    def stall_pull(self) -> Value:
        return self.by(
            rope_pull, torque=self.stall_torque_in_all, ratio=self.winch.motor.ratio, efficiency=1.0,
            radius=self.winch.drum_radius,
        )  # fmt: skip

    @fact("N", "force at which the rope breaks, knots counted")
    def strength(self) -> Value:
        return self.rope.strength

    @fact("1", "breaking force that a rope is given for each newton of pull")
    def rope_factor(self) -> Value:
        return self.assumed(f"rope_factor.{self.use}")

    @fact("N", "pull that the rope may bear")
    def allowed_pull(self) -> Value:
        return self.by(quotient, part=self.strength, whole=self.rope_factor)

    @fact("1", "pull with the motors held fast over what the rope may bear")
    def rope_share(self) -> Value:
        return self.by(quotient, part=self.stall_pull, whole=self.allowed_pull)

    # --- the drum

    @fact("m", "radius at the middle of the last layer on the full drum")
    def full_radius(self) -> Value:
        return self.by(
            layer_radius, drum_radius=self.winch.bare_radius, layer=self.layers,
            rope_diameter=self.rope.diameter,
        )  # fmt: skip

    @fact("1", "how much larger that is than the radius of the first layer")
    def radius_growth(self) -> Value:
        return self.by(deviation, value=self.full_radius, reference=self.winch.drum_radius)


class LiftPullFacts(Facts):
    """A lift, seen from its rope, on this battery."""

    kind = "lift on its rope"
    none = LiftFacts.none

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        return [evaluation.entity(cls, lift.id) for lift in LiftFacts.all(evaluation)]

    @property
    def lift(self) -> LiftFacts:
        """What hangs on the rope."""
        return self.of(LiftFacts, self.id)

    @property
    def raising(self) -> RaisingFacts:
        """Its motors."""
        return self.of(RaisingFacts, self.id)

    @property
    def stage_words(self) -> str:
        """How its stages hang, for people."""
        rigging = self.lift.choice("rigging")
        return "its carriage" if rigging == "single" else f"{len(self.lift.stages)} stages, {rigging}"

    @fact("N m", "torque that its motors have together at full stick and the volts while it rises")
    def available_in_all(self) -> Value:
        if len(self.lift.motors) == 1:
            return self.raising.available
        return self.by(product, first=self.raising.available, second=self.lift.sharing)

    @fact("N", "pull that its motors have at the rope, losses of gears, sheaves and slides taken off")
    def available_pull(self) -> Value:
        return self.by(
            rope_pull, torque=self.available_in_all, ratio=self.lift.motor.ratio,
            efficiency=self.lift.efficiency, radius=self.lift.drum_radius,
        )  # fmt: skip

    @fact("1", "pull that its motors have over the pull that all its stages ask of the rope")
    def pull_margin(self) -> Value:
        return self.by(safety_factor, available=self.available_pull, needed=self.lift.rope_force)
