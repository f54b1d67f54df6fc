"""Which facts stay as they are when some inputs change? Those that rest on none of them."""

from __future__ import annotations

from collections.abc import Collection
from typing import TYPE_CHECKING, Protocol

if TYPE_CHECKING:
    from mulewright.facts.graph import Evaluation, Facts
    from mulewright.facts.nodes import Node


class Settling(Protocol):
    """Where an evaluation finds facts that are known already."""

    def node(self, owner: Facts, name: str) -> Node | None:
        """The node of a fact that is known; None where it has to be worked out."""

    def keep(self, owner: Facts, name: str, node: Node) -> None:
        """Note a fact that was worked out, or found."""


class Settled:
    """The facts of an evaluation that rest on none of some inputs, so that a further one can take them over.

    Parameters
    ----------
    evaluation : Evaluation
        The one to take over from.
    paths : collection of str
        The inputs that change. Each must have been given: one that was missing would open another way to a fact.
    """

    def __init__(self, evaluation: Evaluation, paths: Collection[str]) -> None:
        self.evaluation = evaluation
        self.paths = frozenset(paths)
        self._changed: dict[int, bool] = {}

    def node(self, owner: Facts, name: str) -> Node | None:
        """The node of a fact that stays as it is."""
        twin = self.evaluation.entity(type(owner), owner.id)
        node = twin.nodes.get(name)
        return node if node is not None and not self.changes(node) else None

    def keep(self, owner: Facts, name: str, node: Node) -> None:
        """Nothing is taken over from a second evaluation."""

    def changes(self, node: Node) -> bool:
        """Whether a fact rests on an input that changes."""
        found = self._changed.get(id(node))
        if found is None:
            found = node.path in self.paths or any(self.changes(read) for read in node.reads)
            self._changed[id(node)] = found
        return found
