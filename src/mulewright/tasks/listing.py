"""List every fact of a mule."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from mulewright.advice.draws import intervals
from mulewright.facts.catalog import every_fact
from mulewright.facts.nodes import Node, number
from mulewright.tasks.opening import NO_TARGET, Opened, TargetFile, open_mule


@dataclass(frozen=True)
class FactList:
    """Every fact of one mule."""

    opened: Opened
    facts: tuple[Node, ...]
    intervals: dict[str, tuple[float, float]]  # 95 % of the draws, by the id of the fact [SI]

    def as_dict(self) -> dict[str, Any]:
        """The facts for programs; numbers in SI."""
        return {"mule": self.opened.name, "facts": [self._one(node) for node in self.facts]}

    def _one(self, node: Node) -> dict[str, Any]:
        low, high = self.intervals.get(node.id, (None, None))
        return {**fact_as_dict(node), "low": low, "high": high}


def fact_as_dict(node: Node) -> dict[str, Any]:
    """One fact for programs."""
    return {
        "name": node.name,
        "entity": node.entity,
        "value": number(node),
        "unit": node.unit,
        "origin": node.origin.word,
        "missing": sorted(node.gaps),
        "says": node.says,
    }


def list_facts(
    path: str | Path,
    settings: Sequence[str] = (),
    variant: str | None = None,
    target: TargetFile = NO_TARGET,
) -> FactList:
    """Read a mule file, and that of its target if one is given, and compute every fact."""
    opened = open_mule(path, settings, variant, target)
    facts = tuple(every_fact(opened.evaluation))
    return FactList(opened, facts, intervals(opened.evaluation))
