"""What is drawn where? Boxes, lines, marks and texts in millimetres, before anything is said of ink."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from typing import Literal, NamedTuple

from mulewright.paper.fonts import width

Look = Literal["plus", "minus", "motor A", "motor B", "signal", "red", "ground"]
Sign = Literal["plus", "minus", "cross"]
ASCENT, DESCENT = 0.76, 0.24  # of a font, in parts of its size


class Point(NamedTuple):
    """A place. [mm]."""

    x: float
    y: float

    def moved(self, right: float, down: float) -> Point:
        """The same elsewhere."""
        return Point(self.x + right, self.y + down)


@dataclass(frozen=True)
class Rect:
    """A rectangle whose sides are level and upright. [mm]."""

    left: float
    top: float
    right: float
    bottom: float

    @property
    def middle(self) -> Point:
        """Its middle."""
        return Point((self.left + self.right) / 2, (self.top + self.bottom) / 2)

    @property
    def height(self) -> float:
        """Its height. [mm]."""
        return self.bottom - self.top

    @property
    def width(self) -> float:
        """Its width. [mm]."""
        return self.right - self.left

    def moved(self, right: float, down: float) -> Rect:
        """The same elsewhere."""
        return Rect(self.left + right, self.top + down, self.right + right, self.bottom + down)


@dataclass(frozen=True)
class Text:
    """Words on a line that begins, or has its middle, at a place."""

    words: str
    at: Point
    size: float  # [mm]
    bold: bool = False
    anchor: Literal["start", "middle", "end"] = "start"
    upright: bool = False  # read from below
    faint: bool = False
    framed: bool = False

    @property
    def rect(self) -> Rect:
        """What it covers."""
        long = width(self.words, self.size, bold=self.bold)
        before = {"start": 0.0, "middle": long / 2, "end": long}[self.anchor]
        up, down = ASCENT * self.size, DESCENT * self.size
        x, y = self.at
        if self.upright:
            return Rect(x - up, y - long + before, x + down, y + before)
        return Rect(x - before, y - up, x - before + long, y + down)

    @property
    def frame(self) -> Rect:
        """The frame around it, if it has one; capitals lie in its middle."""
        rect, baseline = self.rect, self.at.y
        return Rect(
            rect.left - 0.6,
            baseline - 1.1 * self.size * ASCENT,
            rect.right + 0.6,
            baseline + 0.24 * self.size,
        )


@dataclass(frozen=True)
class Line:
    """One conductor, from pin to pin."""

    points: Sequence[Point]
    look: Look
    thick: float  # [mm]
    wire: int  # number of the wire that it belongs to
    ends: tuple[str, str]  # the pins on which it ends, each as "thing pin strand"


@dataclass(frozen=True)
class Mark:
    """A bead on a power wire, or the cross of a red wire that is pulled."""

    sign: Sign
    at: Point


@dataclass(frozen=True)
class Plug:
    """A servo plug in its socket, or an empty socket."""

    rect: Rect
    strands: Sequence[tuple[Look, float]] = ()  # what lies in it, at which height [mm]
    empty: bool = False


@dataclass(frozen=True)
class Shape:
    """The outline of a thing."""

    thing: str
    rect: Rect


@dataclass
class Scene:
    """Everything in a picture."""

    size: tuple[float, float] = (0.0, 0.0)  # [mm]
    bands: list[Rect] = field(default_factory=list)
    shapes: list[Shape] = field(default_factory=list)
    lines: list[Line] = field(default_factory=list)
    plugs: list[Plug] = field(default_factory=list)
    marks: list[Mark] = field(default_factory=list)
    texts: list[Text] = field(default_factory=list)
    pins: dict[str, Point] = field(default_factory=dict)  # where each pin lies

    def add(self, part: Scene, down: float, right: float = 0.0) -> None:
        """Put another scene into this one, moved."""
        self.bands += [band.moved(right, down) for band in part.bands]
        self.shapes += [Shape(shape.thing, shape.rect.moved(right, down)) for shape in part.shapes]
        self.lines += [
            replace(one, points=[at.moved(right, down) for at in one.points]) for one in part.lines
        ]
        self.plugs += [
            Plug(one.rect.moved(right, down), [(look, y + down) for look, y in one.strands], one.empty)
            for one in part.plugs
        ]
        self.marks += [replace(mark, at=mark.at.moved(right, down)) for mark in part.marks]
        self.texts += [replace(text, at=text.at.moved(right, down)) for text in part.texts]
        self.pins |= {pin: at.moved(right, down) for pin, at in part.pins.items()}
