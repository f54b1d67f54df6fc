"""Facts about a rail whose servos are held fast in the very moment in which every motor is."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Self

from mulewright.facts.bus import ALL
from mulewright.facts.descriptors import fact
from mulewright.facts.graph import Evaluation, Facts
from mulewright.facts.nodes import Missing, Value
from mulewright.facts.rail import RailFacts
from mulewright.facts.rail_sag import SaggedRegulatorFacts
from mulewright.facts.regulators import RegulatorFacts
from mulewright.facts.sources import source_of
from mulewright.facts.wiring import RunFacts
from mulewright.models.arithmetic import largest
from mulewright.models.battery import sagged_voltage
from mulewright.models.bus import total
from mulewright.models.regulator import rail_voltage


class GrippingRegulatorFacts(Facts):
    """A regulator that carries all servos of its rail, held fast, while every motor is held fast too."""

    kind = "regulator while servos and motors are held"
    none = RegulatorFacts.none

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        supply = evaluation.mule.supply
        return [
            evaluation.entity(cls, one.id)
            for one in RegulatorFacts.all(evaluation)
            if supply.rail_nets[one.device] in supply.rail_names
        ]

    @property
    def own(self) -> RegulatorFacts:
        """The regulator."""
        return self.of(RegulatorFacts, self.id)

    @property
    def rail(self) -> RailFacts:
        """The rail that it feeds."""
        supply = self.mule.supply
        return self.of(RailFacts, supply.rail_names[supply.rail_nets[self.own.device]])

    @fact("ohm", "resistance from inside its supply to it, there and back")
    def way(self) -> Value:
        runs = [self.of(RunFacts, run.id).resistance for run in self.mule.supply.way_to(self.own.device)]
        return self.by(total, values=[source_of(self, self.own.device).resistance, *runs])

    @fact("V", "voltage at its input, the servos' current drawn on top of that of the motors")
    def held_input(self) -> Value:
        sagged = self.of(SaggedRegulatorFacts, f"{self.id}@{ALL}-stalled")
        return self.by(
            sagged_voltage, open_circuit_voltage=sagged.input_voltage, resistance=self.way,
            current=self.rail.demand.stalled,
        )  # fmt: skip

    @fact("V", "voltage that it still gives then")
    def held_output(self) -> Value:
        return self.by(
            rail_voltage, regulated_voltage=self.own.voltage, bus_voltage=self.held_input,
            dropout=self.own.dropout,
        )  # fmt: skip


class GrippingRailFacts(Facts):
    """A rail while its servos and every motor are held fast at once."""

    kind = "rail while servos and motors are held"
    none = RailFacts.none

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        return [evaluation.entity(cls, rail.id) for rail in RailFacts.all(evaluation)]

    @property
    def rail(self) -> RailFacts:
        """The rail."""
        return self.of(RailFacts, self.id)

    @property
    def apart(self) -> bool:
        """Whether the file says of every servo on it that it is used together with no motor."""
        return all(self._apart(servo.id) for servo in self.rail.demand.servos)

    def _apart(self, servo: str) -> bool:
        function = self.mule.function_of(servo) or ""
        own = getattr(self.mule.things[self.mule.functions.get(function, servo)], "used_with", None)
        motors = {*self.mule.motors_serving, *self.mule.drive_commands}
        named = (
            getattr(self.mule.things[f"mechanism.{name}"], "used_with", None) for name in self.mechanisms
        )
        return own is not None and not motors & {*own} and all(function not in (one or ()) for one in named)

    @property
    def mechanisms(self) -> list[str]:
        """The mechanisms that motors move."""
        return [name for name in self.mule.motors_serving if name in self.mule.file.mechanism]

    @fact("V", "voltage of the rail with its servos and every motor held fast at once")
    def held_voltage(self) -> Value:
        regulators = [self.of(GrippingRegulatorFacts, one.id).held_output for one in self.rail.regulators]
        if not regulators:
            raise Missing(f"a regulator that feeds {self.id}")
        return self.by(largest, values=regulators)
