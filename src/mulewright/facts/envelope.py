"""Facts about the envelope: with an arm at this angle or a lift at this height, how hard and fast may it drive?"""

from __future__ import annotations

from abc import abstractmethod
from collections.abc import Sequence
from typing import Self

from mulewright.design.schema.functions import Arm, Lift
from mulewright.facts.descriptors import fact, given
from mulewright.facts.driving import DrivingFacts
from mulewright.facts.graph import Evaluation, Facts
from mulewright.facts.loads import ArmFacts, LiftFacts, LumpFacts
from mulewright.facts.nodes import Value
from mulewright.facts.placing import PlacedDriveFacts
from mulewright.facts.reach import ReachFacts, ReachingArmFacts
from mulewright.facts.turning import TurningFacts
from mulewright.models.arithmetic import difference, product, quotient, smallest
from mulewright.models.body import combined_centre, tipping_acceleration
from mulewright.models.bus import total
from mulewright.models.pose import part_way, reach_ahead, reach_up, slowed_for_turns, speed_for_stop
from mulewright.units.table import form_of

STEPS = 6  # of an arm's or a lift's way from end to end


class PosedMassFacts(Facts):
    """A mass on an arm at an angle: ``mechanism.arm.lumps.0@2``; the load is ``mechanism.arm.load@2``."""

    kind = "mass on an arm at an angle"
    none = ArmFacts.none

    def __init__(self, evaluation: Evaluation, id: str) -> None:
        super().__init__(evaluation, id)
        what, place = id.rsplit("@", 1)
        arm, self.lump = what.removesuffix(".load").split(".lumps.", 1)[0], what
        self.pose = self.of(ArmPoseFacts, f"{arm}@{place}")

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        poses = ArmPoseFacts.all(evaluation)
        arms = evaluation.mule.file.mechanism
        found = []
        for pose in poses:
            table = arms[pose.mechanism.split(".", 1)[1]]
            assert isinstance(table, Arm)
            found += [evaluation.entity(cls, id) for id in pose.mass_ids(len(table.lumps or []))]
        return found

    @fact("m", "how far out on the arm it sits")
    def out(self) -> Value:
        if self.lump.endswith(".load"):
            return self.pose.arm.load_at
        return self.of(LumpFacts, self.lump).at

    @fact("m", "its place ahead of the rear contacts")
    def ahead(self) -> Value:
        return self.by(reach_ahead, pivot=self.pose.mount.pivot, arm=self.out, angle=self.pose.angle)

    @fact("m", "its height")
    def height(self) -> Value:
        return self.by(reach_up, pivot=self.pose.mount.pivot_height, arm=self.out, angle=self.pose.angle)


