"""Which states of a mule file are kept beside it, and how is one more kept so that none is ever lost?

Beside ``mule.toml`` lies ``mule.toml.log/``: a folder for each snapshot with the file and, in ``shelf/``, the parts
that it names; and ``index.jsonl`` with one line for each: its number, day, reason, version, digests of its files.
"""

from __future__ import annotations

import json
import os
import re
import secrets
import shutil
from collections.abc import Iterator, Mapping
from contextlib import suppress
from dataclasses import asdict, dataclass, field
from datetime import datetime
from hashlib import sha256
from pathlib import Path
from typing import Any

from mulewright import __version__
from mulewright.design.merging import keys_of
from mulewright.design.reading import is_writable
from mulewright.design.resolve import Loaded, rebuild
from mulewright.errors import DesignError, FileProblem, MulewrightError, NotFound
from mulewright.shelf.catalog import BESIDE
from mulewright.tasks.limits import require_limits
from mulewright.tasks.opening import open_mule

JSON_SCHEMA = 1
ENDING, INDEX, COPY = ".log", "index.jsonl", "mule.toml"
NUMBER = re.compile(r"[1-9][0-9]{0,8}")
KEPT_NAME = re.compile(rf"{re.escape(COPY)}|{BESIDE}/[a-z-]+/[a-z0-9._-]+\.toml")
_DIGEST = re.compile(r"[0-9a-f]{64}")


@dataclass(frozen=True)
class Snapshot:
    """One state that is kept; without day, reason and version where the index has lost them."""

    number: int
    day: str = ""
    why: str = ""
    version: str = ""
    files: Mapping[str, str] = field(default_factory=dict)  # name inside its folder: digest

    def as_dict(self) -> dict[str, Any]:
        """What a person may want to know of it, for programs."""
        return {"number": self.number, "day": self.day, "why": self.why, "version": self.version}


@dataclass(frozen=True)
class Log:
    """Every snapshot of one mule file, the oldest first."""

    folder: Path
    snapshots: tuple[Snapshot, ...]
    problems: tuple[MulewrightError, ...]  # what is wrong with the index

    def copy(self, one: Snapshot) -> Path:
        """The mule file of a snapshot, as it was kept.

        Raises
        ------
        FileProblem
            If a file of it is missing, or is not what was kept.
        """
        folder = self.folder / str(one.number)
        for name in one.files or (COPY,):
            path = folder / name
            try:
                found = _digest(path.read_bytes())
            except OSError as no:
                what = f"is missing or cannot be read, so snapshot {one.number} is not used"
                raise FileProblem(what, str(path), found=no.strerror or str(no)) from no
            if one.files and found != one.files[name]:
                rule = "a snapshot is used only as it was kept"
                what = f"was changed afterwards, so snapshot {one.number} is not used"
                raise FileProblem(what, str(path), rule)
        return folder / COPY


@dataclass(frozen=True)
class Kept:
    """The last snapshot of a file, and whether it is new."""

    file: Path
    snapshot: Snapshot
    new: bool

    def as_dict(self) -> dict[str, Any]:
        """The same for programs."""
        own = self.snapshot.as_dict() | {"files": sorted(self.snapshot.files)}
        folder = folder_of(self.file) / str(self.snapshot.number)
        return {"schema": JSON_SCHEMA, "file": self.file, "kept": self.new, "folder": folder, **own}


def folder_of(path: Path) -> Path:
    """Where the snapshots of a mule file lie."""
    return path.with_name(path.name + ENDING)


def keep(path: Path, why: str, now: datetime | None = None) -> Kept:
    """Keep a mule file as it is, with the parts that it names, unless the last snapshot is the same.

    Raises
    ------
    MulewrightError
        If no reason is given, the file does not read, or nothing can be written beside it.
    """
    if not why.strip() or not is_writable(why):
        raise DesignError("no reason is given", "-m", "a few words on what was changed, and why")
    opened = open_mule(path)
    require_limits(opened.mule.file.limits, str(path))
    contents = _contents(opened.mule.loaded)
    files = {name: _digest(content) for name, content in contents.items()}
    log = read_log(path)
    if log.snapshots and _same(log, last := log.snapshots[-1], files):
        return Kept(path, last, new=False)
    day = (now or datetime.now()).astimezone().isoformat(timespec="seconds")
    try:
        log.folder.mkdir(exist_ok=True)
        number = _placed(log.folder, contents, 1 + max((one.number for one in log.snapshots), default=0))
        snapshot = Snapshot(number, day, why.strip(), __version__, files)
        _add_line(log.folder / INDEX, json.dumps(asdict(snapshot), ensure_ascii=False))
    except OSError as no:
        raise FileProblem(f"cannot be written: {no.strerror or no}", str(log.folder)) from no
    return Kept(path, snapshot, new=True)


