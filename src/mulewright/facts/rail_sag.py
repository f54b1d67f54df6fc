"""Facts about receiver rails at the worst moment: how far they fall while every motor is held fast."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Self

from mulewright.facts.bus import ALL, CaseFacts
from mulewright.facts.descriptors import fact
from mulewright.facts.graph import Evaluation, Facts
from mulewright.facts.nodes import Value
from mulewright.facts.rail import RailFacts
from mulewright.facts.regulators import RegulatorFacts
from mulewright.models.arithmetic import largest
from mulewright.models.regulator import rail_voltage


class SaggedRegulatorFacts(Facts):
    """A regulator while every motor is held fast: ``controller.left.regulator@all-stalled``."""

    kind = "regulator in the sag"
    none = RegulatorFacts.none

    def __init__(self, evaluation: Evaluation, id: str) -> None:
        super().__init__(evaluation, id)
        regulator, case = id.split("@")
        self.regulator = self.of(RegulatorFacts, regulator)
        self.case = self.of(CaseFacts, case)

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        return [
            evaluation.entity(cls, f"{regulator.id}@{ALL}-stalled")
            for regulator in RegulatorFacts.all(evaluation)
        ]

    @fact("V", "voltage at its input")
    def input_voltage(self) -> Value:
        return self.case.place(self.regulator.device).voltage

    @fact("V", "voltage that it still gives")
    def output(self) -> Value:
        own = self.regulator
        return self.by(
            rail_voltage, regulated_voltage=own.voltage, bus_voltage=self.input_voltage, dropout=own.dropout
        )


class SaggedRailFacts(Facts):
    """A receiver rail while every motor is held fast."""

    kind = "receiver rail in the sag"
    none = RailFacts.none

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        return [evaluation.entity(cls, rail.id) for rail in RailFacts.all(evaluation)]

    @property
    def rail(self) -> RailFacts:
        """The rail."""
        return self.of(RailFacts, self.id)

    @fact("V", "voltage of the rail with every motor held fast at full stick, from the rested battery")
    def lowest_voltage(self) -> Value:
        if not self.rail.regulators and not self.rail.packs:
            return self.found(0, "nothing feeds it")
        regulators = [
            self.of(SaggedRegulatorFacts, f"{one.id}@{ALL}-stalled").output for one in self.rail.regulators
        ]
        return self.by(largest, values=[*regulators, *(pack.rested for pack in self.rail.packs)])
