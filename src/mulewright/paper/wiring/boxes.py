"""A box of the wiring picture: its name, what it is, and the names of its pins."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from mulewright.paper.fonts import shortened, width
from mulewright.paper.wiring.place import Places
from mulewright.paper.wiring.plan import RECEIVE, Box
from mulewright.paper.wiring.scene import Plug, Point, Rect, Scene, Shape, Text
from mulewright.paper.wiring.sizes import LINE, NAME, SIDES, SMALL, UPRIGHT, Said, high, side_width, written
from mulewright.paper.wiring.strands import PLUG, PLUG_HALF
from mulewright.paper.wiring.words import socket_words

ASIDE = 1.0  # [mm] from the edge of a box to the name of a pin
UNDER_EDGE = 1.4  # [mm] from the upper edge of a receiver to its name
FIRST = 0.98  # from the upper edge of a first line to its feet, in parts of its size


def draw_box(scene: Scene, places: Places, box: Box) -> None:
    """Draw a box with what is written on it."""
    rect, lines = places.rect[box], places.sizes.lines[box]
    scene.shapes.append(Shape(box.thing, rect))
    if box.stage == RECEIVE:
        middle = Point(rect.middle.x, rect.top + UNDER_EDGE + high(lines) / 2)
        scene.texts += _lines(lines, middle, upright=False)
        _sockets(scene, places, box)
        return
    stacked = box in places.plan.stacked
    left, right = (0.0 if stacked else side_width(box, side) for side in SIDES)
    middle = Point((rect.left + left + rect.right - right) / 2, rect.middle.y)
    scene.texts += _lines(lines, middle, upright=box.kind in UPRIGHT)
    _pin_names(scene, places, box)


def _lines(lines: Sequence[Said], at: Point, *, upright: bool) -> Iterator[Text]:
    """Lines about their common middle, or read from below."""
    here = -high(lines) / 2
    for line in lines:
        here += line.size * (LINE if here > -high(lines) / 2 else FIRST)
        place = Point(at.x + here, at.y) if upright else Point(at.x, at.y + here)
        yield Text(
            line.words, place, line.size, bold=line.bold, anchor="middle", upright=upright, faint=line.faint
        )


def _pin_names(scene: Scene, places: Places, box: Box) -> None:
    """Write the names of its pins beside them; in a stack the beads tell."""
    rect = places.rect[box]
    for wire in () if box in places.plan.stacked else (*box.incoming, *box.leaving):
        left = wire.right is box
        pin, row = (wire.conductor.end, wire.right_row) if left else (wire.start, wire.left_row)
        if pin is not None and row is not None and (words := written(pin.name)):
            at = Point(rect.left + ASIDE if left else rect.right - ASIDE, row.y + 0.85)
            scene.texts.append(Text(words, at, SMALL, anchor="start" if left else "end"))


def _sockets(scene: Scene, places: Places, box: Box) -> None:
    """Number the sockets of a receiver, with what commands each; empty ones are faint."""
    rect = places.rect[box]
    seen = [(wire.conductor.end, wire.right_row) for wire in box.incoming]
    pins = [
        (pin.name if pin.seat == 1 else f"{pin.name} (2)", pin.name, row) for pin, row in seen if pin and row
    ]
    for name, row in box.empty.items():
        pins.append((name, name, row))
        scene.plugs.append(
            Plug(Rect(rect.left - PLUG, row.y - PLUG_HALF, rect.left, row.y + PLUG_HALF), empty=True)
        )
    for label, name, row in pins:
        empty = name in box.empty
        scene.texts.append(
            Text(label, Point(rect.left + 1.4, row.y + 1.05), NAME, bold=not empty, faint=empty)
        )
        words = "empty" if empty else socket_words(places.plan.mule, box.thing, name)
        at = Point(rect.left + 1.4 + width(label, NAME, bold=True) + 1.2, row.y + 1.0)
        if words:
            scene.texts.append(Text(shortened(words, SMALL, rect.right - at.x - 0.8), at, SMALL, faint=empty))
