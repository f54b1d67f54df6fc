"""Facts about what the target gives its motors and servos: amperes at each port, ports, the servo rail."""

from __future__ import annotations

from collections.abc import Sequence

from mulewright.facts.consumers import ServoDrawFacts
from mulewright.facts.descriptors import fact
from mulewright.facts.graph import Evaluation, Facts
from mulewright.facts.handover import HandoverFacts, StatedFacts, kept
from mulewright.facts.loads import HeldFacts, held_by
from mulewright.facts.motors import MotorFacts
from mulewright.facts.nodes import Value
from mulewright.models.arithmetic import quotient
from mulewright.models.bus import total
from mulewright.models.motor import torque_at_current

ALL_SERVOS = "servos"


def stated(facts: Facts) -> StatedFacts:
    """What is said about the target."""
    return facts.of(StatedFacts, StatedFacts.alone)


class PortFacts(HandoverFacts):
    """A motor that raises a load, on a port of the target."""

    kind = "motor of a raised load, on a port of the target"
    none = "nothing that the target keeps is raised against gravity"

    @classmethod
    def names(cls, evaluation: Evaluation) -> list[str]:
        held = [one for one in HeldFacts.all(evaluation) if kept(evaluation, [one.id])]
        return [motor for one in held for motor in evaluation.mule.motors_turning(one.id)]

    @property
    def motor(self) -> MotorFacts:
        """The motor on the mule."""
        return self.of(MotorFacts, self.id)

    @property
    def held(self) -> HeldFacts:
        """What it raises."""
        held = held_by(self.evaluation, self.motor.motor.turns or "")
        assert held is not None
        return held

    @fact("A", "current that it takes for its load on the mule")
    def used_current(self) -> Value:
        return self.held.current

    @fact("A", "current limit of its port on the target")
    def port_limit(self) -> Value:
        return stated(self).port_limit

    @fact("N m", "torque of its shaft at that limit")
    def torque_at_limit(self) -> Value:
        return self.by(
            torque_at_current, current=self.port_limit, torque_constant=self.motor.torque_constant,
            free_current=self.motor.free_current,
        )  # fmt: skip


class PlugPlanFacts(HandoverFacts):
    """The mule's motors on the motor ports of the target."""

    kind = "plan of motor ports"
    none = "no motor is described"
    alone = "ports"

    @classmethod
    def names(cls, evaluation: Evaluation) -> list[str]:
        return [cls.alone] if evaluation.mule.file.motor else []

    @property
    def plugs(self) -> list[str]:
        """Where the commands of its motors come from: motors with one source can share a port."""
        mule = self.mule
        feeding = [mule.controller_of.get(f"motor.{name}") for name in mule.file.motor]
        sources = [controller and mule.signals.trace(controller).source for controller in feeding]
        motors = (f"motor.{name}" for name in mule.file.motor)
        return [source or motor for source, motor in zip(sources, motors, strict=True)]

    @property
    def shared(self) -> int:
        """Motors that get their command together with another one."""
        return len(self.plugs) - len(set(self.plugs))

    @fact("1", "motor ports that the mule's motors take")
    def ports_taken(self) -> Value:
        together = bool(self.shared) and stated(self).doubled()
        count = len(set(self.plugs)) if together else len(self.plugs)
        how = "motors with the same command share one" if together else "one for each motor"
        return self.found(count, f"{count} motor ports are taken, {how}")

    @fact("1", "motor ports of the target")
    def ports_there(self) -> Value:
        return stated(self).ports

    @fact("1", "1 where motors share a plug and the target's rules forbid that")
    def shares_forbidden(self) -> Value:
        forbidden = bool(self.shared) and not stated(self).doubled()
        words = "share a plug and must not" if forbidden else "share no plug, or may"
        return self.found(float(forbidden), f"the mule's motors {words}")


class ServoBudgetFacts(HandoverFacts):
    """The servos on the rail of the target: all together (``servos``), or one on its port."""

    kind = "servos on the rail of the target"
    none = "no servo of the mule serves a function that the target has"

    @classmethod
    def names(cls, evaluation: Evaluation) -> list[str]:
        mule = evaluation.mule
        servos = [f"servo.{name}" for name in mule.file.servo]
        found = [servo for servo in servos if kept(evaluation, [mule.function_of(servo) or ""])]
        return [ALL_SERVOS, *found] if found else []

    @property
    def servos(self) -> Sequence[str]:
        """The servos that it is about."""
        return self.names(self.evaluation)[1:] if self.id == ALL_SERVOS else [self.id]

    @property
    def words(self) -> str:
        """What it is about, for people."""
        return "all servos together draw" if self.id == ALL_SERVOS else "this servo alone draws"

    @fact("A", "current held fast, from the sheet")
    def draw(self) -> Value:
        return self.by(total, values=[self.of(ServoDrawFacts, one).stall_current for one in self.servos])

    @fact("A", "current that the target has for it")
    def budget(self) -> Value:
        return stated(self).servo_rail if self.id == ALL_SERVOS else stated(self).servo_port

    @fact("1", "current held fast over what the target has for it")
    def budget_share(self) -> Value:
        return self.by(quotient, part=self.draw, whole=self.budget)
