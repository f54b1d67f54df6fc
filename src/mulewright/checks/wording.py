"""How does a check say what it found? Its sentence with the numbers filled in, and the inputs to redo it by hand."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

import numpy as np

from mulewright.facts.nodes import Computed, Found, Node, Same, Value, average
from mulewright.units.shown import people, percent

DIGITS, MOST_DIGITS = 3, 7  # of a number: as a rule, and where a value has to be told from its limit
MOST_SEEN = 4  # things seen that a finding lists before it only counts them


class Shown:
    """A number in a sentence: ``{value}``, ``{value:%}`` as percent, ``{value:side}`` as before or beyond a place."""

    def __init__(self, value: Value | float, unit: str, digits: int = DIGITS) -> None:
        self.value, self.unit, self.digits = average(value), unit, digits

    def __format__(self, spec: str) -> str:
        if spec == "%":
            return percent(self.value, self.digits)
        if spec == "side":
            return f"{people(abs(self.value), self.unit, self.digits)} {'before' if self.value >= 0 else 'beyond'}"
        return people(self.value, self.unit, self.digits)


def say(
    what: str, words: Mapping[str, Any], value: Value, limit: Value, node: Node | None, reads: Sequence[Node]
) -> str:
    """Fill a check's sentence with its numbers."""
    unit = node.unit if node is not None else "1"
    units = {id(read.value): read.unit for read in reads}
    shown = {
        key: Shown(word, units.get(id(word), unit)) if isinstance(word, np.ndarray) else word
        for key, word in words.items()
    }
    digits = _telling(average(value), average(limit), unit)
    return what.format(value=Shown(value, unit, digits), limit=Shown(limit, unit, digits), **shown)


def _telling(value: float, limit: float, unit: str) -> int:
    """Digits that tell a value from its limit, where they are not the same."""
    able = range(DIGITS, MOST_DIGITS)
    return next(
        (n for n in able if value == limit or people(value, unit, n) != people(limit, unit, n)), MOST_DIGITS
    )


def how(node: Node) -> str:
    """The step that gave a value, with its numbers."""
    while isinstance(node.step, Same):
        node = node.step.node
    step = node.step
    if isinstance(step, Found):
        return f"{step.because}."
    if not isinstance(step, Computed):
        return ""
    if seen := _seen(node):
        more = f"; and {len(seen) - MOST_SEEN} more" if len(seen) > MOST_SEEN else ""
        return f"{'; '.join(seen[:MOST_SEEN])}{more}."
    parts = []
    for name, argument in step.arguments.items():
        source = step.sources[name]
        if isinstance(argument, list | tuple):
            sources = source if isinstance(source, list) else [None] * len(argument)
            numbers = [_one(item, one) for item, one in zip(argument, sources, strict=True)]
            parts.append(
                f"{_words(name)} {' and '.join(numbers)}" if len(numbers) < 6 else f"{len(numbers)} {name}"
            )
        elif np.ndim(argument) == 0:
            parts.append(f"{_words(name)} {_one(argument, source if isinstance(source, Node) else None)}")
    return f"{people(average(node.value), node.unit)} from {', '.join(parts)}."


def _seen(node: Node) -> list[str]:
    """What was seen on the mule, where a value is made of nothing else; else nothing."""
    because = [read.step.because for read in node.reads if isinstance(read.step, Found)]
    return list(dict.fromkeys(because)) if len(because) == len(node.reads) else []


def _one(value: Any, node: Node | None) -> str:
    return people(average(value), node.unit if node is not None else "1")


def _words(name: str) -> str:
    return name.replace("_", " ")
