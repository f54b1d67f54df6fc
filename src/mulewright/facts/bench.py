"""Facts about a bench supply in the place of a battery: what it has to take back, and what a start asks of it."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Self

from mulewright.design.schema.electrics import Controller
from mulewright.design.unsaid import FEEDS, WIRES
from mulewright.facts.descriptors import fact, given
from mulewright.facts.graph import Evaluation, Facts
from mulewright.facts.loads import held_by
from mulewright.facts.motors import MotorFacts
from mulewright.facts.nodes import Missing, Value
from mulewright.models.arithmetic import largest, product, quotient
from mulewright.models.bus import total
from mulewright.models.motor import stall_current


class BenchFacts(Facts):
    """A bench supply."""

    kind = "bench supply"
    none = "no bench supply is described"

    voltage = given()
    current_limit = given()

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        return cls.each(evaluation, "bench_supply")

    @property
    def motors(self) -> list[str]:
        """The motors that it feeds."""
        ways = self.mule.controller_of.items()
        found = [motor for motor, one in ways if self.mule.supply.source_of(one) == self.id]
        if not found:
            self.require_said(FEEDS, WIRES)
        return found

    # --- as what feeds a thing, in the place of a battery

    @fact("V", "volts with nothing drawn: what it is set to")
    def rested(self) -> Value:
        return self.voltage

    @fact("V", "volts at most: what it is set to")
    def full(self) -> Value:
        return self.voltage

    @fact("ohm", "resistance inside it")
    def resistance(self) -> Value:
        return self.found(0, "a bench supply holds its volts up to its current limit")

    # --- what comes back

    @property
    def returning(self) -> list[str]:
        """The motors that are braked by their controllers, or lower a load.

        Raises
        ------
        Missing
            If that is known of none, and not of all.
        """
        found, unsaid = [], []
        for motor in self.motors:
            controller = self.mule.controller_of[motor]
            table = self.mule.things[controller]
            assert isinstance(table, Controller)
            lowers = held_by(self.evaluation, self.of(MotorFacts, motor).motor.turns or "") is not None
            if table.stopping == "brake" or lowers:
                found.append(motor)
            elif table.stopping != "coast":
                unsaid.append(f"{controller}.stopping")
        if unsaid and not found:
            raise Missing(*unsaid)
        return found

    @fact("1", "motors on it that give current back when they are braked or lower a load")
    def returning_count(self) -> Value:
        return self.found(len(self.returning), f"braked or lowering: {', '.join(self.returning) or 'none'}")

    @fact("1", "1 where it takes no current back")
    def blocks(self) -> Value:
        absorbs = self.choice("absorbs")
        return self.found(float(not absorbs), f"it {'takes' if absorbs else 'does not take'} current back")

    # --- what a start asks

    @property
    def starts(self) -> list[BenchStartFacts]:
        """The functions whose motors it feeds."""
        functions = dict.fromkeys(self.mule.function_of(motor) or "" for motor in self.motors)
        return [self.of(BenchStartFacts, f"{function}@{self.id}") for function in functions]

    @fact("A", "current that it has to give while the strongest function starts")
    def start_current(self) -> Value:
        if not self.starts:
            return self.found(0, "it feeds no motor")
        return self.by(largest, values=[start.start_current for start in self.starts])

    @fact("1", "that current over its limit")
    def start_share(self) -> Value:
        return self.by(quotient, part=self.start_current, whole=self.current_limit)


class BenchStartFacts(Facts):
    """A function that starts on a bench supply: ``drive@bench_supply.lab``."""

    kind = "start on a bench supply"
    none = BenchFacts.none

    def __init__(self, evaluation: Evaluation, id: str) -> None:
        super().__init__(evaluation, id)
        self.function, bench = id.split("@")
        self.bench = self.of(BenchFacts, bench)

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        starts = (start for bench in BenchFacts.all(evaluation) for start in bench.starts)
        return [evaluation.entity(cls, start.id) for start in starts]

    @fact("A", "current of its motors from the supply when they start from standing at full stick")
    def start_current(self) -> Value:
        motors = [motor for motor in self.bench.motors if self.mule.function_of(motor) == self.function]
        return self.by(
            total, values=[self.of(BenchMotorFacts, f"{one}@{self.bench.id}").current for one in motors]
        )


class BenchMotorFacts(Facts):
    """A motor that stands still on a bench supply: ``motor.left@bench_supply.lab``."""

    kind = "motor that starts on a bench supply"
    none = BenchFacts.none

    def __init__(self, evaluation: Evaluation, id: str) -> None:
        super().__init__(evaluation, id)
        motor, bench = id.split("@")
        self.motor, self.bench = self.of(MotorFacts, motor), self.of(BenchFacts, bench)

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        pairs = (f"{motor}@{bench.id}" for bench in BenchFacts.all(evaluation) for motor in bench.motors)
        return [evaluation.entity(cls, pair) for pair in pairs]

    @fact("A", "current through it, standing still, at full stick")
    def winding(self) -> Value:
        return self.by(
            stall_current, duty=self.motor.duty, voltage=self.bench.voltage, resistance=self.motor.resistance
        )

    @fact("A", "its share of the supply's current: duty times that current")
    def current(self) -> Value:
        return self.by(product, first=self.motor.duty, second=self.winding)
