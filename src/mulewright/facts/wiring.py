"""Facts about wires, fuses and switches: resistance, what they bear, what is the thinnest behind a fuse."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Self

from mulewright.design.reads import kept
from mulewright.design.schema.electrics import Wire
from mulewright.design.supply import Run
from mulewright.facts.descriptors import fact, given
from mulewright.facts.graph import Evaluation, Facts
from mulewright.facts.nodes import Missing, Value
from mulewright.models.ampacity import tabled_current
from mulewright.models.arithmetic import product, smallest
from mulewright.models.battery import pack_voltage
from mulewright.models.bus import total
from mulewright.models.fuse import fuse_ratio
from mulewright.models.wire import copper_mass, copper_wire_resistance
from mulewright.shelf.tables import column

AMPACITY_TABLE = "short-chassis"


class BatteryFacts(Facts):
    """A pack in use."""

    kind = "battery"
    none = "no battery is described"

    rested = given()
    fresh = given()
    resistance = given()
    alarm = given()
    cells = given()

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        packs = evaluation.mule.file.battery.items()
        return [evaluation.entity(cls, f"battery.{name}") for name, pack in packs if pack.in_use is not False]

    @property
    def lithium(self) -> bool:
        """Whether its cells are lithium."""
        chemistry: str = self.choice("chemistry")
        return chemistry.startswith(("lithium", "iron"))

    @fact("V", "volts straight off the charger")
    def full(self) -> Value:
        return self.first(("as noted", lambda: self.fresh), ("from its cells", self._from_cells))

    def _from_cells(self) -> Value:
        cell = self.assumed(f"cell_fresh.{self.choice('chemistry')}")
        return self.by(pack_voltage, cells_in_series=self.cells, cell_voltage=cell)

    @property
    def watches(self) -> list[str]:
        """What watches its voltage: an alarm on it, cut-offs in controllers that it feeds."""
        own = self.mule.file.battery[self.id.split(".", 1)[1]]
        alarm = [] if own.alarm is None else [f"an alarm at {own.alarm.text} a cell"]
        cutting = (
            f"controller.{name}"
            for name, controller in self.mule.file.controller.items()
            if controller.cut_off is not None or controller.cut_off_voltage is not None
        )
        return alarm + [
            f"a cut-off in {one}" for one in cutting if self.mule.supply.source_of(one) == self.id
        ]

    @fact("1", "1 where an alarm on it or a cut-off in a controller on it watches its voltage")
    def watched(self) -> Value:
        return self.found(
            bool(self.watches), f"what watches it: {', '.join(self.watches) or 'nothing written'}"
        )


class WireFacts(Facts):
    """A wire as it was typed; one table may stand for several equal runs."""

    kind = "wire"
    none = "no wire is described"

    gauge = given()
    length = given()
    temperature = given(assume="copper_temperature")
    contact_resistance = given()
    noted_ampacity = given(key="ampacity")

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        return cls.each(evaluation, "wire")

    @fact("m", "length of copper there and back")
    def both_ways(self) -> Value:
        return self.by(product, first=2.0, second=self.length)

    @fact("ohm", "resistance of the copper there and back")
    def copper(self) -> Value:
        return self.by(
            copper_wire_resistance, length=self.both_ways, area=self.gauge, temperature=self.temperature
        )

    @fact("kg", "mass of the copper there and back")
    def copper_mass(self) -> Value:
        return self.by(copper_mass, length=self.both_ways, area=self.gauge)

    @fact("ohm", "resistance of one conductor")
    def one_way(self) -> Value:
        return self.by(
            copper_wire_resistance, length=self.length, area=self.gauge, temperature=self.temperature
        )

    @fact("ohm", "resistance of the minus; all noted plugs are taken to lie in it")
    def minus(self) -> Value:
        return self.first(
            ("with its plugs", lambda: self.by(total, values=[self.one_way, self.contact_resistance])),
            ("copper alone; plugs are not noted", lambda: self.one_way),
        )

    @fact("ohm", "resistance there and back with its plugs, as far as they are noted")
    def loop(self) -> Value:
        return self.first(
            ("with its plugs", lambda: self.by(total, values=[self.copper, self.contact_resistance])),
            ("copper alone; plugs are not noted", lambda: self.copper),
        )

    @fact("A", "current that the wire bears in a short run")
    def ampacity(self) -> Value:
        wire = self.table
        assert isinstance(wire, Wire)
        chosen = wire.ampacity_table or AMPACITY_TABLE
        areas, amps = column(chosen)
        return self.first(
            ("noted", lambda: self.noted_ampacity),
            (f"table {chosen}", lambda: self.by(tabled_current, area=self.gauge, areas=areas, currents=amps)),
        )


class SeriesFacts(Facts):
    """A fuse or switch in a run."""

    kind = "fuse or switch"
    none = "no fuse or switch is described"

    resistance = given()

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        items = evaluation.mule.supply.run_through
        return [evaluation.entity(cls, item) for item in items if item.startswith(("fuse.", "switch."))]


class RunFacts(Facts):
    """One run of wire with what lies in it: ``wire.branches>controller.left``."""

    kind = "run"
    none = "no wire is described"

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        return [evaluation.entity(cls, run.id) for run in evaluation.mule.supply.runs]

    @kept
    def run(self) -> Run:
        """The run itself."""
        return self.mule.supply.run_by_id[self.id]

    @property
    def wire(self) -> WireFacts:
        """The wire that it is made of."""
        return self.of(WireFacts, self.run.wire)

    @fact("ohm", "resistance of the run, there and back, with the fuses and switches whose own is noted")
    def resistance(self) -> Value:
        series = [
            self.of(SeriesFacts, item).resistance
            for item in self.run.through
            if item.startswith(("fuse.", "switch."))
            and self.mule.things[item].quantity("resistance") is not None
        ]
        return self.by(total, values=[self.wire.loop, *series]) if series else self.wire.loop


class FuseFacts(Facts):
    """A fuse and what it protects."""

    kind = "fuse"
    none = "no fuse is described"

    rating = given()
    from_battery = given()

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        return cls.each(evaluation, "fuse")

    @kept
    def run(self) -> Run:
        """The run that it lies in."""
        run = self.mule.supply.run_through.get(self.id)
        if run is None:
            raise Missing(f"a wire whose path goes through {self.id}")
        return run

    @property
    def protected(self) -> list[WireFacts]:
        """The wires behind it, up to the next fuse, or to a regulator, which limits the current."""
        names = dict.fromkeys(run.wire for run in self.mule.supply.beyond(self.run))
        return [self.of(WireFacts, name) for name in names]

    @fact("A", "current that the thinnest wire behind it bears")
    def thinnest(self) -> Value:
        return self.by(smallest, values=[wire.ampacity for wire in self.protected])

    @fact("1", "its rating over what the thinnest wire behind it bears")
    def over_wire(self) -> Value:
        return self.by(fuse_ratio, rating=self.rating, ampacity=self.thinnest)
