"""Fix a mule: the cheapest and the cleanest set of changes that clears what trips, each step tried out."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass, replace
from datetime import date
from functools import cached_property
from pathlib import Path
from typing import Any

from mulewright.advice.fixing.allowance import Allowance, Tell, silent
from mulewright.advice.fixing.bench import NOTHING, Bench, Question
from mulewright.advice.fixing.hints import Hint, hints
from mulewright.advice.fixing.offers import Offers, Terms
from mulewright.advice.fixing.plan import Plan, Planner
from mulewright.advice.fixing.steps import Step
from mulewright.checks import CHECKS
from mulewright.checks.engine import Outcome, Severity, Verdict
from mulewright.design.merging import UNKNOWN
from mulewright.design.reading import read_text
from mulewright.design.resolve import overlaid
from mulewright.design.schema.fixing import Fix
from mulewright.design.writing import save, set_values
from mulewright.errors import DesignError, NotFound, closest
from mulewright.shelf.changes import cost_classes
from mulewright.tasks.limits import require_limits
from mulewright.tasks.opening import Opened, open_mule

JSON_SCHEMA = 1
SECONDS = 20.0  # of computing; a search ends by its sets as a rule, so that it ends the same everywhere
SETS = 600
MOST_HINTS = 4


@dataclass(frozen=True)
class Done:
    """One step of a set, with what it clears there."""

    number: int
    step: Step
    clears: tuple[Question, ...]
    beside: tuple[int, ...]  # steps without which it does not clear them
    keeps: tuple[Question, ...] = ()  # verdicts that the other steps would make worse without it

    def as_dict(self) -> dict[str, Any]:
        """For programs."""
        step = self.step
        return {
            "what": step.do,
            "path": step.path,
            "from": step.was,
            "to": _plain(step.to),
            "also": [{"path": path, "to": _plain(value)} for path, value in step.also],
            "cost": step.cost,
            "kind": step.kind,
            "clears": [f"{one.check.id} {one.entity}" for one in self.clears],
            "keeps": [f"{one.check.id} {one.entity}" for one in self.keeps],
            "with": list(self.beside),
            "then": step.change.then if step.change is not None else "",
        }


@dataclass(frozen=True)
class Cure:
    """A set of steps, what it clears, and what it leaves."""

    done: tuple[Done, ...]
    left: tuple[Question, ...]
    before: tuple[Verdict, ...]
    after: tuple[Verdict, ...]
    proven: bool

    @property
    def cost(self) -> float:
        """What all steps cost together."""
        return round(sum(one.step.cost for one in self.done), 6)

    @property
    def waived(self) -> list[str]:
        """Checks whose findings stay, and are written down as deliberate."""
        return [one.step.path.removeprefix("limits.") for one in self.done if one.step.waiver]

    @property
    def notes(self) -> list[Verdict]:
        """Findings of the lightest kind that were not there before."""
        known = {(one.check.id, one.entity) for one in self.before if one.outcome is Outcome.TRIP}
        return [
            one
            for one in self.after
            if one.outcome is Outcome.TRIP
            and (one.check.id, one.entity) not in known
            and one.check.id not in self.waived
        ]

    @property
    def asks(self) -> list[str]:
        """Inputs that somebody has to write down before all can be told again."""
        known = {(one.check.id, one.entity) for one in self.before if one.outcome is Outcome.CANNOT_TELL}
        open_ones = (one for one in self.after if one.outcome is Outcome.CANNOT_TELL)
        return sorted(
            {path for one in open_ones if (one.check.id, one.entity) not in known for path in one.needs}
        )

    def as_dict(self) -> dict[str, Any]:
        """For programs."""
        changed = _changed(self.before, self.after)
        return {
            "cost": self.cost,
            "steps": [one.as_dict() for one in self.done],
            "left": [f"{one.check.id} {one.entity}" for one in self.left],
            "waived": self.waived,
            "asks": self.asks,
            "proven": self.proven,
            "verdicts": {
                "before": [_verdict(before) for before, _ in changed if before is not None],
                "after": [_verdict(after) for _, after in changed if after is not None],
            },
        }


@dataclass(frozen=True)
class FixReport:
    """What would clear the findings of one mule."""

    opened: Opened
    where: str
    level: Severity
    allowed: frozenset[str]
    costs: dict[str, float]
    findings: tuple[Verdict, ...]
    cheapest: Cure
    cleanest: Cure
    hints: dict[Question, tuple[Hint, ...]]
    skipped: tuple[str, ...]  # parts of the shelf that could not be read
    stopped: bool = False  # by hand

    @property
    def bounded(self) -> bool:
        """Whether a limit was reached before the search was at its end."""
        return not (self.cheapest.proven and self.cleanest.proven)

    @cached_property
    def uncured(self) -> list[Verdict]:
        """Findings that no set clears, but for leaving them as they are."""
        waived = set(self.cheapest.waived)
        left = {one.id for one in self.cheapest.left} | {
            (one.check.id, one.entity) for one in self.findings if one.check.id in waived
        }
        still = {one.id for one in self.cleanest.left}
        return [one for one in self.findings if (one.check.id, one.entity) in left & still]

    def as_dict(self) -> dict[str, Any]:
        """For programs."""
        return {
            "schema": JSON_SCHEMA,
            "mule": self.opened.name,
            "level": self.level.word,
            "allowed": sorted(self.allowed),
            "costs": self.costs,
            "cheapest": self.cheapest.as_dict(),
            "cleanest": self.cleanest.as_dict(),
            "uncured": [
                _verdict(one)
                | {"hints": [hint.says for hint in self.hints.get(Question(one.check, one.entity), ())]}
                for one in self.uncured
            ],
            "skipped": list(self.skipped),
            "bounded": self.bounded,
            "stopped": self.stopped,
        }


def fix_file(
    path: str | Path,
    settings: Sequence[str] = (),
    variant: str | None = None,
    *,
    level: Severity = Severity.WARN,
    allow: Sequence[str] = (),
    seconds: float = SECONDS,
    sets: int = SETS,
    tell: Tell | None = None,
) -> FixReport:
    """Read a mule file and look for the cheapest and the cleanest set of changes that clears what trips.

    Somebody may be told how far it is. An interrupt ends the search with the best that it has found.

    Raises
    ------
    MulewrightError
        If the file cannot be read, or something is allowed that does not exist.
    """
    allowed = allowances(allow)
    opened = open_mule(path, settings, variant)
    require_limits(opened.mule.file.limits, str(path))
    loaded = opened.mule.loaded
    bench = Bench(loaded, overlaid(loaded.base, settings, variant), level)
    terms = _terms(opened.mule.file.fix, allowed)
    allowance = Allowance(sets, seconds, tell or silent)
    planner = Planner(bench, Offers(bench, terms), list(CHECKS.values()), allowance)
    cheap, clean = planner.plan(clean=False), planner.plan(clean=True)
    if clean.total < cheap.total:  # the search for the cheapest had to stop too early
        cheap = replace(clean, proven=False)
    cheapest, cleanest = _cure(planner, cheap), _cure(planner, clean)
    findings = tuple(one for one in planner.before if one.outcome is Outcome.TRIP and one.severity >= level)
    report = FixReport(
        opened, str(path), level, allowed, dict(terms.costs), findings, cheapest, cleanest, {},
        tuple(f"{part}: {no.what}" for part, no in sorted(bench.skipped.items())), allowance.stopped,
    )  # fmt: skip
    for verdict in report.uncured:
        question = Question(verdict.check, verdict.entity)
        report.hints[question] = tuple(hints(bench, question))[:MOST_HINTS]
    return report


def allowances(allow: Sequence[str]) -> frozenset[str]:
    """The kinds of change of a choice such as ``settings,wiring``; all of them where nothing is chosen."""
    known = {one.allow for one in cost_classes().values()}
    words = [word.strip().lower() for text in allow for word in text.split(",") if word.strip()]
    for word in words:
        if word not in known:
            rule = f"one or more of {', '.join(sorted(known))}"
            raise NotFound(
                f"nothing called {word!r} can be allowed", "--allow", rule, word, closest(word, known)
            )
    return frozenset(words) or frozenset(known)


def apply(report: FixReport, cure: Cure, *, laid_over: bool = False) -> tuple[list[Done], list[Done]]:
    """Write the steps of a set into the file, comments kept; the state before lies beside it.

    Records and waivers are not written: a person does the one, and gives a reason for the other.

    Returns
    -------
    written, left : list of Done
        The steps that were written, and those that are left to a person.

    Raises
    ------
    MulewrightError
        If a variant or settings lie over the file, or it cannot be written.
    """
    if laid_over:
        rule = "without --set and --variant; what they say is not in the file"
        raise DesignError("a set for another state than that of the file is not written", "--apply", rule)
    written = [one for one in cure.done if not one.step.record and not one.step.waiver]
    left = [one for one in cure.done if one not in written]
    if written:
        values: dict[str, Any] = {}
        for one in written:
            values |= dict(one.step.settings)
            if one.step.change is not None and one.step.change.then:
                values[one.step.change.then] = UNKNOWN  # what was tested is not so any more
        path = Path(report.where)
        save(path, set_values(read_text(path), values, str(path)))
    return written, left


def _terms(own: Fix, allowed: frozenset[str]) -> Terms:
    costs = {name: one.cost for name, one in cost_classes().items()}
    for name in costs:
        said = own.cost.quantity(name.replace("-", "_"))
        if said is not None:
            costs[name] = said.value
    return Terms(allowed, costs, date.today(), tuple(own.teeth or ()))


def _cure(planner: Planner, plan: Plan) -> Cure:
    steps = frozenset(plan.steps)
    cured = [one for one in planner.targets if one not in plan.left]

    def fine(question: Question, some: Collection[Step]) -> bool:
        return planner.fine(question, frozenset(some))

    needed = {step: [one for one in cured if not fine(one, steps - {step})] for step in plan.steps}
    order = sorted(
        plan.steps, key=lambda step: (-max((planner.severity[o.id] for o in needed[step]), default=0), step)
    )
    done = []
    for number, step in enumerate(order, 1):
        beside = {
            place
            for place, other in enumerate(order, 1)
            for one in needed[step]
            if other != step and one in needed[other] and not fine(one, {step})
        }
        kept = () if needed[step] else tuple(planner.made_worse(steps - {step}))
        done.append(Done(number, step, tuple(needed[step]), tuple(sorted(beside)), kept))
    return Cure(tuple(done), plan.left, tuple(planner.before), plan.after, plan.proven)


def _changed(
    before: Sequence[Verdict], after: Sequence[Verdict]
) -> list[tuple[Verdict | None, Verdict | None]]:
    """Verdicts that differ, as they were and as they are."""
    was = {(one.check.id, one.entity): one for one in before}
    now = {(one.check.id, one.entity): one for one in after}
    pairs = [(was.get(id), now.get(id)) for id in {**was, **now}]
    return [(a, b) for a, b in pairs if _state(a) != _state(b)]


def _state(verdict: Verdict | None) -> tuple[str, int]:
    if verdict is None:
        return Outcome.NOT_APPLICABLE.value, 0
    return verdict.outcome.value, int(verdict.severity) if verdict.outcome is Outcome.TRIP else 0


def _verdict(verdict: Verdict) -> dict[str, Any]:
    return {
        "check": verdict.check.id,
        "name": verdict.check.name,
        "entity": verdict.entity,
        "outcome": verdict.outcome.value,
        "severity": verdict.severity.word,
        "what": verdict.what,
    }


def _plain(value: Any) -> Any:
    return value.isoformat() if isinstance(value, date) else value


__all__ = ["NOTHING", "Cure", "Done", "FixReport", "allowances", "apply", "fix_file"]