class PoseFacts(Facts):
    """The machine with an arm or a lift at one place of its way: ``mechanism.arm@0`` to ``mechanism.arm@6``."""

    kind = "pose"
    none = "nothing on this mule reaches out or up: no arm and no lift"

    def __init__(self, evaluation: Evaluation, id: str) -> None:
        super().__init__(evaluation, id)
        self.mechanism, place = id.rsplit("@", 1)
        self.place = int(place)

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        return []

    @property
    def driving(self) -> DrivingFacts:
        """The drive."""
        return self.of(DrivingFacts, "drive")

    @property
    def others(self) -> list[ReachingArmFacts]:
        """The arms that are not posed; they are straight out."""
        arms = ReachingArmFacts.all(self.evaluation)
        return [arm for arm in arms if arm.id != self.mechanism]

    @property
    @abstractmethod
    def masses(self) -> list[Value]:
        """Everything that is posed, with a mass of its own."""

    @property
    @abstractmethod
    def places(self) -> list[Value]:
        """Where each of that is, ahead of the rear contacts."""

    @property
    @abstractmethod
    def heights(self) -> list[Value]:
        """How high each of that is."""

    @fact("1", "share of its way from the lowest place")
    def way_share(self) -> Value:
        return self.found(self.place / STEPS, f"place {self.place} of {STEPS} on its way")

    @fact("m", "height of the centre of gravity of the rest of the machine")
    def base_height(self) -> Value:
        return self.driving.body.center_height

    @fact("m", "centre of gravity ahead of the rear contacts")
    def center(self) -> Value:
        body = self.driving.body
        arms = [place for arm in self.others for place in arm.places]
        return self.by(
            combined_centre, masses=self._every_mass(), positions=[body.center_ahead, *arms, *self.places]
        )

    @fact("m", "height of the centre of gravity")
    def center_height(self) -> Value:
        arms = [arm.pivot_height for arm in self.others for _ in arm.masses]
        return self.by(
            combined_centre, masses=self._every_mass(), positions=[self.base_height, *arms, *self.heights]
        )

    def _every_mass(self) -> list[Value]:
        arms = [mass for arm in self.others for mass in arm.masses]
        return [self.driving.body.mass, *arms, *self.masses]

    @fact("m", "from there to the front contacts")
    def margin(self) -> Value:
        return self.by(difference, first=self.driving.body.wheelbase, second=self.center)

    # --- how hard

    @fact("m/s2", "deceleration that takes the weight off the rear wheels")
    def tips_forward_at(self) -> Value:
        return self.by(tipping_acceleration, distance=self.margin, height=self.center_height)

    @fact("m/s2", "acceleration that takes the weight off the front wheels")
    def tips_back_at(self) -> Value:
        return self.by(tipping_acceleration, distance=self.center, height=self.center_height)

    @fact("m/s2", "sideways acceleration that takes the weight off the inner wheels")
    def tips_aside_at(self) -> Value:
        half_track = self.driving.body.half_track
        return self.by(tipping_acceleration, distance=half_track, height=self.center_height)

    @fact("m/s2", "deceleration with which one stops it at most")
    def stop_allowed(self) -> Value:
        return self._gently(self.tips_forward_at)

    @fact("m/s2", "acceleration with which one starts it at most")
    def start_allowed(self) -> Value:
        return self._gently(self.tips_back_at)

    @fact("m/s2", "sideways acceleration with which one turns it at most")
    def turn_allowed(self) -> Value:
        return self._gently(self.tips_aside_at)

    def _gently(self, tipping: Value) -> Value:
        return self.by(product, first=self.assumed("tip_share"), second=tipping)

    # --- how fast

    @fact("m", "way in which it should stand")
    def stopping_way(self) -> Value:
        free = self.of(PlacedDriveFacts, "drive").room.free
        return self.by(product, first=self.assumed("stopping_share"), second=free)

    @fact("m/s", "speed from which it stands within that way, stopped as gently as that")
    def stop_speed(self) -> Value:
        return self.by(
            speed_for_stop, distance=self.stopping_way,
            delay=self.of(PlacedDriveFacts, "drive").hand_delay, deceleration=self.stop_allowed,
        )  # fmt: skip

    @fact("m/s", "speed at which its worst turn is as gentle as that")
    def turn_speed(self) -> Value:
        turning = self.of(TurningFacts, "drive")
        return self.by(
            slowed_for_turns, speed=self.driving.top_speed, made=turning.turning_acceleration,
            allowed=self.turn_allowed,
        )  # fmt: skip

    @fact("m/s", "speed at which one drives it at most")
    def drive_allowed(self) -> Value:
        speeds = (
            [self.stop_speed, self.turn_speed] if TurningFacts.all(self.evaluation) else [self.stop_speed]
        )
        return self.by(smallest, values=[*speeds, self.driving.top_speed])

    @fact("1", "that speed over its top speed")
    def speed_share(self) -> Value:
        return self.by(quotient, part=self.drive_allowed, whole=self.driving.top_speed)


