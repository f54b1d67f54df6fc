"""How much room do the words of a picture take, on its boxes and over its wires?"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Literal, NamedTuple

from mulewright.paper.fonts import shortened, width
from mulewright.paper.wiring.heights import HEAD
from mulewright.paper.wiring.plan import RECEIVE, Box, Plan, Wire
from mulewright.paper.wiring.words import UNPLACED, flag, heading, socket_words, under_heading, wire_words

NAME, SMALL, NUMBER, LABEL, FLAG = 3.1, 2.7, 3.1, 2.8, 2.4  # [mm] sizes of text
LINE = 1.25  # from one line of text to the next, in parts of its size
PAD = 2.6  # [mm] of a box above its first row and below its last one
LEAST = 9.6  # [mm] height of a box
ROOM = 30.0  # [mm] for a name
NARROW = 9.0  # [mm] width of a box that is drawn stretched, with its name read from below
EDGE = 3.4  # [mm] from the edge of a board to its first wire
SIDE_BY_SIDE = 6.0  # [mm] from one labelled wire to the next
SPACE = 1.4  # [mm] between the words of a label
Side = Literal["left", "right"]
SIDES: tuple[Side, ...] = ("left", "right")
UPRIGHT = ("board", "y_lead", "inline")  # kinds whose names are read from below


class Said(NamedTuple):
    """One line on a box."""

    words: str
    size: float  # [mm]
    bold: bool = False
    faint: bool = False


class Sizes:
    """The lines that are written on each box, and how large it has to be for them. [mm]."""

    def __init__(self, plan: Plan) -> None:
        self._mule = plan.mule
        self.lines = {box: self._lines(box) for box in plan.boxes.values()}

    def _lines(self, box: Box) -> list[Said]:
        """Its name, in two lines where it is long, and what it is."""
        more = [_cut(line) for line in under_heading(self._mule, box.thing)]
        names = in_two(heading(box.thing), 1 if box.stage == RECEIVE else 2)
        kinds = [Said(line, SMALL, faint=bool(place)) for place, line in enumerate(more)]
        return [
            *(Said(line, NAME, bold=True) for line in names),
            *(kinds[:1] if box.stage == RECEIVE else kinds),
        ]

    def high(self, box: Box) -> float:
        """Least height that it needs."""
        lines = self.lines[box]
        if box.kind in UPRIGHT:
            return max(_long(lines) + 3.0, SIDE_BY_SIDE * (len(box.incoming) - 1) + 2 * EDGE)
        return max(LEAST if box.stage != RECEIVE else 0.0, high(lines) + 1.6)

    def top_and_bottom(self, box: Box) -> tuple[float, float]:
        """Between which heights it lies, once its rows have theirs."""
        heights = [row.y for row in box.all_rows()]
        top, bottom = min(heights) - (HEAD if box.stage == RECEIVE else PAD), max(heights) + PAD
        lacks = max(self.high(box) - (bottom - top), 0.0)
        return top - lacks / 2, bottom + lacks / 2

    def wide(self, box: Box) -> float:
        """How wide it has to be."""
        left, right = (side_width(box, side) for side in SIDES)
        if box.kind in UPRIGHT:
            return max(NARROW, left + right + high(self.lines[box]) + 4.0)
        title = max(_long(self.lines[box]), 10.0)
        if box.stage == RECEIVE:
            ends = (wire.conductor.end for wire in box.incoming)
            names = [*box.empty, *(end.name for end in ends if end is not None)]
            words = (socket_words(self._mule, box.thing, name) for name in names)
            return max(title, *(width(_cut(word), SMALL) + 7.0 for word in words), 7.0) + 5.0
        return title + left + right + 6.0


def high(lines: Sequence[Said]) -> float:
    """Height of some lines. [mm]."""
    return sum(line.size for line in lines) * LINE


def _long(lines: Sequence[Said]) -> float:
    return max(width(line.words, line.size, bold=line.bold) for line in lines)


def in_two(name: str, most: int) -> list[str]:
    """A name in as many lines at the most, broken between its words if it can be; the last one may be cut."""
    if most == 1 or width(name, NAME, bold=True) <= ROOM:
        return [shortened(name, NAME, ROOM, bold=True)]
    fits = [place for place in range(1, len(name)) if width(name[:place], NAME, bold=True) <= ROOM]
    between = [place for place in fits if name[place - 1] in " _-"]
    place = max(between or fits)
    return [name[:place].rstrip(), *in_two(name[place:], most - 1)]


def _cut(text: str) -> str:
    return shortened(text, SMALL, ROOM)


def side_width(box: Box, side: Side) -> float:
    """Width of the names of the pins on one side of a box. [mm]."""
    left = [wire.conductor.end.name for wire in box.incoming if wire.conductor.end is not None]
    names = left if side == "left" else [wire.start.name for wire in box.leaving]
    return max((width(written(name), SMALL) for name in names), default=0.0)


def written(name: str) -> str:
    """The name of a pin as it stands in a box; the only lead of a thing needs none."""
    plain = name in ("lead", "in", "out") or name.startswith("leg ")
    return "" if plain else name.replace("-", "−")


def label_width(wire: Wire) -> float:
    """Width of all that is written over a wire. [mm]."""
    one = wire.conductor
    words = [width(str(one.number), NUMBER, bold=True)]
    if text := wire_words(one):
        words.append(width(text, LABEL))
    if text := flag(one):
        words.append(width(text, FLAG, bold=True) + 1.2)
    tag = width(UNPLACED, FLAG, bold=True) + 4.0 if one.end is None else 0.0
    return sum(words) + SPACE * (len(words) - 1) + tag
