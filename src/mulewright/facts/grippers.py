"""Facts about grippers: what the jaws press with and must press with, and where their linkage locks."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Self

from mulewright.design.schema.electrics import Servo
from mulewright.design.schema.functions import Gripper
from mulewright.facts.descriptors import fact, given
from mulewright.facts.graph import Evaluation, Facts
from mulewright.facts.linkage_turn import LinkageTurnFacts
from mulewright.facts.nodes import Missing, Value
from mulewright.facts.servo_torque import ServoTorqueFacts
from mulewright.facts.servo_travel import LinkedServoFacts
from mulewright.models.arithmetic import product, smallest
from mulewright.models.bus import total
from mulewright.models.grip import jaw_force, needed_grip_force
from mulewright.models.joint import safety_factor
from mulewright.models.linkage import largest_cosine, smallest_cosine, smallest_transmission_angle


def servos_of(facts: Facts, gripper: str) -> list[str]:
    """The servos that move a gripper.

    Raises
    ------
    Missing
        If there are none.
    """
    found = [f"servo.{name}" for name, servo in facts.mule.file.servo.items() if servo.moves == gripper]
    if not found:
        raise Missing(f"a servo that moves {gripper}")
    return found


class GripFacts(Facts):
    """A gripper with an object in its jaws."""

    kind = "gripper"
    none = "no gripper on this mule"

    jaws = given()
    pads = given()
    finger_length = given()
    object_mass = given()
    friction = given()
    acceleration = given()

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        found = evaluation.mule.file.mechanism.items()
        return [
            evaluation.entity(cls, f"mechanism.{name}") for name, one in found if isinstance(one, Gripper)
        ]

    @property
    def gripper(self) -> Gripper:
        """Its table."""
        assert isinstance(self.table, Gripper)
        return self.table

    @property
    def servos(self) -> list[str]:
        """The servos that move it."""
        return [f"servo.{name}" for name, servo in self.mule.file.servo.items() if servo.moves == self.id]

    @fact("N m", "stall torque of the weakest servo that moves it, at the volts that it gets")
    def servo_torque(self) -> Value:
        torques = [self.of(ServoTorqueFacts, servo).torque for servo in servos_of(self, self.id)]
        return torques[0] if len(torques) == 1 else self.by(smallest, values=torques)

    @fact("1", "share of its stall torque that a servo bears for ever")
    def lasting_share(self) -> Value:
        return self.assumed("servo_continuous_share")

    @fact("N", "force with which each jaw presses for ever")
    def jaw_force(self) -> Value:
        return self._force(self.lasting_share)

    @fact("N", "force with which each jaw presses for a moment, its servo held fast")
    def peak_jaw_force(self) -> Value:
        return self._force(1.0)

    def _force(self, share: Value | float) -> Value:
        return self.by(
            jaw_force, torque=self.servo_torque, share=share, jaws=self.jaws, finger_length=self.finger_length
        )

    @fact("N", "force of each jaw that just keeps the object from slipping out, turns and stops counted")
    def needed_force(self) -> Value:
        return self.by(
            needed_grip_force, mass=self.object_mass, acceleration=self.acceleration, friction=self.friction,
            pads=self.pads,
        )  # fmt: skip

    @fact("1", "force for ever over force needed")
    def grip_factor(self) -> Value:
        return self.by(safety_factor, available=self.jaw_force, needed=self.needed_force)

    @fact("1", "force for a moment over force needed")
    def peak_grip_factor(self) -> Value:
        return self.by(safety_factor, available=self.peak_jaw_force, needed=self.needed_force)

    @fact("1", "1 where its servo stalls on the object as long as it holds it")
    def grips_by_stall(self) -> Value:
        compliant, beyond = self.gripper.compliant, self.gripper.closes_beyond
        if compliant:
            return self.found(0, "its fingers or pads give way")
        if beyond is False:
            return self.found(0, "its closing endpoint does not lie beyond the object")
        fields = {"compliant": compliant, "closes_beyond": beyond}
        unknown = [f"{self.id}.{name}" for name, noted in fields.items() if noted is None]
        if unknown:
            raise Missing(*unknown)
        return self.found(1, "its closing endpoint lies beyond the object, and nothing in between gives way")


class LinkageSwingFacts(Facts):
    """A servo's horn on the linkage that it moves."""

    kind = "horn on its linkage"
    none = LinkedServoFacts.none

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        return [evaluation.entity(cls, servo.id) for servo in LinkedServoFacts.all(evaluation)]

    @property
    def linked(self) -> LinkedServoFacts:
        """How far the servo is sent."""
        return self.of(LinkedServoFacts, self.id)

    @property
    def bars(self) -> LinkageBarsFacts:
        """The four bars."""
        return self.of(LinkageBarsFacts, self.linked.linkage.id)

    @fact("1", "-1 where it is mounted mirror-wise to its twin")
    def hand(self) -> Value:
        servo = self.table
        assert isinstance(servo, Servo)
        if servo.mirrored:
            return self.found(-1, "it is mounted mirror-wise to its twin")
        return self.found(1, "it is not said to be mounted mirror-wise")

    @fact("rad", "horn from its place in the middle, at the longest pulse")
    def swing_up(self) -> Value:
        return self.by(product, first=self.hand, second=self.linked.highest)

    @fact("rad", "horn from its place in the middle, at the shortest pulse")
    def swing_down(self) -> Value:
        return self.by(product, first=self.hand, second=self.linked.lowest)

    @fact("rad", "horn from the line to the far pivot, at the longest pulse")
    def horn_up(self) -> Value:
        return self.by(total, values=[self.bars.horn_angle, self.swing_up])

    @fact("rad", "horn from the line to the far pivot, at the shortest pulse")
    def horn_down(self) -> Value:
        return self.by(total, values=[self.bars.horn_angle, self.swing_down])

    @fact("rad", "servo from its middle, with the lever open")
    def turned_open(self) -> Value:
        return self.by(product, first=self.hand, second=self.bars.turn_open)

    @fact("rad", "servo from its middle, with the lever closed")
    def turned_closed(self) -> Value:
        return self.by(product, first=self.hand, second=self.bars.turn_closed)

    @fact("1", "cosine of the angle where the horn points nearest to the far pivot")
    def nearest(self) -> Value:
        return self.by(largest_cosine, first=self.horn_down, last=self.horn_up)

    @fact("1", "cosine of the angle where it points farthest away from it")
    def farthest(self) -> Value:
        return self.by(smallest_cosine, first=self.horn_down, last=self.horn_up)

    @fact("rad", "smallest angle between the lines of rod and lever on its way")
    def rod_angle(self) -> Value:
        bars = self.bars
        return self.by(
            smallest_transmission_angle, horn=bars.horn, rod=bars.rod, lever=bars.lever, base=bars.base,
            nearest=self.nearest, farthest=self.farthest,
        )  # fmt: skip


class LinkageBarsFacts(LinkageTurnFacts):
    """A linkage, and how near to its dead point it comes: ``mechanism.jaw.linkage``."""

    kind = "linkage of a gripper"

    noted_angle = given(key="transmission_angle")

    @fact("rad", "smallest angle between rod and lever as far as its servos are sent")
    def transmission_angle(self) -> Value:
        return self.first(
            ("as noted", lambda: self.noted_angle),
            ("from its lengths", self._from_lengths),
            ("from its lengths, from open to closed", lambda: self.placed_rod_angle),
        )

    def _from_lengths(self) -> Value:
        servos = servos_of(self, self.id.removesuffix(".linkage"))
        angles = [self.of(LinkageSwingFacts, servo).rod_angle for servo in servos]
        return angles[0] if len(angles) == 1 else self.by(smallest, values=angles)
