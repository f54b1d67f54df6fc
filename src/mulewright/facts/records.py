"""Facts about records that people keep: notes on the radio, ticks on the checklist."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Self

from mulewright.facts.controls import RadioFacts
from mulewright.facts.graph import Evaluation, Facts, Value, fact


class RadioRecordFacts(Facts):
    """What is noted about a transmitter."""

    kind = "radio"
    none = RadioFacts.none

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        return [evaluation.entity(cls, radio.id) for radio in RadioFacts.all(evaluation)]

    @property
    def note(self) -> str:
        """What the user found out about local rules for its band."""
        note: str = self.choice("permission")
        return note

    @fact("1", "1 where the note on the rules for its band does not begin with no or not")
    def permitted(self) -> Value:
        refused = self.note.casefold().split()[:1] in (["no"], ["not"])
        return self.found(float(not refused), f"noted: {self.note}")
