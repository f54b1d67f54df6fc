"""Which links of a mule did nobody write: where a plug sits, what a controller feeds, where a wire leads?"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

FEEDS, SIGNALS, WIRES = "controller.*.feeds", "controller.*.signal", "wire.*.path"
SERVO_SIGNALS = "servo.*.signal"
MIX_INPUTS = "radio.mix.*.inputs"
CONTROL_KINDS = "radio.control.*.kind"


def unsaid(table: Any, pattern: str) -> Iterator[str]:
    """Paths of a pattern, such as ``controller.*.feeds``, at which nothing is written although their table is."""
    return _below(table, pattern.split("."), "")


def _below(here: Any, words: list[str], path: str) -> Iterator[str]:
    if here is None or not words:
        if here is None and not words:
            yield path
        return
    word, *rest = words
    for name, one in _inner(here) if word == "*" else [(word, getattr(here, word))]:
        yield from _below(one, rest, f"{path}.{name}" if path else name)


def _inner(here: Any) -> Iterator[tuple[str, Any]]:
    yield from (
        here.items() if isinstance(here, Mapping) else zip(map(str, range(len(here))), here, strict=True)
    )
