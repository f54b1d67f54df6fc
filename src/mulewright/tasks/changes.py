"""What changes on the target: which verdicts get worse there, and by which factors the same command does more."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from mulewright.advice.comparing import VerdictChange, changed_verdicts, compares_both, short
from mulewright.checks.engine import Check, Verdict, run
from mulewright.facts.graph import Evaluation
from mulewright.facts.handover_signals import ControllerPairFacts
from mulewright.facts.nodes import average
from mulewright.units.shown import people, percent

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
    after: str  # how it stands on the target
    between: bool  # whether its check compares both machines, so that it stands among the findings already
    verdict: Verdict  # on the target

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


def what_changes(
    evaluation: Evaluation, checks: Sequence[Check], verdicts: Sequence[Verdict]
) -> list[Change]:
    """Judge the target as well, and list what got worse; the worst first."""
    if evaluation.target is None:
        return []
    there = run(evaluation.target, [rule for rule in checks if not compares_both(rule)])
    return [_change(one) for one in changed_verdicts(verdicts, there) if one.rises]


def _change(one: VerdictChange) -> Change:
    assert one.after is not None
    return Change(short(one.was), short(one.now), one.between, one.after)


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