def read_log(path: Path) -> Log:
    """Read which snapshots of a mule file there are; what is wrong with the index does not hide the copies."""
    folder = folder_of(path)
    numbers = {int(one.name) for one in _inside(folder) if NUMBER.fullmatch(one.name) and one.is_dir()}
    index, found, broken = folder / INDEX, dict[int, Snapshot](), list[str]()
    for place, line in enumerate(_lines(index), 1):
        one = _snapshot(line)
        if one is None or one.number in found:
            broken.append(str(place))
        else:
            found[one.number] = one
    lost = sorted(numbers - set(found))
    found |= {number: Snapshot(number) for number in lost}
    problems = _index_problem(index, broken, lost)
    return Log(folder, tuple(found[number] for number in sorted(found)), tuple(problems))


def copy_of(path: Path, number: int) -> Path:
    """Where the copy of one snapshot lies, after a look whether it is whole.

    Raises
    ------
    NotFound
        If there is no such snapshot.
    FileProblem
        If a file of it is missing, or is not what was kept.
    """
    log = read_log(path)
    for one in log.snapshots:
        if one.number == number:
            return log.copy(one)
    have = f"there are 1 to {log.snapshots[-1].number}" if log.snapshots else "there is none yet"
    raise NotFound(f"there is no snapshot {number}", str(path), have)


def _contents(loaded: Loaded) -> dict[str, bytes]:
    """What decides the verdicts of a mule: its text, and each part that it or one of its variants names."""
    for variant in keys_of(loaded.base.get("variant")):
        with suppress(MulewrightError):  # a variant that does not read is kept as text
            rebuild(loaded, variant=variant)
    parts = {f"{BESIDE}/{one.kind}/{one.id}.toml": one.path.read_bytes() for one in loaded.catalog.used}
    return {COPY: loaded.text.encode()} | parts


def _same(log: Log, last: Snapshot, files: Mapping[str, str]) -> bool:
    """Whether the last snapshot is whole, and holds what would be kept now."""
    try:
        log.copy(last)
    except FileProblem:
        return False
    return last.files == files


def _placed(folder: Path, contents: Mapping[str, bytes], number: int) -> int:
    """Write a folder whole, then give it the first number that nobody else has taken meanwhile."""
    fresh = folder / f".{os.getpid()}-{secrets.token_hex(4)}.new"
    try:
        for name, content in contents.items():
            path = fresh / name
            path.parent.mkdir(parents=True, exist_ok=True)
            with path.open("xb") as file:
                file.write(content)
                file.flush()
                os.fsync(file.fileno())
        while True:
            try:
                fresh.rename(folder / str(number))
            except OSError:
                if not (folder / str(number)).exists():
                    raise
                number += 1
            else:
                return number
    finally:
        shutil.rmtree(fresh, ignore_errors=True)


def _add_line(index: Path, line: str) -> None:
    """Add a line in one write, behind those of others, on a line of its own even where the last one is torn."""
    whole = not index.exists() or index.read_bytes()[-1:] in (b"", b"\n")
    with index.open("ab", buffering=0) as file:
        file.write(("" if whole else "\n").encode() + f"{line}\n".encode())
        os.fsync(file.fileno())


def _inside(folder: Path) -> Iterator[Path]:
    try:
        yield from folder.iterdir()
    except FileNotFoundError:
        return
    except OSError as no:
        raise FileProblem(f"is no folder of snapshots: {no.strerror or no}", str(folder)) from no


def _lines(index: Path) -> list[str]:
    try:
        text = index.read_bytes().decode(errors="replace")
    except OSError:
        return []  # every copy is then reported as one without a line
    return text.removesuffix("\n").split("\n") if text else []


def _snapshot(line: str) -> Snapshot | None:
    """Read one line of the index; None where it is damaged."""
    try:
        one: Any = Snapshot(**json.loads(line))
    except (ValueError, TypeError, RecursionError):
        return None
    whole = (
        isinstance(one.number, int)
        and NUMBER.fullmatch(str(one.number))
        and all(isinstance(word, str) for word in (one.day, one.why, one.version))
        and _are_files(one.files)
    )
    return one if whole else None


def _are_files(files: Any) -> bool:
    return isinstance(files, dict) and all(
        KEPT_NAME.fullmatch(name) and isinstance(digest, str) and _DIGEST.fullmatch(digest)
        for name, digest in {COPY: None, **files}.items()
    )


def _index_problem(index: Path, broken: list[str], lost: list[int]) -> Iterator[FileProblem]:
    """One message about the index, if something is wrong with it."""
    if not (broken or lost):
        return
    what = "is damaged" if index.exists() else "is missing"
    lines = f"cannot be read: line {', '.join(broken)}" if broken else ""
    numbers = ", ".join(map(str, lost))
    copies = f"day and reason are lost of snapshot {numbers}, the copy is there" if lost else ""
    yield FileProblem(what, str(index), found="; ".join(filter(None, (lines, copies))))


def _digest(content: bytes) -> str:
    return sha256(content).hexdigest()
