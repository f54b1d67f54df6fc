"""Facts about how far the mule's lessons reach: is the target alike, and was it driven where the target will work?"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Self

from mulewright.facts.body import BodyFacts, WheelFacts
from mulewright.facts.descriptors import fact
from mulewright.facts.driving import DrivingFacts
from mulewright.facts.graph import Evaluation, Facts
from mulewright.facts.handover import AcceptedFacts, HandoverFacts, kept
from mulewright.facts.handover_load import stated
from mulewright.facts.handover_signals import ControllerPairFacts
from mulewright.facts.loads import ArmFacts, HeldFacts, LiftFacts, WinchFacts, held_by
from mulewright.facts.motors import MotorFacts
from mulewright.facts.nodes import Missing, Value
from mulewright.facts.slipping import wheel_motors
from mulewright.facts.standing import StandingFacts
from mulewright.models.arithmetic import deviation, largest, quotient
from mulewright.models.motor import speed_under_load
from mulewright.models.moving import kinetic_energy
from mulewright.models.scaling import geared_force_factor
from mulewright.models.traction import wheel_speed

ALIKE = ("mass", "center_height", "grip", "push")


class LikenessFacts(Facts):
    """What makes one machine drive like another: ``alike.mass``."""

    kind = "likeness of one machine"
    none = "no body is described"

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        return []

    @fact("kg", "mass of the machine")
    def mass(self) -> Value:
        return self.of(BodyFacts, "body").mass

    @fact("m", "height of its centre of gravity")
    def center_height(self) -> Value:
        return self.of(BodyFacts, "body").center_height

    @fact("1", "grip of its wheels")
    def grip(self) -> Value:
        return self.of(StandingFacts, "drive").wheel.friction

    @fact("1", "push at full stick over weight")
    def push(self) -> Value:
        push, weight = self.of(DrivingFacts, "drive").push, self.of(BodyFacts, "body").weight
        return self.by(quotient, part=push, whole=weight)


class AlikeFacts(HandoverFacts):
    """One likeness of both machines: ``alike.mass``, ``alike.push``."""

    kind = "likeness of both machines"
    none = LikenessFacts.none

    @classmethod
    def names(cls, evaluation: Evaluation) -> list[str]:
        driven = evaluation.mule.file.drive is not None and kept(evaluation, ["drive"])
        return [f"alike.{name}" for name in (ALIKE if driven else ALIKE[:2])]

    @property
    def name(self) -> str:
        """What is compared."""
        return self.id.removeprefix("alike.")

    @property
    def words(self) -> str:
        """What is compared, for people."""
        return LIKENESSES[self.name]

    @property
    def here(self) -> Value:
        """It on the mule."""
        found: Value = getattr(self.of(LikenessFacts, "alike"), self.name)
        return found

    @property
    def beyond(self) -> Value:
        """It on the target."""
        found: Value = getattr(self.there(LikenessFacts, "alike"), self.name)
        return found

    @fact("1", "how far the target is from the mule, as a share of the mule's")
    def unlike(self) -> Value:
        return self.by(deviation, value=self.beyond, reference=self.here)


LIKENESSES = {
    "mass": "mass",
    "center_height": "height of the centre of gravity",
    "grip": "grip of the wheels",
    "push": "push over weight",
}


class WheelPairFacts(HandoverFacts):
    """A motor that turns a wheel, in the accepted run and on the target, with nothing to push."""

    kind = "wheel motor of both machines"
    none = "no motor of both machines turns a wheel"

    @classmethod
    def names(cls, evaluation: Evaluation) -> list[str]:
        return wheel_motors(evaluation) if kept(evaluation, ["drive"]) else []

    @property
    def pair(self) -> ControllerPairFacts:
        """Its controller on both machines."""
        return self.of(ControllerPairFacts, self.of(MotorFacts, self.id).controller.id)

    def _shaft(self, evaluation: Evaluation, duty: Value, volts: Value) -> Value:
        motor = evaluation.entity(MotorFacts, self.id)
        return self.by(
            speed_under_load, duty=duty, voltage=volts, current=motor.free_current,
            resistance=motor.resistance, back_emf_constant=motor.back_emf_constant,
        )  # fmt: skip

    def _rim(self, evaluation: Evaluation, shaft: Value) -> Value:
        ratio = evaluation.entity(MotorFacts, self.id).ratio
        radius = evaluation.entity(WheelFacts, "drive.wheel").radius
        return self.by(wheel_speed, speed=shaft, ratio=ratio, wheel_radius=radius)

    @property
    def _volts(self) -> Value:
        return self.of(AcceptedFacts, AcceptedFacts.alone).loaded_voltage

    @fact("rad/s", "speed of its shaft on the mule at full stick, at the volts of the accepted run")
    def full_shaft(self) -> Value:
        return self._shaft(self.evaluation, self.pair.here.full_duty, self._volts)

    @fact("m/s", "speed of its wheel's rim then")
    def full_rim(self) -> Value:
        return self._rim(self.evaluation, self.full_shaft)

    @fact("rad/s", "speed of its shaft in the accepted run, at the rate of that run")
    def accepted_shaft(self) -> Value:
        return self._shaft(self.evaluation, self.pair.accepted_duty, self._volts)

    @fact("m/s", "speed of its wheel's rim then")
    def accepted_rim(self) -> Value:
        return self._rim(self.evaluation, self.accepted_shaft)

    @fact("rad/s", "speed of its shaft on the target at full signal, at its volts under load")
    def coming_shaft(self) -> Value:
        return self._shaft(self.target, self.pair.beyond.full_duty, stated(self).volts)

    @fact("m/s", "speed of its wheel's rim then")
    def coming_rim(self) -> Value:
        return self._rim(self.target, self.coming_shaft)


class DrivePairFacts(HandoverFacts):
    """The drive of both machines: how fast, and with which energy."""

    kind = "drive of both machines"
    none = WheelPairFacts.none
    alone = "drive"

    @classmethod
    def names(cls, evaluation: Evaluation) -> list[str]:
        return [cls.alone] if WheelPairFacts.names(evaluation) else []

    @property
    def wheels(self) -> Sequence[WheelPairFacts]:
        """The motors that turn its wheels."""
        return WheelPairFacts.all(self.evaluation)

    @fact("m/s", "top speed of the mule at full stick, at the volts of the accepted run")
    def speed_before(self) -> Value:
        return self.by(largest, values=[wheel.full_rim for wheel in self.wheels])

    @fact("m/s", "top speed of the target at full signal, at its volts under load")
    def speed_to_come(self) -> Value:
        return self.by(largest, values=[wheel.coming_rim for wheel in self.wheels])

    @fact("J", "energy of the mule at its top speed, nothing carried")
    def energy_before(self) -> Value:
        return self.by(kinetic_energy, mass=self.of(BodyFacts, "body").mass, speed=self.speed_before)

    @fact("J", "energy of the target at its top speed, nothing carried")
    def energy_to_come(self) -> Value:
        return self.by(kinetic_energy, mass=self.there(BodyFacts, "body").mass, speed=self.speed_to_come)

    def _at_the_rate(self) -> Value:
        return self.by(largest, values=[wheel.accepted_rim for wheel in self.wheels])

    @fact("m/s", "top speed that was driven in the accepted run")
    def tested_speed(self) -> Value:
        run = self.of(AcceptedFacts, AcceptedFacts.alone)
        return self.first(("as noted", lambda: run.speed), ("worked out at its rate", self._at_the_rate))


class TestedFacts(HandoverFacts):
    """A working point of the target beside those that were tested: its speed, a load, its floors."""

    kind = "working point of the target"
    none = "nothing was driven and nothing lifted that the target keeps"

    @classmethod
    def names(cls, evaluation: Evaluation) -> list[str]:
        loads = [one.id for one in HeldFacts.all(evaluation) if kept(evaluation, [one.id])]
        driven = ["tested.speed", "tested.floor"] if DrivePairFacts.names(evaluation) else []
        return [*driven, *(f"tested.{load}" for load in loads)]

    @property
    def name(self) -> str:
        """What was tested."""
        return self.id.removeprefix("tested.")

    @property
    def words(self) -> str:
        """What was tested, for people."""
        return "the speed" if self.name == "speed" else f"the load of {self.name}"

    @property
    def drive(self) -> DrivePairFacts:
        """The drive of both machines."""
        return self.of(DrivePairFacts, DrivePairFacts.alone)

    @property
    def tested(self) -> Value:
        """The largest value that was tested."""
        return self.drive.tested_speed if self.name == "speed" else self._run.load

    @property
    def to_come(self) -> Value:
        """The value on the target."""
        return (
            self.drive.speed_to_come if self.name == "speed" else self.there(CarriedFacts, self.name).carried
        )

    @property
    def _run(self) -> AcceptedFacts:
        return self.of(AcceptedFacts, AcceptedFacts.alone)

    @fact("1", "value on the target over the largest one that was tested")
    def beyond_tested(self) -> Value:
        return self.by(quotient, part=self.to_come, whole=self.tested)

    @property
    def new_floors(self) -> list[str]:
        """Floors of the target on which the mule was not driven.

        Raises
        ------
        Missing
            If the floors of one of both are not noted.
        """
        floors, driven = self.target.mule.file.room.surfaces, self.mule.file.accepted.floor
        if floors is None:
            raise Missing(f"{self.target.mark}room.surfaces")
        if driven is None:
            raise Missing("accepted.floor")
        return [floor for floor in floors if floor not in driven]

    @fact("1", "floors of the target on which it was not driven")
    def new_floor_count(self) -> Value:
        return self.found(len(self.new_floors), f"not driven on: {', '.join(self.new_floors) or 'none'}")


class CarriedFacts(Facts):
    """The load of an arm, a lift or a lifting winch."""

    kind = "carried load"
    none = HeldFacts.none

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        return [evaluation.entity(cls, one.id) for one in HeldFacts.all(evaluation)]

    @fact("kg", "what it carries")
    def carried(self) -> Value:
        held = held_by(self.evaluation, self.id)
        if not isinstance(held, ArmFacts | LiftFacts | WinchFacts):
            raise Missing(f"{self.id}.load")
        return held.load


class RateFacts(HandoverFacts):
    """The rate of the accepted run, and what it hid."""

    kind = "rate of the accepted run"
    none = "nothing is handed over"
    alone = "accepted"

    @property
    def run(self) -> AcceptedFacts:
        """That run."""
        return self.of(AcceptedFacts, self.id)

    @fact("1", "force of a machine geared to that speed over the force that was felt")
    def hidden_force(self) -> Value:
        return self.by(geared_force_factor, rate=self.run.rate)

    @fact(
        "1", "time constant, and speed of sinking, of a machine geared to that speed over those of the mule"
    )
    def hidden_pace(self) -> Value:
        return self.by(quotient, part=1.0, whole=self.hidden_force)
