"""Facts about packs at the worst moment: sag, short circuit, the way to the first fuse, leads that join."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Self

from mulewright.design.reads import kept
from mulewright.design.schema.electrics import Battery
from mulewright.design.supply import Run
from mulewright.facts.bench import BenchFacts
from mulewright.facts.bus import ALL, CaseFacts
from mulewright.facts.descriptors import fact, given
from mulewright.facts.graph import Evaluation, Facts
from mulewright.facts.nodes import Missing, Value
from mulewright.facts.sources import Source, source_of
from mulewright.facts.wiring import BatteryFacts, FuseFacts
from mulewright.models.arithmetic import largest, quotient
from mulewright.models.wire import drop_fraction


class PackFacts(Facts):
    """A pack, with every motor held fast, or its lead pinched."""

    kind = "pack at the worst moment"
    none = BatteryFacts.none

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        return [evaluation.entity(cls, battery.id) for battery in BatteryFacts.all(evaluation)]

    @property
    def battery(self) -> BatteryFacts:
        """The pack."""
        return self.of(BatteryFacts, self.id)

    # --- every motor held fast

    @property
    def case(self) -> CaseFacts:
        """The case that every motor is held fast at full stick."""
        return self.of(CaseFacts, f"{ALL}-stalled")

    @property
    def drives(self) -> bool:
        """Whether the current of a motor comes out of it."""
        return self.case.carries(self.id)

    @fact("A", "current out of it with every motor held fast, solved together with its sag and all wires")
    def peak(self) -> Value:
        return self.case.place(self.id).outflow

    @fact("1", "share of its rested volts that this current costs inside it")
    def sag(self) -> Value:
        own = self.battery
        return self.by(
            drop_fraction, current=self.peak, resistance=own.resistance, supply_voltage=own.rested
        )  # fmt: skip

    # --- a pinched lead

    @kept
    def runs(self) -> list[Run]:
        """The runs of wire that leave it."""
        return self.mule.supply.runs_from(self.id)

    @property
    def unfused(self) -> list[str]:
        """The wires among them in which no fuse lies."""
        return [run.wire for run in self.runs if not _fuses(run)]

    @fact("A", "current that it can give into a short circuit")
    def short_circuit(self) -> Value:
        return self.by(quotient, part=self.battery.rested, whole=self.battery.resistance)

    @fact("m", "longest piece of wire between it and the first fuse")
    def bare_wire(self) -> Value:
        if self.unfused or not self.runs:
            raise Missing(f"a fuse in {' and '.join(self.unfused) or 'a wire'} at {self.id}")
        fuses = [self.of(FuseFacts, _fuses(run)[0]) for run in self.runs]
        return self.by(largest, values=[fuse.from_battery for fuse in fuses])


class FreshPackFacts(Facts):
    """A controller on a pack that comes straight off the charger."""

    kind = "controller on a fresh pack"
    none = "no controller is described"

    max_voltage = given()

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        return cls.each(evaluation, "controller")

    @property
    def source(self) -> Source:
        """The pack, or the bench supply, that feeds it."""
        return source_of(self, self.id)

    @property
    def words(self) -> str:
        """What it is, for people."""
        bench = isinstance(self.source, BenchFacts)
        return f"{self.source.id} is set to" if bench else f"Fresh off the charger {self.source.id} has"

    @property
    def rests_first(self) -> bool:
        """Whether the file says that the pack is not driven straight off the charger."""
        table = self.source.table
        return isinstance(table, Battery) and table.off_charger is False

    @fact("1", "volts of the fresh pack over the highest that the controller bears")
    def fresh_share(self) -> Value:
        return self.by(quotient, part=self.source.full, whole=self.max_voltage)


class PowerLeadFacts(Facts):
    """A Y-lead that joins packs."""

    kind = "power Y-lead"
    none = "no Y-lead joins packs"

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        leads = evaluation.mule.file.y_lead.items()
        return [evaluation.entity(cls, f"y_lead.{name}") for name, lead in leads if lead.carries == "power"]

    @fact("1", "1 where it joins its packs one behind the other")
    def in_series(self) -> Value:
        kind = self.choice("kind")
        return self.found(float(kind == "series"), f"it joins them in {kind}")


def _fuses(run: Run) -> list[str]:
    return [item for item in run.through if item.startswith("fuse.")]
