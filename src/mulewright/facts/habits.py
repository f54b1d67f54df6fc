"""Facts about disconnecting, charging and noise: what is ticked, and what is written at the parts themselves."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Self

from mulewright.facts.descriptors import fact, given
from mulewright.facts.graph import Evaluation, Facts
from mulewright.facts.nodes import Missing, Value
from mulewright.facts.switches import SwitchPeakFacts
from mulewright.facts.wiring import BatteryFacts


class DisconnectFacts(Facts):
    """What one pulls or throws to stop everything."""

    kind = "disconnect"
    none = "nothing on this mule moves"

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        file = evaluation.mule.file
        return [evaluation.entity(cls, "checklist")] if file.motor or file.servo else []

    @property
    def in_reach(self) -> list[str]:
        """Switches within reach that take the power from every motor."""
        placed = [name for name in self.mule.file.switch if f"switch.{name}" in self.mule.supply.run_through]
        reachable = [name for name in placed if self.mule.file.switch[name].reachable]
        switches = [self.of(SwitchPeakFacts, f"switch.{name}") for name in reachable]
        return [switch.id for switch in switches if switch.stops_all]

    @property
    def noted(self) -> str:
        """What is noted, for people."""
        if self.mule.file.checklist.disconnect_reachable:
            return "ticked on the checklist"
        return ", ".join(self.in_reach) or "neither ticked nor written at a switch that stops every motor"

    @fact("1", "1 where a disconnect is noted as in reach while anything moves")
    def reachable(self) -> Value:
        ticked = bool(self.mule.file.checklist.disconnect_reachable)
        return self.found(float(ticked or bool(self.in_reach)), self.noted)


class ChargingFacts(Facts):
    """A pack and its charge lead."""

    kind = "battery"
    none = BatteryFacts.none

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        return [evaluation.entity(cls, battery.id) for battery in BatteryFacts.all(evaluation)]

    @property
    def dry(self) -> bool:
        """Whether its cells are used up and thrown away."""
        return self.mule.file.battery[self.id.split(".", 1)[1]].chemistry == "dry"

    @property
    def taken_out(self) -> bool:
        """Whether the file says that packs are not charged in the machine."""
        return self.mule.file.habits.charges_on_board is False

    @property
    def reach(self) -> str:
        """Whether its charge lead can be reached, for people."""
        return "in reach" if self.choice("charge_lead_reachable") else "out of reach"

    @fact("1", "1 where it can be charged while the machine is switched on")
    def live(self) -> Value:
        return self.found(
            float(self.choice("charge_lead_reachable")), f"its charge lead is {self.reach} then"
        )


class NoiseFacts(Facts):
    """A receiver near motors that spark."""

    kind = "receiver near motors"
    none = "no receiver and motor meet on this mule"

    antenna_clear = given()

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        file = evaluation.mule.file
        found = [name for name in ("receiver", "second_receiver") if getattr(file, name) is not None]
        return [evaluation.entity(cls, name) for name in found if file.motor]

    @property
    def ticked(self) -> bool:
        """Whether noise parts and a free antenna are ticked."""
        return bool(self.mule.file.checklist.noise_parts)

    @property
    def bare(self) -> list[str]:
        """The motors of which it is noted that no noise parts sit on them.

        Raises
        ------
        Missing
            If that is said of none, and not of all that they have some.
        """
        if self.ticked:
            return []
        motors = self.mule.file.motor.items()
        bare = [f"motor.{name}" for name, motor in motors if motor.suppressed is False]
        unsaid = [f"motor.{name}.suppressed" for name, motor in motors if motor.suppressed is None]
        if bare or not unsaid:
            return bare
        if self.mule.file.checklist.noise_parts is False:
            return [f"motor.{name}" for name, _ in motors]
        raise Missing("checklist.noise_parts")

    @fact("1", "motors without noise parts on their terminals")
    def noisy(self) -> Value:
        return self.found(len(self.bare), f"without noise parts: {', '.join(self.bare) or 'no motor'}")
