"""Which push, and which wheels on it, tell the most about the wiring?"""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from mulewright.decode.states import Seen, Signs, unseen

Cell = tuple[int, int]
"""A wheel and a command."""


@dataclass(frozen=True)
class Look:
    """A command to push, and the wheels to look at while it is pushed."""

    command: int
    wheels: tuple[int, ...]
    candidates: int
    leaves: int  # candidates that are left at worst


def next_look(fitting: Signs, seen: Seen, skipped: Collection[Cell] = ()) -> Look | None:
    """The push that leaves the fewest candidates, with no more looks than it needs; None where none tells more."""
    open_cells = [cell for cell in unseen(seen) if cell not in skipped]
    commands = dict.fromkeys(command for _, command in open_cells)
    looks = [
        look_at(fitting, command, [wheel for wheel, place in open_cells if place == command])
        for command in commands
    ]
    telling = [look for look in looks if look.wheels]
    return min(telling, key=lambda look: (look.leaves, len(look.wheels), look.command), default=None)


def look_at(fitting: Signs, command: int, wheels: Sequence[int]) -> Look:
    """The wheels worth a look while one command is pushed, the most telling first."""
    parts, left, chosen = np.zeros(len(fitting), dtype=np.int64), list(wheels), []
    while left:
        split = {wheel: parts * 3 + fitting[:, wheel, command] + 1 for wheel in left}
        best = min(left, key=lambda wheel: _expected(split[wheel]))
        if _expected(split[best]) >= _expected(parts):
            break
        parts = np.unique(split[best], return_inverse=True)[1]
        chosen.append(best)
        left.remove(best)
    return Look(command, tuple(chosen), len(fitting), int(_sizes(parts).max(initial=0)))


def _sizes(parts: NDArray[np.int64]) -> NDArray[np.int64]:
    return np.asarray(np.unique(parts, return_counts=True)[1])


def _expected(parts: NDArray[np.int64]) -> int:
    """Sum of the squares of the parts' sizes: their expected size, but for a factor."""
    return int((_sizes(parts) ** 2).sum())
