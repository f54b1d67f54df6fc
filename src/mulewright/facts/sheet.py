"""Facts about numbers that should fit each other: a motor's sheet, a noted ratio."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Self

from mulewright.facts.descriptors import fact, given
from mulewright.facts.graph import Evaluation, Facts
from mulewright.facts.motors import MotorFacts
from mulewright.facts.nodes import Value
from mulewright.models.arithmetic import deviation, outside_range
from mulewright.models.motor_sheet import sheet_power_ratio


class SheetFacts(Facts):
    """The four end points of a motor's sheet."""

    kind = "motor's sheet"
    none = MotorFacts.none

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        return [evaluation.entity(cls, motor.id) for motor in MotorFacts.all(evaluation)]

    @property
    def bare(self) -> bool:
        """Whether it is known to have no gearbox."""
        return self.of(MotorFacts, self.id).motor.gearbox is False

    @fact("1", "torque for each ampere over volts for each rad/s: one and the same in a motor without losses")
    def constants_ratio(self) -> Value:
        return self.of(MotorFacts, self.id).sheet_efficiency

    @fact("1", "stall torque times free speed over volts times stall current")
    def power_ratio(self) -> Value:
        motor = self.of(MotorFacts, self.id)
        return self.by(
            sheet_power_ratio, stall_torque=motor.stall_torque, free_speed=motor.free_speed,
            voltage=motor.nominal_voltage, stall_current=motor.stall_current,
        )  # fmt: skip

    @fact("1", "lowest ratio of a sheet that is believed")
    def lowest_ratio(self) -> Value:
        return self.assumed("lowest_sheet_ratio")

    @fact("1", "highest ratio of a sheet that is believed")
    def highest_ratio(self) -> Value:
        return self.assumed("highest_sheet_ratio")

    @fact("1", "how far the ratio is from the believed range, by factors; above 1 it is outside")
    def doubt(self) -> Value:
        return self.by(outside_range, value=self.power_ratio, low=self.lowest_ratio, high=self.highest_ratio)


class NotedRatioFacts(Facts):
    """A motor for which somebody noted the product of its gear stages."""

    kind = "motor with a noted ratio"
    none = "no total ratio is noted for any motor"

    total_ratio = given()

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        motors = evaluation.mule.file.motor.items()
        return [
            evaluation.entity(cls, f"motor.{name}") for name, motor in motors if motor.total_ratio is not None
        ]

    @property
    def motor(self) -> MotorFacts:
        """The motor."""
        return self.of(MotorFacts, self.id)

    @fact("1", "how far the noted ratio is from the product of the stages")
    def ratio_error(self) -> Value:
        return self.by(deviation, value=self.total_ratio, reference=self.motor.ratio)
