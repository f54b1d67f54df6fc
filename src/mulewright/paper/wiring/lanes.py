"""In which order do controllers and servos stand below each other? By the receiver sockets that command them."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from mulewright.design.signals import RECEIVERS
from mulewright.paper.wiring.plan import CONTROL, MOVE, Box, Plan, Row, Wire

POWER_ABOVE, POWER_BELOW = 4.9, 0.9  # [mm] room for the label over a wire, and under it
FIRST_ABOVE = 3.9  # [mm] over the first wire of a lane, whose label stands beside what ends the lane before
LEAD_ABOVE, LEAD_BELOW = 6.2, 1.8  # [mm]
UNDER_MOTOR = 4.2  # [mm] over a lead that passes under a motor, where its label stands beyond
ENDS_BELOW = 3.2  # [mm] under the last row of a lane
NEXT_MOTOR = 8.4  # [mm] over a further motor in one lane
SERVO_ABOVE, SERVO_BELOW = 6.2, 5.0  # [mm]


class Lanes:
    """The lanes of a plan: every leaf with its rows, from the top down."""

    def __init__(self, plan: Plan) -> None:
        self.plan = plan
        self.lanes: list[list[Row]] = []
        self._seen: set[Box] = set()
        for box in self._starts():
            self._visit(box)

    @property
    def rows(self) -> list[Row]:
        """All rows from the top down."""
        return [row for lane in self.lanes for row in lane]

    def _starts(self) -> Iterator[Box]:
        boxes = self.plan.standing
        yield from (box for kind in RECEIVERS for box in boxes if box.kind == kind)
        yield from (
            box for box in reversed(boxes) if box.stage >= CONTROL and box.stage not in (CONTROL, MOVE)
        )
        yield from (box for box in boxes if box.stage == CONTROL)
        yield from (box for box in boxes if box.stage == MOVE)

    def _visit(self, box: Box) -> None:
        if box in self._seen or box.stage < CONTROL:
            return
        self._seen.add(box)
        for wire in self._in_order(box):
            if wire.left.stage < CONTROL and wire.is_lead and box.stage not in (CONTROL, MOVE):
                self._pass(wire)
            else:
                self._visit(wire.left)
        if box.stage in (CONTROL, MOVE) and not self._led(box):
            self._add(box)

    def _led(self, box: Box) -> bool:
        """Whether it stands in the lane of the controller that feeds it."""
        return box.kind == "motor" and any(wire.conductor.kind == "motor" for wire in box.incoming)

    def _in_order(self, box: Box) -> list[Wire]:
        names = self.plan.sockets(box.thing)
        place = {name: number for number, name in enumerate(names)}
        ends = {wire: wire.conductor.end for wire in box.incoming}
        return sorted(
            box.incoming, key=lambda wire: place.get(end.name if (end := ends[wire]) else "", len(place))
        )

    def _pass(self, wire: Wire) -> None:
        """A lane of its own for a supply that is led from a battery right across the picture."""
        wire.lane = Row(LEAD_ABOVE, ENDS_BELOW)
        self.lanes.append([wire.lane])

    def _add(self, box: Box) -> None:
        rows = _servo(box) if box.kind == "servo" else _fed(box)
        rows = rows or [Row(LEAD_ABOVE, LEAD_BELOW)]
        if not box.all_rows():
            box.rows = rows
        rows[-1].below = max(rows[-1].below, ENDS_BELOW)
        self.lanes.append(rows)


def _servo(box: Box) -> list[Row]:
    supplies = _enter(box.incoming, LEAD_ABOVE, LEAD_BELOW)
    return supplies + _leave(box.leaving, SERVO_ABOVE, SERVO_BELOW)


def _fed(box: Box) -> list[Row]:
    """Rows of a controller, a regulator or a motor: wires in beside motor wires out, leads below them."""
    motors = [wire for wire in box.leaving if wire.conductor.kind == "motor"]
    pairs = [Row(POWER_ABOVE, POWER_BELOW) for _ in range(max(len(box.incoming), len(motors)))]
    for first in pairs[:1]:
        first.above = FIRST_ABOVE
    for later in pairs[2::2]:
        later.above = NEXT_MOTOR
    for wire, row in zip(box.incoming, pairs, strict=False):
        wire.right_row = wire.lane = row
    for wire, row in zip(motors, pairs, strict=False):
        wire.left_row = wire.lane = wire.right_row = row
    leads = [wire for wire in box.leaving if wire.is_lead and not _to_servo(wire)]
    return pairs + _leave(leads, UNDER_MOTOR if motors else LEAD_ABOVE, LEAD_BELOW)


def _to_servo(wire: Wire) -> bool:
    return wire.right is not None and wire.right.stage == MOVE


def _enter(wires: Iterable[Wire], above: float, below: float) -> list[Row]:
    rows = []
    for wire in wires:
        wire.right_row = wire.lane = Row(above, below)
        rows.append(wire.right_row)
    return rows


def _leave(wires: Iterable[Wire], above: float, below: float) -> list[Row]:
    rows = []
    for wire in wires:
        wire.left_row = wire.lane = Row(above, below)
        rows.append(wire.left_row)
    return rows
