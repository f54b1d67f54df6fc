"""What can be told from the way the whole mule moved over the floor, where nobody saw the wheels?"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from itertools import product

import numpy as np
from numpy.typing import NDArray

from mulewright.decode.faults import ROLLERS, Fault
from mulewright.decode.states import UNSEEN, Signs
from mulewright.decode.wiring import Code
from mulewright.models.mixing import HADAMARD, mixed
from mulewright.models.rollers import HANDS, contact_lever, floor_motion

Motions = Mapping[int, tuple[int, ...]]
"""For each command that was pushed the signs of ahead, to the right (four roller wheels) and turned right."""

FELT = 0.05  # [1]  share of the largest motion below which nobody sees it
MOST_WRONG = 1  # signs by which a floor may differ from that of a wrong wheel
CORNERS = (
    (1, 1),
    (1, -1),
    (-1, 1),
    (-1, -1),
)  # ahead and left of the middle, in half wheelbases and half tracks


def motions(code: Code, answers: Signs) -> NDArray[np.int64]:
    """Signs of the motions of the mule; axes states, motions, commands. Scrub is not among them."""
    basis = _basis(len(code.wheels), code)
    moved = np.moveaxis(mixed(basis.T, np.moveaxis(answers.astype(np.float64), 1, 0)), 0, 1)
    return np.sign(np.round(moved, 9)).astype(np.int64)


def _basis(wheels: int, code: Code) -> NDArray[np.float64]:
    if rolls(code):
        return HADAMARD[:, :3]
    return HADAMARD[:wheels, [0, 2]] if wheels == 4 else HADAMARD[:2, :2]


def rolls(code: Code) -> bool:
    """Whether the drive can also go sideways."""
    return len({*code.rows}) == 4 or "strafe" in code.commands


def names(code: Code) -> tuple[str, ...]:
    """The motions that the floor shows."""
    return ("forward", "strafe", "turn") if rolls(code) else ("forward", "turn")


def fitting_floor(code: Code, answers: Signs, floor: Motions) -> Signs:
    """The states that would have moved the mule so."""
    shown = motions(code, answers)
    fits = np.ones(len(answers), dtype=bool)
    for command, signs in floor.items():
        wanted = np.array(signs)
        fits &= ((shown[:, :, command] == wanted) | (wanted == UNSEEN)).all(axis=1)
    return np.asarray(answers[fits])


def wrong_hands(code: Code, floor: Motions, wheelbase: float, track: float) -> list[Fault]:
    """The roller wheels of the wrong hand that would move a mule so whose wheels all turn rightly on blocks."""
    if not rolls(code):
        return []
    marks = {}
    for wrong in product((False, True), repeat=4):
        shown = hands_on_floor(code, wrong, wheelbase, track)
        marks[wrong] = sum(
            sign not in (seen, UNSEEN)
            for command, signs in floor.items()
            for sign, seen in zip(signs, shown[command], strict=True)
        )
    best = min(marks.values())
    if not marks[(False,) * 4] or best > MOST_WRONG:
        return []
    return [
        Fault(ROLLERS, wheels=_which(wrong)) for wrong, mark in marks.items() if mark == best and any(wrong)
    ]


def hands_on_floor(
    code: Code, wrong: tuple[bool, ...], wheelbase: float, track: float
) -> dict[int, tuple[int, ...]]:
    """Signs of ahead, to the right and turned right on each push, with some roller wheels of the wrong hand."""
    rows = [
        [1, hand, contact_lever(hand, x * wheelbase / 2, y * track / 2)]
        for hand, (x, y) in zip(_hands(wrong), CORNERS, strict=True)
    ]
    lever = (wheelbase + track) / 2
    found = {}
    for command in range(len(code.commands)):
        ahead, left, yaw = floor_motion(np.array(rows, dtype=float), [row[command] for row in code.rows])
        moved = np.array([ahead, -left, -yaw * lever])
        seen = np.where(abs(moved) < FELT * abs(moved).max(initial=1e-9), 0, np.sign(moved))
        found[command] = tuple(int(sign) for sign in seen)
    return found


def _hands(wrong: tuple[bool, ...]) -> Iterator[int]:
    yield from (-hand if turned else hand for hand, turned in zip(HANDS, wrong, strict=True))


def _which(wrong: tuple[bool, ...]) -> tuple[int, ...]:
    return tuple(wheel for wheel, turned in enumerate(wrong) if turned)
