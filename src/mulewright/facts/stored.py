"""Facts about energy that waits to be set free: in spinning wheels and in stretched ropes."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Self

from mulewright.facts.descriptors import fact, given
from mulewright.facts.graph import Evaluation, Facts
from mulewright.facts.nodes import Value
from mulewright.facts.ropes import WinchRopeFacts
from mulewright.facts.throwing import ThrowerFacts
from mulewright.models.inertia import flywheel_energy
from mulewright.models.rope import rope_energy


class SpinningFacts(Facts):
    """The wheels of a thrower at full stick."""

    kind = "flywheel"
    none = ThrowerFacts.none

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        return [evaluation.entity(cls, thrower.id) for thrower in ThrowerFacts.all(evaluation)]

    @property
    def thrower(self) -> ThrowerFacts:
        """Its wheels."""
        return self.of(ThrowerFacts, self.id)

    @property
    def guard(self) -> bool:
        """Whether a guard would catch its parts."""
        fitted: bool = self.choice("guard")
        return fitted

    @fact("J", "energy of all its wheels at full command and nominal volts")
    def spin_energy(self) -> Value:
        thrower = self.thrower
        return self.by(flywheel_energy, inertia=thrower.inertia_in_all, speed=thrower.throwing_speed)


class StretchFacts(Facts):
    """How far a rope stretches: ``mechanism.winch.rope``."""

    kind = "rope that stretches"
    none = WinchRopeFacts.none

    stiffness = given()

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        return [evaluation.entity(cls, f"{winch.id}.rope") for winch in WinchRopeFacts.all(evaluation)]


class StretchedRopeFacts(Facts):
    """The rope of a winch whose motors are held fast at full stick."""

    kind = "rope of a winch"
    none = WinchRopeFacts.none

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        return [evaluation.entity(cls, winch.id) for winch in WinchRopeFacts.all(evaluation)]

    @property
    def winch(self) -> WinchRopeFacts:
        """Its winch."""
        return self.of(WinchRopeFacts, self.id)

    @fact("J", "energy that its motors held fast stretch into its rope")
    def stretch_energy(self) -> Value:
        rope = self.of(StretchFacts, f"{self.id}.rope")
        return self.by(rope_energy, force=self.winch.stall_pull, stiffness=rope.stiffness)
