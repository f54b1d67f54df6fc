"""Facts about receiver rails: what feeds each, whether its sources agree, what it can give and must."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Self

from mulewright.design.reads import kept
from mulewright.facts.consumers import DemandFacts, ServoDrawFacts
from mulewright.facts.descriptors import fact
from mulewright.facts.graph import Evaluation, Facts
from mulewright.facts.nodes import Missing, Value
from mulewright.facts.regulators import LinearFacts, RegulatorFacts
from mulewright.facts.wiring import BatteryFacts
from mulewright.models.arithmetic import difference, largest, quotient, smallest
from mulewright.models.bus import total
from mulewright.models.regulator import of_highest, parallel_planning_current


class RailFacts(Facts):
    """Middle wires that are joined, with something that draws from them: ``rail.receiver``."""

    kind = "receiver rail"
    none = DemandFacts.none

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        return [evaluation.entity(cls, demand.id) for demand in DemandFacts.all(evaluation)]

    @property
    def demand(self) -> DemandFacts:
        """What it has to give."""
        return self.of(DemandFacts, self.id)

    @property
    def carries_signals(self) -> bool:
        """Whether a receiver or a tester is on it, and not only what listens to one."""
        return any(not thing.startswith(("servo.", "mixer.")) for thing in self.demand.certain("draws"))

    # --- what feeds it

    @kept
    def sources(self) -> list[str]:
        """Controllers, regulators and packs that feed it.

        Raises
        ------
        Missing
            If that is not certain.
        """
        return self.demand.all_with("feeds")

    @property
    def packs(self) -> list[BatteryFacts]:
        """The packs among them, which no regulator limits."""
        return [self.of(BatteryFacts, source) for source in self.sources if source.startswith("battery.")]

    @kept
    def regulators(self) -> list[RegulatorFacts]:
        """The regulators among them."""
        devices = [source for source in self.sources if not source.startswith("battery.")]
        return [self.of(RegulatorFacts, regulator_id(device)) for device in devices]

    @kept
    def linear(self) -> list[LinearFacts]:
        """The linear ones among the regulators."""
        for regulator in self.regulators:
            if regulator.type is None:
                raise Missing(f"{regulator.id}.kind")
        return [self.of(LinearFacts, one.id) for one in self.regulators if one.type == "linear"]

    @property
    def switching(self) -> bool:
        """Whether a switching regulator is certainly among its sources."""
        certain = (source for source in self.demand.certain("feeds") if not source.startswith("battery."))
        return any(self.of(RegulatorFacts, regulator_id(device)).type == "switching" for device in certain)

    @fact("1", "1 where something feeds it")
    def fed(self) -> Value:
        sources = self.demand.certain("feeds")
        if sources:
            return self.found(1, f"{', '.join(sources)} feed it")
        if self.demand.perhaps("feeds"):
            raise Missing(*self.demand.net.unknown)
        return self.found(0, "no regulator and no pack is joined to it")

    @fact("1", "sources that feed it; further ones may, where that is not noted")
    def source_count(self) -> Value:
        sources = self.demand.certain("feeds")
        if len(sources) < 2 and self.demand.perhaps("feeds"):
            raise Missing(*self.demand.net.unknown)
        return self.found(len(sources), f"it is fed by {', '.join(sources) or 'nothing'}")

    @fact("1", "1 where a pack and a regulator meet on it")
    def pack_beside_regulator(self) -> Value:
        certain, perhaps = self.demand.certain("feeds"), self.demand.perhaps("feeds")
        meet = _pack_and_regulator(certain)
        if perhaps and not meet and _pack_and_regulator([*certain, *perhaps]):
            raise Missing(*self.demand.net.unknown)
        return self.found(float(meet), f"it is fed by {', '.join(certain) or 'nothing'}")

    @fact("1", "linear regulators that feed it")
    def linear_count(self) -> Value:
        names = [one.regulator.device for one in self.linear]
        return self.found(len(names), f"linear regulators on it: {', '.join(names) or 'none'}")

    # --- its volts

    @property
    def voltages(self) -> list[Value]:
        """Volts of every source."""
        regulated = [regulator.voltage for regulator in self.regulators]
        return [*regulated, *(pack.rested for pack in self.packs)]

    @fact("V", "voltage of the source set highest, which carries the rail")
    def voltage(self) -> Value:
        return self.by(largest, values=self._fed_voltages())

    @fact("V", "voltage of the source set lowest")
    def lowest(self) -> Value:
        return self.by(smallest, values=self._fed_voltages())

    @fact("V", "how far the volts of its sources lie apart")
    def spread(self) -> Value:
        return self.by(difference, first=self.voltage, second=self.lowest)

    def _fed_voltages(self) -> list[Value]:
        if not self.sources:
            raise Missing(f"something that feeds {self.id}")
        return self.voltages

    # --- what it can give

    @property
    def _limited(self) -> list[RegulatorFacts]:
        if self.packs or not self.regulators:
            raise Missing(f"regulators, and no pack, that feed {self.id}")
        return self.regulators

    @fact("A", "current to plan on: the strongest of its regulators, because one of them carries all")
    def planned(self) -> Value:
        return self.by(parallel_planning_current, ratings=[one.current for one in self._limited])

    @fact("A", "current that one would hope for: all its regulators together")
    def hoped(self) -> Value:
        return self.by(total, values=[one.current for one in self._limited])

    @fact("A", "current to plan on for a moment")
    def planned_peak(self) -> Value:
        return self.by(parallel_planning_current, ratings=[one.peak for one in self._limited])

    @fact("1", "average current over what its regulators give for ever")
    def average_share(self) -> Value:
        return self.by(quotient, part=self.demand.average, whole=self.planned)

    @fact("1", "current of all its servos held fast over what its regulators give for a moment")
    def stall_share(self) -> Value:
        return self.by(quotient, part=self.demand.stalled, whole=self.planned_peak)

    @fact("K", "rise of the linear regulator that carries the rail: the one set highest")
    def rise(self) -> Value:
        if not self.linear:
            raise Missing(f"a linear regulator that feeds {self.id}")
        return self.by(
            of_highest, voltages=[one.regulator.voltage for one in self.linear],
            values=[one.rise for one in self.linear],
        )  # fmt: skip

    @fact("1", "that rise over what such a regulator bears")
    def rise_share(self) -> Value:
        return self.by(quotient, part=self.rise, whole=self.assumed("regulator_rise"))


class ServoRailFacts(Facts):
    """A servo and the volts of its rail."""

    kind = "servo and its volts"
    none = ServoDrawFacts.none

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        return [evaluation.entity(cls, servo.id) for servo in ServoDrawFacts.all(evaluation)]

    @property
    def servo(self) -> ServoDrawFacts:
        """The servo."""
        return self.of(ServoDrawFacts, self.id)

    @property
    def rail(self) -> RailFacts:
        """The rail that feeds it."""
        return self.of(RailFacts, self.servo.rail)

    @fact("1", "volts of its rail over the highest that it bears")
    def voltage_share(self) -> Value:
        return self.by(quotient, part=self.rail.voltage, whole=self.servo.max_voltage)


def _pack_and_regulator(sources: Sequence[str]) -> bool:
    """Whether both kinds are among the sources."""
    return len({source.startswith("battery.") for source in sources}) > 1


def regulator_id(device: str) -> str:
    """The id of the regulator in a controller, or of one of its own."""
    return f"{device}.regulator" if device.startswith("controller.") else device
