"""How do papers become pages? Set by Typst, from data alone, in the one family of fonts that comes along."""

from __future__ import annotations

import json
from collections.abc import Iterator, Sequence
from dataclasses import asdict, dataclass
from datetime import UTC, date, datetime, time
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING, Any, Literal

from mulewright.errors import MulewrightError, visible
from mulewright.paper import fonts
from mulewright.paper.blocks import TICK, Labels, Paper
from mulewright.paper.strips import GAP, LENGTH, Strip, svg_of

if TYPE_CHECKING:
    from typst import Compiler

PAGES = {"a4": (210.0, 297.0), "letter": (215.9, 279.4)}  # [mm]
OURS = b"printed by Mulewright"  # stands in every PDF
TEMPLATE = Path(__file__).parent / "templates" / "papers.typ"
STANDARDS: list[Literal["a-2a", "ua-1"]] = ["a-2a", "ua-1"]  # with them a glyph that is missing is an error
DOTS = 144  # [1/in] of pictures
SMALL, HEAD = 8.0, 180.0  # [pt] letters at the head of a page, and the room for each name there
MOST_NAMED = 12  # characters in a message
MONTHS = (
    "January", "February", "March", "April", "May", "June",
    "July", "August", "September", "October", "November", "December",
)  # fmt: skip


class LettersLacking(MulewrightError):
    """A name is written in letters that the fonts lack, and would be printed as boxes."""

    def __init__(self, lacking: frozenset[str], text: str) -> None:
        self.lacking = lacking
        named = " ".join(sorted(lacking)[:MOST_NAMED])
        super().__init__(
            f"cannot be printed, for the font lacks {named} ({', '.join(fonts.scripts(lacking))})",
            rule=f"letters of {fonts.FAMILY}: Latin, Greek, Cyrillic, Arabic, Hebrew and some more; write it in these",
            found=text,
        )


@dataclass(frozen=True)
class Sheet:
    """What every page carries, and how large it is."""

    mule: str
    day: date  # on which it is printed
    caution: str  # one line for its foot
    page: str = "a4"  # one of PAGES


def pdf(papers: Sequence[Paper], sheet: Sheet) -> bytes:
    """Set papers one after the other, as a tagged PDF for archives and readers aloud.

    Raises
    ------
    LettersLacking
        If a name is written in letters that the fonts lack.
    """
    compiled = _compile(papers, sheet, format="pdf", pdf_standards=STANDARDS, timestamp=_midnight(sheet.day))
    assert isinstance(compiled, bytes)
    return compiled


def pictures(paper: Paper, sheet: Sheet, kind: Literal["png", "svg"]) -> list[bytes]:
    """Set one paper as a picture for each of its pages.

    Raises
    ------
    LettersLacking
        If a name is written in letters that the fonts lack.
    """
    compiled = _compile([paper], sheet, format=kind, ppi=DOTS if kind == "png" else None)
    return [compiled] if isinstance(compiled, bytes) else list(compiled)


def _compile(papers: Sequence[Paper], sheet: Sheet, **options: Any) -> bytes | list[bytes]:
    data = _data(papers, sheet)
    _require_letters(data)
    compiled = _compiler().compile(sys_inputs={"data": json.dumps(data)}, **options)
    assert compiled is not None  # as it is where no output is named
    return compiled


@cache
def _compiler() -> Compiler:
    """The compiler with its template and fonts, which it reads once."""
    from typst import Compiler, Fonts

    found = Fonts(include_system_fonts=False, include_embedded_fonts=False, font_paths=[str(fonts.folder())])
    return Compiler(TEMPLATE, root=TEMPLATE.parent, font_paths=found)


def _midnight(day: date) -> datetime:
    return datetime.combine(day, time(), UTC)


def _data(papers: Sequence[Paper], sheet: Sheet) -> dict[str, Any]:
    names = ", ".join(dict.fromkeys(paper.title for paper in papers))
    found: dict[str, Any] = _seen(
        {
            "font": fonts.FAMILY,
            "ours": OURS.decode(),
            "tick": TICK,
            "mule": sheet.mule,
            "head": fonts.shortened(sheet.mule, SMALL, HEAD, bold=True),
            "title": f"{sheet.mule}: {names}",
            "caution": sheet.caution,
            "day": {"year": sheet.day.year, "month": sheet.day.month, "day": sheet.day.day},
            "printed": f"printed {sheet.day.day} {MONTHS[sheet.day.month - 1]} {sheet.day.year}",
            "page": PAGES[sheet.page],
            "papers": [_paper(paper) for paper in papers],
        }
    )
    return found


def _paper(paper: Paper) -> dict[str, Any]:
    found = paper.as_dict() | {"head": fonts.shortened(paper.title, SMALL, HEAD), "folds": paper.folds}
    for block, data in zip(paper.blocks, found["blocks"], strict=True):
        data.pop("alone", None)
        if isinstance(block, Labels):
            data |= _strips(block)
    return found


def _strips(block: Labels) -> dict[str, Any]:
    """The measures of strips in millimetres and points, and the picture of each code once."""
    strip, codes = Strip(block.tape), list(dict.fromkeys(label.code for label in block.labels))
    return {
        "tape": 1e3 * block.tape,
        "long": 1e3 * LENGTH,
        "gap": 1e3 * GAP,
        "number": strip.number,
        "text": strip.text,
        "codes": [{"svg": svg_of(code), "side": 1e3 * strip.side(code), "words": code} for code in codes],
        "labels": [asdict(label) | {"code": codes.index(label.code)} for label in block.labels],
    }


def _seen(value: Any) -> Any:
    """The same with every text as it can be seen; SVG is no text."""
    if isinstance(value, str):
        return fonts.isolated(visible(value))
    if isinstance(value, dict):
        return {key: inner if key == "svg" else _seen(inner) for key, inner in value.items()}
    if isinstance(value, list | tuple):
        return [_seen(inner) for inner in value]
    return value


def _texts(value: Any) -> Iterator[str]:
    if isinstance(value, str):
        yield value
    elif isinstance(value, dict | list):
        for inner in value.values() if isinstance(value, dict) else value:
            yield from _texts(inner)


def require_letters(papers: Sequence[Paper], sheet: Sheet) -> None:
    """Refuse papers with letters that the fonts lack, for those would be printed as boxes.

    Raises
    ------
    LettersLacking
        If there are any; it names them.
    """
    _require_letters(_data(papers, sheet))


def _require_letters(data: dict[str, Any]) -> None:
    lacking = fonts.lacking("".join(_texts(data)))
    if lacking:
        shortest = min((text for text in _texts(data) if lacking & set(text)), key=len)
        raise LettersLacking(frozenset(lacking), shortest)
