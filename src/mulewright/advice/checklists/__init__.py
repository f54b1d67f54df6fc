"""What is to be looked at on this mule: before power, at first power, while driving, afterwards?"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import asdict, dataclass
from datetime import date
from typing import Any

from mulewright.advice.checklists import moves, power, radio
from mulewright.advice.checklists.power import Said
from mulewright.advice.spoken import UNKNOWN, listed
from mulewright.checks import CHECKS
from mulewright.checks.engine import Outcome, Severity, Verdict, run
from mulewright.facts.graph import Evaluation
from mulewright.shelf.checklists import Listed, ListedItem, checklists

SUBJECTS = moves.SUBJECTS | power.SUBJECTS | radio.SUBJECTS
OWN = "own"


@dataclass(frozen=True)
class Item:
    """One thing to look at, and what the file says of it."""

    id: str  # of the item in the table; several things may share it
    text: str
    known: str  # empty where the file says nothing
    unknown: bool  # whether a question mark stands in it

    def as_dict(self) -> dict[str, Any]:
        """The item for programs."""
        return asdict(self)


@dataclass(frozen=True)
class MuleList:
    """One list of a mule."""

    id: str
    title: str
    when: str
    items: tuple[Item, ...]


@dataclass(frozen=True)
class Checklists:
    """Every list of a mule, with the findings that forbid power, and the checks of that kind that cannot be told."""

    lists: tuple[MuleList, ...]
    forbidding: tuple[Verdict, ...]
    untold: tuple[str, ...]


def checklists_of(evaluation: Evaluation, verdicts: Sequence[Verdict] | None = None) -> Checklists:
    """Fill in the checklists for a mule; the checks are run where their verdicts are not at hand."""
    judged = run(evaluation, list(CHECKS.values())) if verdicts is None else verdicts
    blocking = [verdict for verdict in judged if verdict.severity is Severity.BLOCK]
    forbidding = tuple(verdict for verdict in blocking if verdict.outcome is Outcome.TRIP)
    untold = dict.fromkeys(verdict.check.id for verdict in blocking if verdict.outcome is Outcome.CANNOT_TELL)
    found = [
        _filled(evaluation, one, {"blocking": _blocking(forbidding, list(untold))}) for one in checklists()
    ]
    if own := evaluation.mule.file.checklist.own:
        items = tuple(Item(name, name, _ticked(tick), unknown=False) for name, tick in own.items())
        found.append(MuleList(OWN, "The mule's own items", "As its file says.", items))
    return Checklists(tuple(found), forbidding, tuple(untold))


def _blocking(forbidding: Sequence[Verdict], untold: Sequence[str]) -> str:
    ids = list(dict.fromkeys(verdict.check.id for verdict in forbidding))
    words = [
        f"{listed(ids)} {'is' if len(ids) == 1 else 'are'} open"
        if ids
        else "none tripped when this was printed"
    ]
    if untold:
        words.append(f"nobody can tell {listed(untold)}")
    return "; ".join(words)


def _filled(evaluation: Evaluation, table: Listed, words: Mapping[str, str]) -> MuleList:
    items = [item for one in table.items for item in _items(evaluation, one, words)]
    return MuleList(table.id, table.title, table.when, tuple(items))


def _items(evaluation: Evaluation, row: ListedItem, words: Mapping[str, str]) -> Iterator[Item]:
    ticked = _ticked(getattr(evaluation.mule.file.checklist, row.tick)) if row.tick else ""
    for said in SUBJECTS[row.each](evaluation):
        text = _put(row.says, {**words, **said})
        known = _put(row.known, {**words, **said}) or said.get("known", "") or ticked
        yield Item(row.id, text[:1].upper() + text[1:], known, unknown=UNKNOWN in said.values())


def _put(says: str, words: Said) -> str:
    """Put words into braces; braces that are in the words stay as they are."""
    parts = says.split("{")
    return parts[0] + "".join(
        words[name] + rest for name, _, rest in (part.partition("}") for part in parts[1:])
    )


def _ticked(tick: bool | date | None) -> str:
    if tick is None:
        return ""
    return (
        f"in the file: {tick}" if isinstance(tick, date) else f"in the file: {'done' if tick else 'not done'}"
    )
