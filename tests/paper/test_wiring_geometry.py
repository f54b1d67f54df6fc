"""Does every line end on its own pin, and does nothing lie on anything else? Measured on the drawing, not on its plan."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from functools import lru_cache
from itertools import combinations, pairwise
from xml.etree import ElementTree

import pytest

from mulewright.design.harness import harness
from mulewright.design.mule import Mule, link
from mulewright.design.resolve import load_text
from mulewright.paper.wiring.draw import svg
from mulewright.paper.wiring.scene import Line, Point, Rect, Scene, Text
from mulewright.paper.wiring.sheet import wiring_scene
from tests.designs import DESIGNS, mule
from tests.paper.random_mules import random_mule

RANDOM = 200
NEAR = 3.0  # [mm] a pin may lie so far outside its box: in the plug that sits in it
BEAD = 1.5  # [mm]
CASES: list[str | int] = [*DESIGNS, *range(RANDOM)]
cases = pytest.mark.parametrize("case", CASES)


@lru_cache(maxsize=4)
def drawn(case: str | int) -> tuple[Mule, Scene]:
    of = mule(case) if isinstance(case, str) else random_mule(case)
    return of, wiring_scene(of)


def pieces(line: Line) -> Iterator[Rect]:
    """What each straight piece of a line covers, its corners included."""
    half, corners = line.thick / 2, line.points[1:-1]
    for here, there in pairwise(line.points):
        (x, other_x), (y, other_y) = sorted((here.x, there.x)), sorted((here.y, there.y))
        before, after = (half if (at in corners) else 0.0 for at in sorted((here, there)))
        if y == other_y:
            yield Rect(x - before, y - half, other_x + after, y + half)
        else:
            yield Rect(x - half, y - before, x + half, other_y + after)


def meet(one: Rect, other: Rect, slack: float = 0.0) -> bool:
    return (
        one.left < other.right - slack
        and other.left < one.right - slack
        and one.top < other.bottom - slack
        and other.top < one.bottom - slack
    )


def within(one: Rect, other: Rect) -> bool:
    return (
        other.left <= one.left
        and one.right <= other.right
        and other.top <= one.top
        and one.bottom <= other.bottom
    )


def around(at: Point, reach: float) -> Rect:
    return Rect(at.x - reach, at.y - reach, at.x + reach, at.y + reach)


def covered(text: Text) -> Rect:
    return text.frame if text.framed else text.rect


def wires(scene: Scene) -> list[Line]:
    return [line for line in scene.lines if line.wire]


@cases
def test_every_line_ends_on_a_pin_of_its_own_thing(case: str | int) -> None:
    of, scene = drawn(case)
    boxes = {shape.thing: shape.rect for shape in scene.shapes}
    ends = Counter(end for line in wires(scene) for end in line.ends)
    assert set(ends.values()) <= {1}
    numbers = {one.number: one for one in harness(of).conductors}
    for line in wires(scene):
        for end, at in zip(line.ends, (line.points[0], line.points[-1]), strict=True):
            assert scene.pins[end] == at
        one = numbers[line.wire]
        assert line.ends[0].startswith(f"{one.start.thing} {one.start.name} ")
        if one.end is not None and not line.ends[1].startswith("pulled "):
            assert line.ends[1].startswith(f"{one.end.thing} {one.end.name} ")
        for pin, at in zip(one.pins, (line.points[0], line.points[-1]), strict=False):
            box = boxes[pin.thing]
            edge = min(
                abs(at.x - box.left), abs(at.x - box.right), abs(at.y - box.top), abs(at.y - box.bottom)
            )
            assert edge <= (NEAR if not line.ends[1].startswith("pulled ") else 5.0)
            assert box.left - 5 <= at.x <= box.right + 5
            assert box.top - 0.01 <= at.y <= box.bottom + 0.01
    assert len({(round(at.x, 2), round(at.y, 2)) for at in scene.pins.values()}) == len(scene.pins)


@cases
def test_every_wire_is_drawn_and_numbered_once(case: str | int) -> None:
    of, scene = drawn(case)
    conductors = harness(of).conductors
    strands = {"servo lead": 3, "supply lead": 2}
    assert Counter(line.wire for line in wires(scene)) == {
        one.number: strands.get(one.kind, 1) for one in conductors
    }
    bold = Counter(
        text.words for text in scene.texts if text.bold and text.anchor == "start" and text.size == 3.1
    )
    sockets = Counter(
        pin.name for one in conductors for pin in one.pins if "receiver" in pin.thing and pin.seat == 1
    )
    for one in conductors:
        assert bold[str(one.number)] == 1 + sockets[str(one.number)], one.number


@cases
def test_no_text_lies_on_another_text_or_on_a_line(case: str | int) -> None:
    _, scene = drawn(case)
    texts = [(text, covered(text)) for text in scene.texts]
    overlapping = [
        (a.words, b.words) for (a, one), (b, other) in combinations(texts, 2) if meet(one, other, 0.05)
    ]
    assert overlapping == []
    strokes = [(line, piece) for line in scene.lines for piece in pieces(line)]
    crossed = [
        (text.words, line.wire) for text, rect in texts for line, piece in strokes if meet(rect, piece, 0.05)
    ]
    assert crossed == []
    marks = [around(mark.at, BEAD) for mark in scene.marks] + [plug.rect for plug in scene.plugs]
    assert [text.words for text, rect in texts for mark in marks if meet(rect, mark, 0.05)] == []


@cases
def test_texts_keep_to_their_box_and_boxes_apart(case: str | int) -> None:
    _, scene = drawn(case)
    rects = [shape.rect for shape in scene.shapes]
    assert [one for one, other in combinations(rects, 2) if meet(one, other)] == []
    for text in scene.texts:
        for box in rects:
            assert not meet(covered(text), box, 0.05) or within(covered(text), box), text.words
    page = Rect(-0.01, -0.01, scene.size[0] + 0.01, scene.size[1] + 0.01)
    assert all(within(text.rect, page) for text in scene.texts)
    assert all(within(rect, page) for rect in rects)


@cases
def test_no_line_runs_through_a_box_or_along_another_line(case: str | int) -> None:
    _, scene = drawn(case)
    strokes = [(line, piece) for line in wires(scene) for piece in pieces(line)]
    for line, piece in strokes:
        through = [shape.thing for shape in scene.shapes if meet(piece, shape.rect, 0.3)]
        assert through == [], line.wire
    for (one, a), (other, b) in combinations(strokes, 2):
        level, beside = (piece.width > piece.height for piece in (a, b))
        if one.wire != other.wire and level == beside:
            assert not meet(a, b, 0.01), (one.wire, other.wire)


@cases
def test_marks_lie_on_no_other_wire(case: str | int) -> None:
    _, scene = drawn(case)
    for mark in scene.marks:
        on = {
            line.wire
            for line in wires(scene)
            for piece in pieces(line)
            if meet(around(mark.at, BEAD - 0.2), piece, 0.01)
        }
        assert len(on - {0}) <= 1, on
    plugs = [plug.rect for plug in scene.plugs]
    assert [one for one, other in combinations(plugs, 2) if meet(one, other, 0.05)] == []


def test_a_measure_finds_what_it_should() -> None:
    """Two texts on each other, and a line through a text, are seen."""
    scene = Scene(texts=[Text("one", Point(0, 0), 2.4), Text("two", Point(1, 0.5), 2.4)])
    one, two = (text.rect for text in scene.texts)
    assert meet(one, two, 0.05)
    line = Line([Point(-1, -0.5), Point(9, -0.5)], "plus", 0.5, 1, ("a", "b"))
    assert any(meet(one, piece, 0.05) for piece in pieces(line))
    assert not meet(one, Rect(50, 50, 60, 60))


def test_long_foreign_and_hostile_names_are_words() -> None:
    text = f'[motor."{"x" * 60}"]\n[servo."левый <b &amp; $x"]\n[board."]]#"]\n'
    scene = wiring_scene(link(load_text(f'schema_version = 1\nname = "</text><script>"\n{text}')))
    words = [text.words for text in scene.texts]
    assert sum(one.startswith("xxxxx") for one in words) == 2  # in two lines
    assert any(one.startswith("xxxxx") and one.endswith("…") for one in words)
    assert any(one.startswith("левый <b") for one in words)
    assert any("&amp;" in one for one in words)
    assert "]]#" in words
    root = ElementTree.fromstring(svg(scene, 4.0))
    written = [element.text for element in root.iter("{http://www.w3.org/2000/svg}text")]
    assert sorted(word or "" for word in written) == sorted(words)
    assert {element.tag.rpartition("}")[2] for element in root.iter()} <= {
        "svg",
        "rect",
        "path",
        "circle",
        "text",
    }
