"""Which wires run level? Boxes reach over the rows of their wires where no other wire passes in between."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Sequence

from mulewright.design.signals import RECEIVERS
from mulewright.paper.wiring.lanes import LEAD_ABOVE, LEAD_BELOW, POWER_ABOVE, POWER_BELOW, Lanes
from mulewright.paper.wiring.plan import CONTROL, MIX, RECEIVE, Box, Plan, Row, Wire


class Rows:
    """Every row of a picture, from the top down, with its wires' ends on them."""

    def __init__(self, plan: Plan, lanes: Lanes) -> None:
        self.plan = plan
        self.order = lanes.rows
        for box in self._at(CONTROL):
            self._feed_servos(box)
        for box in reversed(plan.standing):
            if box.stage < CONTROL:
                self._share(box)
        for box in plan.standing:
            if box.stage >= MIX:
                self._gather(box)

    def _at(self, stage: int) -> list[Box]:
        return [box for box in self.plan.standing if box.stage == stage]

    # --- power: the right ends are known

    def _feed_servos(self, box: Box) -> None:
        """Level the leads from a regulator to the servos in the lanes beside it."""
        led = [wire for wire in box.leaving if wire.left_row is None]
        if not led:
            return
        level = self._level([wire.right_row for wire in led], box.all_rows(), self._taken(box))
        self._end_left(box, led, level)

    def _share(self, box: Box) -> None:
        """Face a board, a fuse or a lead that joins packs with what leaves it."""
        level = self._level([wire.right_row for wire in box.leaving], [], self._taken(box))
        self._end_left(box, box.leaving, level)
        rows = sorted({id(row): row for row in box.all_rows()}.values(), key=self.order.index)
        beside_stack = box.kind == "board" and all(wire.left in self.plan.stacked for wire in box.incoming)
        for place, wire in enumerate(box.incoming if not beside_stack else ()):  # else at the stack's height
            if place >= len(rows):
                rows.append(self._insert(rows[-1] if rows else None, POWER_ABOVE, POWER_BELOW))
            wire.right_row = wire.lane = rows[place]
        if not box.all_rows():
            box.rows = [self._insert(None, POWER_ABOVE, POWER_BELOW)]

    def _end_left(self, box: Box, wires: Sequence[Wire], level: set[int]) -> None:
        for wire in wires:
            if id(wire.right_row) in level:
                wire.left_row = wire.right_row
        rows = sorted(box.all_rows(), key=self.order.index)
        last = rows[-1] if rows else None
        for wire in wires:
            if wire.left_row is None:
                above, below = (LEAD_ABOVE, LEAD_BELOW) if wire.is_lead else (POWER_ABOVE, POWER_BELOW)
                wire.left_row = last = self._insert(last, above, below)
            wire.lane = wire.lane or wire.right_row

    # --- signals: the left ends are known

    def _gather(self, box: Box) -> None:
        """Face a receiver, a box or a Y-lead with what comes into it."""
        wires = sorted(box.incoming, key=lambda wire: self._place(box, wire))
        known = [wire.lane for wire in wires]
        level = self._level(known, [], self._taken(box), rising=box.kind in RECEIVERS)
        for wire in wires:
            if id(wire.lane) in level:
                wire.right_row = wire.lane
        self._fill(box, wires)
        if box.leaving:
            self._send(box)
        if not box.all_rows():
            box.rows = box.pins = [self._insert(None, LEAD_ABOVE, LEAD_BELOW)]

    def _place(self, box: Box, wire: Wire) -> tuple[int, int]:
        names, end = self.plan.sockets(box.thing), wire.conductor.end
        name = end.name if end is not None else ""
        return names.index(name) if name in names else len(names), self.order.index(
            wire.lane
        ) if wire.lane else 0

    def _fill(self, box: Box, wires: Sequence[Wire]) -> None:
        """Give what is not level a row: one of its own in a box, a place to be found later in a receiver."""
        if box.stage == RECEIVE:
            self._list_sockets(box, wires)
            return
        last: Row | None = next((wire.right_row for wire in wires if wire.right_row), None)
        for wire in wires:
            wire.right_row = last = wire.right_row or self._insert(last, LEAD_ABOVE, LEAD_BELOW)

    def _list_sockets(self, box: Box, wires: Sequence[Wire]) -> None:
        """Note the sockets of a receiver or tester from the top down, used ones and empty ones."""
        used = {wire.conductor.end.name for wire in wires if wire.conductor.end is not None}
        names = self.plan.sockets(box.thing)
        pins: list[tuple[int, Wire | str]] = [(self._place(box, wire)[0], wire) for wire in wires]
        pins += [(place, name) for place, name in enumerate(names) if name not in used]
        for _, pin in sorted(pins, key=lambda pin: pin[0]):
            if isinstance(pin, Wire):
                pin.right_row = row = pin.right_row or Row(0.0, 0.0)
            else:
                box.empty[pin] = row = Row(0.0, 0.0)
            box.pins.append(row)

    def _send(self, box: Box) -> None:
        """Let what leaves a box do so at rows of what comes in; they do not meet, the box lies between."""
        leaving = sorted(box.leaving, key=lambda wire: self._target(wire))
        rows = sorted({id(row): row for row in box.all_rows()}.values(), key=self.order.index)
        count = len(leaving)
        spare = (
            rows
            if len(rows) < count
            else [rows[round((i + 0.5) * len(rows) / count - 0.5)] for i in range(count)]
        )
        for place, wire in enumerate(leaving):
            if place < len(spare):
                row = spare[place]
            else:
                row = self._insert(rows[-1] if rows else None, LEAD_ABOVE, LEAD_BELOW)
                rows.append(row)
            wire.left_row = wire.lane = row

    def _target(self, wire: Wire) -> tuple[int, int]:
        if wire.right is None or wire.conductor.end is None:
            return (1, 0)
        names = self.plan.sockets(wire.right.thing)
        return (0, names.index(wire.conductor.end.name) if wire.conductor.end.name in names else len(names))

    # --- rows

    def _insert(self, after: Row | None, above: float, below: float) -> Row:
        """Put a new row under another one, or at the bottom."""
        row = Row(above, below)
        if after is not None:
            self.order.insert(self.order.index(after) + 1, row)
        else:
            self.order.append(row)
        return row

    def _taken(self, box: Box) -> set[int]:
        """Rows that are in use by others in the column of a box."""
        taken: set[int] = set()
        for other in self._at(box.stage):
            places = [self.order.index(row) for row in other.all_rows() if row in self.order]
            if other is not box and places:
                taken.update(id(row) for row in self.order[min(places) : max(places) + 1])
        for wire in self.plan.wires:
            passes = wire.right is not None and wire.left.stage < box.stage < wire.right.stage
            if passes and wire.lane is not None:
                taken.add(id(wire.lane))
        return taken

    def _level(
        self, rows: Sequence[Row | None], fixed: Sequence[Row], taken: set[int], *, rising: bool = False
    ) -> set[int]:
        """The most rows that a box can face without standing in the way of others, and in rising order if asked."""
        place = {id(row): number for number, row in enumerate(self.order)}
        free = [row for row in rows if row is not None and id(row) not in taken]
        if rising:
            free = _longest_rising(free, place)
        walls = sorted(place[row] for row in taken if row in place)
        by_room: dict[int, set[int]] = {}
        for row in free:
            by_room.setdefault(bisect_left(walls, place[id(row)]), set()).add(id(row))
        if fixed:
            rooms = {bisect_left(walls, place[id(row)]) for row in fixed}
            return by_room.get(rooms.pop(), set()) if len(rooms) == 1 else set()
        return max(by_room.values(), key=len, default=set())


def _longest_rising(rows: Sequence[Row], place: dict[int, int]) -> list[Row]:
    """The longest choice of rows that go downwards, in the order in which they come."""
    best: list[list[Row]] = []
    for row in rows:
        longest = max((chain for chain in best if place[id(chain[-1])] < place[id(row)]), key=len, default=[])
        best.append([*longest, row])
    return max(best, key=len, default=[])
