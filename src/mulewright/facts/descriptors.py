"""How is a property of an entity made a fact? The decorators :func:`fact` and :func:`given`."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any, Generic, Self, overload

import numpy as np

from mulewright.design.reads import READING
from mulewright.errors import DomainError
from mulewright.facts.graph import F, Facts, Frame, given_node
from mulewright.facts.nodes import Node, Value, same_as, typed_inputs


class Fact(Generic[F]):
    """The descriptor behind :func:`fact` and :func:`given`."""

    def __init__(
        self,
        body: Callable[[F], Value] | None,
        unit: str = "",
        says: str = "",
        assume: str = "",
        key: str = "",
    ) -> None:
        self.body = body
        self.unit = unit
        self.says = says
        self.assume = assume
        self.key = key
        self.name = ""

    def __set_name__(self, owner: type[F], name: str) -> None:
        self.name = name
        self.key = self.key or name

    @overload
    def __get__(self, owner: None, cls: type[F]) -> Self: ...
    @overload
    def __get__(self, owner: F, cls: type[F]) -> Value: ...
    def __get__(self, owner: F | None, cls: type[F]) -> Self | Value:
        if owner is None:
            return self
        node = owner.nodes.get(self.name)
        if node is None:
            node = owner.nodes[self.name] = self._found(owner)
        READING.seen |= node.rests
        frames = owner.evaluation.frames
        if frames:
            frames[-1].reads.append(node)
        return node.value

    def _found(self, owner: F) -> Node:
        settled = owner.evaluation.settled
        node = settled.node(owner, self.name) if settled is not None else None
        if node is not None:
            return node
        with READING.apart() as own:
            node = self._made(owner)
        node.rests = own.seen | owner.rests
        if settled is not None:
            settled.keep(owner, self.name, node)
        return node

    def _made(self, owner: F) -> Node:
        if self.body is None:
            return given_node(owner, self.name, self.key, self.assume)
        return self._computed(owner, self.body)

    def _computed(self, owner: F, body: Callable[[F], Value]) -> Node:
        node = Node(owner.shown, self.name, self.unit, self.says)
        with owner.evaluation.watch() as frame:
            try:
                node.value = np.asarray(body(owner), dtype=float)
            except DomainError as no:
                self._impossible(node, frame, no)
        node.step = frame.step or same_as(node.value, frame.reads)
        node.reads, node.route = frame.reads, frame.route
        if frame.gaps:
            node.gaps = frozenset(frame.gaps)
        for read in frame.reads:
            if read.origin > node.origin:
                node.origin = read.origin
            if read.uncertain:
                node.uncertain = True
        return node

    @staticmethod
    def _impossible(node: Node, frame: Frame, no: DomainError) -> None:
        """Leave a fact unknown that what was typed makes impossible; what it rests on is what it needs."""
        typed = typed_inputs(frame.reads)
        rests_on = ", ".join(f"{path} = {text}" for path, text in typed.items())
        node.trouble = f"{node.id} cannot be worked out: {no.what}, found {no.found}; it rests on {rests_on}"
        frame.gaps.update(typed or {node.id})


def fact(unit: str, says: str) -> Callable[[Callable[[F], Value]], Fact[F]]:
    """Make a property a fact: its SI unit, and one sentence that says what it is."""

    def wrap(body: Callable[[F], Value]) -> Fact[F]:
        return Fact(body, unit, says)

    return wrap


def given(assume: str = "", key: str = "") -> Fact[Any]:
    """Make an input of the entity's table a fact; unit and description come from the schema.

    ``assume`` names a default of the shelf's table of assumptions, used where the file is silent; it shows in
    every result as assumed. ``key`` names the field where it is not that of the fact.
    """
    return Fact(None, assume=assume, key=key)


_NAMES: dict[type[Facts], list[str]] = {}


def facts_of(kind: type[Facts]) -> list[str]:
    """Names of all facts of a kind of entity, inputs first, in the order in which they were written."""
    if kind not in _NAMES:
        found: dict[str, Fact[Any]] = {}
        for cls in reversed(kind.__mro__):
            found |= {name: item for name, item in vars(cls).items() if isinstance(item, Fact)}
        _NAMES[kind] = sorted(found, key=lambda name: found[name].body is not None)
    return _NAMES[kind]
