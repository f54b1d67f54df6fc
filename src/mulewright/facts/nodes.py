"""What is a computed quantity of a mule: its value, the step that gave it, and what it rests on?

An input that was not given stands in as nan and leaves a *gap*, the path of what is missing; a fact with gaps is
unknown, and lists all of them at once.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field
from functools import cached_property
from typing import Any

import numpy as np
from numpy.typing import NDArray

from mulewright.units.quantity import Origin, Quantity

Value = NDArray[np.float64]


UNKNOWN: Value = np.asarray(np.nan)


def average(value: Any) -> float:
    """One number for a value: itself, or the mean of its draws."""
    return float(np.mean(value)) if np.ndim(value) else float(np.asarray(value))


class Missing(Exception):
    """A choice that was not made, so that the quantity cannot even be set up."""

    def __init__(self, *paths: str) -> None:
        super().__init__(*paths)
        self.paths = paths


@dataclass(frozen=True)
class Given:
    """The value was typed, came with a part, or is an assumed default."""

    quantity: Quantity | None
    path: str


@dataclass(frozen=True)
class Computed:
    """The value came from a model, whose arguments are mostly values of what was read."""

    model: Callable[..., Value]
    arguments: dict[str, Any]
    reads: list[Node]

    @cached_property
    def sources(self) -> dict[str, Node | list[Node | None] | None]:
        """The fact behind each argument, where there is one; found by the identity of the value."""
        behind = {id(node.value): node for node in self.reads}
        return {
            name: [behind.get(id(item)) for item in argument]
            if isinstance(argument, list | tuple)
            else behind.get(id(argument))
            for name, argument in self.arguments.items()
        }


@dataclass(frozen=True)
class Found:
    """The value was found by looking at the mule: counted, followed along a lead, read off a choice."""

    because: str


@dataclass(frozen=True)
class Same:
    """The value is that of another fact."""

    node: Node


Step = Given | Computed | Found | Same


@dataclass(slots=True)
class Node:
    """One fact of one entity in one evaluation."""

    entity: str
    name: str
    unit: str
    says: str
    value: Value = field(default_factory=lambda: UNKNOWN)
    gaps: frozenset[str] = frozenset()
    origin: Origin = Origin.EXACT
    step: Step | None = None
    reads: list[Node] = field(default_factory=list)
    route: str = ""
    trouble: str = ""  # why it cannot be worked out from what was typed
    uncertain: bool = False  # whether it rests on an input with an interval
    rests: int = 0  # what of the file it rests on, where the tables tell

    @property
    def id(self) -> str:
        """The name by which ``explain`` finds it."""
        return f"{self.entity}.{self.name}"

    @property
    def path(self) -> str:
        """Where it stands in the file, if it is an input; else empty."""
        return self.step.path if isinstance(self.step, Given) else ""

    @property
    def known(self) -> bool:
        """Whether nothing that it needs is missing."""
        return not self.gaps

    def below(self) -> Iterator[Node]:
        """Walk over this fact and all that it rests on, each once."""
        seen: set[int] = set()
        queue = [self]
        while queue:
            node = queue.pop()
            if id(node) in seen:
                continue
            seen.add(id(node))
            yield node
            queue.extend(reversed(node.reads))

    def inputs(self) -> Iterator[Node]:
        """Every given value below this fact, each once."""
        return (node for node in self.below() if isinstance(node.step, Given))


def number(node: Node) -> float | None:
    """The value of a fact as a number, None where it is unknown or has no bound."""
    value = average(node.value)
    return value if node.known and np.isfinite(value) else None


def known_number(node: Node) -> float:
    """The value of a fact as a number.

    Raises
    ------
    Missing
        If something is missing for it.
    """
    if not node.known:
        raise Missing(*node.gaps)
    return average(node.value)


def trouble(nodes: Sequence[Node]) -> str:
    """Why one of the facts below cannot be worked out from what was typed; empty where none is so."""
    return next((node.trouble for top in nodes for node in top.below() if node.trouble), "")


def same_as(value: Value, reads: Sequence[Node]) -> Step | None:
    """Return the step of a value that is the very one of a fact that was read."""
    return next((Same(node) for node in reads if node.value is value), None)


def typed_inputs(reads: Sequence[Node]) -> dict[str, str]:
    """Return the inputs that facts rest on, by path, as they were typed."""
    steps = (node.step for read in reads for node in read.inputs())
    return {
        step.path: step.quantity.text
        for step in steps
        if isinstance(step, Given) and step.quantity is not None and not step.path.startswith("assumed.")
    }
