"""What stands in a CSV or XLSX file? Its headings, and its lines as texts with their numbers."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from pathlib import Path
from zipfile import BadZipFile, ZipFile

from mulewright.errors import NotFound, ShelfError, closest

LARGEST = 20_000_000  # [bytes], of an XLSX file unpacked
SEPARATORS = ",;\t"


@dataclass(frozen=True)
class Line:
    """One line of a sheet."""

    number: int
    cells: tuple[str, ...]


@dataclass(frozen=True)
class Sheet:
    """A sheet without its empty lines; each line has as many cells as there are headings."""

    headings: tuple[str, ...]
    lines: tuple[Line, ...]


def read_sheet(path: Path, name: str | None = None) -> Sheet:
    """Read a CSV file (comma, semicolon or tab) or a sheet of an XLSX file.

    Raises
    ------
    ShelfError
        If the file cannot be read, is neither, or a line or a cell makes no sense.
    NotFound
        If it has no sheet of that name.
    """
    readers = {".csv": _csv_lines, ".tsv": _csv_lines, ".txt": _csv_lines, ".xlsx": _xlsx_lines}
    reader = readers.get(path.suffix.lower())
    if reader is None:
        raise ShelfError(
            "not a file that can be imported", str(path), f"one of {', '.join(readers)}", path.suffix
        )
    try:
        if path.stat().st_size > LARGEST:
            raise ShelfError(what="too large to import", where=str(path), rule=f"at most {LARGEST} bytes")
        lines = [line for line in reader(path, name) if any(line.cells)]
    except OSError as no:
        raise ShelfError(what="cannot be read", where=str(path), found=no.strerror or str(no)) from no
    if not lines:
        raise ShelfError(what="an empty sheet", where=str(path), rule="the first line holds the headings")
    headings = _trimmed(lines[0].cells)
    return Sheet(headings, tuple(_fitted(line, len(headings), path) for line in lines[1:]))


def _trimmed(cells: tuple[str, ...]) -> tuple[str, ...]:
    used = [place for place, cell in enumerate(cells, 1) if cell]
    return cells[: used[-1]]


def _fitted(line: Line, width: int, path: Path) -> Line:
    cells = _trimmed(line.cells)
    if len(cells) > width:
        raise ShelfError(
            what="more cells than headings",
            where=f"{path}, line {line.number}",
            rule="a text with the separator in it stands in quotes",
            found=cells[width],
        )
    return Line(line.number, cells + ("",) * (width - len(cells)))


def _csv_lines(path: Path, name: str | None) -> Iterable[Line]:
    try:
        text = path.read_bytes().decode("utf-8-sig")
    except UnicodeDecodeError as no:
        raise ShelfError("not UTF-8 text", str(path), "save it as CSV in UTF-8", str(no)) from no
    first = next((line for line in text.splitlines() if line.strip()), "")
    reader = csv.reader(
        io.StringIO(text, newline=""), delimiter=max(SEPARATORS, key=first.count), strict=True
    )
    start = 1
    try:
        for cells in reader:
            yield Line(start, tuple(cell.strip() for cell in cells))
            start = reader.line_num + 1
    except csv.Error as no:
        raise ShelfError("not a CSV file", f"{path}, line {start}", found=str(no)) from no


def _xlsx_lines(path: Path, name: str | None) -> Iterable[Line]:
    """Read a sheet twice: as values, and as formulas to tell an empty cell from one not yet computed."""
    from openpyxl import load_workbook
    from openpyxl.utils.exceptions import InvalidFileException

    try:
        with ZipFile(path) as packed:
            if sum(entry.file_size for entry in packed.infolist()) > 5 * LARGEST:
                raise ShelfError(what="too large to import", where=str(path))
        values, formulas = (load_workbook(path, data_only=only) for only in (True, False))
    except (BadZipFile, InvalidFileException, KeyError, ValueError, TypeError, AttributeError) as no:
        raise ShelfError(what="not an XLSX file", where=str(path), found=str(no)) from no
    title = _chosen({sheet.title: sheet.max_row > 1 for sheet in values.worksheets}, name, path)
    for number, (cells, written) in enumerate(zip(values[title].rows, formulas[title].rows, strict=True), 1):
        for cell, origin in zip(cells, written, strict=True):
            if cell.value is None and origin.value is not None:
                raise ShelfError(
                    what="a formula without its value",
                    where=f"{path}, line {number}",
                    rule="open and save the file in a spreadsheet program, or write the value itself",
                    found=str(origin.value),
                )
        yield Line(number, tuple(_cell_text(cell.value, cell.number_format) for cell in cells))


def _chosen(filled: dict[str, bool], name: str | None, path: Path) -> str:
    if name is not None:
        if name not in filled:
            raise NotFound(f"no sheet called {name!r}", str(path), nearest=closest(name, filled))
        return name
    several = [title for title, has_lines in filled.items() if has_lines]
    if len(several) > 1:
        raise ShelfError("several sheets with lines", str(path), "say which one", ", ".join(several))
    return (several or list(filled))[0]


def _cell_text(value: object, number_format: str) -> str:
    """A cell as a person would type it; what is shown as a percentage is one."""
    if value is None:
        return ""
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, int | float):
        return f"{value * 100:.12g} %" if "%" in number_format else f"{value:.12g}"
    if isinstance(value, date):
        return value.isoformat().removesuffix("T00:00:00")
    return str(value).strip()
