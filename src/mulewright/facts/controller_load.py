"""Facts about the current that a controller has to bear when its motors are held fast."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Self

from mulewright.design.unsaid import FEEDS
from mulewright.facts.descriptors import fact
from mulewright.facts.graph import Evaluation, Facts
from mulewright.facts.nodes import Value
from mulewright.facts.ratings import RatingFacts
from mulewright.facts.slipping import SlipFacts
from mulewright.facts.stalls import StalledFacts
from mulewright.models.bus import total
from mulewright.models.motor import relieved_limit


class ControllerLoadFacts(Facts):
    """A controller whose motors are held fast."""

    kind = "loaded controller"
    none = "no controller feeds a motor"
    rests_on = (FEEDS,)

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        found = [evaluation.entity(cls, f"controller.{name}") for name in evaluation.mule.file.controller]
        return [one for one in found if one.belongs(len(one.fed))]

    @classmethod
    def belongs(cls, fed: int) -> bool:
        """Whether a controller with so many motors is one of these."""
        return fed > 0

    @property
    def fed(self) -> list[str]:
        """The motors on it."""
        return self.mule.motors_of(self.id)

    @property
    def rating(self) -> RatingFacts:
        """What it bears."""
        return self.of(RatingFacts, self.id)

    @fact("A", "current through it when all its motors are held fast, full stick, rested battery, all wires")
    def stall_current(self) -> Value:
        motors = [self.of(StalledFacts, motor) for motor in self.fed]
        if len(motors) == 1:
            return motors[0].held_current
        return self.by(total, values=[motor.held_current for motor in motors])


class LoneControllerFacts(ControllerLoadFacts):
    """A controller that feeds one motor."""

    kind = "controller of one motor"
    none = "no controller feeds exactly one motor"

    @classmethod
    def belongs(cls, fed: int) -> bool:
        """Whether a controller with so many motors is one of these."""
        return fed == 1

    @fact("A", "peak that it bears; no limit where the wheel slips before it is reached")
    def hard_limit(self) -> Value:
        (motor,) = self.fed
        wheel = self.mule.file.motor[motor.split(".", 1)[1]].turns or ""
        if not wheel.startswith("wheel."):
            return self.rating.peak_current
        slip = self.of(SlipFacts, motor)
        return self.by(relieved_limit, limit=self.rating.peak_current, relief=slip.slip_current)


class SharedControllerFacts(ControllerLoadFacts):
    """A controller that feeds several motors."""

    kind = "controller of several motors"
    none = "no controller feeds more than one motor"

    @classmethod
    def belongs(cls, fed: int) -> bool:
        """Whether a controller with so many motors is one of these."""
        return fed > 1
