"""How is a check stated and run? A check compares facts with limits; it holds no physics and no input or output."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from enum import IntEnum, StrEnum
from functools import cached_property, reduce
from typing import Any, TypeVar

import numpy as np
from numpy.typing import NDArray

from mulewright.checks.symptoms import Symptom
from mulewright.checks.wording import how, say
from mulewright.design.schema.people import LimitSetting
from mulewright.facts.graph import Evaluation, Facts
from mulewright.facts.nodes import Node, Value, average, trouble
from mulewright.units.quantity import Origin, Quantity, read_quantity


class Severity(IntEnum):
    """What a finding means for the person at the bench."""

    NOTE = 1  # must be recorded
    WARN = 2  # works worse than one thinks
    STOP = 3  # may be powered; do not drive, or do not use that function
    BLOCK = 4  # do not connect the battery

    @property
    def word(self) -> str:
        """As people and programs read it."""
        return self.name.lower()


class Outcome(StrEnum):
    """The four answers of a check."""

    TRIP = "trip"
    PASS = "pass"  # noqa: S105
    CANNOT_TELL = "cannot-tell"
    NOT_APPLICABLE = "not-applicable"


@dataclass(frozen=True)
class Limit:
    """Where a check trips: a default that the mule file may override, with the reason for the default."""

    text: str | float
    kind: str
    mark: str  # "published", "common practice", "judgement", "from memory"
    source: str = "common practice, no source"

    @cached_property
    def quantity(self) -> Quantity:
        """The default in SI."""
        return read_quantity(self.text, self.kind)


@dataclass(frozen=True)
class Limits:
    """The limits of one check in one mule: by severity, in SI."""

    by_level: Mapping[Severity, float]
    deliberate: bool = False
    because: str = ""
    also: Mapping[str, float] = field(default_factory=dict)  # of further conditions, by name

    def __getitem__(self, level: Severity) -> float:
        return self.by_level[level]


@dataclass(frozen=True)
class Comparison:
    """A value against one limit for each severity; ``sign`` is +1 where it trips above.

    ``also`` must trip as well; of the ``others`` one is enough, and then it gives the number and the words.
    """

    value: Value
    levels: Mapping[Severity, Value]
    sign: int
    what: str
    words: Mapping[str, Any] = field(default_factory=dict)
    also: tuple[Comparison, ...] = ()
    others: tuple[Comparison, ...] = ()

    def alone(self, level: Severity) -> NDArray[np.bool_]:
        """Where it trips at a severity by itself, without the others."""
        tripped = self.sign * self.value > self.sign * self.levels[level]
        for second in self.also:
            (only,) = second.levels
            tripped = tripped & second.alone(only)
        return np.asarray(tripped)

    def tripped(self, level: Severity) -> NDArray[np.bool_]:
        """In which of the draws it, or one of the others, trips at a severity."""
        tripped = np.asarray(False)
        for one in (self, *self.others):
            if level in one.levels:
                tripped = tripped | one.alone(level)
        return np.asarray(tripped)

    def telling(self, level: Severity) -> Comparison:
        """The one of the comparisons that trips most often at a severity."""
        able = [one for one in (self, *self.others) if level in one.levels]
        return max(able, key=lambda one: average(one.alone(level)))


@dataclass(frozen=True)
class NotApplicable:
    """The check means nothing here, for a reason that was found on the mule."""

    reason: str


Answer = Comparison | NotApplicable


def above(value: Value, limits: Limits | Mapping[Severity, Any], what: str, **words: Any) -> Comparison:
    """Trip where the value is above a limit; the severest limit passed counts."""
    return Comparison(value, _levels(limits), 1, what, words)


def below(value: Value, limits: Limits | Mapping[Severity, Any], what: str, **words: Any) -> Comparison:
    """Trip where the value is below a limit."""
    return Comparison(value, _levels(limits), -1, what, words)


def flagged(value: Value, severity: Severity, what: str, **words: Any) -> Comparison:
    """Trip where a yes/no fact is yes."""
    return above(value, {severity: 0.5}, what, **words)


def lacking(value: Value, severity: Severity, what: str, **words: Any) -> Comparison:
    """Trip where a yes/no fact is no."""
    return below(value, {severity: 0.5}, what, **words)


def together(first: Comparison, *others: Comparison) -> Comparison:
    """Trip where all of them trip; the first one gives the numbers and the words."""
    return Comparison(first.value, first.levels, first.sign, first.what, first.words, others)


def either(first: Comparison, *others: Comparison) -> Comparison:
    """Trip where at least one of them trips; the severest that trips gives the numbers and the words."""
    return replace(first, others=others)


def _levels(limits: Limits | Mapping[Severity, Any]) -> dict[Severity, Value]:
    levels = limits.by_level if isinstance(limits, Limits) else limits
    return {level: np.asarray(limit, dtype=float) for level, limit in levels.items()}


@dataclass(frozen=True)
class Example:
    """A small edit of a shipped design, and what the check then says about one entity."""

    design: str
    outcome: Outcome
    entity: str
    sets: tuple[str, ...] = ()
    severity: Severity | None = None
    variant: str | None = None
    target: str | None = None  # another shipped file, as folder/file, that is handed over to


@dataclass(frozen=True)
class Flip:
    """One input whose change flips the verdict: the test moves it and compares with the stated limit."""

    design: str
    entity: str
    path: str
    start: str
    stop: str
    sets: tuple[str, ...] = ()
    target: str | None = None


@dataclass(frozen=True)
class Check:
    """One check of the catalogue."""

    id: str
    name: str
    severity: Severity
    on: type[Facts]
    why: str
    seen: str
    judge: Callable[[Any, Limits], Answer]
    fixes: tuple[str, ...]
    levers: tuple[str, ...]
    limits: Mapping[Severity, Limit]
    also: Mapping[str, Limit]
    follows: tuple[str, ...]
    examples: tuple[Example, ...]
    flips: tuple[Flip, ...]
    symptom: Symptom
    relief: bool = False  # it explains why something else does no harm
    status: str = "preview"
    since: str = "0.1"

    @property
    def page(self) -> str:
        """Its docstring: what, how it is worked out, what is not covered, source."""
        return self.judge.__doc__ or ""

    @property
    def compares(self) -> str:
        """The first sentence of its page."""
        return self.page.partition("\n")[0]


REGISTRY: dict[str, Check] = {}
E = TypeVar("E", bound=Facts)


def check(
    id: str,
    *,
    on: type[E],
    severity: Severity,
    why: str,
    fixes: Sequence[str],
    seen: str,
    symptom: Symptom = Symptom.NOTHING,
    relief: bool = False,
    levers: Sequence[str] = (),
    limits: Mapping[Severity, Limit] | Limit | None = None,
    also: Mapping[str, Limit] | None = None,
    follows: Sequence[str] = (),
    examples: Sequence[Example] = (),
    flips: Sequence[Flip] = (),
) -> Callable[[Callable[[E, Limits], Answer]], Callable[[E, Limits], Answer]]:
    """Register a check; its name is the function's, its page the function's docstring.

    ``also`` holds the limits of further conditions, by a name for each. ``seen`` is what a person notices at the
    bench, in the words in which they would look it up; ``symptom`` is the kind of trouble under which it is
    listed. A ``relief`` asks for no cure, and stands last.
    """
    if isinstance(limits, Limit):
        limits = {severity: limits}

    def register(judge: Callable[[E, Limits], Answer]) -> Callable[[E, Limits], Answer]:
        assert id not in REGISTRY, id
        name = judge.__name__.replace("_", "-")
        REGISTRY[id] = Check(
            id, name, severity, on, why, seen, judge, tuple(fixes), tuple(levers), limits or {}, also or {},
            tuple(follows), tuple(examples), tuple(flips), symptom, relief,
        )  # fmt: skip
        return judge

    return register


@dataclass(frozen=True)
class Verdict:
    """What a check says about one entity; its sentences are written when somebody reads them."""

    check: Check
    entity: str
    outcome: Outcome
    severity: Severity
    says: str = ""
    comparison: Comparison | None = field(default=None, repr=False)
    reads: tuple[Node, ...] = field(default=(), repr=False)
    needs: tuple[str, ...] = ()
    share: float | None = None  # of the draws in which it trips
    tripped: NDArray[np.bool_] | None = field(
        default=None, repr=False, compare=False
    )  # in which of the draws

    @property
    def value(self) -> float | None:
        """What was compared, in SI."""
        return _number(self.comparison.value) if self.comparison else None

    @property
    def limit(self) -> float | None:
        """The limit that counts at its severity, in SI."""
        return _number(self._limit) if self.comparison else None

    @property
    def unit(self) -> str:
        """The SI unit of value and limit; empty where nothing was compared."""
        if self.comparison is None:
            return ""
        return self.node.unit if self.node else "1"

    @cached_property
    def node(self) -> Node | None:
        """The fact that was compared."""
        if self.comparison is None:
            return None
        value = self.comparison.value
        return next((node for node in self.reads if node.value is value), None)

    @cached_property
    def what(self) -> str:
        """The sentence that says what was found."""
        if self.comparison is None:
            return self.says
        one = self.comparison
        return say(one.what, one.words, one.value, self._limit, self.node, self.reads) + self.says

    @cached_property
    def how(self) -> str:
        """The step behind the number, with its numbers."""
        return how(self.node) if self.node else ""

    @cached_property
    def origin(self) -> Origin:
        """The weakest origin of what it rests on."""
        return max((read.origin for read in self.reads), default=Origin.EXACT)

    @property
    def _limit(self) -> Value:
        assert self.comparison is not None
        levels = self.comparison.levels
        return levels[self.severity if self.severity in levels else min(levels)]


def limits_of(rule: Check, setting: LimitSetting | None) -> Limits:
    """The limits of a check, with what the mule file overrides."""
    found = {level: limit.quantity.value for level, limit in rule.limits.items()}
    also = {name: limit.quantity.value for name, limit in rule.also.items()}
    if setting is None:
        return Limits(found, also=also)
    for level, limit in rule.limits.items():
        text = getattr(setting, level.word) if getattr(setting, level.word) is not None else setting.limit
        if text is not None:
            found[level] = read_quantity(text, limit.kind).value
    for name, text in setting.also.items():
        also[name] = read_quantity(text, rule.also[name].kind).value
    return Limits(found, bool(setting.deliberate), setting.because or "", also)


def run(evaluation: Evaluation, checks: Iterable[Check]) -> list[Verdict]:
    """Judge every entity that each check is about."""
    settings = evaluation.mule.file.limits
    return [verdict for rule in checks for verdict in run_one(evaluation, rule, settings.get(rule.id))]


def run_one(evaluation: Evaluation, rule: Check, setting: LimitSetting | None) -> list[Verdict]:
    """Judge every entity that one check is about, with limits set as somebody wants them."""
    limits = limits_of(rule, setting)
    judged = [judge(rule, entity, limits) for entity in evaluation.all(rule.on)]
    unsaid = set(rule.on.open_ends(evaluation))
    if unsaid.difference(*(verdict.needs for verdict in judged)):  # there may be further things of its kind
        judged.append(_unknown(rule, "", unsaid))
    elif not judged:
        none = rule.on.absent(evaluation)
        judged.append(Verdict(rule, "", Outcome.NOT_APPLICABLE, rule.severity, none))
    return judged


def judge(rule: Check, entity: Facts, limits: Limits) -> Verdict:
    """Ask one check about one entity."""
    answer: Answer | None = None
    with entity.evaluation.watch() as seen:
        answer = rule.judge(entity, limits)
    if seen.gaps or answer is None:
        return _unknown(rule, entity.id, seen.gaps, trouble(seen.reads))
    if isinstance(answer, NotApplicable):
        return Verdict(rule, entity.id, Outcome.NOT_APPLICABLE, rule.severity, answer.reason)
    return _compared(rule, entity, answer, limits, seen.reads)


def _unknown(rule: Check, entity: str, gaps: Iterable[str], why: str = "") -> Verdict:
    needs = tuple(sorted(gaps))
    says = f"Cannot tell: {why or 'needs ' + ', '.join(needs)}."
    return Verdict(rule, entity, Outcome.CANNOT_TELL, rule.severity, says, needs=needs)


def _compared(rule: Check, entity: Facts, answer: Comparison, limits: Limits, reads: list[Node]) -> Verdict:
    levels = {level for one in (answer, *answer.others) for level in one.levels}
    tripped = {level: answer.tripped(level) for level in sorted(levels, reverse=True)}
    shares = {level: average(draws) for level, draws in tripped.items()}
    severity = next((level for level, share in shares.items() if share >= 0.5), None)
    telling = answer.telling(severity) if severity and answer.others else answer
    outcome = Outcome.TRIP if severity else Outcome.PASS
    shown, says = severity or min(telling.levels), ""
    if severity and limits.deliberate:
        shown, says = Severity.NOTE, f" Recorded as deliberate: {limits.because or 'no reason given'}."
    return Verdict(
        rule,
        entity.id,
        outcome,
        shown,
        says,
        telling,
        tuple(reads),
        share=max(shares.values()),
        tripped=reduce(np.logical_or, tripped.values()),
    )


def _number(value: Value) -> float | None:
    number = average(value)
    return number if np.isfinite(number) else None
