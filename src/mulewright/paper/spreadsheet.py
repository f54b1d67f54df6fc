"""How does a table become a CSV or XLSX file in which nothing that somebody typed is taken for a formula?"""

from __future__ import annotations

import csv
import io
import zipfile
from collections.abc import Sequence
from datetime import datetime

from mulewright.errors import visible

Cell = str | int | float | None
FORMULA = ("=", "+", "-", "@")  # with which a cell begins that spreadsheets work out
LONGEST = 32_000  # letters that a cell holds
WHEN = datetime(2000, 1, 1)  # of every file, so that the same table gives the same bytes


def csv_file(columns: Sequence[str], rows: Sequence[Sequence[Cell]]) -> bytes:
    """A table as CSV with a byte-order mark; a text that would be worked out is quoted with an apostrophe."""
    text = io.StringIO()
    writer = csv.writer(text, lineterminator="\r\n")
    writer.writerow(columns)
    writer.writerows([_harmless(cell) for cell in row] for row in rows)
    return text.getvalue().encode("utf-8-sig")


def _harmless(cell: Cell) -> Cell:
    if not isinstance(cell, str):
        return cell
    text = visible(cell)
    return f"'{text}" if text.lstrip().startswith(FORMULA) else text


def xlsx_file(title: str, columns: Sequence[str], rows: Sequence[Sequence[Cell]]) -> bytes:
    """A table as an XLSX file of one sheet; every text in it is a text."""
    from openpyxl import Workbook
    from openpyxl.styles import Font
    from openpyxl.utils import get_column_letter

    book = Workbook()
    book.properties.created = book.properties.modified = WHEN
    sheet = book.active
    assert sheet is not None
    sheet.title = title
    for line, row in enumerate([columns, *rows], start=1):
        for place, value in enumerate(row, start=1):
            cell = sheet.cell(line, place)
            cell.value = visible(value)[:LONGEST] if isinstance(value, str) else value
            if isinstance(value, str):
                cell.data_type = "s"
                cell.quotePrefix = value.startswith(FORMULA)
            if line == 1:
                cell.font = Font(bold=True)
    sheet.freeze_panes = "A2"
    for place, name in enumerate(columns, start=1):
        width = max([len(name), *(len(str(row[place - 1] or "")) for row in rows)])
        sheet.column_dimensions[get_column_letter(place)].width = min(60, width + 2)
    made = io.BytesIO()
    book.save(made)
    return _timeless(made.getvalue())


def _timeless(content: bytes) -> bytes:
    """The same archive without the hour at which it was made."""
    made = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(content)) as old, zipfile.ZipFile(made, "w", zipfile.ZIP_DEFLATED) as new:
        for item in old.infolist():
            new.writestr(
                zipfile.ZipInfo(item.filename, WHEN.timetuple()[:6]), old.read(item), zipfile.ZIP_DEFLATED
            )
    return made.getvalue()
