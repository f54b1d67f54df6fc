"""Facts about the bus: which voltage reaches whom in a named case, all loads of the case solved together.

A case says which motors pull and how: ``all-stalled``, ``lift-stalled`` (that function alone), ``lift-working`` (at
its load), ``all-working`` (each at its own), ``drive-running`` (nothing on the shafts), ``drive-reversing`` (told to
run the other way at that speed). The wiring is a tree, so every load is folded towards the battery as current =
conductance x voltage - offset, and the voltages follow from the battery outwards. A bench supply in its place holds
its volts up to its current limit. Regulators draw less than one ampere and are left out of these cases.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Self

from mulewright.design.reads import kept
from mulewright.design.unsaid import FEEDS, WIRES
from mulewright.facts.bench import BenchFacts
from mulewright.facts.descriptors import fact
from mulewright.facts.graph import Evaluation, Facts
from mulewright.facts.motors import MotorFacts
from mulewright.facts.nodes import Missing, Value
from mulewright.facts.sources import is_source, source_at
from mulewright.facts.wiring import RunFacts
from mulewright.facts.work import WorkFacts
from mulewright.models.arithmetic import largest, product
from mulewright.models.bus import (
    brushed_load_conductance,
    brushed_load_offset,
    far_end_voltage,
    limited_node_voltage,
    node_voltage,
    run_current,
    through_run_conductance,
    through_run_offset,
    total,
)
from mulewright.models.motor import reversal_peak_current, speed_under_load, stall_current

ALL = "all"


class CaseFacts(Facts):
    """One case: which motors pull, and how."""

    kind = "case"
    none = "no motor is described"

    def __init__(self, evaluation: Evaluation, id: str) -> None:
        super().__init__(evaluation, id)
        self.function, self.state = id.rsplit("-", 1)

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        functions = evaluation.mule.motors_serving
        return [
            evaluation.entity(cls, f"{function}-stalled")
            for function in ([ALL, *functions] if functions else [])
        ]

    @kept
    def motors(self) -> list[str]:
        """Ids of the motors that pull."""
        if self.function == ALL:
            return [f"motor.{name}" for name in self.mule.file.motor]
        return self.mule.motors_serving.get(self.function, [])

    @kept
    def on_the_way(self) -> frozenset[str]:
        """Every thing through which the current of the case goes."""
        supply = self.mule.supply
        found: set[str] = set()
        for motor in self.motors:
            controller = self.mule.controller_of.get(motor)
            while controller is not None and controller not in found:
                found.add(controller)
                run = supply.run_into(controller)
                controller = run.start if run is not None else None
        return frozenset(found)

    def carries(self, thing: str) -> bool:
        """Whether its current goes through a thing.

        Raises
        ------
        Missing
            If it does not, as far as is known, and not all that would tell is written.
        """
        if thing not in self.on_the_way:
            self.require_said(FEEDS, WIRES)
        return thing in self.on_the_way

    @kept
    def unfed(self) -> list[str]:
        """What is missing on the ways to its motors."""
        ways = {motor: self.mule.controller_of.get(motor) for motor in self.motors}
        loose = [f"a controller that feeds {motor}" for motor, controller in ways.items() if not controller]
        controllers = dict.fromkeys(controller for controller in ways.values() if controller)
        return loose + [
            f"a wire from a battery to {one}" for one in controllers if not self.mule.supply.source_of(one)
        ]

    def require_fed(self) -> None:
        """Let no current be worked out while a motor of the case may hang on more than is known.

        Raises
        ------
        Missing
            If one hangs on nothing, as far as is known, and not all that would tell is written.
        """
        if self.unfed:
            self.require_said(FEEDS, WIRES)

    @property
    def sources(self) -> list[str]:
        """The batteries and bench supplies that feed it."""
        return [source for source in self.mule.supply.sources if source in self.on_the_way]

    def place(self, node: str) -> PlaceFacts:
        """What happens at a thing in this case."""
        return self.of(PlaceFacts, f"{node}@{self.id}")

    @fact("A", "current out of the battery or bench supply, all loads of the case solved together")
    def battery_current(self) -> Value:
        if self.unfed:
            raise Missing(*self.evaluation.unsaid(FEEDS, WIRES) or self.unfed)
        if len(self.sources) > 1:
            raise Missing("a case with one battery or bench supply")
        return self.place(self.sources[0]).outflow

    @fact("A", "sum of what the motors would draw if the battery did not sag")
    def sag_free_current(self) -> Value:
        sources = self.sources
        if len(sources) != 1:
            raise Missing("one battery or bench supply that feeds every motor of the case")
        motors = [self.of(MotorFacts, motor) for motor in self.motors]
        drawn = [self.of(StallFacts, f"{motor.id}@{sources[0]}").current for motor in motors]
        return self.by(total, values=drawn)


class StallFacts(Facts):
    """A motor held fast on a supply that does not sag: ``motor.lift@battery.main``."""

    kind = "stall without sag"
    none = "no motor is described"

    def __init__(self, evaluation: Evaluation, id: str) -> None:
        super().__init__(evaluation, id)
        motor, source = id.split("@")
        self.motor, self.source = self.of(MotorFacts, motor), source_at(self, source)

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        pairs = ((motor, evaluation.mule.controller_of.get(motor.id)) for motor in MotorFacts.all(evaluation))
        found = []
        for motor, controller in pairs:
            source = evaluation.mule.supply.source_of(controller) if controller is not None else None
            if source is not None:
                found.append(evaluation.entity(cls, f"{motor.id}@{source}"))
        return found

    @fact("A", "current through the motor")
    def motor_current(self) -> Value:
        return self.by(
            stall_current, duty=self.motor.duty, voltage=self.source.rested, resistance=self.motor.resistance
        )

    @fact("A", "its share of the supply's current: duty times motor current")
    def current(self) -> Value:
        return self.by(product, first=self.motor.duty, second=self.motor_current)


class PlaceFacts(Facts):
    """A battery, bench supply, board or controller in a case: ``board.main@all-stalled``."""

    kind = "place on the bus"
    none = "no wire is described"

    def __init__(self, evaluation: Evaluation, id: str) -> None:
        super().__init__(evaluation, id)
        self.thing, case = id.split("@")
        self.case = self.of(CaseFacts, case)

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        case = evaluation.entity(CaseFacts, f"{ALL}-stalled")
        return [evaluation.entity(cls, f"{thing}@{case.id}") for thing in sorted(case.on_the_way)]

    @property
    def loads(self) -> list[LoadFacts]:
        """Motors of the case that hang on it."""
        if not self.thing.startswith("controller."):
            return []
        motors = [motor for motor in self.mule.motors_of(self.thing) if motor in self.case.motors]
        return [self.of(LoadFacts, f"{motor}@{self.case.id}") for motor in motors]

    @property
    def hanging(self) -> list[BranchFacts | LoadFacts]:
        """Everything that hangs on it."""
        self.case.require_fed()
        return [*self.branches, *self.loads]

    @kept
    def branches(self) -> list[BranchFacts]:
        """Runs that leave it and carry current of the case."""
        runs = [run for run in self.mule.supply.runs_from(self.thing) if run.end in self.case.on_the_way]
        return [self.of(BranchFacts, f"{run.id}@{self.case.id}") for run in runs]

    @fact("S", "conductance of everything that hangs on it")
    def conductance(self) -> Value:
        return self.by(total, values=[item.conductance for item in self.hanging])

    @fact(
        "A",
        "offset of everything that hangs on it: back-EMF, less the currents that do not depend on the voltage",
    )
    def offset(self) -> Value:
        return self.by(total, values=[item.offset for item in self.hanging])

    @fact("V", "voltage there")
    def voltage(self) -> Value:
        run = self.mule.supply.run_into(self.thing)
        if run is not None:
            return self.by(
                far_end_voltage, near_voltage=self.case.place(run.start).voltage, conductance=self.conductance,
                offset=self.offset, run_resistance=self.of(RunFacts, run.id).resistance,
            )  # fmt: skip
        if not is_source(self.thing):
            raise self.missing(f"a wire from a battery to {self.thing}", WIRES)
        source = source_at(self, self.thing)
        if isinstance(source, BenchFacts):
            return self.by(
                limited_node_voltage, set_voltage=source.voltage, current_limit=source.current_limit,
                conductance=self.conductance, offset=self.offset,
            )  # fmt: skip
        return self.by(
            node_voltage, open_circuit_voltage=source.rested, source_resistance=source.resistance,
            conductance=self.conductance, offset=self.offset,
        )  # fmt: skip

    @fact("A", "current that leaves it")
    def outflow(self) -> Value:
        return self.by(
            run_current, near_voltage=self.voltage, conductance=self.conductance, offset=self.offset,
            run_resistance=0.0,
        )  # fmt: skip


class BranchFacts(Facts):
    """A run of wire in a case, seen from its start: ``wire.branches>controller.left@all-stalled``."""

    kind = "run in a case"
    none = "no wire is described"

    def __init__(self, evaluation: Evaluation, id: str) -> None:
        super().__init__(evaluation, id)
        run, case = id.split("@")
        self.run = self.of(RunFacts, run)
        self.far = self.of(PlaceFacts, f"{self.run.run.end}@{case}")
        self.near = self.of(PlaceFacts, f"{self.run.run.start}@{case}")

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        case = evaluation.entity(CaseFacts, f"{ALL}-stalled")
        runs = (run for run in evaluation.mule.supply.runs if run.end in case.on_the_way)
        return [evaluation.entity(cls, f"{run.id}@{case.id}") for run in runs]

    @fact("S", "conductance seen through the run")
    def conductance(self) -> Value:
        return self.by(
            through_run_conductance, conductance=self.far.conductance, run_resistance=self.run.resistance
        )

    @fact("A", "offset seen through the run")
    def offset(self) -> Value:
        return self.by(
            through_run_offset, offset=self.far.offset, conductance=self.far.conductance,
            run_resistance=self.run.resistance,
        )  # fmt: skip

    @fact("A", "current in the run")
    def current(self) -> Value:
        return self.by(
            run_current, near_voltage=self.near.voltage, conductance=self.far.conductance, offset=self.far.offset,
            run_resistance=self.run.resistance,
        )  # fmt: skip


class LoadFacts(Facts):
    """A motor in a case: ``motor.lift@lift-stalled``."""

    kind = "motor in a case"
    none = "no motor is described"

    def __init__(self, evaluation: Evaluation, id: str) -> None:
        super().__init__(evaluation, id)
        motor, case = id.split("@")
        self.motor = self.of(MotorFacts, motor)
        self.case = self.of(CaseFacts, case)

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        return [
            evaluation.entity(cls, f"{motor}@{case.id}")
            for case in CaseFacts.all(evaluation)
            for motor in case.motors
        ]

    @property
    def stalled(self) -> bool:
        """Whether its shaft is held, or it works at the current that its function needs."""
        return self.case.state == "stalled"

    @property
    def reversing(self) -> bool:
        """Whether it is told to run the other way at full speed."""
        return self.case.state == "reversing"

    @fact("A", "current through the motor at the load of its function, or with nothing on its shaft")
    def working_current(self) -> Value:
        if self.case.state == "running":
            return self.motor.free_current
        return self.of(WorkFacts, self.motor.id).steady_current

    @fact("S", "conductance that it shows to its controller's supply")
    def conductance(self) -> Value:
        if not (self.stalled or self.reversing):
            return self.found(0, "at a given load its current does not depend on the voltage")
        return self.by(brushed_load_conductance, duty=self.motor.duty, resistance=self.motor.resistance)

    @fact("A", "offset of its current: below 0 for a current that does not depend on the voltage")
    def offset(self) -> Value:
        if self.stalled:
            return self.found(0, "its shaft is held, so it generates nothing")
        if self.reversing:
            return self.by(
                brushed_load_offset, duty=self.minus_duty, back_emf_constant=self.motor.back_emf_constant,
                speed=self.running_speed, resistance=self.motor.resistance,
            )  # fmt: skip
        return self.by(product, first=self.minus_duty, second=self.working_current)

    @fact(
        "rad/s", "speed of its shaft with nothing on it, full stick, its function alone on the rested battery"
    )
    def running_speed(self) -> Value:
        function = self.mule.function_of(self.motor.id)
        running = self.of(LoadFacts, f"{self.motor.id}@{function}-running")
        return self.by(
            speed_under_load, duty=self.motor.duty, voltage=running.voltage, current=self.motor.free_current,
            resistance=self.motor.resistance, back_emf_constant=self.motor.back_emf_constant,
        )  # fmt: skip

    @fact("1", "minus the duty")
    def minus_duty(self) -> Value:
        return self.by(product, first=-1.0, second=self.motor.duty)

    @fact("V", "voltage at its controller")
    def voltage(self) -> Value:
        return self.case.place(self.motor.controller.id).voltage

    @fact("V", "voltage left at its controller, whose diodes let it fall no lower than nothing")
    def left(self) -> Value:
        return self.by(largest, values=[self.voltage, 0.0])

    @fact("A", "current through the motor")
    def current(self) -> Value:
        if self.reversing:
            return self.by(
                reversal_peak_current, duty=self.motor.duty, voltage=self.left, speed=self.running_speed,
                back_emf_constant=self.motor.back_emf_constant, resistance=self.motor.resistance,
            )  # fmt: skip
        if not self.stalled:
            return self.working_current
        return self.by(
            stall_current, duty=self.motor.duty, voltage=self.voltage, resistance=self.motor.resistance
        )
