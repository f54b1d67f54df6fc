"""Facts about motors: constants from the sheet, the gear stages behind them, the duty they get."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Self

from mulewright.design.schema.electrics import Gear, Motor
from mulewright.design.unsaid import FEEDS
from mulewright.facts.descriptors import fact, given
from mulewright.facts.graph import Evaluation, Facts
from mulewright.facts.nodes import Value
from mulewright.facts.outputs import ControllerSignalFacts
from mulewright.models.arithmetic import smallest
from mulewright.models.gear import (
    back_driving_efficiency,
    gearmotor_efficiency,
    stage_ratio,
    train_efficiency,
    train_ratio,
)
from mulewright.models.heat import winding_heat_capacity
from mulewright.models.motor_sheet import back_emf_constant, torque_constant, winding_resistance


class GearFacts(Facts):
    """One gear stage: ``motor.lift.gears.0``."""

    kind = "gear stage"
    none = "no gear stage is described"

    driver_teeth = given()
    driven_teeth = given()
    noted_ratio = given(key="ratio")
    noted_efficiency = given(key="efficiency")

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        return [
            evaluation.entity(cls, f"motor.{name}.gears.{place}")
            for name, motor in evaluation.mule.file.motor.items()
            for place in range(len(motor.gears or []))
        ]

    @fact("1", "motor turns for one turn of its far side")
    def ratio(self) -> Value:
        return self.first(
            ("from its teeth", lambda: self.by(
                stage_ratio, driver_teeth=self.driver_teeth, driven_teeth=self.driven_teeth
            )),
            ("as noted", lambda: self.noted_ratio),
        )  # fmt: skip

    @fact("1", "power out over power in")
    def efficiency(self) -> Value:
        gear = self.table
        assert isinstance(gear, Gear)
        if gear.efficiency is None and gear.kind is not None:
            return self.assumed(f"gear_efficiency.{gear.kind}")
        return self.noted_efficiency

    @fact("1", "power out over power in when the load drives it")
    def back_efficiency(self) -> Value:
        return self.by(back_driving_efficiency, efficiency=self.efficiency)


class MotorFacts(Facts):
    """A motor as its sheet describes it, with the gear stages that are built on."""

    kind = "motor"
    none = "no motor is described"

    nominal_voltage = given()
    free_speed = given()
    stall_torque = given()
    stall_current = given()
    free_current = given()
    copper_mass = given()

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        return cls.each(evaluation, "motor")

    @property
    def motor(self) -> Motor:
        """Its table."""
        assert isinstance(self.table, Motor)
        return self.table

    @property
    def controller(self) -> ControllerSignalFacts:
        """The controller that feeds it."""
        controller = self.mule.controller_of.get(self.id)
        if controller is None:
            raise self.missing(f"a controller that feeds {self.id}", FEEDS)
        return self.of(ControllerSignalFacts, controller)

    @property
    def stages(self) -> list[GearFacts]:
        """The gear stages from its shaft outwards."""
        return [
            self.of(GearFacts, f"{self.id}.gears.{place}") for place in range(len(self.motor.gears or []))
        ]

    @fact("ohm", "resistance of the winding")
    def resistance(self) -> Value:
        return self.by(winding_resistance, voltage=self.nominal_voltage, current=self.stall_current)

    @fact("N m/A", "torque at the shaft for each ampere above the free current")
    def torque_constant(self) -> Value:
        return self.by(
            torque_constant,
            torque=self.stall_torque,
            current=self.stall_current,
            free_current=self.free_current,
        )

    @fact("V s/rad", "volts that it generates for each radian a second of its shaft")
    def back_emf_constant(self) -> Value:
        return self.by(
            back_emf_constant, voltage=self.nominal_voltage, free_current=self.free_current,
            resistance=self.resistance, free_speed=self.free_speed,
        )  # fmt: skip

    @fact("1", "efficiency that its own sheet shows: a built-in gearbox, or brushes, take the rest")
    def sheet_efficiency(self) -> Value:
        return self.by(
            gearmotor_efficiency,
            torque_constant=self.torque_constant,
            back_emf_constant=self.back_emf_constant,
        )

    @fact("1", "the same, and not above 1 where a sheet promises more than there can be")
    def believed_efficiency(self) -> Value:
        return self.by(smallest, values=[self.sheet_efficiency, 1.0])

    @fact("1", "efficiency of what is built in when the load drives it")
    def sheet_back_efficiency(self) -> Value:
        return self.by(back_driving_efficiency, efficiency=self.believed_efficiency)

    @fact("1", "motor turns for one turn of what it turns")
    def ratio(self) -> Value:
        if not self.stages:
            return self.found(1, "no gear stage is written: the shaft turns it directly")
        return self.by(train_ratio, ratios=[stage.ratio for stage in self.stages])

    @fact("1", "power that passes the gear stages, driving")
    def train(self) -> Value:
        if not self.stages:
            return self.found(1, "no gear stage is written: nothing is lost in one")
        return self.by(train_efficiency, efficiencies=[stage.efficiency for stage in self.stages])

    @fact("1", "power that passes the gear stages when the load drives")
    def train_back(self) -> Value:
        if not self.stages:
            return self.found(1, "no gear stage is written: nothing is lost in one")
        return self.by(train_efficiency, efficiencies=[stage.back_efficiency for stage in self.stages])

    @fact("1", "share of the supply that it gets at full stick")
    def duty(self) -> Value:
        return self.controller.full_duty

    @fact("J/K", "heat that warms its winding by one kelvin")
    def heat_capacity(self) -> Value:
        return self.by(winding_heat_capacity, copper_mass=self.copper_mass)
