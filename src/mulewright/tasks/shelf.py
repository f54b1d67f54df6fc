"""What does a person do with the shelf: list it, look at a part, add one, import a sheet, check the files."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from pathlib import Path

from mulewright.errors import MulewrightError, NotFound, Problems, ShelfError, closest
from mulewright.shelf.catalog import PACKAGED, Catalog, Place, catalog_for, known_kind, user_folder
from mulewright.shelf.keys import inner_tables
from mulewright.shelf.parts import PART_KINDS
from mulewright.units.quantity import Quantity
from mulewright.units.table import Table


@dataclass(frozen=True)
class ListedPart:
    """One line of the list of parts."""

    kind: str
    id: str
    title: str
    place: Place


@dataclass(frozen=True)
class PartList:
    """The parts that can be read, and what is wrong with the files of the others."""

    parts: Sequence[ListedPart]
    problems: Sequence[MulewrightError]


@dataclass(frozen=True)
class Value:
    """One value of a part as text, with its source where it is a quantity."""

    key: str
    text: str
    source: str
    meaning: str


@dataclass(frozen=True)
class PartSheet:
    """All that is known about one part; ``source`` is that of most of its values."""

    kind: str
    id: str
    title: str
    place: Place
    path: Path
    source: str
    values: Sequence[Value]


@dataclass(frozen=True)
class ShelfReport:
    """How many part files there are, and what is wrong with them."""

    files: int
    problems: Sequence[MulewrightError]


def list_parts(kind: str | None = None, shelf: Path | None = None, beside: Path | None = None) -> PartList:
    """List the parts of one kind, or of all kinds, in the order of kinds and ids.

    Parameters
    ----------
    kind : str, optional
        Kind of part.
    shelf : Path, optional
        Shelf to use in place of the user's own.
    beside : Path, optional
        Folder of a mule file, whose own shelf counts too.

    Raises
    ------
    NotFound
        If there is no such kind of part.
    ShelfError
        If there is no such shelf.
    """
    catalog = _catalog(shelf, beside)
    parts: list[ListedPart] = []
    problems: list[MulewrightError] = []
    for known, id in catalog.ids(kind):
        try:
            record = catalog.find(known, id)
        except MulewrightError as no:
            problems.extend(_each(no))
        else:
            parts.append(ListedPart(known, id, record.title, record.place))
    return PartList(parts, problems)


def show_part(
    id: str, kind: str | None = None, shelf: Path | None = None, beside: Path | None = None
) -> PartSheet:
    """Show every value of one part in the order of its schema, and where each comes from.

    Parameters
    ----------
    id : str
        Its id.
    kind : str, optional
        Its kind, needed where parts of several kinds share the id.
    shelf, beside : Path, optional
        As for :func:`list_parts`.

    Raises
    ------
    NotFound
        If there is no such part.
    ShelfError
        If parts of several kinds have that id, or its file is broken.
    """
    catalog = _catalog(shelf, beside)
    record = catalog.find(kind or _kind_of(id, catalog), id)
    values = list(_values(record.part))
    usual = Counter(value.source for value in values if value.source).most_common(1)
    source = usual[0][0] if usual else ""
    return PartSheet(record.kind, id, record.title, record.place, record.path, source, values)


def add_part(
    kind: str, id: str, pairs: Sequence[str], shelf: Path | None = None, replace: bool = False
) -> Path:
    """Write one part into a shelf and return its file.

    Parameters
    ----------
    kind, id : str
        What it is and what it is called.
    pairs : sequence of str
        Such as ``stall_torque=2 N m`` and ``from=measured``.
    shelf : Path, optional
        Shelf to write into in place of the user's own.
    replace : bool
        Whether a part that exists already may be overwritten.

    Raises
    ------
    NotFound
        If there is no such kind of part.
    ShelfError
        If a pair, the id or a value cannot be, or the part exists already.
    """
    from mulewright.shelf.adding import draft, write

    said: dict[str, str] = {}
    for pair in pairs:
        key, sign, text = pair.partition("=")
        if not sign or key.strip() in said:
            raise ShelfError(
                what="a key said twice" if sign else "a value without its key",
                where=f"{kind} {id}",
                rule="KEY=VALUE, each key once, such as stall_torque='2 N m'",
                found=pair,
            )
        said[key.strip()] = text
    new = draft(kind, id, said, f"{kind} {id}", {})
    return write([new], _target(shelf), catalog_for(None, shelf), replace)[0]


def import_parts(
    path: Path,
    kind: str | None = None,
    shelf: Path | None = None,
    replace: bool = False,
    sheet: str | None = None,
) -> Sequence[Path]:
    """Write every line of a CSV or XLSX file as a part into a shelf, or nothing if one is wrong.

    Parameters
    ----------
    path : Path
        File with one part in each line below its headings.
    kind : str, optional
        Kind of all its parts; without it the file has a column ``kind``.
    shelf : Path, optional
        Shelf to write into in place of the user's own.
    replace : bool
        Whether parts that exist already may be overwritten.
    sheet : str, optional
        Sheet of an XLSX file that has several.

    Raises
    ------
    NotFound
        If there is no such kind of part, or no such sheet.
    ShelfError
        If the file cannot be read, or the one thing that is wrong with it.
    Problems
        All that is wrong with its lines.
    """
    from mulewright.shelf import importing

    return importing.import_parts(path, _target(shelf), catalog_for(None, shelf), kind, replace, sheet)


def check_shelf(
    kind: str | None = None, shelf: Path | None = None, beside: Path | None = None
) -> ShelfReport:
    """Read every part file, also those that lie beneath others of the same id or where nobody finds them.

    Parameters
    ----------
    kind : str, optional
        Kind of part.
    shelf, beside : Path, optional
        As for :func:`list_parts`.

    Raises
    ------
    NotFound
        If there is no such kind of part.
    ShelfError
        If there is no such shelf.
    """
    if kind is not None:
        known_kind(kind)
    catalog = _catalog(shelf, beside)
    files = [(known, path) for known, path in catalog.files() if kind in (None, known)]
    problems: list[MulewrightError] = []
    for known, path in files:
        try:
            catalog.read(known, path)
        except MulewrightError as no:
            problems.extend(_each(no))
    return ShelfReport(len(files), [*problems, *_strays(catalog)])


def _catalog(shelf: Path | None, beside: Path | None) -> Catalog:
    if shelf is not None and not shelf.is_dir():
        raise ShelfError(
            what="no such shelf", where=str(shelf), rule="a folder with a folder for each kind of part"
        )
    return catalog_for(beside, shelf)


def _target(shelf: Path | None) -> Path:
    return user_folder() if shelf is None else shelf


def _each(problem: MulewrightError) -> Sequence[MulewrightError]:
    return problem.problems if isinstance(problem, Problems) else (problem,)


def _strays(catalog: Catalog) -> Iterator[ShelfError]:
    for folder in catalog.folders:
        for path in sorted(folder.rglob("*.toml")) if folder != PACKAGED else ():
            kind, *rest = path.relative_to(folder).parts
            if kind not in PART_KINDS or len(rest) != 1:
                yield ShelfError(
                    what="a file where nobody finds it",
                    where=str(path),
                    rule="a part lies in a folder with the name of its kind",
                    nearest=closest(kind, PART_KINDS),
                )


def _kind_of(id: str, catalog: Catalog) -> str:
    known = catalog.ids()
    kinds = [kind for kind, other in known if other == id]
    if not kinds:
        nearest = closest(id, [other for _, other in known])
        raise NotFound(f"no part called {id!r}", rule="all parts: mulewright shelf list", nearest=nearest)
    if len(kinds) > 1:
        raise ShelfError(f"several parts called {id!r}", rule="say which kind", found=", ".join(kinds))
    return kinds[0]


def _values(part: Table, before: str = "") -> Iterator[Value]:
    inner = inner_tables(type(part))
    for name, info in type(part).model_fields.items():
        value = getattr(part, name)
        if value is None or name == "title":
            continue
        if name not in inner:
            yield Value(before + name, _text(value), _source(value), info.description or "")
            continue
        tables = value if inner[name].named else {"": value}
        for key, below in tables.items():
            yield from _values(below, ".".join(step for step in (before + name, key) if step) + ".")


def _text(value: object) -> str:
    if isinstance(value, Quantity):
        return value.text
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, list):
        return ", ".join(_text(item) for item in value)
    return str(value)


def _source(value: object) -> str:
    return replace(value, part="").source if isinstance(value, Quantity) else ""
