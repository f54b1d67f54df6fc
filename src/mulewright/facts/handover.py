"""Facts about a mule beside its target: what is said of the target, the run that was accepted, volts and mass."""

from __future__ import annotations

from collections.abc import Sequence
from typing import ClassVar, Self, TypeVar

from mulewright.facts.body import BodyFacts
from mulewright.facts.descriptors import fact, given
from mulewright.facts.graph import Evaluation, Facts
from mulewright.facts.nodes import Missing, Value
from mulewright.facts.sources import source_at
from mulewright.facts.wiring import BatteryFacts
from mulewright.models.arithmetic import largest, quotient

F = TypeVar("F", bound=Facts)
NO_TARGET = "no target was given; mulewright check FILE --target TARGET names one"


class HandoverFacts(Facts):
    """Something of the mule beside the same thing of its target.

    It reads nothing but facts of the target, so that what is missing there is known to be missing there.
    """

    kind = "thing of both machines"
    none = "there is no target to hand over to"
    alone: ClassVar[str] = ""  # its id, where there is one of its kind

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        return [evaluation.entity(cls, name) for name in cls.names(evaluation)] if evaluation.target else []

    @classmethod
    def names(cls, evaluation: Evaluation) -> list[str]:
        """The ids of all of them on a mule that has a target."""
        return [cls.alone] if cls.alone else []

    @classmethod
    def absent(cls, evaluation: Evaluation) -> str:
        return cls.none if evaluation.target else NO_TARGET

    @property
    def target(self) -> Evaluation:
        """The evaluation of the target."""
        assert self.evaluation.target is not None
        return self.evaluation.target

    def there(self, kind: type[F], name: str) -> F:
        """The facts of an entity of the target."""
        return self.target.entity(kind, name)


def kept(evaluation: Evaluation, functions: Sequence[str]) -> bool:
    """Whether the target still has one of some functions or things; what it gave up needs no hand-over."""
    assert evaluation.target is not None
    mule = evaluation.target.mule
    return any(function in mule.functions or function in mule.things for function in functions)


class SaidFacts(Facts):
    """The table [target] of one file."""

    kind = "table [target]"
    none = "no table [target] is written"

    port_current_limit = given()
    port_count = given()
    servo_rail_current = given()
    servo_port_current = given()
    pulse_low = given()
    pulse_high = given()
    loop_time = given()
    loaded_voltage = given()

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        return [evaluation.entity(cls, "target")] if evaluation.mule.file.target is not None else []


class StatedFacts(HandoverFacts):
    """What is said about the target: in its own file, or else in that of the mule."""

    kind = "what is said about the target"
    alone = "stated"

    def _either(self, name: str) -> Value:
        return self.first(
            ("in the target's file", lambda: getattr(self.there(SaidFacts, "target"), name)),
            ("in the mule's file", lambda: getattr(self.of(SaidFacts, "target"), name)),
        )

    @fact("A", "current limit of each motor port of the target")
    def port_limit(self) -> Value:
        return self._either("port_current_limit")

    @fact("1", "motor ports of the target")
    def ports(self) -> Value:
        return self._either("port_count")

    @fact("A", "current that the target has for all servos together")
    def servo_rail(self) -> Value:
        return self._either("servo_rail_current")

    @fact("A", "current that the target has for one servo")
    def servo_port(self) -> Value:
        return self._either("servo_port_current")

    @fact("s", "shortest pulse that the target sends to servos, as noted")
    def lowest_pulse(self) -> Value:
        return self._either("pulse_low")

    @fact("s", "longest pulse that the target sends to servos, as noted")
    def highest_pulse(self) -> Value:
        return self._either("pulse_high")

    @fact("s", "time of the target's control loop")
    def loop(self) -> Value:
        return self._either("loop_time")

    @fact("V", "supply of the target under load")
    def volts(self) -> Value:
        return self._either("loaded_voltage")

    def doubled(self) -> bool:
        """Whether the target's rules allow two things on one port.

        Raises
        ------
        Missing
            If neither file says so.
        """
        for evaluation in (self.target, self.evaluation):
            said = evaluation.mule.file.target
            if said is not None and said.y_leads_allowed is not None:
                return said.y_leads_allowed
        raise Missing(f"{self.target.mark}target.y_leads_allowed")


class AcceptedFacts(HandoverFacts):
    """The run that was accepted."""

    kind = "run that was accepted"
    alone = "accepted"

    rate = given()
    loaded_voltage = given()
    speed = given()
    load = given()

    @fact("1", "1 where rates, curves and trims of that run are written down")
    def recorded(self) -> Value:
        noted = self.mule.file.accepted.settings_recorded
        word = "nowhere noted" if noted is None else "written down" if noted else "not written down"
        return self.found(float(bool(noted)), f"the radio's settings of the accepted run are {word}")


class RestedFacts(Facts):
    """The packs, or bench supplies, of one machine that feed a wire."""

    kind = "packs of a machine"
    none = BatteryFacts.none

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        return []

    @fact("V", "volts of its rested pack or bench supply; of several, the highest")
    def rested_volts(self) -> Value:
        found = self.mule.supply.sources
        if not found:
            raise Missing("a wire from a battery")
        return self.by(largest, values=[source_at(self, one).rested for one in found])


class MachineFacts(HandoverFacts):
    """Both machines as a whole."""

    kind = "pair of machines"
    alone = "handover"

    @property
    def stated(self) -> StatedFacts:
        """What is said about the target."""
        return self.of(StatedFacts, StatedFacts.alone)

    @property
    def accepted(self) -> AcceptedFacts:
        """The run that was accepted."""
        return self.of(AcceptedFacts, AcceptedFacts.alone)

    def _loaded(self) -> Value:
        return self.by(quotient, part=self.stated.volts, whole=self.accepted.loaded_voltage)

    def _rested(self) -> Value:
        there, here = self.there(RestedFacts, "packs"), self.of(RestedFacts, "packs")
        return self.by(quotient, part=there.rested_volts, whole=here.rested_volts)

    @fact("1", "supply of the target over that of the mule (k_V)")
    def voltage_factor(self) -> Value:
        return self.first(("both under load", self._loaded), ("both packs rested", self._rested))

    @fact("1", "mass of the target over that of the mule (k_m)")
    def mass_factor(self) -> Value:
        there, here = self.there(BodyFacts, "body"), self.of(BodyFacts, "body")
        return self.by(quotient, part=there.mass, whole=here.mass)
