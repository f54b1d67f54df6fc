"""Facts about a drive whose task names a push."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Self

from mulewright.facts.descriptors import given
from mulewright.facts.driving import DrivingFacts
from mulewright.facts.graph import Evaluation, Facts


class WantedPushFacts(Facts):
    """A drive whose task names a push."""

    kind = "drive with a wanted push"
    none = "the task names no push"

    wanted_push = given()

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        drive = evaluation.mule.file.drive
        return [evaluation.entity(cls, "drive")] if drive is not None and drive.wanted_push else []

    @property
    def driving(self) -> DrivingFacts:
        """The drive."""
        return self.of(DrivingFacts, "drive")
