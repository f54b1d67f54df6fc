"""What stands on a paper? Words, tables, ticks, pictures and labels, with nothing said of how they are set."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import asdict, dataclass, field
from typing import Any, ClassVar, Literal

PAPERS = ("plugs", "wiring", "labels", "radio", "failsafe", "power-up", "checklists", "picklist")
TICK = "☐"  # a cell with nothing else in it becomes a box to tick
Width = float | Literal["fit"]  # share of the room that is left, or as wide as what stands in it


@dataclass(frozen=True)
class Words:
    """A paragraph."""

    block: ClassVar[str] = "words"
    text: str
    looks: Literal["plain", "small", "heading", "section", "warning"] = "plain"  # a section may begin a page
    whole: bool = False  # a heading that stays on one page with all that follows up to the next heading


@dataclass(frozen=True)
class Grid:
    """A table; an empty cell leaves room to write in."""

    block: ClassVar[str] = "grid"
    columns: Sequence[str]
    rows: Sequence[Sequence[str]]
    widths: Sequence[Width] = ()  # one per column; all "fit" and the last one 1 where nothing is said
    strong: Sequence[int] = (0,)  # columns that the eye should find first
    marked: Sequence[int] = ()  # rows that somebody has to look at
    torn: bool = False  # whether it may go on on the next page even where it would fit on one

    def __post_init__(self) -> None:
        assert all(len(row) == len(self.columns) for row in self.rows)
        assert not self.widths or len(self.widths) == len(self.columns)


@dataclass(frozen=True)
class Ticks:
    """A list with a box before each item; what is known of an item stands small behind it."""

    block: ClassVar[str] = "ticks"
    items: Sequence[tuple[str, str]]


@dataclass(frozen=True)
class Drawing:
    """A picture, with words for those who cannot see it."""

    block: ClassVar[str] = "drawing"
    svg: str
    words: str
    alone: str = ""  # the same with its title, for a file of its own


@dataclass(frozen=True)
class Label:
    """One strip for one end of a wire: its number, what it joins, and the text of its code."""

    number: str
    lines: Sequence[str]
    code: str


@dataclass(frozen=True)
class Labels:
    """Strips to cut out, or to print on tape."""

    block: ClassVar[str] = "labels"
    labels: Sequence[Label]
    tape: float  # height of a strip [m]


Block = Words | Grid | Ticks | Drawing | Labels


@dataclass(frozen=True)
class Paper:
    """One paper, of one page or several."""

    name: str  # one of PAPERS
    title: str
    what_for: str  # one sentence under the title
    blocks: Sequence[Block]
    wide: bool = False  # whether it lies on its long side
    dense: bool = False  # whether it is set smaller where it takes several pages
    folds: bool = False  # whether it may be turned and set in two columns, to stand on one page
    data: Mapping[str, Any] = field(default_factory=dict)  # more than the blocks say, for programs

    def as_dict(self) -> dict[str, Any]:
        """The paper for programs."""
        return {
            "paper": self.name,
            "title": self.title,
            "what_for": self.what_for,
            "wide": self.wide,
            "dense": self.dense,
            "blocks": [{"block": block.block, **asdict(block)} for block in self.blocks],
            **self.data,
        }
