"""Where does everything lie? Columns from left to right, tracks for the wires that bend, stacks at their boards."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Literal

from mulewright.paper.fonts import shortened, width
from mulewright.paper.wiring.heights import HEAD, TOP, Heights
from mulewright.paper.wiring.lanes import Lanes
from mulewright.paper.wiring.plan import MOVE, RECEIVE, SOURCE, Box, Plan, Row, Stack, Wire
from mulewright.paper.wiring.rows import Rows
from mulewright.paper.wiring.scene import Rect
from mulewright.paper.wiring.tracks import Bend, in_order
from mulewright.paper.wiring.words import UNPLACED, flag, heading, socket_words, under_heading, wire_words

NAME, SMALL, NUMBER, LABEL, FLAG = 3.1, 2.7, 3.1, 2.8, 2.4  # [mm] sizes of text
LINE = 1.25  # from one line of text to the next, in parts of its size
PAD = 2.6  # [mm] of a box above its first row and below its last one
LEAST = 9.6  # [mm] height of a box
ROOM = 30.0  # [mm] for a name
NARROW = 9.0  # [mm] width of a box that is drawn stretched, with its name upright
STUB = 4.6  # [mm] from a box to the first text or track: bead, plug
POWER_TRACK, LEAD_TRACK = 2.8, 5.4  # [mm] from one track to the next
STACK_GAP = 9.0  # [mm] between the boxes of a stack, for the wire between them
UPRIGHT_LABEL = 9.0  # [mm] of a stack left of and right of the label of a wire in it
SIDE_BY_SIDE = 6.0  # [mm] from one labelled wire to the next
EDGE = 3.4  # [mm] from the edge of a board to its first wire
NEARLY = 1e-6  # [mm]
CLEAR = 2.2  # [mm] between wires that run level
Side = Literal["left", "right"]
SIDES: tuple[Side, ...] = ("left", "right")
UPRIGHT = ("board", "y_lead", "inline")  # kinds whose names are read from below


@dataclass
class Gap:
    """The room between two columns."""

    left: float = 0.0  # [mm]
    right: float = 0.0  # [mm]
    words: float = 0.0  # [mm] width of the widest label
    tracks: dict[Wire, float] = field(default_factory=dict)  # where each wire that bends here does so [mm]
    words_at: float = 0.0  # [mm] where labels begin


class Places:
    """The places of all boxes and wires of a plan. [mm]."""

    def __init__(self, plan: Plan) -> None:
        self.plan = plan
        self.lanes = Lanes(plan)
        self.rows = Rows(plan, self.lanes)
        self.names = {box: _name(box, plan) for box in plan.boxes.values()}
        self._make_room()
        self.height = Heights(plan, self.rows.order).bottom
        self.rect: dict[Box, Rect] = {}
        self._stand_stacks()
        self._stand_columns()

    # --- heights

    def _make_room(self) -> None:
        order = {id(row): place for place, row in enumerate(self.rows.order)}
        for box in self.plan.standing:
            rows = sorted((row for row in box.all_rows() if id(row) in order), key=lambda row: order[id(row)])
            if not rows or box.stage == RECEIVE:
                continue
            first, last = rows[0], rows[-1]
            first.above = max(first.above, PAD + 1.2)
            last.below = max(last.below, PAD + 0.6)
            within = self.rows.order[order[id(first)] : order[id(last)] + 1]
            inner = sum(row.above + row.below for row in within) - first.above - last.below
            lacks = max(self._least(box) - inner - 2 * PAD, 0.0)
            if lacks:
                first.above = max(first.above, PAD + lacks / 2 + 1.2)
                last.below = max(last.below, PAD + lacks / 2 + 0.6)

    def _least(self, box: Box) -> float:
        """Least height that a box needs for what is written on it."""
        name, *more = self.names[box]
        if box.kind in UPRIGHT:
            written_up = max(width(name, NAME, bold=True), *(width(line, SMALL) for line in more)) + 3.0
            return max(written_up, SIDE_BY_SIDE * len(box.incoming) + 2 * EDGE - SIDE_BY_SIDE)
        return max(LEAST if box.stage != RECEIVE else 0.0, (NAME + SMALL * len(more)) * LINE + 1.6)

    def top_and_bottom(self, box: Box) -> tuple[float, float]:
        """Between which heights a standing box lies."""
        heights = [row.y for row in box.all_rows()]
        above = HEAD if box.stage == RECEIVE else PAD
        top, bottom = min(heights) - above, max(heights) + PAD
        lacks = max(self._least(box) - (bottom - top), 0.0)
        return top - lacks / 2, bottom + lacks / 2

    # --- stacks

    def _stand_stacks(self) -> None:
        """Place each stack beside what it feeds, without a wire of it on the height of another one."""
        below = TOP
        taken = [
            wire.lane.y for stack in self.plan.stacks for wire in self.outs(stack) if wire.lane is not None
        ]
        wide = max((self.width_of(box) for box in self.plan.stacked), default=0.0)
        wide = max((wide, *(label_width(wire) + UPRIGHT_LABEL for wire in self.plan.upright)))
        for stack in sorted(self.plan.stacks, key=self._aim):
            heights = [self._stacked_height(box) for box in stack.boxes]
            whole = sum(heights) + STACK_GAP * (len(heights) - 1)
            top = max(self._aim(stack) - whole / 2, below)
            while any(
                abs(y - other) < CLEAR for y in self._out_heights(stack, top, heights) for other in taken
            ):
                top += 0.4
            here = top
            for box, height in zip(stack.boxes, heights, strict=True):
                self.rect[box] = Rect(0.0, here, wide, here + height)
                here += height + STACK_GAP
            for wire, y in zip(self.outs(stack), self._out_heights(stack, top, heights), strict=True):
                wire.left_row = Row(0.0, 0.0, y)
                taken.append(y)
            below = top + whole + STACK_GAP
            self.height = max(self.height, top + whole + TOP)

    def outs(self, stack: Stack) -> list[Wire]:
        """The wires that leave a stack, from the top down."""
        return [wire for box in stack.boxes for wire in box.leaving if wire not in self.plan.upright]

    def _stacked_height(self, box: Box) -> float:
        out = [wire for wire in box.leaving if wire not in self.plan.upright]
        return max(12.0, 6.0 * len(out) + 2.0)

    def _out_heights(self, stack: Stack, top: float, heights: Sequence[float]) -> list[float]:
        found, here = [], top
        for box, height in zip(stack.boxes, heights, strict=True):
            out = [wire for wire in box.leaving if wire not in self.plan.upright]
            found += [here + height * (place + 0.5) / len(out) for place in range(len(out))]
            here += height + STACK_GAP
        return found

    def _aim(self, stack: Stack) -> float:
        """The height at which the middle of a stack should lie."""
        ends = [wire.right for wire in self.outs(stack) if wire.right is not None]
        middles = [sum(self.top_and_bottom(box)) / 2 for box in dict.fromkeys(ends) if box.all_rows()]
        return sum(middles) / len(middles) if middles else 0.0

    # --- columns

    def _stand_columns(self) -> None:
        stages = sorted({SOURCE, *(box.stage for box in self.plan.standing)})
        self.gaps = {stage: Gap() for stage in stages}  # right of each column
        self._face_stacks()
        self._measure_gaps(stages)
        here = 0.0
        for stage in stages:
            column = [box for box in self.plan.standing if box.stage == stage]
            wide = max((self.width_of(box) for box in column), default=0.0)
            if stage == SOURCE:
                wide = max((rect.right for rect in self.rect.values()), default=0.0)
            for box in column:
                top, bottom = self.top_and_bottom(box)
                self.rect[box] = Rect(here, top, here + wide, bottom)
            here += wide
            needed = stage != stages[-1] or self.gaps[stage].words
            if needed and (wide or stage != SOURCE):
                here = self._lay_gap(stage, here)
        self.right = here

    def _face_stacks(self) -> None:
        """End the wires from stacks at a board: at their own heights where they fit, else bent to it."""
        for box in self.plan.standing:
            wires = [wire for wire in box.incoming if wire.right_row is None and wire.left_row is not None]
            wires.sort(key=lambda wire: wire.left_row.y if wire.left_row is not None else 0.0)
            if wires:
                heights = [wire.left_row.y for wire in wires if wire.left_row is not None]
                for wire, y in zip(wires, _spread(heights, *self.top_and_bottom(box)), strict=True):
                    assert wire.left_row is not None
                    level = abs(y - wire.left_row.y) < NEARLY
                    wire.right_row = wire.lane = wire.left_row if level else Row(0.0, 0.0, y)

    def _measure_gaps(self, stages: Sequence[int]) -> None:
        for wire in self.plan.wires:
            if wire in self.plan.upright:
                continue
            if wire.left_row is not wire.lane:
                self.gaps[wire.left.stage].tracks[wire] = 0.0
            if wire.right is not None and wire.right_row is not wire.lane:
                before = max(stage for stage in stages if stage < wire.right.stage)
                self.gaps[before].tracks[wire] = 0.0
            gap = self.gaps[self.home(wire, stages)]
            gap.words = max(gap.words, label_width(wire))

    def home(self, wire: Wire, stages: Sequence[int] | None = None) -> int:
        """The column right of which the label of a wire stands."""
        known = stages if stages is not None else sorted(self.gaps)
        if (
            wire.is_lead
            and wire.left.stage < MOVE
            and not (wire.right is not None and wire.right.stage <= MOVE)
        ):
            return max(
                (stage for stage in known if stage <= MOVE and stage >= wire.left.stage), default=known[0]
            )
        return wire.left.stage

    def _lay_gap(self, stage: int, here: float) -> float:
        """Place the tracks and the labels of one gap."""
        gap = self.gaps[stage]
        gap.left = here
        tracks = in_order(_bend(wire, stage) for wire in gap.tracks)
        wide = sum(LEAD_TRACK if wire.is_lead else POWER_TRACK for wire in tracks)
        first = here + STUB
        gap.words_at = first + (wide + 1.5 if wide and stage < MOVE else 0.0)
        at = first if stage < MOVE else first + gap.words + 1.5
        for wire in tracks:
            step = LEAD_TRACK if wire.is_lead else POWER_TRACK
            gap.tracks[wire] = at + step / 2
            at += step
        gap.right = first + gap.words + wide + (1.5 if wide else 0.0) + STUB
        return gap.right

    def width_of(self, box: Box) -> float:
        """How wide a box has to be."""
        name, *more = self.names[box]
        left, right = (
            max((width(text, SMALL) for text in pin_words(box, side)), default=0.0) for side in SIDES
        )
        if box.kind in UPRIGHT:
            lines = (NAME + SMALL * len(more)) * LINE
            return max(NARROW, left + right + lines + 4.0)
        title = max(width(name, NAME, bold=True), *(width(line, SMALL) for line in more), 10.0)
        if box.stage == RECEIVE:
            sockets = [socket_words(self.plan.mule, box.thing, name) for name in _socket_names(box)]
            return max(title, max((width(_cut(word), SMALL) for word in sockets), default=0.0) + 7.0) + 5.0
        return title + left + right + 6.0


def _spread(heights: Sequence[float], top: float, bottom: float) -> list[float]:
    """Heights as near to the wanted ones as a board allows, far enough from each other, in the same order."""
    low, high = top + EDGE, bottom - EDGE
    found: list[float] = []
    for y in heights:
        found.append(max(min(max(y, low), high), found[-1] + SIDE_BY_SIDE if found else low))
    for place in reversed(range(len(found))):
        found[place] = min(found[place], found[place + 1] - SIDE_BY_SIDE if place + 1 < len(found) else high)
    return found


def _bend(wire: Wire, stage: int) -> Bend:
    """Between which heights a wire runs upright in the gap right of a column."""
    assert wire.left_row is not None
    assert wire.lane is not None
    assert wire.right_row is not None
    if wire.left.stage == stage and wire.left_row is not wire.lane:
        return Bend(wire, wire.left_row.y, wire.lane.y)
    return Bend(wire, wire.lane.y, wire.right_row.y)


def label_width(wire: Wire) -> float:
    """Width of all that is written over a wire."""
    one = wire.conductor
    words = [width(str(one.number), NUMBER, bold=True)]
    if text := wire_words(one):
        words.append(width(text, LABEL))
    if text := flag(one):
        words.append(width(text, FLAG, bold=True) + 1.2)
    tag = width(UNPLACED, FLAG, bold=True) + 4.0 if one.end is None else 0.0
    return sum(words) + 1.4 * (len(words) - 1) + tag


def pin_words(box: Box, side: Side) -> list[str]:
    """Names of the pins of a box that are written inside it, on one side."""
    left = [wire.conductor.end.name for wire in box.incoming if wire.conductor.end is not None]
    right = [wire.start.name for wire in box.leaving]
    return [words for name in (left if side == "left" else right) if (words := written(name))]


def written(name: str) -> str:
    """The name of a pin as it stands in a box; the only lead of a thing needs none."""
    return (
        ""
        if name in ("lead", "in", "out") or name.startswith(("leg ", "servo supply"))
        else name.replace("-", "−")
    )


def _socket_names(box: Box) -> list[str]:
    return [*box.empty, *(wire.conductor.end.name for wire in box.incoming if wire.conductor.end is not None)]


def _cut(text: str) -> str:
    return shortened(text, SMALL, ROOM)


def _name(box: Box, plan: Plan) -> list[str]:
    """The lines on a box: its name, in two lines where it is long, and what it is."""
    more = [_cut(line) for line in under_heading(plan.mule, box.thing)]
    return [
        shortened(heading(box.thing), NAME, ROOM, bold=True),
        *more[: 1 if box.stage == RECEIVE else None],
    ]
