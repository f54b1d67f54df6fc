"""Boxes with what is written on them, and the wires between them, laid out as a scene."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise

from mulewright.design.harness import Conductor, Pin
from mulewright.paper.fonts import shortened, width
from mulewright.paper.wiring.place import (
    FLAG,
    LABEL,
    LINE,
    NAME,
    NUMBER,
    SIDES,
    SMALL,
    UPRIGHT,
    Places,
    pin_words,
    written,
)  # fmt: skip
from mulewright.paper.wiring.plan import MOVE, RECEIVE, Box, Wire
from mulewright.paper.wiring.scene import Line, Look, Mark, Plug, Point, Rect, Scene, Shape, Text
from mulewright.paper.wiring.words import UNPLACED, flag, socket_words, wire_words

STRAND = 1.15  # [mm] from one wire of a lead to the next
PLUG, PLUG_HALF = 2.6, 2.2  # [mm] of a servo plug: length, half its height
OVER = 1.25  # [mm] from a wire to what is written over it
BEAD_AT = 2.4  # [mm] from the end of a wire to its bead
CROSS_AT = 4.4  # [mm] from a socket to the cross on a red wire that is pulled
THICK_LEAD = 0.5  # [mm]
THINNEST, THICKEST = 0.5, 2.0  # [mm]
THICK_PER_MM = 0.62  # thickness of a line over the root of the copper's cross-section
UNKNOWN_THICK = 0.9  # [mm]
STRANDS: dict[str, tuple[tuple[Look, float], ...]] = {
    "servo lead": (("signal", -STRAND), ("red", 0.0), ("ground", STRAND)),
    "supply lead": (("red", 0.0), ("ground", STRAND)),
}


def compose(places: Places) -> Scene:
    """Draw everything that stands in its place."""
    scene = Scene((places.right, places.height))
    _bands(scene, places)
    for box in places.rect:
        _box(scene, places, box)
    for wire in places.plan.wires:
        if wire in places.plan.upright:
            _upright(scene, places, wire)
        else:
            _wire(scene, places, wire)
    return scene


def _bands(scene: Scene, places: Places) -> None:
    """Shade every other lane."""
    left = max((gap.left for stage, gap in places.gaps.items() if stage < MOVE - 10), default=0.0)
    for lane in places.lanes.lanes[::2]:
        top, bottom = lane[0].y - lane[0].above, lane[-1].y + lane[-1].below
        scene.bands.append(Rect(left, top, places.right, bottom))


# --- boxes


def _box(scene: Scene, places: Places, box: Box) -> None:
    rect, lines = places.rect[box], places.names[box]
    scene.shapes.append(Shape(box.thing, rect))
    if box.stage == RECEIVE:
        scene.texts += _level_lines(lines, Point(rect.middle.x, rect.top + 4.4), top=True)
        _sockets(scene, places, box)
        return
    left, right = (max((width(text, SMALL) for text in pin_words(box, side)), default=0.0) for side in SIDES)
    if box in places.plan.stacked:
        left = right = 0.0
    middle = Point((rect.left + left + rect.right - right) / 2, rect.middle.y)
    scene.texts += _upright_lines(lines, middle) if box.kind in UPRIGHT else _level_lines(lines, middle)
    _pin_names(scene, places, box)


def _level_lines(lines: Sequence[str], at: Point, *, top: bool = False) -> Iterator[Text]:
    high = (NAME + SMALL * (len(lines) - 1)) * LINE
    y = at.y if top else at.y - high / 2 + NAME * 0.98
    for place, line in enumerate(lines):
        yield Text(
            line, Point(at.x, y), SMALL if place else NAME, bold=not place, anchor="middle", faint=place > 1
        )
        y += SMALL * LINE


def _upright_lines(lines: Sequence[str], at: Point) -> Iterator[Text]:
    wide = (NAME + SMALL * (len(lines) - 1)) * LINE
    x = at.x - wide / 2 + NAME * 0.98
    for place, line in enumerate(lines):
        yield Text(
            line, Point(x, at.y), SMALL if place else NAME, bold=not place, anchor="middle", upright=True
        )
        x += SMALL * LINE


def _pin_names(scene: Scene, places: Places, box: Box) -> None:
    rect = places.rect[box]
    inside = places.plan.upright
    for wire in box.incoming:
        end, row = wire.conductor.end, wire.right_row
        if end is not None and row is not None and wire not in inside and written(end.name):
            scene.texts.append(Text(written(end.name), Point(rect.left + 1.0, row.y + 0.85), SMALL))
    for wire in box.leaving:
        row = wire.left_row
        if (
            row is not None
            and wire not in inside
            and written(wire.start.name)
            and box not in places.plan.stacked
        ):
            scene.texts.append(
                Text(written(wire.start.name), Point(rect.right - 1.0, row.y + 0.85), SMALL, anchor="end")
            )


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


# --- wires


def _wire(scene: Scene, places: Places, wire: Wire) -> None:
    way = _way(places, wire)
    one = wire.conductor
    if wire.is_lead:
        _lead(scene, wire, way)
    else:
        look: Look = one.kind if one.kind in ("plus", "minus") else f"motor {one.start.name[0]}"  # type: ignore[assignment]
        ends = (_pin(one.start, ""), _pin(one.end, "") if one.end is not None else "")
        scene.lines.append(Line(way, look, _thick(one), one.number, ends))
        scene.pins |= {ends[0]: way[0], ends[1]: way[-1]}
        _beads(scene, one, way)
    _label(scene, places, wire)


def _way(places: Places, wire: Wire) -> list[Point]:
    """The corners of a wire, from box to box."""
    assert wire.left_row is not None
    assert wire.lane is not None
    x, y = places.rect[wire.left].right, wire.left_row.y
    way = [Point(x, y)]
    if wire.lane is not wire.left_row:
        track = places.gaps[wire.left.stage].tracks[wire]
        way += [Point(track, y), Point(track, wire.lane.y)]
    if wire.right is None:
        gap = places.gaps[places.home(wire)]
        end = gap.words_at + _label_end(wire) + 1.4
        return [*way, Point(end, wire.lane.y)]
    assert wire.right_row is not None
    if wire.right_row is not wire.lane:
        before = max(stage for stage in places.gaps if stage < wire.right.stage)
        track = places.gaps[before].tracks[wire]
        way += [Point(track, wire.lane.y), Point(track, wire.right_row.y)]
    return [*way, Point(places.rect[wire.right].left, wire.right_row.y)]


def _thick(one: Conductor) -> float:
    if one.area is None:
        return UNKNOWN_THICK
    root = (one.area.value * 1e6) ** 0.5
    return float(min(max(THICK_PER_MM * root, THINNEST), THICKEST))


def _pin(pin: Pin, strand: str) -> str:
    return f"{pin.thing} {pin.name} {pin.seat} {strand}".rstrip()


def _beads(scene: Scene, one: Conductor, way: Sequence[Point]) -> None:
    """Mark what is plus and what is minus at both ends of a power wire, and at the motor's end of a motor wire."""
    (start, end) = way[0], way[-1]
    if one.kind in ("plus", "minus"):
        sign = "plus" if one.kind == "plus" else "minus"
        scene.marks.append(Mark("plus" if sign == "plus" else "minus", Point(start.x + BEAD_AT, start.y)))
        scene.marks.append(Mark("plus" if sign == "plus" else "minus", Point(end.x - BEAD_AT, end.y)))
    elif one.end is not None:
        scene.marks.append(
            Mark("plus" if one.end.name.startswith("+") else "minus", Point(end.x - BEAD_AT, end.y))
        )


