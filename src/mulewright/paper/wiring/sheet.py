"""The whole wiring picture of a mule: title, columns, the drawing, notes and the key."""

from __future__ import annotations

from collections.abc import Iterator

from mulewright.design.mule import Mule
from mulewright.paper.fonts import shortened, width
from mulewright.paper.wiring.compose import compose
from mulewright.paper.wiring.key import key
from mulewright.paper.wiring.place import Places
from mulewright.paper.wiring.plan import CONTROL, MOVE, RECEIVE, SOURCE, Plan
from mulewright.paper.wiring.scene import Point, Scene, Text
from mulewright.paper.wiring.sizes import LABEL, LINE, NAME, SMALL
from mulewright.paper.wiring.words import PULLED

TITLE = 5.6  # [mm] size of the title
CAPTION_ROOM = 7.0  # [mm] for the names of the columns
NARROWEST = 150.0  # [mm] so that the key finds room
ADVICE = (
    "Battery unplugged while you wire. Power runs in from the left, commands from the right; "
    "they meet at the controllers."
)
CAPTIONS = (
    (SOURCE, "SOURCE"),
    (CONTROL - 1, "SHARE"),
    (CONTROL, "CONTROL"),
    (MOVE, "MOVE"),
    (RECEIVE - 1, "MIX"),
    (RECEIVE, "RECEIVE"),
)
NUMBERS = "Bold number: that of the wire on its label strips and in the plug map. Thicker line: thicker wire."
DRAWN_STRETCHED = "Boards, mixer boxes and receivers are drawn stretched, so that each socket faces its wire."


def wiring_scene(mule: Mule, *, titled: bool = True) -> Scene:
    """The wiring picture; without its title where the page has one."""
    places = Places(Plan(mule))
    drawing = compose(places)
    wide = max(drawing.size[0], NARROWEST)
    head = Scene((wide, 0.0))
    if titled:
        head.texts += _heading(mule, wide)
    top = max((text.rect.bottom for text in head.texts), default=0.0) + CAPTION_ROOM
    head.texts += _captions(places, top - 2.4)
    foot = _foot(mule, places, wide)
    below = top + drawing.size[1] + 4.0
    whole = Scene((wide, below + foot.size[1]))
    for part, down in ((head, 0.0), (drawing, top), (foot, below)):
        whole.add(part, down)
    return whole


def _heading(mule: Mule, wide: float) -> Iterator[Text]:
    title = shortened(f"Wiring picture: {mule.file.name}", TITLE, wide, bold=True)
    yield Text(title, Point(0.0, TITLE * 0.8), TITLE, bold=True)
    for place, line in enumerate(_wrapped(ADVICE, LABEL, wide)):
        yield Text(line, Point(0.0, TITLE + 4.0 + place * LABEL * LINE), LABEL)


def _captions(places: Places, y: float) -> Iterator[Text]:
    """The name of each kind of column over the first of its columns."""
    before = SOURCE - 1
    for last, caption in CAPTIONS:
        rects = [rect for box, rect in places.rect.items() if before < box.stage <= last]
        before = last
        if rects:
            middle = (min(rect.left for rect in rects) + max(rect.right for rect in rects)) / 2
            yield Text(caption, Point(middle, y), SMALL, bold=True, anchor="middle", faint=True)


# --- notes and key


def _foot(mule: Mule, places: Places, wide: float) -> Scene:
    foot = Scene()
    x, y = 0.0, NAME
    foot.texts.append(Text("KEY", Point(x, y + 0.9), NAME, bold=True))
    x = width("KEY", NAME, bold=True) + 4.0
    for part in key({wire.conductor.kind for wire in places.plan.wires}):
        if x + part.size[0] > wide:
            x, y = width("KEY", NAME, bold=True) + 4.0, y + 6.0
        foot.add(part, y, x)
        x += part.size[0] + 5.0
    y += 6.4
    for note in _notes(mule, places):
        for line in _wrapped(note, LABEL, wide):
            foot.texts.append(Text(line, Point(0.0, y), LABEL))
            y += LABEL * LINE
    foot.size = (wide, y)
    return foot


def _notes(mule: Mule, places: Places) -> Iterator[str]:
    wires = [wire.conductor for wire in places.plan.wires]
    yield f"{NUMBERS} {DRAWN_STRETCHED}"
    if any(one.red_pulled for one in wires):
        yield f"Cross and {PULLED}: slide the red pin out of this plug and tape it back."
    if any(one.red_pulled is None for one in wires):
        yield "RED WIRE?: the file does not say whether the red wire of this plug is in or pulled."
    swapped = [name for name, one in mule.file.controller.items() if one.polarity == "swapped"]
    if swapped:
        yield f"Motor leads swapped on purpose, + and − crossed: {', '.join(swapped)}."


def _wrapped(text: str, size: float, room: float) -> list[str]:
    lines = [""]
    for word in text.split():
        longer = f"{lines[-1]} {word}".strip()
        if lines[-1] and width(longer, size) > room:
            lines.append(word)
        else:
            lines[-1] = longer
    return lines
