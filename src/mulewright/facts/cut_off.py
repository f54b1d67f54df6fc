"""Facts about controllers that switch off at low volts: where they do so, and where the pack is empty."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Self

from mulewright.design.schema.electrics import Controller
from mulewright.design.unsaid import WIRES
from mulewright.facts.descriptors import fact, given
from mulewright.facts.graph import Evaluation, Facts
from mulewright.facts.nodes import Missing, Value
from mulewright.facts.sources import BENCH
from mulewright.facts.wiring import BatteryFacts
from mulewright.models.arithmetic import difference, magnitude, quotient
from mulewright.models.battery import pack_voltage


class CutOffFacts(Facts):
    """A controller's own cut-off, beside the pack that feeds it."""

    kind = "controller's cut-off"
    none = "no controller is described"

    cut_off_voltage = given()
    cut_off_cells = given()

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        return cls.each(evaluation, "controller")

    @property
    def cuts(self) -> bool:
        """Whether it has a cut-off.

        Raises
        ------
        Missing
            If nothing is said about one.
        """
        own = self.table
        assert isinstance(own, Controller)
        said = (own.cut_off, own.cut_off_voltage, own.cut_off_chemistry, own.cut_off_cells)
        if own.cuts_off is None and not any(said):
            raise Missing(f"{self.id}.cuts_off")
        return own.cuts_off is not False

    @property
    def set_for(self) -> str | None:
        """The kind of cells that it is set for, where that is noted."""
        own = self.table
        assert isinstance(own, Controller)
        return own.cut_off_chemistry

    @property
    def set_for_other(self) -> bool:
        """Whether it is noted that it is set for cells of another kind than those of its pack."""
        return self.set_for is not None and _kind(self.set_for) != _kind(self.battery.choice("chemistry"))

    @fact("1", "1 where it is set for cells of another kind than those of its pack")
    def other_cells(self) -> Value:
        pack: str = self.battery.choice("chemistry")
        if self.set_for is None:
            return self.found(0, "the kind of cells that it is set for is not noted; its volts are compared")
        return self.found(float(self.set_for_other), f"it is set for {self.set_for}, its pack is {pack}")

    @property
    def on_bench(self) -> str:
        """The bench supply that feeds it, which does not run empty; nothing where it is no such thing."""
        source = self.mule.supply.source_of(self.id) or ""
        return source if source.startswith(BENCH) else ""

    @property
    def battery(self) -> BatteryFacts:
        """The pack that feeds it."""
        source = self.mule.supply.source_of(self.id)
        if source is None or not source.startswith("battery."):
            raise self.missing(f"a wire from a battery to {self.id}", WIRES)
        return self.of(BatteryFacts, source)

    @property
    def counted(self) -> bool:
        """Whether it is noted for how many cells it is set."""
        return self.table.quantity("cut_off_cells") is not None

    @fact("1", "cells of its pack less those that it is set for")
    def more_cells(self) -> Value:
        return self.by(difference, first=self.battery.cells, second=self.cut_off_cells)

    @fact("1", "cells by which it is set wrongly, up or down")
    def cells_off(self) -> Value:
        return self.by(magnitude, value=self.more_cells)

    @fact("V", "volts at which the pack that feeds it is empty")
    def empty(self) -> Value:
        cell = self.assumed(f"cell_empty.{self.battery.choice('chemistry')}")
        return self.by(pack_voltage, cells_in_series=self.battery.cells, cell_voltage=cell)

    @fact("1", "volts at which it switches off over those at which the pack is empty")
    def cut_share(self) -> Value:
        return self.by(quotient, part=self.cut_off_voltage, whole=self.empty)


def _kind(chemistry: str) -> str:
    """Cells that are empty at the same volts count as one kind."""
    return "lithium" if chemistry.startswith("lithium") else chemistry
