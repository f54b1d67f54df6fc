"""Where does everything lie? Columns from left to right, and between them labels and tracks for the wires that bend."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

from mulewright.paper.wiring.heights import TOP, Heights
from mulewright.paper.wiring.lanes import Lanes
from mulewright.paper.wiring.plan import MOVE, RECEIVE, SOURCE, Box, Plan, Row, Wire
from mulewright.paper.wiring.rows import Rows
from mulewright.paper.wiring.scene import Rect
from mulewright.paper.wiring.sizes import PAD, Sizes, label_width
from mulewright.paper.wiring.stacks import Stacks
from mulewright.paper.wiring.tracks import Bend, in_order

ABOVE, BELOW = 1.2, 0.6  # [mm] between a box and what lies over and under it
STUB = 4.6  # [mm] from a box to the first text or track: bead, plug
POWER_TRACK, LEAD_TRACK = 2.8, 5.4  # [mm] from one track to the next
SPACE = 1.5  # [mm] between labels and tracks


@dataclass
class Gap:
    """The room between two columns. [mm]."""

    left: float = 0.0
    words: float = 0.0  # width of the widest label
    words_at: float = 0.0  # where labels begin
    tracks: dict[Wire, float] = field(default_factory=dict)  # where each wire that bends here does so


class Places:
    """The places of all boxes and wires of a plan. [mm]."""

    def __init__(self, plan: Plan) -> None:
        self.plan = plan
        self.lanes = Lanes(plan)
        self.sizes = Sizes(plan)
        order = Rows(plan, self.lanes).order
        _make_room(plan, self.sizes, order)
        heights = Heights(plan, order)
        stacks = Stacks(plan, self.sizes)
        self.height = max(heights.bottom, *(rect.bottom + TOP for rect in stacks.rect.values()), 0.0)
        self.rect = dict(stacks.rect)
        self._stages = sorted({SOURCE, *(box.stage for box in plan.standing)})
        self.gaps = {stage: Gap() for stage in self._stages}  # right of each column
        self._fill_gaps()
        self.right = self._stand_columns(stacks.wide)

    def home(self, wire: Wire) -> int:
        """The column right of which the label of a wire stands: leads pass under motors without one."""
        stays = wire.right is not None and wire.right.stage <= MOVE
        if not wire.is_lead or wire.left.stage >= MOVE or stays:
            return wire.left.stage
        return max(stage for stage in self._stages if wire.left.stage <= stage <= MOVE)

    def gap_before(self, box: Box) -> Gap:
        """The gap left of the column of a box."""
        return self.gaps[max(stage for stage in self._stages if stage < box.stage)]

    def _fill_gaps(self) -> None:
        """Note which wires bend in which gap, and how wide the labels there are."""
        for wire in self.plan.wires:
            if wire in self.plan.upright:
                continue
            if wire.left_row is not wire.lane:
                self.gaps[wire.left.stage].tracks[wire] = 0.0
            if wire.right is not None and wire.right_row is not wire.lane:
                self.gap_before(wire.right).tracks[wire] = 0.0
            gap = self.gaps[self.home(wire)]
            gap.words = max(gap.words, label_width(wire))

    def _stand_columns(self, here: float) -> float:
        """Place column after column behind the stacks, and say where the last one ends."""
        for stage in self._stages:
            column = [box for box in self.plan.standing if box.stage == stage]
            wide = max((self.sizes.wide(box) for box in column), default=0.0)
            for box in column:
                top, bottom = self.sizes.top_and_bottom(box)
                self.rect[box] = Rect(here, top, here + wide, bottom)
            here += wide
            gap = self.gaps[stage]
            if here and (stage != self._stages[-1] or gap.words):
                here = self._lay(gap, stage, here)
        return here

    def _lay(self, gap: Gap, stage: int, here: float) -> float:
        """Place the labels and the tracks of one gap; power bends before its label, a lead behind it."""
        gap.left = here
        tracks = in_order(_bend(wire, stage) for wire in gap.tracks)
        steps = [LEAD_TRACK if wire.is_lead else POWER_TRACK for wire in tracks]
        room = sum(steps) + SPACE if steps else 0.0
        first = here + STUB
        gap.words_at = first + (room if stage < MOVE else 0.0)
        at = first + (gap.words + SPACE if stage >= MOVE else 0.0)
        for wire, step in zip(tracks, steps, strict=True):
            gap.tracks[wire] = at + step / 2
            at += step
        return first + gap.words + room + STUB


def _make_room(plan: Plan, sizes: Sizes, order: Sequence[Row]) -> None:
    """Push rows apart where a box needs more height than they give it."""
    place = {id(row): number for number, row in enumerate(order)}
    for box in plan.standing:
        rows = sorted((row for row in box.all_rows() if id(row) in place), key=lambda row: place[id(row)])
        if not rows or box.stage == RECEIVE:
            continue
        first, last = rows[0], rows[-1]
        within = order[place[id(first)] : place[id(last)] + 1]
        inner = sum(row.above + row.below for row in within) - first.above - last.below
        lacks = max(sizes.high(box) - inner - 2 * PAD, 0.0) / 2
        first.above = max(first.above, PAD + ABOVE + lacks)
        last.below = max(last.below, PAD + BELOW + lacks)


def _bend(wire: Wire, stage: int) -> Bend:
    """Between which heights a wire runs upright in the gap right of a column."""
    assert wire.left_row is not None
    assert wire.lane is not None
    assert wire.right_row is not None
    if wire.left.stage == stage and wire.left_row is not wire.lane:
        return Bend(wire, wire.left_row.y, wire.lane.y)
    return Bend(wire, wire.lane.y, wire.right_row.y)
