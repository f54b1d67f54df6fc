"""What do the lines and beads of the wiring picture stand for? One sample of each kind that it has."""

from __future__ import annotations

from collections.abc import Collection, Iterator

from mulewright.design.harness import Kind
from mulewright.paper.wiring.scene import Line, Look, Mark, Point, Scene, Text
from mulewright.paper.wiring.sizes import LABEL
from mulewright.paper.wiring.strands import PLUG_HALF, STRANDS, THICK_LEAD

LONG, THICK = 12.0, 0.9  # [mm] of a sample
SAMPLES: tuple[tuple[Kind, Look, str], ...] = (
    ("plus", "plus", "plus, round bead"),
    ("minus", "minus", "minus, square bead"),
    ("motor", "motor A", "motor wire A"),
    ("motor", "motor B", "motor wire B"),
)
LEADS: tuple[tuple[Kind, str], ...] = (
    ("servo lead", "servo lead: signal on top, red dashed, ground below"),
    ("supply lead", "supply lead: no signal"),
)


def key(kinds: Collection[Kind]) -> Iterator[Scene]:
    """A sample of each kind of line in use, with its words, at the origin."""
    for kind, look, words in SAMPLES:
        if kind in kinds:
            middle = Point(LONG / 2, 0.0)
            beads = [Mark("plus" if look == "plus" else "minus", middle)] if look in ("plus", "minus") else []
            yield _sample([_line(look, 0.0, THICK)], beads, words)
    for kind, words in LEADS:
        if kind in kinds:
            yield _sample([_line(look, aside, THICK_LEAD) for look, aside in STRANDS[kind]], [], words)


def _line(look: Look, y: float, thick: float) -> Line:
    return Line([Point(0.0, y), Point(LONG, y)], look, thick, 0, ("key", "key"))


def _sample(lines: list[Line], beads: list[Mark], words: str) -> Scene:
    text = Text(words, Point(LONG + 1.6, 0.85), LABEL)
    return Scene((text.rect.right, PLUG_HALF), lines=lines, marks=beads, texts=[text])
