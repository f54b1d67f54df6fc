"""In which ways can the wheels answer at all, and which of these fit what was seen?"""

from __future__ import annotations

from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from mulewright.decode.wiring import Code, Rows, orders, signs

Signs = NDArray[np.int8]
UNSEEN = 2
"""In the place of a sign: nobody looked."""

Seen = Rows
"""Signs of every wheel, some of them unseen."""


@lru_cache(maxsize=32)
def states(code: Code) -> Signs:
    """Every different answer of the wheels that plugs, leads and reverses can bring about; first axis states."""
    sockets = np.array(code.sockets, dtype=np.int8)
    plugs = np.array(orders(len(code.plugs)))[:, list(code.plug_of)]
    leads = np.array(signs(len(code.wheels)), dtype=np.int8)
    answers = sockets[plugs][:, None] * leads[None, :, :, None]
    return np.asarray(np.unique(answers.reshape(-1, *answers.shape[2:]), axis=0))


def differing(code: Code, seen: Seen) -> NDArray[np.int64]:
    """For each state the number of signs that were seen otherwise."""
    looked = np.array(seen)
    return np.asarray(((states(code) != looked) & (looked != UNSEEN)).sum(axis=(1, 2)))


def fitting(code: Code, seen: Seen) -> Signs:
    """The states that fit what was seen."""
    return np.asarray(states(code)[differing(code, seen) == 0])


def as_rows(state: Signs) -> Rows:
    """One state as rows."""
    return tuple(tuple(int(sign) for sign in row) for row in state)


def nothing_seen(code: Code) -> Seen:
    """What is known before the first push."""
    return ((UNSEEN,) * len(code.commands),) * len(code.wheels)


def with_sign(seen: Seen, wheel: int, command: int, sign: int) -> Seen:
    """What is known after one more look."""
    return tuple(
        tuple(
            sign if (here, place) == (wheel, command) else old
            for place, old in enumerate(row)
        )
        for here, row in enumerate(seen)
    )  # fmt: skip


def unseen(seen: Seen) -> list[tuple[int, int]]:
    """Wheel and command of every sign that nobody saw."""
    return [
        (wheel, place) for wheel, row in enumerate(seen) for place, sign in enumerate(row) if sign == UNSEEN
    ]
