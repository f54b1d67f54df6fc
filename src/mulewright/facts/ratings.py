"""Facts about what a controller bears, by its sheet."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Self

from mulewright.facts.descriptors import given
from mulewright.facts.graph import Evaluation, Facts


class RatingFacts(Facts):
    """Currents that a controller bears."""

    kind = "controller's rating"
    none = "no controller is described"

    peak_current = given()
    continuous_current = given()

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        return cls.each(evaluation, "controller")
