"""What does a symptom come from on this mule, and which test tells most about it per minute?"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from enum import StrEnum

import numpy as np
from numpy.typing import NDArray

from mulewright.checks import CHECKS
from mulewright.checks.engine import Outcome, Verdict, run
from mulewright.facts.graph import Evaluation
from mulewright.shelf.symptoms import BenchSymptom, BenchTest, Cause, belief

NO_CHECK = "no check computes it"


class Reply(StrEnum):
    """What a test said."""

    YES = "y"
    NO = "n"
    UNKNOWN = "?"


@dataclass(frozen=True)
class Suspect:
    """A cause that may be, what the mule file says about it, and what to do about it."""

    cause: Cause
    weight: float  # its share times what the file says
    because: str
    verdict: Verdict | None

    @property
    def do(self) -> str:
        """The remedy: that of its check where the table gives none."""
        if self.cause.do or not self.cause.checks:
            return self.cause.do
        return (self.verdict.check if self.verdict else CHECKS[self.cause.checks[0]]).fixes[0]


@dataclass(frozen=True)
class Dropped:
    """A cause that cannot be on this mule, with the reason."""

    cause: Cause
    reason: str


@dataclass(frozen=True)
class Step:
    """A test that was answered, and which cause led after that."""

    test: BenchTest
    reply: Reply
    leads: Suspect
    probability: float


@dataclass(frozen=True)
class Suspicion:
    """The causes of one symptom on one mule, before any test."""

    symptom: BenchSymptom
    suspects: tuple[Suspect, ...]
    dropped: tuple[Dropped, ...]


@dataclass(frozen=True)
class Diagnosis:
    """What is believed after some tests."""

    suspicion: Suspicion
    ranked: tuple[tuple[Suspect, float], ...]  # each with its probability, the likeliest first
    trail: tuple[Step, ...]
    next_test: BenchTest | None


def suspect(
    evaluation: Evaluation, symptom: BenchSymptom, about: Iterable[str] = (), verdicts: Iterable[Verdict] = ()
) -> Suspicion:
    """Weigh the causes of a symptom by what the checks say about a mule.

    Parameters
    ----------
    evaluation : Evaluation
        The mule.
    symptom : BenchSymptom
        What is seen.
    about : iterable of str, optional
        Ids of the things that were named; verdicts on these count alone, where there are some.
    verdicts : iterable of Verdict, optional
        What the checks said, where it is known already.

    Returns
    -------
    suspicion : Suspicion
        Causes that may be, and causes that cannot.
    """
    asked = sorted({id for cause in symptom.causes for id in (*cause.checks, *cause.where)})
    found: dict[str, list[Verdict]] = {id: [] for id in asked}
    for verdict in verdicts or run(evaluation, (CHECKS[id] for id in asked)):
        if verdict.check.id in found:
            found[verdict.check.id].append(verdict)
    named = set(about)
    for id, some in found.items():
        found[id] = [one for one in some if one.entity in named] or some
    suspects, dropped = [], []
    for cause, share in symptom.causes.items():
        reason = _excluded(cause, found)
        if reason:
            dropped.append(Dropped(cause, reason))
        else:
            suspects.append(_weighed(cause, share, [one for id in cause.checks for one in found[id]]))
    return Suspicion(symptom, tuple(suspects), tuple(dropped))


def diagnose(suspicion: Suspicion, replies: Sequence[Reply]) -> Diagnosis:
    """Ask test after test, each time the one that tells most per minute, and take the replies one by one.

    Parameters
    ----------
    suspicion : Suspicion
        The causes before any test.
    replies : sequence of Reply
        The answers so far; those for which no test is left are not used.

    Returns
    -------
    diagnosis : Diagnosis
        The causes as they stand then, the trail, and the next test.
    """
    suspects = suspicion.suspects
    if not suspects:
        return Diagnosis(suspicion, (), (), None)
    weights = np.array([one.weight for one in suspects])
    chances, trail = weights / weights.sum(), list[Step]()
    left = list(suspicion.symptom.tests)
    test = _best(left, suspects, chances)
    for reply in replies:
        if test is None:
            break
        chances = _updated(test, suspects, chances, reply)
        first = int(np.argmax(chances))
        trail.append(Step(test, reply, suspects[first], float(chances[first])))
        left.remove(test)
        test = _best(left, suspects, chances)
    order = np.argsort(-chances, kind="stable")
    ranked = tuple((suspects[place], float(chances[place])) for place in order)
    return Diagnosis(suspicion, ranked, tuple(trail), test)


def _excluded(cause: Cause, verdicts: Mapping[str, Sequence[Verdict]]) -> str:
    """The reason why a cause cannot be on this mule; empty where it can."""
    for ids in (cause.checks, cause.where):
        some = [one for id in ids for one in verdicts[id]]
        if some and all(one.outcome is Outcome.NOT_APPLICABLE for one in some):
            return some[0].what
    return ""


def _weighed(cause: Cause, share: float, verdicts: Sequence[Verdict]) -> Suspect:
    by_outcome = {
        outcome: [one for one in verdicts if one.outcome is outcome]
        for outcome in (Outcome.TRIP, Outcome.CANNOT_TELL, Outcome.PASS)
    }
    factors = {Outcome.TRIP: belief().trips, Outcome.CANNOT_TELL: 1.0, Outcome.PASS: belief().passes}
    for outcome, some in by_outcome.items():
        if some:
            telling = max(some, key=lambda one: one.severity)
            return Suspect(cause, share * factors[outcome], _because(telling), telling)
    return Suspect(cause, share, NO_CHECK, None)


def _because(verdict: Verdict) -> str:
    rule = f"{verdict.check.id} {verdict.check.name}"
    if verdict.outcome is Outcome.PASS:
        return f"{rule} passes"
    word = "trips" if verdict.outcome is Outcome.TRIP else "is open"
    return f"{rule} {word}: {verdict.what}"


def _yes(test: BenchTest, suspects: Sequence[Suspect]) -> NDArray[np.float64]:
    """How likely each cause has the test answered yes; a half where the test says nothing of it."""
    right = test.reliability
    return np.array(
        [
            right if one.cause.id in test.yes else 1 - right if one.cause.id in test.no else 0.5
            for one in suspects
        ]
    )


def _updated(
    test: BenchTest, suspects: Sequence[Suspect], chances: NDArray[np.float64], reply: Reply
) -> NDArray[np.float64]:
    """Bayes' rule for one answer; one that nobody knows changes nothing."""
    if reply is Reply.UNKNOWN:
        return chances
    yes = _yes(test, suspects)
    told = chances * (yes if reply is Reply.YES else 1 - yes)
    return np.asarray(told / told.sum())


def _best(
    left: Sequence[BenchTest], suspects: Sequence[Suspect], chances: NDArray[np.float64]
) -> BenchTest | None:
    """The test that tells most per minute, among those that tell enough."""
    worth = [(test, _bits(test, suspects, chances)) for test in left]
    able = [(test, bits) for test, bits in worth if bits >= belief().least_bits]
    return max(able, key=lambda one: one[1] / one[0].minutes)[0] if able else None


def _bits(test: BenchTest, suspects: Sequence[Suspect], chances: NDArray[np.float64]) -> float:
    """How much a test lowers the entropy over the causes on average. [bit]."""
    yes = _yes(test, suspects)
    told = float(chances @ yes)
    return _entropy(told) - float(chances @ np.array([_entropy(one) for one in yes]))


def _entropy(chance: float) -> float:
    """Entropy of yes and no. [bit]."""
    return float(-sum(one * np.log2(one) for one in (chance, 1 - chance) if one > 0))
