"""What do printed pages say? Text and sizes of letters as an independent reader of PDF finds them."""

from __future__ import annotations

import io
from collections.abc import Iterator
from datetime import date

from pypdf import PageObject, PdfReader

from mulewright.paper.blocks import TICK, Grid, Labels, Paper, Ticks, Words
from mulewright.paper.typeset import Sheet, pdf

DAY = date(2026, 11, 25)


def sheet(mule: str = "Mule", page: str = "a4") -> Sheet:
    """What stands on every page of a test."""
    return Sheet(mule, DAY, "One line of caution.", page)


def pages(*papers: Paper, of: Sheet | None = None) -> list[PageObject]:
    """The pages of some papers."""
    return list(PdfReader(io.BytesIO(pdf(papers, of or sheet()))).pages)


def squeezed(text: str) -> str:
    """A text without blanks: where lines break is nobody's business."""
    return "".join(text.split())


def printed(*papers: Paper, of: Sheet | None = None) -> str:
    """All that papers say, without blanks."""
    return "".join(squeezed(page.extract_text()) for page in pages(*papers, of=of))


def said(paper: Paper) -> str:
    """All that should stand on a paper besides head and foot, in its order, without blanks."""
    return squeezed("".join([paper.title, paper.what_for, *_said(paper)]))


def _said(paper: Paper) -> Iterator[str]:
    for block in paper.blocks:
        match block:
            case Words():
                yield block.text
            case Grid():
                yield from block.columns
                yield from (cell for row in block.rows for cell in row if cell != TICK)
            case Ticks():
                yield from (text for item in block.items for text in item)
            case Labels():
                yield from (text for label in block.labels for text in (label.number, *label.lines))


def letter_sizes(page: PageObject) -> set[float]:
    """The sizes of all letters on a page. [pt]."""
    found: set[float] = set()

    def look(text: str, around: list[float], within: list[float], font: object, size: float) -> None:
        if text.strip():
            found.add(round(size * within[0] * around[0], 2))

    page.extract_text(visitor_text=look)
    return found


def runs(page: PageObject) -> list[tuple[float, float, str]]:
    """Every run of letters on a page, with where it begins from the left and from below. [pt]."""
    found: list[tuple[float, float, str]] = []

    def look(text: str, around: list[float], within: list[float], font: object, size: float) -> None:
        if text.strip():
            found.append((around[4] + within[4] * around[0], around[5] + within[5] * around[3], text.strip()))

    page.extract_text(visitor_text=look)
    return found
