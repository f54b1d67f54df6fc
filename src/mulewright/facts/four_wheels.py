"""Facts about four wheels on one frame: do they scrub in a turn, and do all of them stand?"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Self

from mulewright.facts.body import BodyFacts, WheelFacts
from mulewright.facts.descriptors import fact, given
from mulewright.facts.graph import Evaluation, Facts
from mulewright.facts.nodes import Value
from mulewright.facts.standing import ROLLERS, StandingFacts
from mulewright.models.arithmetic import quotient
from mulewright.models.traction import skid_turn_force

SKID = "skid-steer"
FOUR_ON_THE_FLOOR = (ROLLERS, SKID)


class ScrubFacts(Facts):
    """The wheels of a drive, across."""

    kind = "wheels that scrub"
    none = WheelFacts.none

    side_friction = given()

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        return [evaluation.entity(cls, "drive.wheel")] if evaluation.mule.file.drive is not None else []

    @fact("1", "grip across the wheel")
    def across(self) -> Value:
        return self.first(
            ("as noted", lambda: self.side_friction),
            ("taken as along the wheel", lambda: self.of(WheelFacts, "drive.wheel").friction),
        )


class SkidFacts(Facts):
    """A drive that turns about its middle."""

    kind = "drive that turns"
    none = WheelFacts.none

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        return [evaluation.entity(cls, "drive")] if evaluation.mule.file.drive is not None else []

    @property
    def standing(self) -> StandingFacts:
        """The drive at rest."""
        return self.of(StandingFacts, "drive")

    @property
    def body(self) -> BodyFacts:
        """The machine as one mass."""
        return self.of(BodyFacts, "body")

    @property
    def free_rolling(self) -> str:
        """Why no wheel scrubs in a turn; empty where four wheels grip sideways."""
        kind = self.standing.drive_kind
        if kind == ROLLERS:
            return "roller wheels roll sideways"
        if kind == SKID or self.choice("driven") == "all":
            return ""
        return f"only the wheels of the {self.choice('driven')} axle grip sideways"

    @fact("1", "wheelbase over track")
    def length_over_width(self) -> Value:
        return self.by(quotient, part=self.body.wheelbase, whole=self.body.track)

    @fact("N", "push on each side that turns it on the spot against the grip of four wheels")
    def turning_push(self) -> Value:
        return self.by(
            skid_turn_force, friction=self.of(ScrubFacts, "drive.wheel").across, load=self.body.weight,
            wheelbase=self.body.wheelbase, track=self.body.track,
        )  # fmt: skip


class FourWheelFacts(Facts):
    """A frame that stands on four driven wheels: ``body``."""

    kind = "frame on four driven wheels"
    none = "no drive of four driven wheels on this mule"

    frame_error = given()
    lightest_wheel = given()

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        drive = evaluation.mule.file.drive
        fits = drive is not None and (drive.kind is None or drive.kind in FOUR_ON_THE_FLOOR)
        return [evaluation.entity(cls, "body")] if fits else []

    @property
    def stiff(self) -> bool:
        """Whether the frame cannot twist."""
        self.of(StandingFacts, "drive").choice("kind")
        return bool(self.choice("stiff_frame"))

    @property
    def weighed(self) -> bool:
        """Whether the share of the lightest wheel was weighed."""
        return self.table.quantity("lightest_wheel") is not None

    @fact("1", "share of the weight that each of four wheels has to carry at least")
    def least_wheel_share(self) -> Value:
        return self.assumed("least_wheel_share")
