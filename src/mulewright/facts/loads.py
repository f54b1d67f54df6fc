"""Facts about what gravity asks of the motors of arms, lifts and lifting winches, whatever the battery."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Self

from mulewright.design.schema.functions import Arm, Lift, Winch
from mulewright.facts.descriptors import fact, given
from mulewright.facts.graph import Evaluation, Facts
from mulewright.facts.motors import MotorFacts
from mulewright.facts.nodes import Missing, Value
from mulewright.models.arithmetic import difference, magnitude, product, quotient
from mulewright.models.bus import total
from mulewright.models.gear import back_driving_efficiency, train_efficiency
from mulewright.models.joint import gravity_torque, needed_torque, swing_energy
from mulewright.models.motor import current_for_torque
from mulewright.models.moving import falling_energy
from mulewright.models.rope import drum_torque, layer_radius, lift_rope_force
from mulewright.units.table import Table, form_of


class HeldFacts(Facts):
    """A mechanism that gravity pulls on: an arm, a lift or a lifting winch."""

    kind = "raised load"
    none = "nothing on this mule is raised against gravity"

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        held = (held_by(evaluation, f"mechanism.{name}") for name in evaluation.mule.file.mechanism)
        return [one for one in held if isinstance(one, cls)]

    @property
    def name(self) -> str:
        """The function."""
        return self.id.split(".", 1)[1]

    @property
    def by_servo(self) -> bool:
        """Whether a servo moves it, and no motor."""
        mule = self.mule
        return not mule.motors_turning(self.id) and bool(mule.servos_moving.get(self.id))

    @property
    def motors(self) -> list[MotorFacts]:
        """The motors that move it."""
        found = [self.of(MotorFacts, motor) for motor in self.mule.motors_turning(self.id)]
        if not found:
            raise Missing(f"a motor that turns {self.id}")
        return found

    @property
    def motor(self) -> MotorFacts:
        """The first of its motors; several share the load evenly."""
        return self.motors[0]

    @fact("N m", "torque that gravity asks of its shaft, without losses")
    def torque(self) -> Value:
        raise Missing(f"{self.id}.kind")

    @fact("J", "energy that it gives back when it falls all its way, ratchet or not")
    def energy(self) -> Value:
        raise Missing(f"{self.id}.kind")

    @property
    def near_hands(self) -> bool:
        """Whether it is noted that hands or feet come under it."""
        return bool(getattr(self.table, "near_hands", None))

    @fact("1", "1 where hands or feet come under it")
    def over_hands(self) -> Value:
        noted = self.choice("near_hands")
        return self.found(float(noted), f"hands or feet {'come' if noted else 'do not come'} under {self.id}")

    @fact("1", "efficiency between its shaft and what is raised")
    def own_efficiency(self) -> Value:
        return self.found(1, "the load sits on the shaft itself")

    @fact("1", "its own efficiency when the load drives")
    def own_back_efficiency(self) -> Value:
        return self.by(back_driving_efficiency, efficiency=self.own_efficiency)

    @fact("1", "efficiency from the motor's shaft to what is raised")
    def efficiency(self) -> Value:
        return self.by(train_efficiency, efficiencies=[self.own_efficiency, self.motor.train])

    @fact("1", "efficiency from what is raised back to the winding; 0 holds by itself")
    def back_efficiency(self) -> Value:
        if getattr(self.table, "ratchet", None):
            return self.found(0, "a ratchet keeps it from running back")
        stages = [self.own_back_efficiency, self.motor.train_back, self.motor.sheet_back_efficiency]
        return self.by(train_efficiency, efficiencies=stages)

    @fact("N m", "torque that all its motors together have to give at their shafts")
    def asked_in_all(self) -> Value:
        return self.by(needed_torque, torque=self.torque, ratio=self.motor.ratio, efficiency=self.efficiency)

    @fact("1", "motors that share the load")
    def sharing(self) -> Value:
        return self.found(len(self.motors), f"{', '.join(motor.id for motor in self.motors)} turn {self.id}")

    @fact("N m", "torque asked of each motor's shaft")
    def asked(self) -> Value:
        if len(self.motors) == 1:
            return self.asked_in_all
        return self.by(quotient, part=self.asked_in_all, whole=self.sharing)

    @fact("1", "torque asked over the sheet's stall torque")
    def share_of_stall(self) -> Value:
        return self.by(quotient, part=self.asked, whole=self.motor.stall_torque)

    @fact("A", "current through each motor while it raises the load")
    def current(self) -> Value:
        return self.by(
            current_for_torque, torque=self.asked, torque_constant=self.motor.torque_constant,
            free_current=self.motor.free_current,
        )  # fmt: skip


class LumpFacts(Facts):
    """A mass on an arm: ``mechanism.arm.lumps.0``."""

    kind = "lump"
    none = "no arm is described"

    mass = given()
    at = given()

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        return [
            evaluation.entity(cls, f"mechanism.{name}.lumps.{place}")
            for name, arm in evaluation.mule.file.mechanism.items()
            if isinstance(arm, Arm)
            for place in range(len(arm.lumps or []))
        ]


class ArmFacts(HeldFacts):
    """An arm."""

    kind = "arm"
    none = "no arm on this mule"

    load = given()
    load_at = given()
    counterbalance = given()
    lowest = given()
    highest = given()

    @property
    def lumps(self) -> list[LumpFacts]:
        """The facts of its lumps."""
        arm = self.table
        assert isinstance(arm, Arm)
        if arm.lumps is None:
            raise Missing(f"{self.id}.lumps")
        return [self.of(LumpFacts, f"{self.id}.lumps.{place}") for place in range(len(arm.lumps))]

    @fact("N m", "torque of its weight and its load about the pivot, held level")
    def gravity(self) -> Value:
        lumps = self.lumps
        return self.by(
            gravity_torque, masses=[*(lump.mass for lump in lumps), self.load],
            arms=[*(lump.at for lump in lumps), self.load_at], angle=0.0,
        )  # fmt: skip

    @fact("N m", "torque that gravity asks of its shaft, without losses")
    def torque(self) -> Value:
        if self.table.quantity("counterbalance") is None:
            return self.gravity
        return self.by(magnitude, value=self.unbalanced)

    @fact("N m", "what the counterbalance leaves of gravity's torque; below 0 it lifts the arm by itself")
    def unbalanced(self) -> Value:
        return self.by(difference, first=self.gravity, second=self.counterbalance)

    @fact("J", "energy that it gives back when it falls all its way, counterbalanced or not")
    def energy(self) -> Value:
        return self.by(swing_energy, level_torque=self.gravity, lowest=self.lowest, highest=self.highest)


class StageMassFacts(Facts):
    """One stage of a lift: ``mechanism.lift.stages.0``."""

    kind = "lift stage"
    none = "no lift with stages on this mule"

    mass = given()

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        return [
            evaluation.entity(cls, f"mechanism.{name}.stages.{place}")
            for name, lift in evaluation.mule.file.mechanism.items()
            if isinstance(lift, Lift)
            for place in range(len(lift.stages or []))
        ]

    @fact("1", "its way over that of the load, both from bottom to top")
    def way(self) -> Value:
        lift, place = self.id.rsplit(".stages.", 1)
        stages = len(self.of(LiftFacts, lift).stages)
        return self.found((int(place) + 1) / stages, f"stage {int(place) + 1} of {stages}, all equally long")

    @fact("kg", "mass that, raised as far as the load, would take the same energy")
    def raised(self) -> Value:
        return self.by(product, first=self.mass, second=self.way)


class LiftFacts(HeldFacts):
    """A lift on a rope."""

    kind = "lift"
    none = "no lift on this mule"

    drum_diameter = given()
    set_efficiency = given(key="efficiency")
    carriage = given()
    load = given()
    travel = given()
    counter_force = given()

    @property
    def lift(self) -> Lift:
        """Its table."""
        assert isinstance(self.table, Lift)
        return self.table

    @property
    def stages(self) -> list[StageMassFacts]:
        """Its moving stages, lowest first."""
        if self.lift.stages is None:
            raise Missing(f"{self.id}.stages")
        return [
            self.of(StageMassFacts, f"{self.id}.stages.{place}") for place in range(len(self.lift.stages))
        ]

    @fact("m", "radius at the middle of the rope on the drum")
    def drum_radius(self) -> Value:
        return self.by(product, first=0.5, second=self.drum_diameter)

    @fact("1", "efficiency of rope, sheaves and slides")
    def own_efficiency(self) -> Value:
        return self.set_efficiency

    @fact("1", "travel of the load over travel of the rope")
    def load_ratio(self) -> Value:
        rigging = self.choice("rigging")
        if rigging == "cascade":
            return self.found(len(self.stages), f"{len(self.stages)} stages in cascade, each drives the next")
        return self.found(1, f"{rigging} rigging: the load goes as far as the rope")

    @fact("kg", "load and all that goes up with it, each counted by its way over that of the load")
    def raised(self) -> Value:
        if self.choice("rigging") == "single":
            return self.by(total, values=[self.carriage, self.load])
        return self.by(total, values=[*(stage.raised for stage in self.stages), self.load])

    @fact("J", "energy that it gives back when it falls all its way, ratchet or not")
    def energy(self) -> Value:
        return self.by(falling_energy, mass=self.raised, height=self.travel)

    @fact("N", "force in the rope without losses, before any counter force")
    def weight_at_rope(self) -> Value:
        rigging = self.choice("rigging")
        if rigging == "single":
            masses, ratios = [self.carriage, self.load], [1.0, 1.0]
        else:
            masses = [*(stage.mass for stage in self.stages), self.load]
            stages = len(self.stages)
            ratios = [*(place + 1.0 for place in range(stages)), float(stages)]
            ratios = ratios if rigging == "cascade" else [1.0] * len(masses)
        return self.by(lift_rope_force, masses=masses, travel_ratios=ratios, efficiency=1.0)

    @fact("N", "force in the rope without losses")
    def rope_force(self) -> Value:
        if self.table.quantity("counter_force") is None:
            return self.weight_at_rope
        return self.by(magnitude, value=self.unbalanced)

    @fact("N", "what the counter force leaves of the weight at the rope; below 0 it lifts by itself")
    def unbalanced(self) -> Value:
        return self.by(difference, first=self.weight_at_rope, second=self.counter_force)

    @fact("N m", "torque that gravity asks of the drum, without losses")
    def torque(self) -> Value:
        return self.by(drum_torque, force=self.rope_force, radius=self.drum_radius)


class RopeFacts(Facts):
    """The rope of a winch or a lift: ``mechanism.winch.rope``."""

    kind = "rope"
    none = "no rope is described"

    diameter = given()
    breaking = given()

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        found = evaluation.mule.file.mechanism.items()
        return [
            evaluation.entity(cls, f"mechanism.{name}.rope")
            for name, one in found
            if isinstance(one, Winch | Lift)
        ]

    @fact("1", "breaking force with its knots over that of a new rope")
    def knot_factor(self) -> Value:
        if self.choice("knots"):
            return self.assumed("knot_strength")
        return self.found(1, "no knot carries the load")

    @fact("N", "force at which the rope breaks, knots counted")
    def strength(self) -> Value:
        return self.by(product, first=self.breaking, second=self.knot_factor)


class WinchFacts(HeldFacts):
    """A winch that lifts, or whose use is not noted."""

    kind = "lifting winch"
    none = "no lifting winch on this mule"

    drum_diameter = given()
    set_efficiency = given(key="efficiency")
    load = given()
    height = given()

    @fact("m", "radius of the bare drum")
    def bare_radius(self) -> Value:
        return self.by(product, first=0.5, second=self.drum_diameter)

    @fact("m", "radius at the middle of the first layer")
    def drum_radius(self) -> Value:
        rope = self.of(RopeFacts, f"{self.id}.rope")
        return self.by(layer_radius, drum_radius=self.bare_radius, layer=1.0, rope_diameter=rope.diameter)

    @fact("1", "efficiency of rope and sheaves")
    def own_efficiency(self) -> Value:
        return self.set_efficiency

    @fact("J", "energy that it gives back when the load falls all its way, ratchet or not")
    def energy(self) -> Value:
        return self.by(falling_energy, mass=self.load, height=self.height)

    @fact("N", "force in the rope without losses")
    def rope_force(self) -> Value:
        self.choice("use")
        return self.by(lift_rope_force, masses=[self.load], travel_ratios=[1.0], efficiency=1.0)

    @fact("N m", "torque that gravity asks of the drum on the first layer, without losses")
    def torque(self) -> Value:
        return self.by(drum_torque, force=self.rope_force, radius=self.drum_radius)


KINDS: dict[type[Table], type[HeldFacts]] = {Arm: ArmFacts, Lift: LiftFacts, Winch: WinchFacts}


def held_by(evaluation: Evaluation, mechanism: str) -> HeldFacts | None:
    """The load facts of a mechanism, or None where gravity does not pull on it."""
    table = evaluation.mule.things.get(mechanism)
    if table is None or (isinstance(table, Winch) and table.use == "pulling"):
        return None
    kind = KINDS.get(form_of(table))
    return evaluation.entity(kind, mechanism) if kind is not None else None
