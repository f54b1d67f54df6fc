"""Facts about which control suits which function: what springs back, what is slowed, what moves."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Self

from mulewright.design.characters import character
from mulewright.facts.controls import ControlFacts
from mulewright.facts.graph import Evaluation, Facts, Missing, Value, fact
from mulewright.facts.outputs import OutputFacts
from mulewright.models.arithmetic import smallest

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
        outputs = OutputFacts.all(self.evaluation)
        moved = [output.id for output in outputs if any(term.control == self.id for term in output.terms)]
        if moved:
            return self.found(
                1, f"{', '.join(moved)} follow it" if len(moved) > 1 else f"{moved[0]} follows it"
            )
        unknown = [f"{output.id}.signal" for output in outputs if not self.mule.signals.sources(output.id)]
        if unknown:
            raise Missing(*unknown)
        return self.found(0, "nothing is plugged in where it comes out")


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
    def control_names(self) -> str:
        """Those controls, in words."""
        return " and ".join(control.name for control in self.controls)

    @fact("1", "1 where the driver wants a slow mode for it")
    def slow_wanted(self) -> Value:
        wanted = self.choice("slow_mode")
        return self.found(wanted, f"a slow mode is {'' if wanted else 'not '}wanted")

    @fact("1", "1 where the rate switch reaches every control that commands it")
    def slowed(self) -> Value:
        return self.by(smallest, values=[control.slowed for control in self.controls])
