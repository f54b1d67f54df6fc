"""Where in the file stands what was found in a description."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

from mulewright.design.merging import Raw
from mulewright.design.paths import Path, look_up, written
from mulewright.design.sections import line_of, lines

OTHERS = "others"  # in a radio's tables: all that do not say it themselves
SPREAD = [(radio, table) for radio in ("radio", "second_radio") for table in ("control", "channel")]
_ABSENT = object()


@dataclass(frozen=True)
class Typed:
    """A description before its parts are filled in, and the text that it was read from."""

    where: str
    text: str
    base: Raw  # as the file says it
    raw: Raw  # with variant and settings

    def said_at(self, path: Path) -> Path:
        """The path at which something was typed: what came from ``others`` was typed there."""
        others = (*path[:2], OTHERS, *path[3:])
        spread = path[:2] in SPREAD and len(path) > 3 and look_up(self.raw, path[:4], _ABSENT) is _ABSENT
        return others if spread and look_up(self.raw, others[:4], _ABSENT) is not _ABSENT else path

    def place(self, path: Path) -> str:
        """Path and line for a person; no line where a variant or a setting put it there."""
        if look_up(self.base, path) != look_up(self.raw, path):
            return f"{written(path)} (laid over {self.where})"
        line = line_of(self._lines, path)
        return f"{written(path)} ({self.where}, line {line})" if line else f"{written(path)} ({self.where})"

    def place_of(self, where: str) -> str:
        """The same for what is written with dots; as it is where nothing was typed there."""
        path = tuple(where.split("."))
        there = look_up(self.raw, self.said_at(path), _ABSENT) is not _ABSENT
        return self.place(self.said_at(path)) if there else where

    @cached_property
    def _lines(self) -> dict[Path, int]:
        return lines(self.text)