def _lead(scene: Scene, wire: Wire, way: Sequence[Point]) -> None:
    """Draw the two or three wires of a servo lead, each from its own pin to its own pin."""
    one = wire.conductor
    strands = STRANDS[one.kind]
    tail, head = wire.left.kind == "mixer", wire.right is not None and wire.right.kind != "servo"
    if tail:
        scene.plugs.append(_plug(way[0].x + PLUG, way[0].y, strands))
    if wire.right is not None and head:
        scene.plugs.append(_plug(way[-1].x, way[-1].y, strands))
    for look, aside in strands:
        points = _beside(way, aside)
        if tail:
            points[0] = Point(points[0].x + PLUG / 2, points[0].y)
        pulled = (look == "red" and one.red_pulled) or (look == "ground" and one.ground_pulled)
        if one.end is None:
            end = f"loose {one.number} {look}"
        elif pulled:
            end = f"pulled {one.number} {look}"
            points[-1] = Point(points[-1].x - CROSS_AT, points[-1].y)
            scene.marks.append(Mark("cross", points[-1]))
        else:
            end = _pin(one.end, look)
            points[-1] = Point(points[-1].x - (PLUG / 2 if head else 0.0), points[-1].y)
        ends = (_pin(one.start, look), end)
        scene.lines.append(Line(points, look, THICK_LEAD, one.number, ends))
        scene.pins |= {ends[0]: points[0], ends[1]: points[-1]}


