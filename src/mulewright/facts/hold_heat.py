"""Facts about holding a load up with the stick: how hot it makes the winding."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Self

from mulewright.facts.descriptors import fact, given
from mulewright.facts.graph import Evaluation, Facts
from mulewright.facts.holding import RaisingFacts
from mulewright.facts.nodes import Value
from mulewright.models.arithmetic import quotient
from mulewright.models.heat import winding_heat
from mulewright.models.hold import holding_volts


class HoldHeatFacts(Facts):
    """A raised load that a driver holds where it is with the stick."""

    kind = "load held by the stick"
    none = RaisingFacts.none

    hold_time = given(assume="hold_time")

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        return [evaluation.entity(cls, raising.id) for raising in RaisingFacts.all(evaluation)]

    @property
    def raising(self) -> RaisingFacts:
        """The load on its motor."""
        return self.of(RaisingFacts, self.id)

    @fact("V", "volts that hold it; none where it stays by itself")
    def hold_volts(self) -> Value:
        raising = self.raising
        return self.by(
            holding_volts, rising_duty=raising.hold_high, sinking_duty=raising.hold_low,
            voltage=raising.motor.nominal_voltage,
        )  # fmt: skip

    @fact("A", "current that holds it")
    def hold_current(self) -> Value:
        return self.by(quotient, part=self.hold_volts, whole=self.raising.motor.resistance)

    @fact("W", "heat in the winding while it is held")
    def hold_heat(self) -> Value:
        return self.by(winding_heat, current=self.hold_current, resistance=self.raising.motor.resistance)

    @fact("W", "heat in the winding at the stall of the sheet")
    def stall_heat(self) -> Value:
        motor = self.raising.motor
        return self.by(winding_heat, current=motor.stall_current, resistance=motor.resistance)

    @fact("1", "heat while it is held over heat at the stall of the sheet")
    def hold_heat_share(self) -> Value:
        return self.by(quotient, part=self.hold_heat, whole=self.stall_heat)
