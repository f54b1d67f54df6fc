"""Where does text for people go? To a console of at most 80 columns, plain where it has no colour."""

from __future__ import annotations

import os
from collections.abc import Iterable, Iterator, Sequence

from rich.console import Console
from rich.text import Text

from mulewright.errors import visible

WIDTH, NARROWEST = 80, 40
LABEL = 6  # columns of the labels What, Why, How, Do


def console() -> Console:
    """A console on standard output, as wide as its terminal or as COLUMNS says, within reason."""
    found = Console(highlight=False, soft_wrap=False, emoji=False, markup=False)
    told = found.is_terminal or "COLUMNS" in os.environ
    found.width = min(max(found.width, NARROWEST), WIDTH) if told else WIDTH
    return found


def labelled(out: Console, label: str, text: str, indent: int = 2, style: str = "dim") -> None:
    """Print a paragraph behind a label, wrapped under itself."""
    heads = [f"{label:<{LABEL}}"]
    for line in _wrapped(out, text, indent + LABEL):
        _print(out, indent, heads.pop() if heads else " " * LABEL, style, line)


def paragraph(out: Console, text: str, indent: int = 0, style: str = "") -> None:
    """Print a paragraph, wrapped."""
    for line in _wrapped(out, text, indent):
        line.stylize(style)
        _print(out, indent, "", "", line)


def print_table(out: Console, headings: Sequence[str], rows: Iterable[Sequence[str]]) -> None:
    """Print a table that reads well in 80 columns; a text beyond the headings goes below the last one."""
    from rich import box
    from rich.table import Table

    table = Table(box=box.SIMPLE_HEAD, pad_edge=False)
    for heading in headings:
        table.add_column(heading, overflow="fold")
    for row in rows:
        cells = [visible(text) for text in row]
        *first, last = cells[: len(headings)]
        below = "\n".join((last, *filter(None, cells[len(headings) :])))
        table.add_row(*map(Text, (*first, below)))
    out.print(table)


def _wrapped(out: Console, text: str, indent: int) -> Iterator[Text]:
    for line in Text(visible(text)).wrap(out, max(20, out.width - indent)):
        line.rstrip()
        yield line


def _print(out: Console, indent: int, head: str, style: str, line: Text) -> None:
    margin = " " * indent
    if out.color_system is None:  # nothing to style, so no need to look for it in every character
        out.file.write(f"{margin}{head}{line.plain}\n")
    else:
        out.print(Text(margin) + Text(head, style) + line, no_wrap=True, overflow="ignore", crop=False)