class ArmPoseFacts(PoseFacts):
    """The machine with an arm at an angle."""

    kind = "machine with its arm at an angle"
    none = ArmFacts.none

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        arms = ArmFacts.all(evaluation) if evaluation.mule.file.drive is not None else []
        return [evaluation.entity(cls, f"{arm.id}@{place}") for arm in arms for place in range(STEPS + 1)]

    @property
    def arm(self) -> ArmFacts:
        """The arm."""
        return self.of(ArmFacts, self.mechanism)

    @property
    def mount(self) -> ReachingArmFacts:
        """Where it sits."""
        return self.of(ReachingArmFacts, self.mechanism)

    def mass_ids(self, lumps: int) -> list[str]:
        """Ids of its masses at this angle."""
        names = [*(f"lumps.{number}" for number in range(lumps)), "load"]
        return [f"{self.mechanism}.{name}@{self.place}" for name in names]

    @property
    def _posed(self) -> list[PosedMassFacts]:
        return [self.of(PosedMassFacts, id) for id in self.mass_ids(len(self.arm.lumps))]

    @property
    def masses(self) -> list[Value]:
        """Its lumps and its load."""
        return self.mount.masses

    @property
    def places(self) -> list[Value]:
        """How far ahead each of them is."""
        return [mass.ahead for mass in self._posed]

    @property
    def heights(self) -> list[Value]:
        """How high each of them is."""
        return [mass.height for mass in self._posed]

    @fact("rad", "angle of the arm above level")
    def angle(self) -> Value:
        return self.by(part_way, first=self.arm.lowest, last=self.arm.highest, share=self.way_share)


class LiftPlaceFacts(Facts):
    """Where a lift's load is, at the bottom."""

    kind = "load of a lift on the machine"
    none = LiftFacts.none

    load_ahead = given()
    lowest_height = given()

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        return [evaluation.entity(cls, lift.id) for lift in LiftFacts.all(evaluation)]

    @fact("m", "load ahead of the rear contacts")
    def load_place(self) -> Value:
        return self.by(total, values=[self.of(ReachFacts, "body").body.center_ahead, self.load_ahead])

    @fact("kg", "what goes up besides the load, each counted by its way over that of the load")
    def own_raised(self) -> Value:
        lift = self.of(LiftFacts, self.id)
        return self.by(difference, first=lift.raised, second=lift.load)

    @fact("1", "the same over the mass of the machine")
    def own_share(self) -> Value:
        return self.by(quotient, part=self.own_raised, whole=self.of(ReachFacts, "body").body.mass)


class LiftPoseFacts(PoseFacts):
    """The machine with a lift at a height."""

    kind = "machine with its lift at a height"
    none = LiftFacts.none

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        lifts = LiftFacts.all(evaluation) if evaluation.mule.file.drive is not None else []
        return [evaluation.entity(cls, f"{lift.id}@{place}") for lift in lifts for place in range(STEPS + 1)]

    @property
    def lift(self) -> LiftFacts:
        """The lift."""
        return self.of(LiftFacts, self.mechanism)

    @property
    def mount(self) -> LiftPlaceFacts:
        """Where its load is."""
        return self.of(LiftPlaceFacts, self.mechanism)

    @property
    def masses(self) -> list[Value]:
        """Its load."""
        return [self.lift.load]

    @property
    def places(self) -> list[Value]:
        """How far ahead it is."""
        return [self.mount.load_place]

    @property
    def heights(self) -> list[Value]:
        """How high it is."""
        return [self.load_height]

    @fact("m", "how far its load is up")
    def raised_by(self) -> Value:
        return self.by(product, first=self.way_share, second=self.lift.travel)

    @fact("m", "height of its load above the floor")
    def load_height(self) -> Value:
        return self.by(total, values=[self.mount.lowest_height, self.raised_by])

    @fact("m", "how far its own stages raise the centre of gravity")
    def base_rise(self) -> Value:
        return self.by(product, first=self.mount.own_share, second=self.raised_by)

    @fact("m", "height of the centre of gravity of the rest of the machine, its own stages raised")
    def base_height(self) -> Value:
        return self.by(total, values=[self.driving.body.center_height, self.base_rise])


POSES: dict[type, type[PoseFacts]] = {Arm: ArmPoseFacts, Lift: LiftPoseFacts}


def poses_of(evaluation: Evaluation, mechanism: str) -> Sequence[PoseFacts]:
    """The machine at each place of an arm's or a lift's way; nothing where it neither reaches out nor up."""
    kind = POSES.get(form_of(evaluation.mule.things.get(mechanism)))
    return [pose for pose in kind.all(evaluation) if pose.mechanism == mechanism] if kind is not None else []
