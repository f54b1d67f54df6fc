"""How far down does each row lie? Stacked one under the other; sockets of receivers find room beside them."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from mulewright.paper.wiring.plan import RECEIVE, Box, Plan, Row, Wire

TOP = 2.0  # [mm] over the first row
HEAD = 12.6  # [mm] of a receiver above its first socket
SOCKET = 5.2  # [mm] from one socket to the next, at least
UNDER = 5.0  # [mm] from the last socket of a receiver to the head of the next one
APART = 3.4  # [mm] between two leads
NUDGE = 0.4  # [mm]


class Heights:
    """Heights of all rows; rows are pushed apart until every receiver has room for its sockets."""

    def __init__(self, plan: Plan, order: Sequence[Row]) -> None:
        self.order = order
        self._known = {id(row) for row in order}
        self._bent = [wire for wire in plan.wires if wire.right is not None and wire.right.stage == RECEIVE]
        self._receivers = [box for box in plan.standing if box.stage == RECEIVE and box.pins]
        self.bottom = self._stack()
        while (lack := self._settle()) is not None:
            row, more = lack
            row.above += more
            self.bottom = self._stack()

    def _stack(self) -> float:
        here = TOP
        for row in self.order:
            row.y = here + row.above
            here = row.y + row.below
        return here

    def _settle(self) -> tuple[Row, float] | None:
        """Place the sockets of every receiver; else say over which row how much more room is needed. [mm]."""
        under, last = TOP, None
        for box in sorted(self._receivers, key=self._first):
            fixed = [place for place, row in enumerate(box.pins) if id(row) in self._known]
            lack = self._between(box, fixed) or self._ends(box, fixed, under, last)
            if lack is not None:
                return lack
            self._dodge(box)
            under = max(row.y for row in box.pins) + UNDER
            last = max((box.pins[place] for place in fixed), key=self.order.index, default=last)
        self.bottom = max(self.bottom, under)
        return None

    def _first(self, box: Box) -> float:
        return min((row.y for row in box.pins if id(row) in self._known), default=float("inf"))

    def _between(self, box: Box, fixed: Sequence[int]) -> tuple[Row, float] | None:
        for here, there in pairwise(fixed):
            upper, lower = box.pins[here], box.pins[there]
            step = (lower.y - upper.y) / (there - here)
            if step < SOCKET - 1e-9:
                return self._over(upper), (SOCKET - step) * (there - here)
            for place in range(here + 1, there):
                box.pins[place].y = upper.y + step * (place - here)
        return None

    def _over(self, row: Row) -> Row:
        """The row that has to give way so that there is more room under another one."""
        return self.order[self.order.index(row) + 1]

    def _ends(
        self, box: Box, fixed: Sequence[int], under: float, last: Row | None
    ) -> tuple[Row, float] | None:
        """Place the sockets over the first fixed one and under the last one."""
        if not fixed:
            for place, row in enumerate(box.pins):
                row.y = under + HEAD + SOCKET * place
            return None
        first, end = fixed[0], fixed[-1]
        top = box.pins[first].y - SOCKET * first - HEAD
        if top < under - 1e-9:
            return (self._over(last) if last is not None else self.order[0]), under - top
        for place in range(first):
            box.pins[place].y = box.pins[first].y - SOCKET * (first - place)
        for place in range(end + 1, len(box.pins)):
            box.pins[place].y = box.pins[end].y + SOCKET * (place - end)
        return None

    def _dodge(self, box: Box) -> None:
        """Move sockets to which leads are bent off the heights at which other leads come to their bends."""
        bent = [wire for wire in self._bent if wire.lane is not wire.right_row and wire.lane is not None]
        for wire in (wire for wire in bent if wire.right is box):
            self._move(
                box, wire, [other.lane.y for other in bent if other is not wire and other.lane is not None]
            )

    def _move(self, box: Box, wire: Wire, heights: Sequence[float]) -> None:
        row = wire.right_row
        assert row is not None
        place = box.pins.index(row)
        low = box.pins[place - 1].y + SOCKET - 0.6 if place else row.y
        high = box.pins[place + 1].y - SOCKET + 0.6 if place + 1 < len(box.pins) else row.y + 2 * APART
        tries = [row.y + sign * NUDGE * step for step in range(30) for sign in (1, -1)]
        clear = [y for y in tries if low <= y <= high and all(abs(y - other) >= APART for other in heights)]
        row.y = clear[0] if clear else row.y
