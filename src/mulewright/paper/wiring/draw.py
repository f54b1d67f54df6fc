"""A scene as SVG: plain shapes and text, to be read in grey as well as in colour."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from xml.sax.saxutils import escape

from mulewright.errors import visible
from mulewright.paper.fonts import FAMILY
from mulewright.paper.wiring.scene import Line, Look, Mark, Plug, Point, Rect, Scene, Text

INK, FAINT, PAPER, BAND, BOX, PLUG_FILL = "#16212b", "#6b757d", "#ffffff", "#eef1f1", "#fcfbf6", "#d9dde0"
COLOURS: dict[Look, str] = {
    "plus": "#c4161c", "minus": "#111111", "motor A": "#1d2b36", "motor B": "#1d2b36", "signal": "#b8740c",
    "red": "#c4161c", "ground": "#111111",
}  # fmt: skip
DASHES: dict[Look, str] = {"motor B": "3.2 1.3", "red": "1.5 0.9"}  # [mm]
CASING = 0.7  # [mm] of white on either side of a wire that crosses others
BEAD = 1.35  # [mm] radius
REACH = 1.0  # [mm] of a cross


def svg(scene: Scene, margin: float = 0.0) -> str:
    """The picture as a text of SVG, one unit to the millimetre."""
    wide, high = scene.size[0] + 2 * margin, scene.size[1] + 2 * margin
    head = (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{wide:.2f}mm" height="{high:.2f}mm" '
        f'viewBox="{-margin:.2f} {-margin:.2f} {wide:.2f} {high:.2f}" font-family="{FAMILY}">'
    )
    paper = (
        f'<rect x="{-margin:.2f}" y="{-margin:.2f}" width="{wide:.2f}" height="{high:.2f}" fill="{PAPER}"/>'
    )
    return "\n".join([head, paper, *_parts(scene), "</svg>\n"])


def _parts(scene: Scene) -> Iterator[str]:
    yield from (_rect(band, BAND) for band in scene.bands)
    yield from (_rect(shape.rect, BOX, INK, 1.2) for shape in scene.shapes)
    level = [line for line in scene.lines if len(line.points) == 2]
    bent = [line for line in scene.lines if len(line.points) > 2]
    yield from (_line(line) for line in level)
    for line in bent:
        yield _casing(line)
        yield _line(line)
    for plug in scene.plugs:
        yield from _plug(plug)
    for mark in scene.marks:
        yield from _mark(mark)
    for text in scene.texts:
        yield from _text(text)


def _rect(rect: Rect, fill: str, stroke: str = "none", round: float = 0.0, dash: str = "") -> str:
    dashed = f' stroke-dasharray="{dash}"' if dash else ""
    return (
        f'<rect x="{rect.left:.2f}" y="{rect.top:.2f}" width="{rect.width:.2f}" height="{rect.height:.2f}" '
        f'rx="{round}" fill="{fill}" stroke="{stroke}" stroke-width="0.35"{dashed}/>'
    )


def _path(points: Sequence[Point]) -> str:
    return "M" + "L".join(f"{x:.2f} {y:.2f}" for x, y in points)


def _line(line: Line) -> str:
    dash = f' stroke-dasharray="{DASHES[line.look]}"' if line.look in DASHES else ""
    return (
        f'<path d="{_path(line.points)}" fill="none" stroke="{COLOURS[line.look]}" '
        f'stroke-width="{line.thick:.2f}"{dash}/>'
    )


def _casing(line: Line) -> str:
    """White beside the upright pieces of a wire, so that it passes over the others as a bridge."""
    first, *rest = line.points[1:-1]
    points = [first, *rest]
    return f'<path d="{_path(points)}" fill="none" stroke="{PAPER}" stroke-width="{line.thick + 2 * CASING:.2f}"/>'


def _plug(plug: Plug) -> Iterator[str]:
    yield _rect(
        plug.rect,
        PAPER if plug.empty else PLUG_FILL,
        FAINT if plug.empty else INK,
        0.5,
        "0.8 0.6" if plug.empty else "",
    )
    for look, y in plug.strands:
        yield f'<circle cx="{plug.rect.middle.x:.2f}" cy="{y:.2f}" r="0.5" fill="{COLOURS[look]}"/>'


def _mark(mark: Mark) -> Iterator[str]:
    x, y = mark.at
    if mark.sign == "cross":
        left, right, top, bottom = (f"{at:.2f}" for at in (x - REACH, x + REACH, y - REACH, y + REACH))
        way = f"M{left} {top}L{right} {bottom}M{left} {bottom}L{right} {top}"
        yield f'<path d="{way}" stroke="{INK}" stroke-width="0.55"/>'
        return
    plus = mark.sign == "plus"
    colour = COLOURS[mark.sign]
    if plus:
        yield f'<circle cx="{x:.2f}" cy="{y:.2f}" r="{BEAD}" fill="{PAPER}" stroke="{colour}" stroke-width="0.4"/>'
    else:
        yield (
            f'<rect x="{x - BEAD:.2f}" y="{y - BEAD:.2f}" width="{2 * BEAD}" height="{2 * BEAD}" fill="{PAPER}" '
            f'stroke="{colour}" stroke-width="0.4"/>'
        )
    bar = f"M{x - 0.75:.2f} {y:.2f}h1.5" + (f"M{x:.2f} {y - 0.75:.2f}v1.5" if plus else "")
    yield f'<path d="{bar}" stroke="{colour}" stroke-width="0.4"/>'


def _text(text: Text) -> Iterator[str]:
    if text.framed:
        yield _rect(text.frame, PAPER, INK, 0.4)
    x, y = text.at
    weight = ' font-weight="bold"' if text.bold else ""
    turned = f' transform="rotate(-90 {x:.2f} {y:.2f})"' if text.upright else ""
    anchor = f' text-anchor="{text.anchor}"' if text.anchor != "start" else ""
    fill = FAINT if text.faint else INK
    yield (
        f'<text x="{x:.2f}" y="{y:.2f}" font-size="{text.size}" fill="{fill}"{weight}{anchor}{turned}>'
        f"{escape(visible(text.words))}</text>"
    )
