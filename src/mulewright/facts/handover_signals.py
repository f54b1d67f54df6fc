"""Facts about controllers and servos of both machines: by which factor the same stick asks for more."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Self

from mulewright.design.schema.electrics import Controller
from mulewright.facts.descriptors import fact
from mulewright.facts.graph import Evaluation, Facts
from mulewright.facts.handover import AcceptedFacts, HandoverFacts, MachineFacts, StatedFacts, kept
from mulewright.facts.nodes import Missing, Value
from mulewright.facts.outputs import ControllerSignalFacts, OutputFacts
from mulewright.facts.servo_travel import ServoTravelFacts
from mulewright.models.arithmetic import difference, largest, magnitude, product, quotient
from mulewright.models.duty import duty_jump, duty_rescaled
from mulewright.models.scaling import battery_stall_factor, energy_factor, same_speed_gear_factor


class StoppingFacts(Facts):
    """What a controller does at neutral."""

    kind = "controller at neutral"
    none = ControllerSignalFacts.none

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        return [evaluation.entity(cls, one.id) for one in ControllerSignalFacts.all(evaluation)]

    @property
    def mode(self) -> str:
        """Brake or coast."""
        table = self.mule.things.get(self.id)
        noted = table.stopping if isinstance(table, Controller) else None
        return noted if noted in ("brake", "coast") else ""

    @fact("1", "1 where it brakes the motor at neutral, 0 where it lets it coast")
    def brakes(self) -> Value:
        if not self.mode:
            raise Missing(f"{self.id}.stopping")
        return self.found(float(self.mode == "brake"), f"{self.id} is set to {self.mode}")


class ControllerPairFacts(HandoverFacts):
    """A controller of the mule beside the one of the same name on the target."""

    kind = "controller of both machines"
    none = "no controller of the mule serves a function that the target has"

    @classmethod
    def names(cls, evaluation: Evaluation) -> list[str]:
        outputs = [evaluation.entity(OutputFacts, one.id) for one in ControllerSignalFacts.all(evaluation)]
        return [output.id for output in outputs if kept(evaluation, output.functions)]

    @property
    def here(self) -> ControllerSignalFacts:
        """It on the mule."""
        return self.of(ControllerSignalFacts, self.id)

    @property
    def beyond(self) -> ControllerSignalFacts:
        """It on the target."""
        return self.there(ControllerSignalFacts, self.id)

    @property
    def machine(self) -> MachineFacts:
        """Both machines as a whole."""
        return self.of(MachineFacts, MachineFacts.alone)

    @fact("1", "duty at full stick on the target over that on the mule (k_u)")
    def duty_factor(self) -> Value:
        return self.by(quotient, part=self.beyond.full_duty, whole=self.here.full_duty)

    @fact("1", "duty times volts at full stick, on the target over that on the mule (k): factor on speed")
    def speed_factor(self) -> Value:
        return self.by(product, first=self.duty_factor, second=self.machine.voltage_factor)

    @fact("1", "factor on the energy of what it moves, the mass unchanged")
    def moving_factor(self) -> Value:
        return self.by(energy_factor, speed_factor=self.speed_factor, mass_factor=1.0)

    @fact("1", "factor on the current out of the battery with its motor held fast")
    def stall_factor(self) -> Value:
        return self.by(
            battery_stall_factor,
            duty_factor=self.duty_factor,
            voltage_factor=self.machine.voltage_factor,
        )

    @fact("1", "share of the output at which the target does what the mule did")
    def first_output(self) -> Value:
        return self.by(quotient, part=1.0, whole=self.speed_factor)

    # --- at the rate of the accepted run

    @fact("1", "that rate over the one that its control is set to in the file")
    def rate_share(self) -> Value:
        accepted = self.of(AcceptedFacts, AcceptedFacts.alone)
        return self.by(quotient, part=accepted.rate, whole=self.here.output.main[0].control.rate)

    @fact("s", "pulse from neutral at full stick in the accepted run")
    def accepted_reach(self) -> Value:
        return self.by(product, first=self.rate_share, second=self.here.output.size)

    @fact("1", "share of the supply that its motor got at full stick in the accepted run")
    def accepted_duty(self) -> Value:
        model = duty_jump if self.here.choice("response") == "jump" else duty_rescaled
        return self.by(
            model, deviation=self.accepted_reach, controller_half_range=self.here.full_pulse,
            dead_band=self.here.dead_band,
        )  # fmt: skip

    @fact("1", "factor on the reduction that gives the speed of the accepted run at full signal")
    def gear_factor(self) -> Value:
        return self.by(
            same_speed_gear_factor, voltage_factor=self.machine.voltage_factor,
            duty=self.beyond.full_duty, duty_at_rate=self.accepted_duty,
        )  # fmt: skip

    # --- at neutral

    @property
    def stopping(self) -> tuple[StoppingFacts, StoppingFacts]:
        """It at neutral, on the mule and on the target."""
        return self.of(StoppingFacts, self.id), self.there(StoppingFacts, self.id)

    @fact("1", "0 where both brake, or both coast, at neutral")
    def stopping_difference(self) -> Value:
        here, there = self.stopping
        return self.by(difference, first=here.brakes, second=there.brakes)

    @fact("1", "1 where only one of both brakes at neutral")
    def stops_differently(self) -> Value:
        return self.by(magnitude, value=self.stopping_difference)


class ServoPairFacts(HandoverFacts):
    """A servo of the mule, and the pulses that the target may send it."""

    kind = "servo that the target drives"
    none = "no servo of the mule serves a function that the target has"

    @classmethod
    def names(cls, evaluation: Evaluation) -> list[str]:
        servos = [servo.id for servo in ServoTravelFacts.all(evaluation)]
        return [servo for servo in servos if kept(evaluation, [evaluation.mule.function_of(servo) or ""])]

    @property
    def here(self) -> ServoTravelFacts:
        """It on the mule."""
        return self.of(ServoTravelFacts, self.id)

    @property
    def stated(self) -> StatedFacts:
        """What is said about the target."""
        return self.of(StatedFacts, StatedFacts.alone)

    @fact("s", "shortest pulse that the target may send it")
    def shortest_to_come(self) -> Value:
        return self.first(
            ("as noted", lambda: self.stated.lowest_pulse),
            ("from the target's own settings", lambda: self.there(ServoTravelFacts, self.id).shortest),
        )

    @fact("s", "longest pulse that the target may send it")
    def longest_to_come(self) -> Value:
        return self.first(
            ("as noted", lambda: self.stated.highest_pulse),
            ("from the target's own settings", lambda: self.there(ServoTravelFacts, self.id).longest),
        )

    @fact("s", "how far its longest pulse on the target lies above that on the mule")
    def excess_up(self) -> Value:
        return self.by(difference, first=self.longest_to_come, second=self.here.longest)

    @fact("s", "how far its shortest pulse on the target lies below that on the mule")
    def excess_down(self) -> Value:
        return self.by(difference, first=self.here.shortest, second=self.shortest_to_come)

    @fact("s", "larger of both; above 0 the target sends it where the mule never did")
    def excess(self) -> Value:
        return self.by(largest, values=[self.excess_up, self.excess_down])
