"""Facts about packs that a lead joins in parallel: whether they are alike, and how far their cells are apart."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Self

from mulewright.design.schema.electrics import YLead
from mulewright.facts.descriptors import fact
from mulewright.facts.graph import Evaluation, Facts
from mulewright.facts.nodes import Missing, Value
from mulewright.facts.packs import PowerLeadFacts
from mulewright.facts.wiring import BatteryFacts
from mulewright.models.arithmetic import difference, largest, quotient, smallest


class CellVoltsFacts(Facts):
    """One cell of a pack at rest."""

    kind = "cell of a pack"
    none = BatteryFacts.none

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        return [evaluation.entity(cls, battery.id) for battery in BatteryFacts.all(evaluation)]

    @fact("V", "volts of each of its cells at rest")
    def rested_cell(self) -> Value:
        pack = self.of(BatteryFacts, self.id)
        return self.by(quotient, part=pack.rested, whole=pack.cells)


class JoinedPacksFacts(Facts):
    """Packs on one Y-lead."""

    kind = "joined packs"
    none = PowerLeadFacts.none

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        return [evaluation.entity(cls, lead.id) for lead in PowerLeadFacts.all(evaluation)]

    @property
    def in_series(self) -> bool:
        """Whether it joins its packs one behind the other."""
        return bool(self.choice("kind") == "series")

    @property
    def names(self) -> list[str]:
        """The packs that it joins.

        Raises
        ------
        Missing
            If they are not named.
        """
        lead = self.table
        assert isinstance(lead, YLead)
        if not lead.joins:
            raise Missing(f"{self.id}.joins")
        return lead.joins

    @property
    def packs(self) -> list[BatteryFacts]:
        """Their facts."""
        return [self.of(BatteryFacts, name) for name in self.names]

    @property
    def chemistries(self) -> str:
        """What is in their cells, for people."""
        return " and ".join(f"{pack.choice('chemistry')} ({pack.id})" for pack in self.packs)

    @fact("1", "1 where their cells are of one kind")
    def alike(self) -> Value:
        kinds = {pack.choice("chemistry") for pack in self.packs}
        return self.found(float(len(kinds) < 2), self.chemistries)

    @fact("1", "most cells in series among them")
    def most_cells(self) -> Value:
        return self.by(largest, values=[pack.cells for pack in self.packs])

    @fact("1", "fewest cells in series among them")
    def fewest_cells(self) -> Value:
        return self.by(smallest, values=[pack.cells for pack in self.packs])

    @fact("1", "cells that one of them has more than another")
    def more_cells(self) -> Value:
        return self.by(difference, first=self.most_cells, second=self.fewest_cells)

    @property
    def _cells(self) -> list[Value]:
        return [self.of(CellVoltsFacts, name).rested_cell for name in self.names]

    @fact("V", "volts of the fullest cells among them")
    def highest_cell(self) -> Value:
        return self.by(largest, values=self._cells)

    @fact("V", "volts of the emptiest cells among them")
    def lowest_cell(self) -> Value:
        return self.by(smallest, values=self._cells)

    @fact("V", "how far their cells are apart")
    def cells_apart(self) -> Value:
        return self.by(difference, first=self.highest_cell, second=self.lowest_cell)