def _plug(right: float, y: float, strands: Sequence[tuple[Look, float]]) -> Plug:
    rect = Rect(right - PLUG, y - PLUG_HALF, right, y + PLUG_HALF)
    return Plug(rect, [(look, y + aside) for look, aside in strands])


def _beside(way: Sequence[Point], aside: float) -> list[Point]:
    """A way beside another one, so that the wires of a lead turn their corners without crossing."""
    shift = {}
    for place, (here, there) in enumerate(pairwise(way)):
        if here.x == there.x:
            down = there.y > here.y
            shift[place] = shift[place + 1] = -aside if down else aside
    return [Point(x + shift.get(place, 0.0), y + aside) for place, (x, y) in enumerate(way)]


def _label(scene: Scene, places: Places, wire: Wire) -> None:
    """Write number, thickness, length and what is to be done with the plug over a wire."""
    one = wire.conductor
    gap = places.gaps[places.home(wire)]
    assert wire.lane is not None
    half = STRAND + THICK_LEAD / 2 if wire.is_lead else _thick(one) / 2
    x, y = gap.words_at, wire.lane.y - half - OVER
    for text in _label_texts(one, x, y):
        scene.texts.append(text)
    if wire.right is None:
        tag = Point(gap.words_at + _label_end(wire) + 3.4, wire.lane.y + 0.8)
        scene.texts.append(Text(UNPLACED, tag, FLAG, bold=True, framed=True))


def _label_texts(one: Conductor, x: float, y: float) -> Iterator[Text]:
    number = Text(str(one.number), Point(x, y), NUMBER, bold=True)
    yield number
    x = number.rect.right + 1.4
    if words := wire_words(one):
        yield (text := Text(words, Point(x, y), LABEL))
        x = text.rect.right + 1.4
    if words := flag(one):
        yield Text(words, Point(x + 0.6, y), FLAG, bold=True, framed=True)


def _label_end(wire: Wire) -> float:
    """How far from its beginning a label reaches."""
    return max(text.rect.right for text in _label_texts(wire.conductor, 0.0, 0.0)) + 0.6


def _upright(scene: Scene, places: Places, wire: Wire) -> None:
    """A wire between two boxes of a stack."""
    one, right = wire.conductor, wire.right
    assert right is not None
    assert one.end is not None
    here, there = places.rect[wire.left], places.rect[right]
    up = there.top < here.top
    x = here.left + 5.0
    way = [Point(x, here.top if up else here.bottom), Point(x, there.bottom if up else there.top)]
    look: Look = "plus" if one.kind == "plus" else "minus"
    ends = (_pin(one.start, ""), _pin(one.end, ""))
    scene.lines.append(Line(way, look, _thick(one), one.number, ends))
    scene.pins |= {ends[0]: way[0], ends[1]: way[1]}
    middle = (way[0].y + way[1].y) / 2
    scene.marks.append(Mark("plus" if look == "plus" else "minus", Point(x, middle)))
    scene.texts += _label_texts(one, x + 2.8, middle + 0.9)
