"""Open a number down to what was typed, or a check to its page."""

from __future__ import annotations

import ast
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

import numpy as np

from mulewright.checks import CHECKS
from mulewright.checks.engine import Check
from mulewright.errors import NotFound, closest
from mulewright.facts.catalog import find
from mulewright.facts.nodes import Computed, Found, Given, Node, Same, average, trouble
from mulewright.models.formula import constants_of, formula_of
from mulewright.tasks.listing import fact_as_dict
from mulewright.tasks.opening import NO_TARGET, TargetFile, open_mule

Number = float | list[float | None] | None


@dataclass(frozen=True)
class Argument:
    """One number that went into a formula, and the facts that it came from."""

    value: Number
    unit: str
    facts: tuple[str, ...]


@dataclass(frozen=True)
class Explained:
    """One fact opened by one level, with those below it."""

    fact: dict[str, Any]
    because: str
    formula: str = ""
    arguments: Mapping[str, Argument] = field(default_factory=dict)
    constants: Mapping[str, float] = field(default_factory=dict)
    below: tuple[Explained, ...] = ()

    @property
    def id(self) -> str:
        """The fact's full name."""
        return f"{self.fact['entity']}.{self.fact['name']}"

    def as_dict(self, opened: set[str] | None = None) -> dict[str, Any]:
        """The tree for programs; a fact that was opened once is named again without what lies below it."""
        opened = set() if opened is None else opened
        again = self.id in opened
        opened.add(self.id)
        return {
            **self.fact,
            "because": self.because,
            "formula": self.formula,
            "arguments": {
                name: {"value": one.value, "unit": one.unit, "facts": list(one.facts)}
                for name, one in self.arguments.items()
            },
            "constants": dict(self.constants),
            "below": [] if again else [one.as_dict(opened) for one in self.below],
        }


def explain_fact(
    path: str | Path,
    name: str,
    settings: Sequence[str] = (),
    variant: str | None = None,
    target: TargetFile = NO_TARGET,
) -> Explained:
    """Open one fact of a mule file down to its inputs.

    Raises
    ------
    NotFound
        If no fact is called so.
    """
    opened = open_mule(path, settings, variant, target)
    return explain_node(find(opened.evaluation, name))


def explain_node(node: Node) -> Explained:
    """Open a fact that was computed."""
    return _explained(node, {})


def _explained(node: Node, seen: dict[int, Explained]) -> Explained:
    if id(node) not in seen:
        once = {id(read): read for read in node.reads}
        below = tuple(_explained(read, seen) for read in once.values())
        seen[id(node)] = _one_level(node, below)
    return seen[id(node)]


def _one_level(node: Node, below: tuple[Explained, ...]) -> Explained:
    fact, step = fact_as_dict(node), node.step
    route = f" ({node.route})" if node.route else ""
    if node.gaps and not isinstance(step, Given):
        why = trouble([node]) or f"needs {', '.join(sorted(node.gaps))}"
        return Explained(fact, f"cannot be told: {why}", below=below)
    if isinstance(step, Computed):
        formula = formula_of(step.model)
        arguments = {name: _argument(value, step.sources[name]) for name, value in step.arguments.items()}
        named = {item.id for item in ast.walk(ast.parse(formula)) if isinstance(item, ast.Name)}
        constants = {name: float(value) for name, value in constants_of(step.model).items() if name in named}
        return Explained(fact, f"computed{route}", formula, arguments, constants, below)
    if isinstance(step, Same):
        return Explained(fact, f"the same as {step.node.id}{route}", below=below)
    if isinstance(step, Found):
        return Explained(fact, step.because, below=below)
    assert isinstance(step, Given)
    quantity = step.quantity
    if quantity is None:
        return Explained(fact, f"not given: write it at {step.path}")
    return Explained(fact, f"{quantity.text}: {quantity.source}, {step.path}")


def _argument(value: Any, source: Node | list[Node | None] | None) -> Argument:
    nodes = [node for node in (source if isinstance(source, list) else [source]) if node is not None]
    unit = nodes[0].unit if nodes else ""
    facts = tuple(node.id for node in nodes)
    if isinstance(value, list | tuple):
        return Argument([_plain(item) for item in value], unit, facts)
    if np.ndim(value) == 1 and not nodes:
        return Argument([_plain(item) for item in np.asarray(value)], unit, facts)
    return Argument(_plain(value), unit, facts)


def _plain(value: Any) -> float | None:
    mean = average(value)
    return mean if np.isfinite(mean) else None


def explain_check(id: str) -> Check:
    """The page of a check.

    Raises
    ------
    NotFound
        If there is no such check.
    """
    rule = CHECKS.get(id.upper()) or next((one for one in CHECKS.values() if one.name == id), None)
    if rule is None:
        known = [*CHECKS, *(one.name for one in CHECKS.values())]
        raise NotFound(
            f"no check is called {id!r}", "", "an id such as S01, or a name", id, closest(id, known)
        )
    return rule


@dataclass(frozen=True)
class Page:
    """What was asked for: a fact, or a check."""

    fact: Explained | None = None
    check: Check | None = None

    @property
    def page(self) -> Check:
        """The check that was asked for."""
        assert self.check is not None
        return self.check

    def as_dict(self) -> dict[str, Any]:
        """The answer for programs."""
        if self.fact is not None:
            return self.fact.as_dict()
        rule = self.page
        by_name = {level.word: one for level, one in rule.limits.items()} | {
            f"also.{name}": one for name, one in rule.also.items()
        }
        limits = {
            name: {"limit": one.text, "mark": one.mark, "source": one.source} for name, one in by_name.items()
        }
        return {
            "check": rule.id,
            "name": rule.name,
            "severity": rule.severity.word,
            "seen": rule.seen,
            "why": rule.why,
            "page": rule.page,
            "fixes": list(rule.fixes),
            "levers": list(rule.levers),
            "limits": limits,
            "status": rule.status,
        }


def explain_any(
    what: str,
    name: str | None,
    settings: Sequence[str] = (),
    variant: str | None = None,
    target: TargetFile = NO_TARGET,
) -> Page:
    """Explain a fact of a file, or a check by its id.

    Raises
    ------
    NotFound
        If there is no such fact or check.
    """
    if name is not None:
        return Page(fact=explain_fact(what, name, settings, variant, target))
    if "." in what or Path(what).name != what:
        rule = "a file and the name of a fact, or the id of a check alone"
        raise NotFound("which fact?", what, rule, "a file alone", ("mulewright facts " + what,))
    return Page(check=explain_check(what))
