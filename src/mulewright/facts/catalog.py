"""Every kind of entity, every fact: for lists, and to find one by its name."""

from __future__ import annotations

import importlib
import pkgutil
from collections.abc import Iterable, Iterator
from functools import cache

import mulewright.facts as package
from mulewright.errors import NotFound, closest
from mulewright.facts.descriptors import facts_of
from mulewright.facts.graph import Evaluation, Facts
from mulewright.facts.nodes import Node


@cache
def kinds() -> tuple[type[Facts], ...]:
    """Every class of facts, in the order of the modules."""
    for module in pkgutil.iter_modules(package.__path__, f"{package.__name__}."):
        importlib.import_module(module.name)
    return tuple(kind for first in Facts.__subclasses__() for kind in _from(first))


def _from(kind: type[Facts]) -> Iterator[type[Facts]]:
    yield kind
    for below in kind.__subclasses__():
        yield from _from(below)


def entities(evaluation: Evaluation) -> Iterator[Facts]:
    """Every entity of a mule, each once."""
    seen: set[tuple[type[Facts], str]] = set()
    for kind in kinds():
        for entity in evaluation.all(kind):
            key = (type(entity), entity.id)
            if key not in seen:
                seen.add(key)
                yield entity


def every_fact(evaluation: Evaluation) -> Iterator[Node]:
    """Every fact of a mule, and then of its target, computed."""
    yield from facts_about(entities(evaluation))
    if evaluation.target is not None:
        yield from every_fact(evaluation.target)


def facts_about(some: Iterable[Facts]) -> Iterator[Node]:
    """Every fact of some entities of one machine, computed; what two kinds of entity read is listed once."""
    seen: set[str] = set()
    for entity in some:
        for name in facts_of(type(entity)):
            full = f"{entity.id}.{name}"
            if full not in seen:
                seen.add(full)
                yield entity.node(name)


def find(evaluation: Evaluation, name: str) -> Node:
    """One fact by its name, e.g. ``mechanism.lift.margin``.

    Raises
    ------
    NotFound
        If no fact is called so; the message names the nearest.
    """
    known: dict[str, tuple[Facts, str]] = {}
    for one in (evaluation, evaluation.target):
        for entity in entities(one) if one is not None else ():
            for fact in facts_of(type(entity)):
                known.setdefault(f"{entity.shown}.{fact}", (entity, fact))
    if name in known:
        entity, fact = known[name]
        return entity.node(fact)
    node = next(
        (node for node in every_fact(evaluation) for node in (node, *node.reads) if node.id == name), None
    )
    if node is not None:
        return node
    rule = "entity and fact, as `mulewright facts FILE` lists them"
    raise NotFound(f"no fact is called {name!r}", "", rule, name, closest(name, known))
