"""How do the lines of a sheet become parts? Columns are found by name, units stand in the headings."""

from __future__ import annotations

import re
from collections.abc import Sequence
from pathlib import Path

from mulewright.errors import MulewrightError, Problems, ShelfError, closest
from mulewright.shelf.adding import Draft, draft, write
from mulewright.shelf.catalog import Catalog, known_kind
from mulewright.shelf.headings import Heading, heading_of, heading_problems
from mulewright.shelf.parts import PART_KINDS
from mulewright.shelf.sheets import Line, read_sheet
from mulewright.shelf.sources import SOURCE_KEYS

_NUMBER = re.compile(r"[+-]?[0-9.,]+([eE][+-]?[0-9]+)?")


def import_parts(
    path: Path,
    folder: Path,
    catalog: Catalog,
    kind: str | None = None,
    replace: bool = False,
    sheet: str | None = None,
) -> list[Path]:
    """Write every line of a CSV or XLSX file as a part, or nothing if any line is wrong.

    The column ``id`` names the part; the column ``kind`` says what it is, unless ``kind`` says so for all.

    Raises
    ------
    NotFound
        If there is no such kind of part, or no such sheet in the file.
    ShelfError
        If the file cannot be read, or the one thing that is wrong with it.
    Problems
        All that is wrong with its lines, each with its line number.
    """
    return write(drafts_in(path, kind, sheet), folder, catalog, replace)


def drafts_in(path: Path, kind: str | None = None, sheet: str | None = None) -> list[Draft]:
    """Read and validate every line of a file without writing; raises as :func:`import_parts` does."""
    own = _own_columns(kind)
    table = read_sheet(path, sheet)
    headings = [heading_of(text) for text in table.headings]
    names = [heading.name.lower() for heading in headings]
    missing = own - set(SOURCE_KEYS) - set(names) - ({"kind"} if kind else set())
    if missing:
        raise ShelfError(
            what=f"no column {' and no column '.join(sorted(missing))}",
            where=str(path),
            rule="the first line holds the headings",
            found=", ".join(table.headings),
        )
    if not table.lines:
        raise ShelfError(what="no lines below the headings", where=str(path))
    kinds = {kind} if kind else {cell for line in table.lines for cell in _below("kind", names, line)}
    _raise_all(path, heading_problems(headings, own, kinds & set(PART_KINDS)))
    drafts: list[Draft] = []
    problems: list[MulewrightError] = []
    for line in table.lines:
        try:
            drafts.append(_draft(line, headings, own, kind, path))
        except MulewrightError as no:
            problems.append(no)
    _raise_all(path, problems)
    return drafts


def _own_columns(kind: str | None) -> set[str]:
    """The columns that are no keys of a part: a fuse's own kind is one where all lines are fuses."""
    is_key = kind is not None and "kind" in PART_KINDS[known_kind(kind)].model_fields
    return {"id", *SOURCE_KEYS} | (set() if is_key else {"kind"})


def _below(name: str, names: Sequence[str], line: Line) -> list[str]:
    return [cell.lower() for known, cell in zip(names, line.cells, strict=True) if known == name and cell]


def _draft(line: Line, headings: Sequence[Heading], own: set[str], kind: str | None, path: Path) -> Draft:
    where = f"{path}, line {line.number}"
    cells = [(heading, cell) for heading, cell in zip(headings, line.cells, strict=True) if cell]
    for _, cell in cells:
        if cell.startswith("="):
            raise ShelfError("a formula", where, "a cell holds a value; formulas are refused", cell)
    said = {heading.name.lower(): cell for heading, cell in cells if heading.name.lower() in own}
    part_kind = _kind(said.pop("kind", "").lower(), kind, where)
    if "id" not in said:
        raise ShelfError(what="a line without its id", where=where, rule="each line needs an id of its own")
    id = said.pop("id")
    for heading, cell in cells:
        if heading.name.lower() not in own:
            said[_key(heading, part_kind, where)] = _with_unit(cell, heading.unit)
    return draft(part_kind, id, said, where, {"ref": f"{path.name}, line {line.number}"})


def _kind(said: str, kind: str | None, where: str) -> str:
    if kind is not None and said in ("", kind):
        return kind
    if kind is None and said in PART_KINDS:
        return said
    wanted = (kind,) if kind else PART_KINDS
    raise ShelfError(
        what="another kind of part" if said else "a line without its kind",
        where=where,
        rule=f"kind is one of {', '.join(wanted)}",
        found=said,
        nearest=closest(said, wanted),
    )


def _key(heading: Heading, kind: str, where: str) -> str:
    try:
        return ".".join(heading.key(kind).path)
    except ShelfError as no:
        no.where = f"{where}, heading {heading.text!r}"
        raise


def _with_unit(cell: str, unit: str) -> str:
    """A bare number gets the unit of its heading; a cell with a unit of its own keeps it."""
    return f"{cell} {unit}" if unit and _NUMBER.fullmatch(cell) else cell


def _raise_all(path: Path, problems: Sequence[MulewrightError]) -> None:
    flat = [
        one
        for problem in problems
        for one in (problem.problems if isinstance(problem, Problems) else (problem,))
    ]
    if len(flat) == 1:
        raise flat[0]
    if flat:
        raise Problems(str(path), flat)
