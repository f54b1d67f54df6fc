"""What is powered first? What has least energy behind it, and of which one knows what it does on a lost link."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from enum import StrEnum

import numpy as np

from mulewright.design.schema.functions import Flywheel
from mulewright.facts.driving import DrivingFacts
from mulewright.facts.fail_safe import LostLinkFacts
from mulewright.facts.graph import Evaluation
from mulewright.facts.loads import HeldFacts, held_by
from mulewright.facts.nodes import UNKNOWN, Value, average
from mulewright.facts.stored import SpinningFacts
from mulewright.shelf.power_up import factor
from mulewright.units.shown import people

DRIVE = "drive"


class Link(StrEnum):
    """What a function does when the link is lost."""

    NONE = ""  # no receiver steers it
    LETS_GO = "lets go on a lost link"
    RUNS_ON = "runs on when the link is lost"
    UNKNOWN = "lost link unknown"


@dataclass(frozen=True)
class Risk:
    """What stands behind a function."""

    falls: bool
    link: Link
    energy: float  # [J], infinite where it is not known
    needs: tuple[str, ...] = ()

    @property
    def key(self) -> tuple[bool, float]:
        """For sorting, the least first: what nobody knows comes last; running on and falling count as more energy."""
        weight = factor("runs_on") if self.link is Link.RUNS_ON else 1.0
        weight *= factor("falls") if self.falls else 1.0
        return self.link is Link.UNKNOWN, weight * self.energy

    @property
    def words(self) -> str:
        """For people."""
        if np.isinf(self.energy):
            energy = "energy unknown"
        else:
            energy = (
                f"{people(self.energy, 'J', 2)} behind it" if self.energy else "next to no energy behind it"
            )
        return ", ".join(
            [energy, *([self.link.value] if self.link.value else []), *(["can fall"] if self.falls else [])]
        )


def risk_of(evaluation: Evaluation, function: str) -> Risk:
    """The risk of a function: ``drive`` stands for all of the drive."""
    mule = evaluation.mule
    mechanism = f"mechanism.{function}"
    table = mule.file.mechanism.get(function)
    held = held_by(evaluation, mechanism) if table is not None else None
    energy, needs = 0.0, tuple[str, ...]()
    if function == DRIVE:
        energy, needs = _known(evaluation, lambda: evaluation.entity(DrivingFacts, DRIVE).moving_energy)
    elif isinstance(table, Flywheel):
        energy, needs = _known(evaluation, lambda: evaluation.entity(SpinningFacts, mechanism).spin_energy)
    elif held is not None:
        energy, needs = _known(evaluation, energy_of(held))
    falls = held is not None and getattr(table, "ratchet", None) is not True
    return Risk(falls, _link(evaluation, function), energy, needs)


def energy_of(held: HeldFacts) -> Callable[[], Value]:
    """What falling gives back."""
    return lambda: held.energy


def in_order(evaluation: Evaluation, functions: Sequence[str]) -> list[str]:
    """Functions in the order in which they are tried, the least risk first; equal ones as they stand in the file."""
    return sorted(functions, key=lambda one: risk_of(evaluation, one).key)


def controllers_in_order(evaluation: Evaluation, functions: Sequence[str]) -> list[str]:
    """Controllers in the order of the functions that their motors serve; those that serve none last."""
    mule = evaluation.mule
    ordered = [
        mule.controller_of[motor]
        for function in functions
        for motor in mule.motors_serving.get(function, [])
        if motor in mule.controller_of
    ]
    return list(dict.fromkeys([*ordered, *(f"controller.{name}" for name in mule.file.controller)]))


def _known(evaluation: Evaluation, read: Callable[[], Value]) -> tuple[float, tuple[str, ...]]:
    value = UNKNOWN
    with evaluation.watch() as seen:
        value = read()
    return (float("inf"), tuple(sorted(seen.gaps))) if seen.gaps else (average(value), ())


def _link(evaluation: Evaluation, function: str) -> Link:
    """What all its controllers together do; the worst that is known, and unknown where one is not."""
    mule = evaluation.mule
    steered = {one.id: one for one in LostLinkFacts.all(evaluation)}
    fed = dict.fromkeys(mule.controller_of.get(motor, "") for motor in mule.motors_serving.get(function, []))
    found = Link.NONE
    for controller in fed:
        if controller in steered:
            runs_on, needs = _known(evaluation, runs_on_of(steered[controller]))
            if needs:
                return Link.UNKNOWN
            found = Link.RUNS_ON if runs_on > 0.5 or found is Link.RUNS_ON else Link.LETS_GO
    return found


def runs_on_of(lost: LostLinkFacts) -> Callable[[], Value]:
    """Whether a controller goes on with the last command."""
    return lambda: lost.runs_on
