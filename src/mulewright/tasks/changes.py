"""What changes on the target: which verdicts get worse there, and by which factors the same command does more."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from mulewright.checks.engine import Check, Outcome, Verdict, run
from mulewright.facts.graph import Evaluation, average
from mulewright.facts.handover import HandoverFacts
from mulewright.facts.handover_signals import ControllerPairFacts
from mulewright.units.shown import people, percent

RANKS = {
    word: rank
    for rank, words in enumerate(
        (("absent", "not-applicable", "pass"), ("cannot-tell",), ("note",), ("warn",), ("stop",), ("block",))
    )
    for word in words
}
FACTORS = {
    "range": "duty_factor",
    "speed": "speed_factor",
    "energy": "moving_factor",
    "battery current held fast": "stall_factor",
}


@dataclass(frozen=True)
class Change:
    """A verdict that is worse on the target than on the mule."""

    before: str  # a severity, or an outcome, or absent where the mule has no such thing
    verdict: Verdict  # on the target

    @property
    def after(self) -> str:
        """How it stands on the target."""
        return standing(self.verdict)

    @property
    def between(self) -> bool:
        """Whether its check compares both machines, so that it stands among the findings already."""
        return compares_both(self.verdict.check)

    def as_dict(self) -> dict[str, str]:
        """The change for programs."""
        return {
            "check": self.verdict.check.id,
            "entity": self.verdict.entity,
            "mule": self.before,
            "target": self.after,
        }


@dataclass(frozen=True)
class Factors:
    """Controllers for which the target multiplies alike: factors from mule to target, in words."""

    controllers: tuple[str, ...]
    words: tuple[str, ...]
    first_output: str


def compares_both(rule: Check) -> bool:
    """Whether a check is about the mule beside its target."""
    return issubclass(rule.on, HandoverFacts)


def standing(verdict: Verdict) -> str:
    """Say how a verdict stands: its severity where it tripped, else its outcome."""
    return verdict.severity.word if verdict.outcome is Outcome.TRIP else verdict.outcome.value


def what_changes(
    evaluation: Evaluation, checks: Sequence[Check], verdicts: Sequence[Verdict]
) -> list[Change]:
    """Judge the target as well, and list what got worse; the worst first."""
    if evaluation.target is None:
        return []
    here = {(one.check.id, one.entity): standing(one) for one in verdicts}
    both = [one for one in verdicts if compares_both(one.check)]
    there = run(evaluation.target, [rule for rule in checks if not compares_both(rule)])
    found = [Change(Outcome.NOT_APPLICABLE.value, one) for one in both]
    found += [Change(here.get((one.check.id, one.entity), "absent"), one) for one in there]
    worse = [one for one in found if RANKS[one.after] > RANKS[one.before]]
    return sorted(worse, key=lambda one: (-RANKS[one.after], one.verdict.check.id, one.verdict.entity))


def factors(evaluation: Evaluation) -> list[Factors]:
    """The factors of every controller for which they are known, equal ones together."""
    alike: dict[tuple[tuple[str, ...], str], list[str]] = {}
    for pair in ControllerPairFacts.all(evaluation):
        nodes = {label: pair.node(name) for label, name in FACTORS.items()}
        first = pair.node("first_output")
        if first.known and all(node.known for node in nodes.values()):
            words = (f"{label} x {people(average(node.value), '1')}" for label, node in nodes.items())
            alike.setdefault((tuple(words), percent(average(first.value))), []).append(pair.id)
    return [Factors(tuple(names), words, first) for (words, first), names in alike.items()]
