"""Facts about a pack in use: at which rest volts one changes it, and with which one puts it away."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Self

from mulewright.facts.descriptors import fact
from mulewright.facts.graph import Evaluation, Facts
from mulewright.facts.nodes import Value
from mulewright.facts.wiring import BatteryFacts
from mulewright.models.battery import pack_voltage


class PackCareFacts(Facts):
    """A pack in use."""

    kind = "battery"
    none = BatteryFacts.none

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        return [evaluation.entity(cls, battery.id) for battery in BatteryFacts.all(evaluation)]

    def _pack(self, row: str) -> Value:
        cell = self.assumed(f"{row}.{self.choice('chemistry')}")
        return self.by(pack_voltage, cells_in_series=self.of(BatteryFacts, self.id).cells, cell_voltage=cell)

    @fact("V", "volts after a minute of rest at which one changes it")
    def swap_voltage(self) -> Value:
        return self._pack("cell_swap")


class StoredPackFacts(PackCareFacts):
    """A pack of lithium cells, which is put away neither full nor empty."""

    kind = "battery of lithium cells"
    none = "no lithium cells are described"

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        packs = [battery for battery in BatteryFacts.all(evaluation) if is_lithium(battery)]
        return [evaluation.entity(cls, battery.id) for battery in packs]

    @fact("V", "volts at rest with which one puts it away")
    def storage_voltage(self) -> Value:
        return self._pack("cell_storage")


def is_lithium(battery: BatteryFacts) -> bool:
    """Whether a pack is noted as made of lithium cells."""
    chemistry = battery.mule.file.battery[battery.id.split(".", 1)[1]].chemistry
    return (chemistry or "").startswith(("lithium", "iron"))
