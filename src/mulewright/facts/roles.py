"""Facts about which control suits which function: what springs back, what is slowed, what moves."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Self

from mulewright.design.characters import character
from mulewright.design.reads import kept
from mulewright.facts.controls import ControlFacts, RateFacts
from mulewright.facts.descriptors import fact
from mulewright.facts.graph import Evaluation, Facts
from mulewright.facts.nodes import Missing, Value
from mulewright.facts.outputs import OutputFacts

MOST_NAMED = 4
UNSEEN_ZERO = ("knob", "slider")  # controls with neither a spring nor a middle that a thumb finds


class RoleFacts(Facts):
    """A control in its role: what kind of function hangs on it."""

    kind = "control"
    none = "no control commands anything"

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        controls = [evaluation.entity(cls, control.id) for control in ControlFacts.all(evaluation)]
        return [control for control in controls if control.fits]

    @property
    def fits(self) -> bool:
        """Whether the control is of the kind that this class is about."""
        return True

    @property
    def control(self) -> ControlFacts:
        """The control itself."""
        return self.of(ControlFacts, self.id)

    @property
    def is_stick(self) -> bool:
        """Whether it is a stick axis, or nothing is said that makes it anything else."""
        return self.control.control.kind in ("stick", None)

    @property
    def characters(self) -> dict[str, str]:
        """What each function that it commands does with a command."""
        return {function: character(self.mule, function) for function in self.control.functions}

    @property
    def moves(self) -> str:
        """The functions that it commands, in words."""
        return " and ".join(self.control.functions)

    @property
    def name(self) -> str:
        """Its short name."""
        return self.control.name

    @property
    def spring(self) -> str:
        """What brings it back to its middle, in words."""
        if self.control.control.conversion == "fitted":
            return "has a self-centring conversion"
        return "is sprung" if self.control.choice("sprung") else "is not sprung"


class RunningStickFacts(RoleFacts):
    """A stick axis that commands something that runs."""

    kind = "stick of a motor"
    none = "no stick commands a motor: what they command goes to a place"

    @property
    def fits(self) -> bool:
        """A stick whose function is no position."""
        return self.is_stick and any(what != "position" for what in self.characters.values())

    @property
    def steady(self) -> bool:
        """Whether all that it commands is switched on and left running."""
        return "speed" not in self.characters.values()


class HoldingStickFacts(RoleFacts):
    """A stick axis that commands something that should stay as it is put."""

    kind = "stick of a position"
    none = "no stick commands a position or anything that is left running"

    @property
    def fits(self) -> bool:
        """A stick whose function should stay as it is put."""
        return self.is_stick and "speed" not in self.characters.values()


class DrivingControlFacts(RoleFacts):
    """Any control that commands the speed of something."""

    kind = "control of a speed"
    none = "no control commands a speed"

    @property
    def fits(self) -> bool:
        """A control whose function follows its speed."""
        return "speed" in self.characters.values()

    @fact("1", "1 where it has no spring, and no middle that a thumb finds")
    def unseen_zero(self) -> Value:
        kind = self.control.choice("kind")
        return self.found(kind in UNSEEN_ZERO, f"{self.name} is a {kind}")


class PlannedControlFacts(RoleFacts):
    """A control that the plan gives a function."""

    kind = "control in the plan"
    none = "no control commands anything"

    @fact("1", "1 where at least one controller or servo follows it")
    def moves_something(self) -> Value:
        return self.found(bool(self.followers), f"followed by {self.followers_in_words}")

    @kept
    def followers(self) -> list[str]:
        """The controllers and servos that follow it.

        Raises
        ------
        Missing
            If there are none, and it is not said of every device where it is plugged.
        """
        outputs = OutputFacts.all(self.evaluation)
        found = [output.id for output in outputs if any(term.control == self.id for term in output.terms)]
        plugs = {output.id: getattr(self.mule.things[output.id], "signal", None) for output in outputs}
        unknown = [f"{id}.signal" for id, plug in plugs.items() if plug is None]
        if unknown and not found:
            raise Missing(*unknown)
        return found

    @property
    def followers_in_words(self) -> str:
        """The same for people, shortened where there are many."""
        shown, rest = self.followers[:MOST_NAMED], len(self.followers) - MOST_NAMED
        return (", ".join(shown) or "nothing") + (f" and {rest} more" if rest > 0 else "")


class SlowedFacts(Facts):
    """A function besides the drive, and the slow position of the rate switch: ``mechanism.lift``."""

    kind = "function besides the drive"
    none = "nothing besides the drive is commanded"

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        mule = evaluation.mule
        commanded = [name for name in mule.functions if mule.controls_for(name)]
        ids = [mule.functions[name] for name in commanded if mule.functions[name] != "drive"]
        return [evaluation.entity(cls, id) for id in ids]

    @property
    def controls(self) -> list[ControlFacts]:
        """The controls that command it."""
        functions = [name for name, path in self.mule.functions.items() if path == self.id]
        return [
            self.of(ControlFacts, control) for name in functions for control in self.mule.controls_for(name)
        ]

    @property
    def slowed(self) -> bool:
        """Whether the rate switch reaches every control that commands it.

        Raises
        ------
        Missing
            If it is not said what the switch reaches.
        """
        return all(control.name in self._covered(control) for control in self.controls)

    def _covered(self, control: ControlFacts) -> list[str]:
        rates = self.of(RateFacts, f"{control.radio.id}.rate")
        if rates.covered is None:
            raise Missing(f"{rates.id}.covers")
        return rates.covered

    @property
    def in_words(self) -> str:
        """Whether a slow mode is wanted and reaches it, in words."""
        if getattr(self.table, "slow_mode", None) is False:
            return "no slow mode is wanted"
        names = " and ".join(control.name for control in self.controls)
        if self.slowed:
            return f"the rate switch reaches {names}, on which it hangs"
        return f"a slow mode is wanted, it hangs on {names}, and the rate switch does not reach that"

    @fact("1", "1 where a slow mode is wanted for it and the rate switch does not reach it")
    def not_slowed(self) -> Value:
        unwanted = getattr(self.table, "slow_mode", None) is False
        missed = not unwanted and not self.slowed and bool(self.choice("slow_mode"))
        return self.found(missed, self.in_words)
