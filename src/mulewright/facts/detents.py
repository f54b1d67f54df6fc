"""Facts about sticks without a spring: does the click in their middle repeat well enough for a motor to rest?"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Self

from mulewright.design.unsaid import MIX_INPUTS, SIGNALS
from mulewright.facts.controls import ControlFacts
from mulewright.facts.descriptors import fact, given
from mulewright.facts.graph import Evaluation, Facts
from mulewright.facts.nodes import Value
from mulewright.facts.outputs import ControllerSignalFacts
from mulewright.facts.roles import RunningStickFacts


class DetentFacts(Facts):
    """The click of a stick axis or another control."""

    kind = "control with a click"
    none = ControlFacts.none

    detent_error = given(assume="detent_error")

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        return [evaluation.entity(cls, control.id) for control in ControlFacts.all(evaluation)]


class UnsprungFollowerFacts(Facts):
    """A controller that rests where the click of an unsprung axis is."""

    kind = "controller on an unsprung axis"
    none = "no motor that rests in the middle follows an axis without a spring"
    rests_on = (SIGNALS, MIX_INPUTS)

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        followers = [one for one in ControllerSignalFacts.all(evaluation) if one.output.terms]
        made = [evaluation.entity(cls, one.id) for one in followers]
        return [one for one in made if one.resting]

    @property
    def signal(self) -> ControllerSignalFacts:
        """What it makes of pulses."""
        return self.of(ControllerSignalFacts, self.id)

    @property
    def resting(self) -> list[ControlFacts]:
        """The axes behind it that command a speed and are not known to return by themselves, its own first."""
        resting = _resting(self.evaluation)
        controls = [part.control for part in (*self.signal.output.main, *self.signal.output.parts)]
        return [control for control in controls if control.id in resting]

    @property
    def stick(self) -> ControlFacts:
        """The first of them."""
        return self.resting[0]

    @property
    def in_words(self) -> str:
        """The axis and its spring, for people."""
        sprung = "is sprung" if self.stick.choice("sprung") else "is not sprung"
        return f"{self.stick.name} {sprung}"

    @fact("s", "how far the pulse may be off each time that the stick is put to its click")
    def error(self) -> Value:
        if self.stick.choice("sprung"):
            return self.found(0, f"{self.stick.name} is sprung")
        return self.of(DetentFacts, self.stick.id).detent_error


def _resting(evaluation: Evaluation) -> set[str]:
    """Axes that command a speed and are not known to return to the middle by themselves."""
    sticks = (one for one in RunningStickFacts.all(evaluation) if not one.steady)
    return {one.id for one in sticks if not _returns(one.control)}


def _returns(control: ControlFacts) -> bool:
    return control.control.sprung is True or control.control.conversion == "fitted"
