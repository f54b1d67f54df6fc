"""Facts about hot surfaces: how warm motors, controllers and regulators within reach become at steady work."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Self

from mulewright.facts.consumers import DemandFacts
from mulewright.facts.descriptors import fact, given
from mulewright.facts.driving import DrivingFacts
from mulewright.facts.graph import Evaluation, Facts
from mulewright.facts.motors import MotorFacts
from mulewright.facts.nodes import Missing, Value
from mulewright.facts.regulators import RegulatorFacts
from mulewright.facts.session_heat import SessionMotorFacts
from mulewright.facts.slipping import SlipFacts
from mulewright.facts.work import RollingFacts, WorkFacts
from mulewright.models.arithmetic import difference, product, quotient
from mulewright.models.bus import total
from mulewright.models.heat import winding_heat
from mulewright.models.joint import needed_torque
from mulewright.models.motor import current_for_torque
from mulewright.models.regulator import linear_regulator_power, switching_regulator_input_current
from mulewright.models.rope import drum_torque


class SteadyMotorFacts(Facts):
    """A motor at the work that it was built in for, without a pause."""

    kind = "motor at steady work"
    none = "no motor is described"

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        return cls.each(evaluation, "motor")

    @property
    def motor(self) -> MotorFacts:
        """Its sheet."""
        return self.of(MotorFacts, self.id)

    @property
    def turns(self) -> str:
        """The wheel or mechanism that it turns."""
        return self.motor.motor.turns or ""

    @fact("N", "push that each wheel motor gives on the steepest slope, rolling included")
    def climbing_push(self) -> Value:
        pushing = self.of(RollingFacts, "drive").pushing
        return self.by(quotient, part=self.of(DrivingFacts, "drive").climbing_force, whole=pushing)

    @fact("N m", "torque at its wheel there")
    def climbing_torque(self) -> Value:
        radius = self.of(SlipFacts, self.id).standing.wheel.radius
        return self.by(drum_torque, force=self.climbing_push, radius=radius)

    @fact("N m", "torque at its shaft there")
    def climbing_shaft_torque(self) -> Value:
        return self.by(
            needed_torque, torque=self.climbing_torque, ratio=self.motor.ratio, efficiency=self.motor.train
        )

    @fact("A", "current through it at its hardest work: on the steepest slope where it turns a wheel")
    def hard_current(self) -> Value:
        if not self.turns.startswith("wheel."):
            return self.of(WorkFacts, self.id).steady_current
        return self.by(
            current_for_torque, torque=self.climbing_shaft_torque,
            torque_constant=self.motor.torque_constant, free_current=self.motor.free_current,
        )  # fmt: skip

    @fact("W", "heat in its winding then")
    def steady_heat(self) -> Value:
        return self.by(winding_heat, current=self.hard_current, resistance=self.motor.resistance)

    @fact("1", "its heat over what it sheds for ever")
    def heat_share(self) -> Value:
        return self.by(quotient, part=self.steady_heat, whole=self.of(SessionMotorFacts, self.id).shed_heat)

    @fact("K", "rise of its case above the air, in the long run")
    def case_rise(self) -> Value:
        return self.by(product, first=self.heat_share, second=self.assumed("motor_case_rise"))


class WarmRegulatorFacts(Facts):
    """A regulator that carries everything on its rail."""

    kind = "warm regulator"
    none = RegulatorFacts.none

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        return [evaluation.entity(cls, regulator.id) for regulator in RegulatorFacts.all(evaluation)]

    @property
    def regulator(self) -> RegulatorFacts:
        """Its sheet."""
        return self.of(RegulatorFacts, self.id)

    @property
    def _rail(self) -> str | None:
        supply = self.mule.supply
        net = supply.rail_nets.get(self.regulator.device)
        return supply.rail_names.get(net) if net is not None else None

    @fact("A", "average current of everything on its rail")
    def rail_current(self) -> Value:
        if self._rail is None:
            return self.found(0, f"{self.regulator.device} feeds no rail")
        return self.of(DemandFacts, self._rail).average

    @fact("A", "current that a switching regulator takes for it")
    def taken_current(self) -> Value:
        own = self.regulator
        return self.by(
            switching_regulator_input_current, input_voltage=own.input_voltage, output_voltage=own.output,
            current=self.rail_current, efficiency=self.assumed("regulator_efficiency.switching"),
        )  # fmt: skip

    @fact("W", "power that it takes")
    def taken_power(self) -> Value:
        return self.by(product, first=self.regulator.input_voltage, second=self.taken_current)

    @fact("W", "power that it passes on")
    def passed_power(self) -> Value:
        return self.by(product, first=self.regulator.output, second=self.rail_current)

    @fact("W", "heat in it")
    def lost_power(self) -> Value:
        own = self.regulator
        if own.choice("kind") == "switching":
            return self.by(difference, first=self.taken_power, second=self.passed_power)
        return self.by(
            linear_regulator_power, input_voltage=own.input_voltage, output_voltage=own.output,
            current=self.rail_current,
        )  # fmt: skip

    @fact("K", "rise of its surface above the air, in the long run")
    def surface_rise(self) -> Value:
        return self.by(product, first=self.lost_power, second=self.regulator.thermal_resistance)


class WarmControllerFacts(Facts):
    """A controller with its motors at steady work."""

    kind = "warm controller"
    none = "no controller is described"

    stage_resistance = given(key="resistance")

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        return cls.each(evaluation, "controller")

    @fact("A", "current through its power stage")
    def stage_current(self) -> Value:
        motors = self.mule.motors_of(self.id)
        if not motors:
            raise Missing(f"{self.id}.feeds")
        currents = [self.of(SteadyMotorFacts, motor).hard_current for motor in motors]
        return currents[0] if len(currents) == 1 else self.by(total, values=currents)

    @fact("W", "heat in its power stage")
    def stage_heat(self) -> Value:
        return self.by(winding_heat, current=self.stage_current, resistance=self.stage_resistance)

    @fact("K", "rise that this heat makes")
    def stage_rise(self) -> Value:
        return self.by(product, first=self.stage_heat, second=self.assumed("regulator_thermal_resistance"))

    @fact("K", "rise of its surface above the air, with that of its regulator")
    def surface_rise(self) -> Value:
        built_in = f"{self.id}.regulator"
        if built_in not in [regulator.id for regulator in RegulatorFacts.all(self.evaluation)]:
            return self.stage_rise
        return self.by(total, values=[self.stage_rise, self.of(WarmRegulatorFacts, built_in).surface_rise])


class TouchableFacts(Facts):
    """A hot part within reach, by its id: ``motor.arm``; ``body`` where nobody noted which there are."""

    kind = "hot part within reach"
    none = "no hot part is within reach"

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        file = evaluation.mule.file
        listed = file.body.touchable_hot
        if listed is None:
            listed = ["body"] if file.motor or file.controller or file.regulator else []
        return [evaluation.entity(cls, id) for id in listed]

    @fact("K", "rise of its surface above the air, at steady work")
    def touch_rise(self) -> Value:
        if self.id == "body":
            raise Missing("body.touchable_hot")
        if self.id not in self.mule.things:
            raise Missing(f"a motor, controller or regulator called {self.id}")
        kind = self.id.split(".", 1)[0]
        if kind == "motor":
            return self.of(SteadyMotorFacts, self.id).case_rise
        if kind == "controller":
            return self.of(WarmControllerFacts, self.id).surface_rise
        if kind == "regulator":
            return self.of(WarmRegulatorFacts, self.id).surface_rise
        raise Missing(f"a motor, controller or regulator called {self.id}")

    @fact("K", "temperature of the air")
    def air(self) -> Value:
        return self.assumed("air_temperature")

    @fact("K", "temperature of its surface, at steady work")
    def touch_temperature(self) -> Value:
        return self.by(total, values=[self.air, self.touch_rise])
