"""How does a table of facts read? What it is about, the table, and what lacks or should be known beside it."""

from __future__ import annotations

from mulewright.cli.console import console, paragraph, print_table
from mulewright.facts.nodes import number
from mulewright.tasks.sheets import Cell, Sheets
from mulewright.units.shown import people, percent

UNKNOWN = "?"


def print_sheets(found: Sheets) -> None:
    """Print the tables that were asked for."""
    out = console()
    for place, sheet in enumerate(found.sheets):
        if place:
            out.print()
        paragraph(out, sheet.title, style="bold")
        for sentence in sheet.above:
            paragraph(out, sentence, 2)
        if sheet.rows:
            print_table(out, sheet.columns, [[_shown(cell) for cell in row] for row in sheet.rows])
        if sheet.lacks:
            paragraph(out, f"{UNKNOWN} cannot be told: {sheet.lacks}", 2)
        for sentence in sheet.below:
            paragraph(out, sentence, 2)


def _shown(cell: Cell) -> str:
    if isinstance(cell, str):
        return cell
    value = number(cell.node)
    if not cell.node.known:
        return UNKNOWN
    if value is None:
        return "no end"
    return percent(value) if cell.as_percent else people(value, cell.node.unit)
