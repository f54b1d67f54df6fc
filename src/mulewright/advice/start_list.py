"""Where should each control stand when the power comes on?"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from mulewright.advice.spoken import listed
from mulewright.design.schema.electrics import Controller
from mulewright.facts.controls import ControlFacts
from mulewright.facts.graph import Evaluation
from mulewright.facts.outputs import OutputFacts
from mulewright.facts.records import stays


@dataclass(frozen=True)
class StartPlace:
    """A control that commands something, or moves what is plugged in, and its place at switch-on."""

    control: str
    place: str | None  # None where nobody can tell
    because: str
    noted: bool = False

    @property
    def name(self) -> str:
        """Its short name."""
        return self.control.rsplit(".", 1)[1]


def start_list(evaluation: Evaluation) -> list[StartPlace]:
    """Every control that commands or moves something: as noted, as its spring puts it, or where motors are still."""
    moving = {term.control for output in OutputFacts.all(evaluation) for term in output.terms}
    commands = evaluation.mule.commands_of
    return [
        _place(evaluation.entity(ControlFacts, id)) for id, what in commands.items() if what or id in moving
    ]


def _place(facts: ControlFacts) -> StartPlace:
    control = facts.control
    if control.start is not None:
        return StartPlace(facts.id, control.start, "as noted", noted=True)
    if control.kind is None:
        return StartPlace(facts.id, None, "")
    if not stays(facts):
        return StartPlace(facts.id, "middle", "by its spring")
    followers = [output for output in OutputFacts.all(facts.evaluation) if _follows(output, facts.id)]
    controllers = [table for one in followers if isinstance(table := one.table, Controller)]
    if not followers or len(controllers) < len(followers):
        return StartPlace(facts.id, None, "")
    moved = facts.functions or list(dict.fromkeys(name for one in followers for name in one.functions))
    still = f"{listed(moved)} {'is' if len(moved) == 1 else 'are'} still"
    if control.kind == "switch":
        return _on_a_switch(facts, still, moved)
    one_way = any(one.direction == "one-way" for one in controllers)
    return StartPlace(facts.id, "lowest end" if one_way else "middle", still)


def _follows(output: OutputFacts, control: str) -> bool:
    return any(term.control == control for term in output.terms)


def _on_a_switch(facts: ControlFacts, still: str, moved: Sequence[str]) -> StartPlace:
    positions: Sequence[float] = [position.value for position in facts.control.positions or ()]
    off = [place for place, command in enumerate(positions, start=1) if command == 0]
    if not positions:
        return StartPlace(facts.id, None, "what its positions command is not noted")
    if not off:
        return StartPlace(facts.id, None, f"no position of it stops {listed(moved)}")
    return StartPlace(facts.id, f"position {off[0]}", still)
