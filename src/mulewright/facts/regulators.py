"""Facts about regulators (BEC): what each gives, and how warm it gets if it carries its rail alone."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Self

from mulewright.facts.consumers import DemandFacts
from mulewright.facts.descriptors import fact, given
from mulewright.facts.graph import Evaluation, Facts
from mulewright.facts.nodes import Value
from mulewright.facts.sources import source_of
from mulewright.models.regulator import linear_regulator_rise, rail_voltage


class RegulatorFacts(Facts):
    """The regulator in a controller, ``controller.lift.regulator``, or one on its own, ``regulator.x``."""

    kind = "regulator"
    none = "no regulator is described"

    voltage = given()
    current = given()
    peak_current = given()
    set_dropout = given(key="dropout")
    thermal_resistance = given(assume="regulator_thermal_resistance")

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        file = evaluation.mule.file
        built_in = [
            f"controller.{name}.regulator"
            for name, controller in file.controller.items()
            if controller.regulator is not None and controller.regulator.kind != "none"
        ]
        return [
            evaluation.entity(cls, id)
            for id in (*built_in, *(f"regulator.{name}" for name in file.regulator))
        ]

    @property
    def type(self) -> str | None:
        """Linear, switching, or None where nobody noted it."""
        kind: str | None = getattr(self.table, "kind")  # noqa: B009  (the class of the table is not known)
        return kind

    @property
    def device(self) -> str:
        """The controller that it is built into, or the regulator itself."""
        return self.id.removesuffix(".regulator")

    @fact("V", "volts that it needs above its output")
    def dropout(self) -> Value:
        if self.table.quantity("dropout") is None:
            return self.assumed(f"regulator_dropout.{self.choice('kind')}")
        return self.set_dropout

    @fact("A", "current that it gives for a moment")
    def peak(self) -> Value:
        if self.table.quantity("peak_current") is None:
            return self.current
        return self.peak_current

    @fact("V", "voltage at its input, from the rested battery")
    def input_voltage(self) -> Value:
        return source_of(self, self.device).rested

    @fact("V", "voltage that it gives from the rested battery")
    def output(self) -> Value:
        return self.by(
            rail_voltage, regulated_voltage=self.voltage, bus_voltage=self.input_voltage, dropout=self.dropout
        )


class LinearFacts(Facts):
    """A linear regulator that feeds a rail, by the id of the regulator."""

    kind = "linear regulator on a rail"
    none = "no linear regulator feeds a rail"

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        supply = evaluation.mule.supply
        return [
            evaluation.entity(cls, regulator.id)
            for regulator in RegulatorFacts.all(evaluation)
            if regulator.type == "linear" and supply.rail_nets[regulator.device] in supply.rail_names
        ]

    @property
    def regulator(self) -> RegulatorFacts:
        """The regulator."""
        return self.of(RegulatorFacts, self.id)

    @property
    def demand(self) -> DemandFacts:
        """What the rail asks that it feeds."""
        supply = self.mule.supply
        return self.of(DemandFacts, supply.rail_names[supply.rail_nets[self.regulator.device]])

    @fact("K", "temperature above the air if it carries everything on its rail, in the long run")
    def rise(self) -> Value:
        own = self.regulator
        return self.by(
            linear_regulator_rise, input_voltage=own.input_voltage, output_voltage=own.output,
            current=self.demand.average, thermal_resistance=own.thermal_resistance,
        )  # fmt: skip
