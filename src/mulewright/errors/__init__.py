"""Every error raised on purpose: what, where, the rule with its unit, what was found, what to try."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from difflib import get_close_matches
from typing import Any
from unicodedata import bidirectional, category

import numpy as np
from numpy.typing import ArrayLike

_TURNS = frozenset("LRE RLE LRO RLO PDF LRI RLI FSI PDI".split())  # marks that turn the reading direction


@dataclass
class MulewrightError(Exception):
    """One clear message for a person; the command line prints it and exits with 2."""

    what: str
    where: str = ""
    rule: str = ""
    found: str = ""
    nearest: Sequence[str] = field(default_factory=tuple)

    def __str__(self) -> str:
        head = f"{self.where}: {self.what}" if self.where else self.what
        lines = [head]
        if self.rule:
            lines.append(f"Rule: {self.rule}")
        if self.found:
            lines.append(f"Found: {self.found}")
        if self.nearest:
            lines.append(f"Closest: {', '.join(self.nearest)}")
        return "\n  ".join(visible(line) for line in lines)

    def as_dict(self) -> dict[str, Any]:
        """The same message for programs."""
        return {
            "what": self.what,
            "where": self.where,
            "rule": self.rule,
            "found": self.found,
            "nearest": list(self.nearest),
        }


class UnitError(MulewrightError, ValueError):
    """A text that is not a quantity, or not one of the wanted kind."""


class FileProblem(MulewrightError):
    """A file that cannot be read at all, or is not what it should be."""


class DesignError(MulewrightError):
    """A mule file that was read but does not describe a mule."""


class ShelfError(MulewrightError):
    """A part, a table or an import that the shelf refuses."""


class NotFound(MulewrightError):
    """A name that the user asked for and that does not exist."""


class Problems(MulewrightError):
    """Several errors of one file, reported together."""

    def __init__(self, where: str, problems: Sequence[MulewrightError]) -> None:
        super().__init__(what=f"{len(problems)} problems", where=where)
        self.problems = problems

    def __str__(self) -> str:
        return "\n".join(str(problem) for problem in self.problems)

    def as_dict(self) -> dict[str, Any]:
        """All of them for programs."""
        return {**super().as_dict(), "problems": [problem.as_dict() for problem in self.problems]}


class DomainError(MulewrightError, ValueError):
    """An input outside the numbers for which a model means anything."""


def require(ok: Any, name: str, rule: str, found: ArrayLike) -> None:
    """Raise :class:`DomainError` unless every element of ``ok`` is true.

    Write ``ok`` so that nan passes, e.g. ``~(length < 0)``.
    """
    if not (ok if isinstance(ok, np.bool_) else np.all(ok)):
        wrong, values = np.broadcast_arrays(np.logical_not(ok), np.asarray(found, dtype=float))
        raise DomainError(what=f"{name} {rule}", found=f"{values[wrong].flat[0]:g}")


def visible(text: str) -> str:
    r"""Write in one line what would act on a screen instead of being seen: escapes, turned reading directions.

    >>> visible("a\x1b[31mb\n c")
    'a\\x1b[31mb  c'
    """
    if text.isprintable():
        return text
    return "".join(" " if char in "\n\t" else _escaped(char) for char in text)


def _escaped(char: str) -> str:
    acts = category(char) in ("Cc", "Cs", "Zl", "Zp") or bidirectional(char) in _TURNS
    return char.encode("unicode_escape").decode() if acts else char


def closest(name: str, known: Iterable[str], most: int = 3) -> tuple[str, ...]:
    """Return the known names most like ``name``, nearest first."""
    names = list(known)
    folded = {known_name.casefold(): known_name for known_name in names}
    return tuple(folded[hit] for hit in get_close_matches(name.casefold(), folded, n=most, cutoff=0.5))
