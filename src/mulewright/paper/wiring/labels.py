"""What is written over a wire, and where? Its number, thickness and length, and what is to be done with its plug."""

from __future__ import annotations

from collections.abc import Iterator

from mulewright.design.harness import Conductor
from mulewright.paper.wiring.plan import Wire
from mulewright.paper.wiring.scene import Point, Text
from mulewright.paper.wiring.sizes import FLAG, LABEL, NUMBER, SPACE
from mulewright.paper.wiring.words import UNPLACED, flag, wire_words

OVER = 1.25  # [mm] from a wire to what is written over it
FRAME = 0.6  # [mm] of a frame around its words
TAG = 2.0  # [mm] from the end of a loose lead to its tag


def label(wire: Wire, x: float, half: float) -> Iterator[Text]:
    """The words over a wire of so much half thickness, and a tag behind a lead whose plug sits nowhere. [mm]."""
    assert wire.lane is not None
    yield from label_texts(wire.conductor, Point(x, wire.lane.y - half - OVER))
    if wire.right is None:
        at = Point(label_end(wire.conductor, x) + SPACE + TAG, wire.lane.y + 0.8)
        yield Text(UNPLACED, at, FLAG, bold=True, framed=True)


def label_texts(one: Conductor, at: Point) -> Iterator[Text]:
    """The words of a label that begins at a place."""
    yield (last := Text(str(one.number), at, NUMBER, bold=True))
    if words := wire_words(one):
        yield (last := Text(words, Point(last.rect.right + SPACE, at.y), LABEL))
    if words := flag(one):
        yield Text(words, Point(last.rect.right + SPACE + FRAME, at.y), FLAG, bold=True, framed=True)


def label_end(one: Conductor, x: float) -> float:
    """How far a label reaches that begins at x. [mm]."""
    return max(text.rect.right for text in label_texts(one, Point(x, 0.0))) + FRAME
