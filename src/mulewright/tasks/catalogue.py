"""Which checks are there, and which of them could it be, going by what one sees at the bench?"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import chain
from typing import Any

from mulewright.checks import CHECKS
from mulewright.checks.engine import Check
from mulewright.errors import NotFound, closest

MOST_NEAREST = 3


@dataclass(frozen=True)
class Catalogue:
    """Some of the checks, in the order of their ids."""

    checks: tuple[Check, ...]

    def as_dict(self) -> dict[str, Any]:
        """The checks for programs."""
        return {"checks": [check_as_dict(rule) for rule in self.checks]}


def check_as_dict(rule: Check) -> dict[str, Any]:
    """One check for programs."""
    return {
        "id": rule.id,
        "name": rule.name,
        "severity": rule.severity.word,
        "status": rule.status,
        "about": rule.on.kind,
        "seen": rule.seen,
        "page": rule.compares,
    }


def list_checks(seen: str | None = None) -> Catalogue:
    """Return every check, or those in whose symptom each of some words occurs.

    Raises
    ------
    NotFound
        If there is no such check; the message names the nearest words, or the nearest symptoms.
    """
    if seen is None:
        return Catalogue(tuple(CHECKS.values()))
    words = seen.casefold().split()
    found = tuple(rule for rule in CHECKS.values() if words and all(map(rule.seen.casefold().count, words)))
    if not found:
        rule = "a few words for what one sees; `mulewright checks` lists every check"
        raise NotFound("no check is looked up by that", "--seen", rule, seen, _nearest(words))
    return Catalogue(found)


def _nearest(words: Sequence[str]) -> tuple[str, ...]:
    """Words in place of those that occur nowhere; where all occur, the phrases that hold the rarest of them."""
    phrases = {rule.seen: rule.seen.casefold() for rule in CHECKS.values()}
    held = {word: [phrase for phrase, text in phrases.items() if word in text] for word in words}
    strange = [word for word in held if not held[word]]
    if strange:
        known = sorted(set(" ".join(phrases.values()).replace(",", "").replace(";", "").split()))
        return tuple(near for word in strange for near in closest(word, known))
    return tuple(dict.fromkeys(chain(*sorted(held.values(), key=len))))[:MOST_NEAREST]
