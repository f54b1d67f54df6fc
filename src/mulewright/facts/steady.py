"""Facts about currents that flow for long, and the peaks above them: in each wire, board and pack."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Self

from mulewright.design.reads import kept
from mulewright.design.supply import Run
from mulewright.design.unsaid import FEEDS, WIRES
from mulewright.facts.bus import ALL, BranchFacts, CaseFacts
from mulewright.facts.descriptors import fact, given
from mulewright.facts.graph import Evaluation, Facts
from mulewright.facts.nodes import Missing, Value
from mulewright.facts.packs import PackFacts
from mulewright.facts.wiring import BatteryFacts, WireFacts
from mulewright.models.arithmetic import largest, product, quotient
from mulewright.models.battery import run_time

WORKING, STALLED = f"{ALL}-working", f"{ALL}-stalled"


class WireLoadFacts(Facts):
    """A wire with every motor at its work, or held fast; of several equal runs the one that carries most."""

    kind = "loaded wire"
    none = WireFacts.none

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        return [evaluation.entity(cls, wire.id) for wire in WireFacts.all(evaluation)]

    @property
    def wire(self) -> WireFacts:
        """The wire."""
        return self.of(WireFacts, self.id)

    @kept
    def runs(self) -> list[Run]:
        """Its runs through which the current of a motor goes."""
        if getattr(self.table, "path") is None:  # noqa: B009  (the class of the table is not known)
            raise Missing(f"{self.id}.path")
        way = self.of(CaseFacts, STALLED).on_the_way
        found = [run for run in self.mule.supply.runs_of.get(self.id, []) if run.end in way]
        if not found:
            self.require_said(FEEDS, WIRES)
        return found

    def _most(self, case: str) -> Value:
        if not self.runs:
            return self.found(0, "the current of no motor goes through it")
        return self.by(
            largest, values=[self.of(BranchFacts, f"{run.id}@{case}").current for run in self.runs]
        )

    @fact("A", "current in it for long: every motor at its work at full stick")
    def steady(self) -> Value:
        return self._most(WORKING)

    @fact("A", "current in it with every motor held fast, from the rested battery with all wires")
    def peak(self) -> Value:
        return self._most(STALLED)

    @fact("1", "current for long over what the wire bears")
    def steady_share(self) -> Value:
        return self.by(quotient, part=self.steady, whole=self.wire.ampacity)


class BoardLoadFacts(Facts):
    """A distribution board with every motor at its work."""

    kind = "distribution board"
    none = "no distribution board is described"

    rating = given()
    port_rating = given()

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        return cls.each(evaluation, "board")

    @property
    def feeds_motors(self) -> bool:
        """Whether the current of a motor goes through it."""
        return self.of(CaseFacts, WORKING).carries(self.id)

    @fact("A", "current through it in all, every motor at its work at full stick")
    def current(self) -> Value:
        return self.of(CaseFacts, WORKING).place(self.id).outflow

    @fact("A", "current through the port that carries most")
    def port_current(self) -> Value:
        branches = self.of(CaseFacts, WORKING).place(self.id).branches
        return self.by(largest, values=[branch.current for branch in branches])

    @fact("1", "current in all over what the board bears")
    def share(self) -> Value:
        return self.by(quotient, part=self.current, whole=self.rating)

    @fact("1", "current of the port that carries most over what a port bears")
    def port_share(self) -> Value:
        return self.by(quotient, part=self.port_current, whole=self.port_rating)


class PackLoadFacts(Facts):
    """A pack against the currents that its cells bear, and how long it lasts."""

    kind = "loaded pack"
    none = BatteryFacts.none

    capacity = given()
    peak_current = given()
    peak_rate = given()
    continuous_rate = given()

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        return [evaluation.entity(cls, battery.id) for battery in BatteryFacts.all(evaluation)]

    @property
    def drives(self) -> bool:
        """Whether the current of a motor comes out of it."""
        return self.of(CaseFacts, STALLED).carries(self.id)

    @property
    def pack(self) -> PackFacts:
        """What is asked of it for a moment."""
        return self.of(PackFacts, self.id)

    # --- what it gives

    @fact("A", "current that it bears for a moment")
    def bears_peak(self) -> Value:
        return self.first(
            ("as noted", lambda: self.peak_current),
            ("from its rate", lambda: self.by(product, first=self.peak_rate, second=self.capacity)),
        )

    @fact("A", "current that it bears for ever")
    def bears_steady(self) -> Value:
        share = "pack_continuous_share"
        return self.first(
            ("from its rate", lambda: self.by(product, first=self.continuous_rate, second=self.capacity)),
            ("from its peak", lambda: self.by(product, first=self.assumed(share), second=self.bears_peak)),
        )

    # --- what is asked of it

    @fact("A", "current out of it for long: every motor at its work at full stick")
    def steady(self) -> Value:
        return self.of(CaseFacts, WORKING).place(self.id).outflow

    @fact("1", "peak current over what it bears for a moment")
    def peak_share(self) -> Value:
        return self.by(quotient, part=self.pack.peak, whole=self.bears_peak)

    @fact("1", "current for long over what it bears for ever")
    def steady_share(self) -> Value:
        return self.by(quotient, part=self.steady, whole=self.bears_steady)


class SessionFacts(Facts):
    """A pack over a session."""

    kind = "pack in a session"
    none = BatteryFacts.none

    noted_mean = given(key="mean_current")

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        return [evaluation.entity(cls, battery.id) for battery in BatteryFacts.all(evaluation)]

    @property
    def load(self) -> PackLoadFacts:
        """What is asked of it."""
        return self.of(PackLoadFacts, self.id)

    @fact("A", "mean current out of it over a session, pauses included")
    def mean_current(self) -> Value:
        return self.first(
            ("as measured", lambda: self.noted_mean),
            ("at work for a share of the time", self._from_work),
        )

    def _from_work(self) -> Value:
        return self.by(product, first=self.assumed("share_at_work"), second=self.load.steady)

    @fact("s", "time until it should be changed")
    def lasts(self) -> Value:
        chemistry = self.choice("chemistry")
        return self.by(
            run_time, capacity=self.load.capacity, depth_of_discharge=self.assumed(f"depth_of_discharge.{chemistry}"),
            efficiency=self.assumed("charge_that_comes_out"), current=self.mean_current,
        )  # fmt: skip

    @fact("s", "how long a session is planned to last")
    def planned(self) -> Value:
        return self.of(CourseFacts, "course").session

    @fact("1", "time that it lasts over the planned session")
    def sessions(self) -> Value:
        return self.by(quotient, part=self.lasts, whole=self.planned)


class CourseFacts(Facts):
    """The course that trials are driven on."""

    kind = "course"
    none = "no course is described"

    length = given()
    session = given()

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        return [evaluation.entity(cls, "course")]
