"""Facts about what servos give and what is asked of them: torque at their volts, load, speed under it."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Self

from mulewright.design.schema.electrics import Servo
from mulewright.design.schema.functions import Arm, Gripper
from mulewright.facts.consumers import ServoDrawFacts
from mulewright.facts.descriptors import fact, given
from mulewright.facts.graph import Evaluation, Facts
from mulewright.facts.loads import ArmFacts
from mulewright.facts.nodes import Value
from mulewright.facts.rail import ServoRailFacts
from mulewright.facts.servo_travel import ServoTravelFacts
from mulewright.models.arithmetic import largest, product, quotient, smallest
from mulewright.models.bus import total
from mulewright.models.grip import servo_speed_under_load, servo_torque, servo_torque_at_speed
from mulewright.models.motion import swing_acceleration, swing_peak_speed, travel_time
from mulewright.models.servo import servo_free_speed, share_needed


class ServoTorqueFacts(Facts):
    """What a servo gives at the volts of its rail."""

    kind = "servo at its volts"
    none = ServoDrawFacts.none

    rated_voltage = given()
    sheet_torque = given(key="stall_torque")
    second_voltage = given()
    second_torque = given(key="second_stall_torque")
    transit = given()

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        return cls.each(evaluation, "servo")

    @fact("V", "volts that it gets; those of its sheet while nothing feeds it")
    def supply_voltage(self) -> Value:
        rail = self.of(ServoRailFacts, self.id).rail
        if rail.demand.certain("feeds") or rail.demand.perhaps("feeds"):
            return rail.voltage
        return self.rated_voltage

    @fact("V", "lower one of the two voltages of its sheet")
    def lower_voltage(self) -> Value:
        return self.by(smallest, values=[self.rated_voltage, self.second_voltage])

    @fact("V", "higher one of the two voltages of its sheet")
    def higher_voltage(self) -> Value:
        return self.by(largest, values=[self.rated_voltage, self.second_voltage])

    @fact("N m", "stall torque of its sheet at the lower voltage")
    def lower_torque(self) -> Value:
        return self.by(smallest, values=[self.sheet_torque, self.second_torque])

    @fact("N m", "stall torque of its sheet at the higher voltage")
    def higher_torque(self) -> Value:
        return self.by(largest, values=[self.sheet_torque, self.second_torque])

    @fact("N m", "stall torque at the volts that it gets")
    def torque(self) -> Value:
        if self.table.quantity("second_voltage") is None:
            return self.by(
                servo_torque, voltage=self.supply_voltage, low_voltage=0.0, low_torque=0.0,
                high_voltage=self.rated_voltage, high_torque=self.sheet_torque,
            )  # fmt: skip
        return self.by(
            servo_torque, voltage=self.supply_voltage, low_voltage=self.lower_voltage,
            low_torque=self.lower_torque, high_voltage=self.higher_voltage, high_torque=self.higher_torque,
        )  # fmt: skip

    @fact("rad/s", "speed without load at the volts that it gets")
    def free_speed(self) -> Value:
        return self.by(
            servo_free_speed, transit=self.transit, voltage=self.supply_voltage,
            rated_voltage=self.rated_voltage,
        )  # fmt: skip


class ServoLoadFacts(Facts):
    """A servo that holds something up or turns it; the grip of a jaw is another matter."""

    kind = "servo with a load"
    none = "no servo holds or turns anything but the jaws of a gripper"

    noted_load = given(key="load_torque")

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        things, servos = evaluation.mule.things, evaluation.mule.file.servo.items()
        return [
            evaluation.entity(cls, f"servo.{name}")
            for name, servo in servos
            if not isinstance(things.get(servo.moves or ""), Gripper)
        ]

    @property
    def servo(self) -> ServoTorqueFacts:
        """What it gives."""
        return self.of(ServoTorqueFacts, self.id)

    @property
    def _moves(self) -> str | None:
        servo = self.table
        assert isinstance(servo, Servo)
        return servo.moves

    @fact("1", "servos that share the load")
    def servos_sharing(self) -> Value:
        moves = self._moves
        found = [name for name, servo in self.mule.file.servo.items() if servo.moves == moves]
        return self.found(len(found), f"{', '.join(f'servo.{name}' for name in found)} move {moves}")

    @fact("N m", "torque that it holds")
    def load(self) -> Value:
        moves = self._moves
        if not isinstance(self.mule.things.get(moves or ""), Arm):
            return self.noted_load
        return self.first(
            ("as noted for the servo", lambda: self.noted_load),
            ("from the arm that it moves", lambda: self.by(
                quotient, part=self.of(ArmFacts, moves or "").torque, whole=self.servos_sharing
            )),
        )  # fmt: skip

    @fact("1", "torque that it holds over its stall torque")
    def load_share(self) -> Value:
        return self.by(share_needed, needed=self.load, available=self.servo.torque)


class ServoMoveFacts(Facts):
    """A servo of which a time for its travel is wanted."""

    kind = "servo with a wanted time"
    none = "no time for its travel is wanted of any servo"

    wanted_time = given()
    load_inertia = given()

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        servos = evaluation.mule.file.servo.items()
        return [
            evaluation.entity(cls, f"servo.{name}")
            for name, servo in servos
            if servo.wanted_time is not None and servo.rotation != "continuous"
        ]

    @property
    def servo(self) -> ServoTorqueFacts:
        """What it gives."""
        return self.of(ServoTorqueFacts, self.id)

    @property
    def holding(self) -> ServoLoadFacts:
        """What it holds."""
        return self.of(ServoLoadFacts, self.id)

    @property
    def way(self) -> Value:
        """The angle that the task needs."""
        return self.of(ServoTravelFacts, self.id).need

    @fact(
        "rad/s2", "acceleration that speeds up for half of the wanted time and slows down for the other half"
    )
    def swing_up(self) -> Value:
        return self.by(swing_acceleration, angle=self.way, duration=self.wanted_time)

    @fact("rad/s", "speed in the middle of such a swing")
    def swing_speed(self) -> Value:
        return self.by(swing_peak_speed, angle=self.way, duration=self.wanted_time)

    @fact("N m", "torque for that acceleration")
    def swing_torque(self) -> Value:
        return self.by(product, first=self.load_inertia, second=self.swing_up)

    @fact("N m", "torque for acceleration and load together")
    def moving_torque(self) -> Value:
        return self.by(total, values=[self.swing_torque, self.holding.load])

    @fact("N m", "torque that it has left at that speed")
    def torque_left(self) -> Value:
        return self.by(
            servo_torque_at_speed, speed=self.swing_speed, free_speed=self.servo.free_speed,
            stall_torque=self.servo.torque,
        )  # fmt: skip

    @fact("1", "torque for acceleration and load over the torque left at that speed")
    def moving_share(self) -> Value:
        return self.by(share_needed, needed=self.moving_torque, available=self.torque_left)

    @fact("rad/s", "speed that it keeps under its load")
    def loaded_speed(self) -> Value:
        return self.by(
            servo_speed_under_load, torque=self.holding.load, stall_torque=self.servo.torque,
            free_speed=self.servo.free_speed,
        )  # fmt: skip

    @fact("s", "time over its way at that speed")
    def move_time(self) -> Value:
        return self.by(travel_time, way=self.way, speed=self.loaded_speed)
