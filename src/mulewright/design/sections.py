"""How the text of a mule file is laid out: sections, statements, and the line in which a value stands."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from mulewright.design.paths import Path

_TOKEN = re.compile(
    r'"""(?:\\.|[^\\])*?"{3,5}|' + r"'''.*?'{3,5}|" + r'"(?:\\.|[^"\\\n])*"|' + r"'[^'\n]*'|"
    r"#[^\n]*|[\[{]|[\]}]|\n|[^\"'#\[\]{}\n]+|.",
    re.DOTALL,
)
_HEADER = re.compile(r"\s*(\[\[?)\s*(.+?)\s*\]\]?\s*(?:#.*)?", re.DOTALL)
_KEY = re.compile(r"""\s*((?:"(?:\\.|[^"\\])*"|'[^']*'|[\w.\- \t])+?)\s*=""")


@dataclass(frozen=True)
class Statement:
    """A table header, a key with its value, or a line that says nothing to a program."""

    line: int
    start: int
    end: int
    text: str

    @property
    def header(self) -> re.Match[str] | None:
        """The parts of a table header, if it is one."""
        return _HEADER.fullmatch(self.text) if self.text.lstrip().startswith("[") else None

    @property
    def key(self) -> Path:
        """The key that it gives a value to; empty for any other line."""
        match = self._gives
        return _path(match[1]) if match else ()

    @property
    def key_width(self) -> int:
        """Columns from the start of its line to its equals sign."""
        match = self._gives
        return match.end() - 1 if match else 0

    @property
    def _gives(self) -> re.Match[str] | None:
        return None if self.header else _KEY.match(self.text)


@dataclass(frozen=True)
class Section:
    """A table header with all that follows up to the next one; the first section has no header."""

    path: Path
    head: Statement | None
    body: tuple[Statement, ...]
    start: int
    end: int

    @property
    def core(self) -> tuple[int, int]:
        """Where its keys stand: from after the header to the end of the last value."""
        begin = self.head.end if self.head else self.start
        return begin, max((statement.end for statement in self.body if statement.key), default=begin)


def statements(text: str) -> Iterator[Statement]:
    """Cut a valid text into statements; one may run over several lines."""
    line, start, begun, depth = 1, 0, 1, 0
    for token in _TOKEN.finditer(text):
        word = token[0]
        depth += (word in "[{") - (word in "]}")
        line += word.count("\n")
        if word == "\n" and depth == 0:
            yield Statement(begun, start, token.end(), text[start : token.start()])
            start, begun = token.end(), line
    if start < len(text):
        yield Statement(begun, start, len(text), text[start:])


def sections(text: str) -> list[Section]:
    """Cut a valid text into sections; tables of a list carry their number in the path."""
    found: list[Section] = []
    body: list[Statement] = []
    counts: dict[Path, int] = {}
    path: Path = ()
    head: Statement | None = None
    start = 0
    for statement in statements(text):
        header = statement.header
        if not header:
            body.append(statement)
            continue
        found.append(Section(path, head, tuple(body), start, statement.start))
        path = _numbered(_path(header[2]), header[1] == "[[", counts)
        head, body, start = statement, [], statement.start
    return [*found, Section(path, head, tuple(body), start, len(text))]


def lines(text: str) -> dict[Path, int]:
    """The line of every table header and every key of a valid text."""
    found: dict[Path, int] = {}
    for section in sections(text):
        if section.head:
            found.setdefault(section.path, section.head.line)
        for statement in section.body:
            if statement.key:
                found.setdefault((*section.path, *statement.key), statement.line)
    return found


def line_of(known: Mapping[Path, int], path: Path) -> int | None:
    """Return the line of a value, of the nearest table around it, or of the first thing inside it."""
    around = (known.get(path[:length]) for length in range(len(path), 0, -1))
    inside = (line for place, line in known.items() if place[: len(path)] == path)
    return next((line for line in (*around, *inside) if line is not None), None)


def _numbered(path: Path, is_item: bool, counts: dict[Path, int]) -> Path:
    """Put the number of the item into the path of each list of tables that it goes through."""
    numbered: Path = ()
    for index, part in enumerate(path, 1):
        numbered = (*numbered, part)
        if is_item and index == len(path):
            counts[numbered] = counts.get(numbered, -1) + 1
        if numbered in counts:
            numbered = (*numbered, str(counts[numbered]))
    return numbered


def _path(text: str) -> Path:
    """Read a TOML key, dotted or not."""
    inner: Any = tomllib.loads(f"{text} = 0")
    path: Path = ()
    while isinstance(inner, dict):
        key, inner = next(iter(inner.items()))
        path = (*path, key)
    return path
