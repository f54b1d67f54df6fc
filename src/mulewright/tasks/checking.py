"""Check a mule: every verdict, the worst first, and which single inputs would settle most of what is unknown."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path
from typing import Any

from mulewright.advice.cautions import cautions
from mulewright.advice.draws import uncertain, with_shares
from mulewright.checks import CHECKS
from mulewright.checks.engine import Check, Outcome, Severity, Verdict, run
from mulewright.errors import NotFound, closest
from mulewright.tasks.chains import Chain, chains_of
from mulewright.tasks.changes import Change, what_changes
from mulewright.tasks.limits import require_limits
from mulewright.tasks.opening import NO_TARGET, Opened, TargetFile, open_mule

JSON_SCHEMA = 1


@dataclass(frozen=True)
class CheckReport:
    """Everything that the checks said about one mule."""

    opened: Opened
    where: str
    verdicts: tuple[Verdict, ...]
    chains: tuple[Chain, ...] = ()
    changes: tuple[Change, ...] = ()  # verdicts that are worse on the target

    def of(self, outcome: Outcome) -> list[Verdict]:
        """The verdicts with one outcome, the severest first."""
        found = [verdict for verdict in self.verdicts if verdict.outcome is outcome]
        return sorted(found, key=lambda verdict: -verdict.severity)

    @cached_property
    def _tripped(self) -> dict[str, Severity]:
        """How severely each check tripped, at its worst."""
        return {verdict.check.id: verdict.severity for verdict in reversed(self.of(Outcome.TRIP))}

    def roots(self, verdict: Verdict) -> list[str]:
        """Checks that tripped no less severely, and of which this finding is a consequence."""
        return [root for root in verdict.check.follows if self._tripped.get(root, 0) >= verdict.severity]

    @property
    def doubtful(self) -> list[Verdict]:
        """Verdicts that pass as typed, and trip in some of the draws; the likeliest first."""
        return sorted((one for one in self.of(Outcome.PASS) if one.share), key=lambda one: -(one.share or 0))

    @property
    def uncertain(self) -> list[str]:
        """Paths of the inputs that were drawn."""
        return list(uncertain(self.opened.evaluation))

    def worst(self, most: int) -> list[Verdict]:
        """The first finding of each of the severest checks that tripped, without those that follow from another.

        Of equal severity, what only explains why something does no harm comes last.
        """
        first: dict[str, Verdict] = {}
        for verdict in sorted(self.of(Outcome.TRIP), key=lambda one: (-one.severity, one.check.relief)):
            if not self.roots(verdict):
                first.setdefault(verdict.check.id, verdict)
        return list(first.values())[:most]

    @property
    def counts(self) -> dict[str, int]:
        """How many verdicts of each outcome, and how many findings of each severity."""
        found = {outcome.value: len(self.of(outcome)) for outcome in Outcome}
        tripped = Counter(verdict.severity for verdict in self.of(Outcome.TRIP))
        return found | {severity.word: tripped[severity] for severity in sorted(Severity, reverse=True)}

    @property
    def settling(self) -> list[tuple[str, list[str]]]:
        """Missing inputs with the checks that each alone would settle, the most useful first."""
        single: dict[str, set[str]] = {}
        for verdict in self.of(Outcome.CANNOT_TELL):
            if len(verdict.needs) == 1:
                single.setdefault(verdict.needs[0], set()).add(verdict.check.id)
        return sorted(
            ((path, sorted(ids)) for path, ids in single.items()), key=lambda item: (-len(item[1]), item[0])
        )

    @property
    def cautions(self) -> list[str]:
        """The usual cautions."""
        return cautions(self.opened.mule)

    def fails(self, level: Severity, unknown_level: Severity | None = None) -> bool:
        """Whether something tripped at a level or above, here or on the target, or could not be told."""
        every = [*self.verdicts, *(change.verdict for change in self.changes)]
        least = {Outcome.TRIP: level, Outcome.CANNOT_TELL: unknown_level}
        return any(
            (wanted := least.get(verdict.outcome)) is not None and verdict.severity >= wanted
            for verdict in every
        )

    def as_dict(self) -> dict[str, Any]:
        """The report for programs; numbers in SI, each with its unit."""
        found = {
            "schema": JSON_SCHEMA,
            "mule": self.opened.name,
            "verdicts": [verdict_as_dict(verdict) for verdict in self.verdicts],
            "counts": self.counts,
            "chains": [chain.as_dict() for chain in self.chains],
            "cautions": self.cautions,
        }
        if self.opened.evaluation.target is not None:
            found["changes"] = [change.as_dict() for change in self.changes]
        return found


def verdict_as_dict(verdict: Verdict) -> dict[str, Any]:
    """One verdict for programs."""
    return {
        "check": verdict.check.id,
        "name": verdict.check.name,
        "entity": verdict.entity,
        "outcome": verdict.outcome.value,
        "severity": verdict.severity.word,
        "value": verdict.value,
        "limit": verdict.limit,
        "unit": verdict.unit,
        "what": verdict.what,
        "why": verdict.check.why,
        "how": verdict.how,
        "fixes": list(verdict.check.fixes) if verdict.outcome is Outcome.TRIP else [],
        "needs": list(verdict.needs),
        "origin": verdict.origin.word,
        "share": verdict.share,
    }


def check_file(
    path: str | Path,
    settings: Sequence[str] = (),
    variant: str | None = None,
    only: Sequence[str] = (),
    target: TargetFile = NO_TARGET,
) -> CheckReport:
    """Read a mule file and judge it, beside its target if one is given.

    What gives first in each function is left out where checks were chosen.

    Raises
    ------
    MulewrightError
        If the file cannot be read, or ``only`` names a check that does not exist.
    """
    wanted = chosen(only)
    opened = open_mule(path, settings, variant, target)
    require_limits(opened.mule.file.limits, str(path))
    if (to_come := opened.evaluation.target) is not None:
        require_limits(to_come.mule.file.limits, str(target.path))
    verdicts = with_shares(opened.evaluation, run(opened.evaluation, wanted))
    chains = () if only else chains_of(opened.evaluation)
    changes = what_changes(opened.evaluation, wanted, verdicts)
    return CheckReport(opened, str(path), tuple(sorted(verdicts, key=_order)), chains, tuple(changes))


def chosen(only: Sequence[str]) -> list[Check]:
    """The checks of a choice such as ``S01,P``; all of them where nothing is chosen."""
    words = [word.strip().upper() for text in only for word in text.split(",") if word.strip()]
    for word in words:
        if word not in CHECKS and not (len(word) == 1 and any(id.startswith(word) for id in CHECKS)):
            rule = "the id of a check, such as S01, or the letter of a family"
            raise NotFound(f"no check is called {word!r}", "--only", rule, word, closest(word, CHECKS))
    return [rule for id, rule in CHECKS.items() if not words or id in words or id[0] in words]


def _order(verdict: Verdict) -> tuple[int, int, str, str]:
    outcomes = [Outcome.TRIP, Outcome.CANNOT_TELL, Outcome.PASS, Outcome.NOT_APPLICABLE]
    return outcomes.index(verdict.outcome), -verdict.severity, verdict.check.id, verdict.entity
