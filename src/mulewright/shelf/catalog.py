"""Where do parts live, and what is known about the one that a mule names: packaged, user and local shelves.

A shelf is a folder with one folder for each kind of part, and in it one file for each part, named by its id.
"""

from __future__ import annotations

import os
import re
import sys
import tomllib
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from functools import cached_property
from pathlib import Path
from typing import Any, Literal

from mulewright.errors import MulewrightError, NotFound, Problems, ShelfError, closest
from mulewright.shelf.parts import PART_KINDS
from mulewright.shelf.problems import part_of
from mulewright.shelf.sources import checked_source, with_sources
from mulewright.units.table import Table

Place = Literal["packaged", "user", "beside the mule"]

PACKAGED = Path(__file__).with_name("data")
BESIDE = "shelf"  # folder beside a mule file
VARIABLE = "MULEWRIGHT_SHELF"
ID = re.compile(r"(?=.{1,80}$)[a-z0-9]+([-_.][a-z0-9]+)*")
ID_RULE = "an id is lower-case letters and digits, joined by - _ or . and at most 80 characters long"
LARGEST = 1_000_000  # [bytes]


@dataclass(frozen=True)
class PartRecord:
    """One part as it lies on the shelf; nothing in it may be changed."""

    kind: str
    id: str
    raw: Mapping[str, Any]
    path: Path
    place: Place

    @property
    def title(self) -> str:
        """The line by which a person recognises it; empty if nobody wrote one."""
        return str(self.raw.get("title", ""))

    @cached_property
    def part(self) -> Table:
        """The part, validated against the schema of its kind."""
        return part_of(self.kind, self.raw, str(self.path))


@dataclass(frozen=True)
class Catalog:
    """Several shelves, one over the other: of two parts with the same id the later one counts."""

    folders: Sequence[Path]
    beside: Path | None = None
    _found: dict[tuple[str, str], PartRecord] = field(default_factory=dict, repr=False, compare=False)

    def find(self, kind: str, id: str) -> PartRecord:
        """Look up one part; only its own file is read.

        Raises
        ------
        NotFound
            If there is no such kind or no such part; the message names the nearest.
        ShelfError
            If its file is broken; the message names file, key and rule.
        """
        if (kind, id) not in self._found:
            path = self._path(known_kind(kind), id)
            if path is None:
                raise self._missing(kind, id)
            self._found[kind, id] = self.read(kind, path)
        return self._found[kind, id]

    @property
    def used(self) -> Sequence[PartRecord]:
        """The parts that were looked up so far, in the order of kinds and ids."""
        return [self._found[key] for key in sorted(self._found)]

    def read(self, kind: str, path: Path) -> PartRecord:
        """Read and validate one file of these shelves."""
        record = PartRecord(kind, path.stem, read_part(kind, path), path, self._place(path))
        record.part  # noqa: B018  a broken part is refused here, where its file can be named
        return record

    def list(self, kind: str | None = None) -> Sequence[PartRecord]:
        """Every part, or every part of one kind, in the order of kinds and ids.

        Raises
        ------
        NotFound
            If there is no such kind.
        Problems
            If files are broken.
        """
        records: list[PartRecord] = []
        problems: list[MulewrightError] = []
        for known, id in self.ids(kind):
            try:
                records.append(self.find(known, id))
            except MulewrightError as no:
                problems.append(no)
        if problems:
            raise Problems("shelf", problems)
        return records

    def ids(self, kind: str | None = None) -> Sequence[tuple[str, str]]:
        """Kind and id of every part that can be found, without reading any."""
        kinds = list(PART_KINDS) if kind is None else [known_kind(kind)]
        return [(known, id) for known in kinds for id in self._ids(known)]

    def _ids(self, kind: str) -> Sequence[str]:
        paths = (path for folder in self.folders for path in _files(folder, kind))
        return sorted({path.stem for path in paths if ID.fullmatch(path.stem) and path.is_file()})

    def files(self) -> Iterator[tuple[str, Path]]:
        """Kind and path of every part file, those that lie beneath others too."""
        for folder in self.folders:
            for kind in PART_KINDS:
                yield from ((kind, path) for path in _files(folder, kind))

    def _path(self, kind: str, id: str) -> Path | None:
        if not ID.fullmatch(id):
            return None
        paths = (folder / kind / f"{id}.toml" for folder in reversed(self.folders))
        return next((path for path in paths if path.is_file()), None)

    def _place(self, path: Path) -> Place:
        folder = path.parent.parent
        if folder == PACKAGED:
            return "packaged"
        return "beside the mule" if folder == self.beside else "user"

    def _missing(self, kind: str, id: str) -> NotFound:
        everything = self.ids()
        elsewhere = [other for other, known in everything if known == id]
        return NotFound(
            what=f"{id!r} is a {elsewhere[0]}, not a {kind}" if elsewhere else f"no {kind} called {id!r}",
            rule=f"parts of a kind: mulewright shelf list --kind {elsewhere[0] if elsewhere else kind}",
            nearest=closest(id, [known for other, known in everything if other == kind]),
        )


def catalog_for(mule_folder: Path | None, user: Path | None = None) -> Catalog:
    """The shelves that count for a mule: packaged, the user's own, and ``shelf/`` beside the mule file."""
    folders = [PACKAGED, user_folder() if user is None else user]
    if mule_folder is None:
        return Catalog(folders)
    beside = mule_folder / BESIDE
    return Catalog([*folders, beside], beside)


def user_folder() -> Path:
    """Where the user's own parts live; the environment variable MULEWRIGHT_SHELF says otherwise."""
    if chosen := os.environ.get(VARIABLE):
        return Path(chosen).expanduser()
    usual = {
        "win32": ("LOCALAPPDATA", "~/AppData/Local"),
        "darwin": ("", "~/Library/Application Support"),
    }
    variable, default = usual.get(sys.platform, ("XDG_DATA_HOME", "~/.local/share"))
    return Path(os.environ.get(variable) or default).expanduser() / "mulewright" / "shelf"


def known_kind(kind: str) -> str:
    """Give a kind of part back if it exists."""
    if kind not in PART_KINDS:
        raise NotFound(
            what=f"no kind of part called {kind!r}",
            rule=f"one of {', '.join(PART_KINDS)}",
            nearest=closest(kind, PART_KINDS),
        )
    return kind


def read_part(kind: str, path: Path) -> dict[str, Any]:
    """Read a part file; each quantity becomes a table with its value, its source and the part's id."""
    if not ID.fullmatch(path.stem):
        raise ShelfError(what="a file name that is no id", where=str(path), rule=ID_RULE, found=path.stem)
    values = _toml(path)
    source = checked_source(values.pop("source", {}), str(path))
    return with_sources(values, PART_KINDS[kind], source, path.stem)


def _files(folder: Path, kind: str) -> list[Path]:
    return sorted((folder / kind).glob("*.toml"))


def _toml(path: Path) -> dict[str, Any]:
    try:
        if path.stat().st_size > LARGEST:
            raise ShelfError(
                what="too large for a part file", where=str(path), rule=f"at most {LARGEST} bytes"
            )
        return tomllib.loads(path.read_text(encoding="utf-8-sig"))
    except OSError as no:
        raise ShelfError(what="cannot be read", where=str(path), found=no.strerror or str(no)) from no
    except (UnicodeDecodeError, tomllib.TOMLDecodeError, RecursionError, ValueError) as no:
        raise ShelfError(what="not a TOML file", where=str(path), found=str(no)) from no
