"""Which verdicts differ between a mule and its target, or between two states of one mule?"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from enum import StrEnum

from mulewright.checks.engine import Check, Outcome, Severity, Verdict
from mulewright.facts.handover import HandoverFacts

ABSENT = "absent"  # one side has no such thing
TRIP = "trip-"
NEUTRAL = (ABSENT, Outcome.NOT_APPLICABLE.value)
RANKS = dict.fromkeys((*NEUTRAL, Outcome.PASS.value), 0) | {
    Outcome.CANNOT_TELL.value: 1,
    **{f"{TRIP}{severity.word}": 1 + severity for severity in Severity},
}


class Turn(StrEnum):
    """Which way a verdict went."""

    WORSE = "worse"  # it trips, and did not or was less severe
    UNKNOWN = "newly-unknown"
    BETTER = "better"  # it tripped, and does not or is less severe
    GONE = "gone"  # it tripped, and the thing that it is about is no longer there
    SETTLED = "settled"  # it could not be told, and passes
    OTHER = "other"  # a thing came or went, or a reason not to apply did


@dataclass(frozen=True)
class VerdictChange:
    """A verdict that is not the same on both sides."""

    check: Check
    entity: str
    was: str  # "pass", "cannot-tell", "not-applicable", "absent", "trip-stop", ...
    now: str
    before: Verdict | None
    after: Verdict | None

    @property
    def turn(self) -> Turn:
        """Which way it went."""
        if self.now == Outcome.CANNOT_TELL:
            return Turn.UNKNOWN
        if RANKS[self.now] > RANKS[self.was]:
            return Turn.WORSE
        if self.was.startswith(TRIP):
            return Turn.GONE if self.now == ABSENT else Turn.BETTER
        settled = (self.was, self.now) == (Outcome.CANNOT_TELL, Outcome.PASS)
        return Turn.SETTLED if settled else Turn.OTHER

    @property
    def rises(self) -> bool:
        """Whether it is now worse, counting what cannot be told as worse than what passes."""
        return RANKS[self.now] > RANKS[self.was]

    @property
    def between(self) -> bool:
        """Whether its check is about both machines together."""
        return compares_both(self.check)


def compares_both(rule: Check) -> bool:
    """Whether a check is about the mule beside its target."""
    return issubclass(rule.on, HandoverFacts)


def standing(verdict: Verdict | None) -> str:
    """Say how a verdict stands: ``trip-`` and its severity, or its outcome, or that there is none."""
    if verdict is None:
        return ABSENT
    return f"{TRIP}{verdict.severity.word}" if verdict.outcome is Outcome.TRIP else verdict.outcome.value


def short(word: str) -> str:
    """How a verdict stands, for people: the severity alone where it tripped."""
    return word.removeprefix(TRIP)


def changed_verdicts(before: Iterable[Verdict], after: Iterable[Verdict]) -> list[VerdictChange]:
    """Lay two lists of verdicts side by side, the worst first.

    Verdicts about both machines together count as the target's: without a target they do not apply.
    """
    here = {(one.check.id, one.entity): one for one in before}
    there = {(one.check.id, one.entity): one for one in after}
    found = []
    for key in dict.fromkeys((*here, *there)):
        was, now = here.get(key), there.get(key)
        either = was or now
        assert either is not None
        if compares_both(either.check):
            was, now = None, either
            words = Outcome.NOT_APPLICABLE.value, standing(now)
        else:
            words = standing(was), standing(now)
        if words[0] != words[1] and not set(words) <= set(NEUTRAL):
            found.append(VerdictChange(either.check, either.entity, *words, was, now))
    return sorted(found, key=_order)


def _order(one: VerdictChange) -> tuple[int, int, str, str]:
    worst = max(RANKS[one.was], RANKS[one.now]) if one.turn in (Turn.BETTER, Turn.GONE) else RANKS[one.now]
    return list(Turn).index(one.turn), -worst, one.check.id, one.entity
