"""The wires of the picture, each from its own pin to its own pin, with its label over it."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from mulewright.design.harness import Conductor, Pin
from mulewright.paper.wiring.labels import label, label_end, label_texts
from mulewright.paper.wiring.place import Places
from mulewright.paper.wiring.plan import Wire
from mulewright.paper.wiring.scene import Line, Look, Mark, Plug, Point, Rect, Scene, Sign
from mulewright.paper.wiring.sizes import SPACE
from mulewright.paper.wiring.strands import PLUG, PLUG_HALF, STRAND, STRANDS, THICK_LEAD

BEAD_AT = 2.4  # [mm] from the end of a wire to its bead
CROSS_AT = 4.4  # [mm] from a socket to the cross on a red wire that is pulled
THINNEST, THICKEST = 0.5, 2.0  # [mm]
THICK_PER_MM = 0.62  # thickness of a line over the root of the copper's cross-section
UNKNOWN_THICK = 0.9  # [mm]


def draw_wire(scene: Scene, places: Places, wire: Wire) -> None:
    """Draw a wire between two columns, with what is written over it."""
    way = _way(places, wire)
    one = wire.conductor
    if wire.is_lead:
        _lead(scene, wire, way)
    else:
        look = _look(one)
        ends = (_pin(one.start, ""), _pin(one.end, "") if one.end is not None else "")
        scene.lines.append(Line(way, look, _thick(one), one.number, ends))
        scene.pins |= {ends[0]: way[0], ends[1]: way[-1]}
        _beads(scene, one, way)
    half = STRAND + THICK_LEAD / 2 if wire.is_lead else _thick(one) / 2
    scene.texts += label(wire, places.gaps[places.home(wire)].words_at, half)


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
        end = label_end(wire.conductor, places.gaps[places.home(wire)].words_at) + SPACE
        return [*way, Point(end, wire.lane.y)]
    assert wire.right_row is not None
    if wire.right_row is not wire.lane:
        track = places.gap_before(wire.right).tracks[wire]
        way += [Point(track, wire.lane.y), Point(track, wire.right_row.y)]
    return [*way, Point(places.rect[wire.right].left, wire.right_row.y)]


def _thick(one: Conductor) -> float:
    if one.area is None:
        return UNKNOWN_THICK
    root = (one.area.value * 1e6) ** 0.5
    return float(min(max(THICK_PER_MM * root, THINNEST), THICKEST))


def _pin(pin: Pin, strand: str) -> str:
    return f"{pin.thing} {pin.name} {pin.seat} {strand}".rstrip()


def _look(one: Conductor) -> Look:
    if one.kind == "motor":
        return "motor A" if one.start.name.startswith("A") else "motor B"
    return "plus" if one.kind == "plus" else "minus"


def _beads(scene: Scene, one: Conductor, way: Sequence[Point]) -> None:
    """Mark what is plus and what is minus: a power wire at both its ends, a motor wire at the motor."""
    start, end = way[0], way[-1]
    plus = one.kind == "plus" or (
        one.kind == "motor" and one.end is not None and one.end.name.startswith("+")
    )
    sign: Sign = "plus" if plus else "minus"
    if one.kind != "motor":
        scene.marks.append(Mark(sign, Point(start.x + BEAD_AT, start.y)))
    scene.marks.append(Mark(sign, Point(end.x - BEAD_AT, end.y)))


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


def draw_upright(scene: Scene, places: Places, wire: Wire) -> None:
    """Draw a wire between two boxes of a stack."""
    one, right = wire.conductor, wire.right
    assert right is not None
    assert one.end is not None
    here, there = places.rect[wire.left], places.rect[right]
    up = there.top < here.top
    x = here.left + 5.0
    way = [Point(x, here.top if up else here.bottom), Point(x, there.bottom if up else there.top)]
    look = _look(one)
    ends = (_pin(one.start, ""), _pin(one.end, ""))
    scene.lines.append(Line(way, look, _thick(one), one.number, ends))
    scene.pins |= {ends[0]: way[0], ends[1]: way[1]}
    middle = (way[0].y + way[1].y) / 2
    scene.marks.append(Mark("plus" if look == "plus" else "minus", Point(x, middle)))
    scene.texts += label_texts(one, Point(x + 2.8, middle + 0.9))
