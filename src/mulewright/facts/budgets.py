"""Facts about the time that a task allows for an arm's way, or for the course."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Self

from mulewright.design.schema.functions import Arm
from mulewright.facts.descriptors import fact, given
from mulewright.facts.driving import WantedSpeedFacts
from mulewright.facts.graph import Evaluation, Facts
from mulewright.facts.holding import RaisingArmFacts
from mulewright.facts.nodes import Value
from mulewright.facts.steady import CourseFacts
from mulewright.models.motion import travel_time

COURSE = "course"


class BudgetFacts(Facts):
    """An arm, or the way of the drive, for which the task names a longest time."""

    kind = "arm or course with a time budget"
    none = "no longest time is noted for an arm or for the course"

    time_budget = given()

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        file = evaluation.mule.file
        arms = [
            f"mechanism.{name}"
            for name, one in file.mechanism.items()
            if isinstance(one, Arm) and one.time_budget is not None
        ]
        course = [COURSE] if file.course.time_budget is not None and file.drive is not None else []
        return [evaluation.entity(cls, id) for id in (*arms, *course)]

    @property
    def words(self) -> str:
        """What takes the time."""
        return "The course" if self.id == COURSE else "Its whole way"

    @fact("s", "time over the whole way at full stick")
    def full_stick_time(self) -> Value:
        if self.id != COURSE:
            return self.of(RaisingArmFacts, self.id).rise_time
        return self.by(
            travel_time,
            way=self.of(CourseFacts, COURSE).length,
            speed=self.of(WantedSpeedFacts, "drive").expected,
        )
