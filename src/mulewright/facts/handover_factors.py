"""Facts about what a motor of both machines does by which factor more: speed, force, current, heat, energy, hold."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Self

from mulewright.facts.descriptors import fact
from mulewright.facts.graph import Evaluation, Facts
from mulewright.facts.handover import HandoverFacts, MachineFacts, kept
from mulewright.facts.handover_scope import WheelPairFacts
from mulewright.facts.handover_signals import ControllerPairFacts
from mulewright.facts.loads import held_by
from mulewright.facts.motors import MotorFacts
from mulewright.facts.nodes import Missing, Value
from mulewright.facts.slipping import wheel_motors
from mulewright.facts.standing import StandingFacts
from mulewright.facts.time_constants import PaceFacts
from mulewright.models.arithmetic import product, quotient
from mulewright.models.scaling import acceleration_factor, energy_factor, time_constant_factor


class MotorPairFacts(HandoverFacts):
    """A motor of both machines, whatever it moves."""

    kind = "motor of both machines"
    none = "no motor is on both machines"

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        pairs = (_pair(evaluation, name) for name in cls.names(evaluation) if evaluation.target)
        return [pair for pair in pairs if isinstance(pair, cls)]

    @classmethod
    def names(cls, evaluation: Evaluation) -> list[str]:
        target = evaluation.target
        both = (f"motor.{name}" for name in evaluation.mule.file.motor)
        return [
            motor
            for motor in both
            if target is not None
            and motor in target.mule.things
            and kept(evaluation, [evaluation.mule.function_of(motor) or ""])
        ]

    @property
    def moves(self) -> str:
        """The id of what it moves: ``drive``, ``mechanism.lift``, or itself."""
        turns = self.of(MotorFacts, self.id).motor.turns or self.id
        return "drive" if turns.startswith("wheel.") else turns

    @property
    def pair(self) -> ControllerPairFacts:
        """Its controller on both machines."""
        return self.of(ControllerPairFacts, self.of(MotorFacts, self.id).controller.id)

    @property
    def machine(self) -> MachineFacts:
        """Both machines as a whole."""
        return self.of(MachineFacts, MachineFacts.alone)

    def _over(self, kind: type[Facts], id: str, name: str) -> Value:
        """A fact of the target over the same fact of the mule."""
        return self.by(
            quotient, part=getattr(self.there(kind, id), name), whole=getattr(self.of(kind, id), name)
        )

    @fact("1", "resistance of its winding on the target over that on the mule")
    def winding_factor(self) -> Value:
        return self._over(MotorFacts, self.id, "resistance")

    @fact("1", "torque for each ampere on the target over that on the mule")
    def torque_constant_factor(self) -> Value:
        return self._over(MotorFacts, self.id, "torque_constant")

    @fact("1", "reduction of the target over that of the mule")
    def ratio_factor(self) -> Value:
        return self._over(MotorFacts, self.id, "ratio")

    @fact("1", "reduction down to what it moves, on the target over that on the mule (k_G)")
    def reduction_factor(self) -> Value:
        return self.ratio_factor

    @fact("1", "duty at full stick on the target over that on the mule (k_u)")
    def range_factor(self) -> Value:
        return self.pair.duty_factor

    @fact("1", "supply of the target over that of the mule (k_V)")
    def supply_factor(self) -> Value:
        return self.machine.voltage_factor

    @fact("1", "share of the output at which the target does what the mule did")
    def first_output(self) -> Value:
        return self.pair.first_output

    @fact("1", "factor on the current through its winding with it held fast")
    def stall_current_factor(self) -> Value:
        return self.pair.speed_factor

    @fact("1", "factor on the current out of the battery with it held fast")
    def battery_current_factor(self) -> Value:
        return self.pair.stall_factor

    @fact("1", "factor on its free speed, and on top speed where nothing else limits it")
    def top_speed_factor(self) -> Value:
        return self.by(quotient, part=self.pair.speed_factor, whole=self.reduction_factor)

    @fact("1", "factor on the force with its motor held fast, short of slip and of a current limit")
    def force_factor(self) -> Value:
        return self.by(product, first=self.pair.speed_factor, second=self.reduction_factor)

    @fact("1", "factor on the heat in its winding while it is held fast")
    def winding_heat_factor(self) -> Value:
        return self.by(energy_factor, speed_factor=self.pair.speed_factor, mass_factor=1.0)

    @fact("1", "factor on the current for the same force")
    def same_force_factor(self) -> Value:
        return self.by(quotient, part=1.0, whole=self.reduction_factor)


class MovedPairFacts(MotorPairFacts):
    """A motor of both machines whose load has a mass that is known to the file: a drive, an arm, a lift, a winch."""

    kind = "motor of both machines with the mass that it moves"
    none = "nothing is driven over the floor and nothing raised on both machines"

    @fact("1", "way for one turn outside the gears, on the target over that on the mule")
    def lever_factor(self) -> Value:
        return self._over(PaceFacts, self.moves, "lever")

    @fact("1", "reduction down to what it moves, on the target over that on the mule (k_G)")
    def reduction_factor(self) -> Value:
        return self.by(quotient, part=self.ratio_factor, whole=self.lever_factor)

    @fact("1", "mass that is moved, on the target over that on the mule (k_m); of an arm its inertia")
    def moved_factor(self) -> Value:
        return self._over(PaceFacts, self.moves, "moved")

    @fact("1", "factor on the energy at top speed")
    def energy_factor(self) -> Value:
        return self.by(energy_factor, speed_factor=self.top_speed_factor, mass_factor=self.moved_factor)

    @fact("1", "factor on the first acceleration, short of slip")
    def acceleration_factor(self) -> Value:
        return self.by(
            acceleration_factor, signal_factor=self.pair.speed_factor, ratio_factor=self.reduction_factor,
            mass_factor=self.moved_factor,
        )  # fmt: skip

    @fact("1", "factor on the time in which it makes 63 % of a change of speed")
    def time_constant_factor(self) -> Value:
        return self.by(
            time_constant_factor, mass_factor=self.moved_factor, ratio_factor=self.reduction_factor
        )


class DrivenPairFacts(MovedPairFacts):
    """A wheel motor of both machines."""

    kind = "wheel motor of both machines, with what it drives"
    none = "no motor of both machines turns a wheel"

    @fact("1", "factor on the way of a stop from top speed, and on how near that comes to tipping")
    def stop_factor(self) -> Value:
        return self.by(energy_factor, speed_factor=self.top_speed_factor, mass_factor=1.0)

    @fact("1", "grip of the wheels on the target over that on the mule")
    def grip_factor(self) -> Value:
        there, here = (one.entity(StandingFacts, "drive") for one in (self.target, self.evaluation))
        return self.by(quotient, part=there.wheel.friction, whole=here.wheel.friction)

    @fact("1", "factor on the push at which the wheels slip")
    def slip_factor(self) -> Value:
        return self.by(product, first=self.moved_factor, second=self.grip_factor)

    @fact(
        "1", "factor on the reduction that gives the speed of the accepted run at full signal, wheels counted"
    )
    def same_speed_factor(self) -> Value:
        return self.by(product, first=self.pair.gear_factor, second=self.lever_factor)

    @fact(
        "1", "speed of its shaft at full signal on the target over that in the accepted run, nothing to push"
    )
    def shaft_factor(self) -> Value:
        wheel = self.of(WheelPairFacts, self.id)
        return self.by(quotient, part=wheel.coming_shaft, whole=wheel.accepted_shaft)

    @fact("1", "the same factor with the free current of its motor counted, which weighs more at a low rate")
    def same_speed_counted(self) -> Value:
        return self.by(product, first=self.shaft_factor, second=self.lever_factor)

    @fact("1", "reduction at which the target drives at the speed of the accepted run with full signal")
    def same_speed_ratio(self) -> Value:
        return self.by(product, first=self.of(MotorFacts, self.id).ratio, second=self.same_speed_factor)


class HeldPairFacts(MovedPairFacts):
    """A motor of both machines that holds a load against gravity."""

    kind = "motor of both machines that holds a load"
    none = "nothing that both machines have is raised against gravity"

    def _torque(self, evaluation: Evaluation) -> Value:
        held = held_by(evaluation, self.moves)
        if held is None:
            raise Missing(f"{evaluation.mark}{self.moves}.load")
        return held.torque

    @fact("1", "torque that gravity asks on the target over that on the mule")
    def load_factor(self) -> Value:
        return self.by(quotient, part=self._torque(self.target), whole=self._torque(self.evaluation))

    @fact("1", "factor on the volts that hold the load; the duty at full stick has no part in it")
    def hold_volts_factor(self) -> Value:
        return self.by(quotient, part=self.load_factor, whole=self.ratio_factor)

    @fact("1", "factor on the duty that holds the load")
    def hold_duty_factor(self) -> Value:
        return self.by(quotient, part=self.hold_volts_factor, whole=self.machine.voltage_factor)


def _pair(evaluation: Evaluation, motor: str) -> MotorPairFacts:
    """The facts of a motor on both machines, by what it moves."""
    if motor in wheel_motors(evaluation):
        return evaluation.entity(DrivenPairFacts, motor)
    held = held_by(evaluation, evaluation.entity(MotorFacts, motor).motor.turns or "")
    return evaluation.entity(HeldPairFacts if held is not None else MotorPairFacts, motor)
