"""What is it, where no state of plugs and leads fits: dead, joined, mixed twice, or not seen rightly?"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from itertools import combinations

import numpy as np

from mulewright.decode.looking import Cell
from mulewright.decode.states import UNSEEN, Seen, differing, fitting, states, unseen
from mulewright.decode.wiring import Code, Rows, times

DEAD_WHEEL, DEAD_CONTROL, SAME_PORT = "dead-wheel", "dead-control", "same-port"
TWICE, UNMIXED, MIXED, HALF = "double-mixing", "no-mixing", "mixed", "mix-on-wrong-pair"
MIS_SEEN, ROLLERS, FLOOR, UNCLEAR = "mis-seen", "roller-hands", "floor", "unclear"
MOST_CELLS = 4  # more signs than this that could be wrong are no mistake in one look


@dataclass(frozen=True)
class Fault:
    """Something other than a plug or a lead, and the wheels, commands or single signs that show it."""

    kind: str
    wheels: tuple[int, ...] = ()
    commands: tuple[int, ...] = ()
    cells: tuple[Cell, ...] = ()


def faults(code: Code, seen: Seen) -> list[Fault]:
    """What may be the matter, where no state fits; the first thing to look into comes first."""
    if len(fitting(code, seen)):
        return []
    if still := [*_still(seen)]:
        return still
    return [*_mixes(code, seen)] or [*_single(code, seen)] or [Fault(UNCLEAR)]


def apart_from(seen: Seen, found: Iterable[Fault]) -> Seen:
    """What was seen, but for wheels and controls that are dead."""
    wheels = {wheel for fault in found if fault.kind == DEAD_WHEEL for wheel in fault.wheels}
    commands = {command for fault in found if fault.kind == DEAD_CONTROL for command in fault.commands}
    return tuple(
        tuple(UNSEEN if wheel in wheels or place in commands else sign for place, sign in enumerate(row))
        for wheel, row in enumerate(seen)
    )


def _still(seen: Seen) -> Iterator[Fault]:
    """Controls that nothing follows, and wheels that follow nothing."""
    signs = np.array(seen)
    commands = np.flatnonzero(~signs.any(axis=0))
    yield from (Fault(DEAD_CONTROL, commands=(int(command),)) for command in commands)
    wheels = np.flatnonzero(~np.delete(signs, commands, axis=1).any(axis=1))
    if len(commands) < signs.shape[1]:
        yield from (Fault(DEAD_WHEEL, wheels=(int(wheel),)) for wheel in wheels)


def remixed(code: Code) -> dict[Fault, Code]:
    """What the drive would be with one mix more than it should have, or with none."""
    pairs = combinations(range(len(code.commands)), 2)
    if all(sum(map(abs, row)) == 1 for row in code.rows):
        return {Fault(MIXED, commands=pair): _paired(code, pair) for pair in pairs}
    found = {Fault(TWICE, commands=pair): _paired(code, pair) for pair in pairs}
    if len(code.commands) == len({*code.rows}):  # two sides: the same as nothing mixed at all
        found |= {Fault(UNMIXED, commands=fault.commands): other for fault, other in found.items()}
    return found


def _paired(code: Code, pair: tuple[int, int]) -> Code:
    one, other = pair

    def mixed(row: tuple[int, ...]) -> tuple[int, ...]:
        both = list(row)
        both[one], both[other] = row[one] + row[other], row[one] - row[other]
        return tuple(int(np.sign(sign)) for sign in both)

    return replace(code, rows=tuple(map(mixed, code.rows)))


def unpaired(code: Code, seen: Rows, pair: tuple[int, int]) -> Rows:
    """What the wheels will do once the second mix on a pair of commands is off."""
    return _paired(replace(code, rows=seen), pair).rows


def _mixes(code: Code, seen: Seen) -> Iterator[Fault]:
    yield from (fault for fault, other in remixed(code).items() if len(fitting(other, seen)))


def mis_seen(code: Code, seen: Seen) -> tuple[Cell, ...]:
    """The single signs of which each, seen otherwise, would make everything fit."""
    looked = np.array(seen)
    near = states(code)[differing(code, seen) == 1]
    cells = {
        (int(wheel), int(command))
        for _, wheel, command in np.argwhere((near != looked) & (looked != UNSEEN))
    }  # fmt: skip
    return tuple(sorted(cells)) if len(cells) <= MOST_CELLS else ()


def _single(code: Code, seen: Seen) -> Iterator[Fault]:
    """One sign that was not seen rightly, or what it would mean if it was."""
    if cells := mis_seen(code, seen):
        yield Fault(MIS_SEEN, cells=cells)
    if unseen(seen):
        return
    whole = [wheel for wheel, row in enumerate(seen) if _fits_a_wheel(code, row)]
    if len(whole) == len(code.wheels):
        yield from _joined(code, seen)
    elif len(code.commands) == 2:
        half = tuple(wheel for wheel in range(len(code.wheels)) if wheel not in whole)
        yield Fault(HALF, wheels=half)


def _fits_a_wheel(code: Code, row: tuple[int, ...]) -> bool:
    return row in code.rows or times(-1, row) in code.rows


def _joined(code: Code, seen: Rows) -> Iterator[Fault]:
    """Wheels that follow one output although it is meant for fewer of them."""
    for row in dict.fromkeys(max(one, times(-1, one)) for one in code.rows):
        follow = tuple(wheel for wheel, own in enumerate(seen) if own in (row, times(-1, row)))
        if len(follow) > sum(own in (row, times(-1, row)) for own in code.rows):
            yield Fault(SAME_PORT, wheels=follow)
