"""Does a set of steps clear a finding? A bench that tries sets of steps on the facts, each once."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass, replace
from functools import cached_property
from math import isclose
from typing import Any

import numpy as np
from numpy.typing import NDArray

from mulewright.advice.fixing.states import Remembered, State, States, Steps
from mulewright.advice.fixing.steps import Step
from mulewright.checks.engine import (
    Check,
    Comparison,
    Limits,
    NotApplicable,
    Severity,
    Verdict,
    limits_of,
    run,
    run_one,
)
from mulewright.design.merging import Raw, put
from mulewright.design.mule import Mule, link
from mulewright.design.paths import parse_path
from mulewright.design.reads import READING
from mulewright.design.resolve import Loaded, build
from mulewright.errors import MulewrightError
from mulewright.facts.graph import Evaluation, Facts

MARGIN = 0.005  # of the limit, by which a number that was set has to be past it
MOST_PARTS = 13  # into which a scan is split where models refuse some of its values
UNKNOWN = -1  # stands for the severity of what cannot be told
NOTHING: Steps = frozenset()


@dataclass(frozen=True, eq=False)
class Question:
    """One check about one thing."""

    check: Check
    entity: str

    @cached_property
    def id(self) -> tuple[str, str]:
        """By which it is known."""
        return self.check.id, self.entity

    def __hash__(self) -> int:
        return self._hash

    @cached_property
    def _hash(self) -> int:
        return hash(self.id)

    def __eq__(self, other: object) -> bool:
        return self is other or (isinstance(other, Question) and self.id == other.id)

    def __str__(self) -> str:
        return f"{self.check.id} {self.entity}"

    def __lt__(self, other: Question) -> bool:
        return self.id < other.id


@dataclass(frozen=True)
class Standing:
    """How a question stands: the severity at which it trips, and how far it is past its limit, over the larger."""

    severity: NDArray[np.int_]
    excess: NDArray[np.float64]

    def at(self, place: int) -> Standing:
        """How it stands at one place of a scan."""
        one = self.severity.flat[min(place, self.severity.size - 1)]
        return Standing(np.asarray(one), np.asarray(self.excess.flat[min(place, self.excess.size - 1)]))

    def clear(self, level: int, margin: float = 0.0) -> NDArray[np.bool_]:
        """Whether nothing trips at a level, and nothing is nearer to its limit than a margin."""
        return np.asarray((self.severity >= 0) & (self.severity < level) & (self.excess <= -margin))

    def same(self, other: Standing) -> bool:
        """Whether two single standings are alike."""
        return bool(self.severity == other.severity) and isclose(self.excess, other.excess, abs_tol=1e-8)


GONE = Standing(np.asarray(0), np.asarray(-1.0))
NOT_KNOWN = Standing(np.asarray(UNKNOWN), np.asarray(np.inf))


class Bench:
    """The mule of one file, on which sets of steps are tried.

    Parameters
    ----------
    loaded : Loaded
        The file.
    raw : Raw
        What it says, with a variant and settings, before its parts are filled in.
    level : Severity
        From which severity on a finding counts.
    """

    def __init__(self, loaded: Loaded, raw: Raw, level: Severity) -> None:
        self.loaded = loaded
        self.raw = raw
        self.level = level
        self.mule = link(loaded)
        self.states = States(loaded, raw)
        self.skipped: dict[str, MulewrightError] = {}  # parts of the shelf that cannot be read
        self._tried: dict[Steps, State | None] = {}
        self._standings: dict[tuple[Question, Steps], Standing] = {}
        self._answers: dict[Question, Remembered[Standing]] = {}
        self._rests: dict[Question, int] = {}  # what they rest on where nothing is done
        self._verdicts: dict[tuple[str, Step | None], Remembered[list[Verdict]]] = {}

    @property
    def built(self) -> int:
        """How many sets were tried."""
        return len(self._tried)

    def tried(self, steps: Steps) -> State | None:
        """The mule with some steps taken, those that only waive aside; None where that is no mule any more."""
        if steps not in self._tried:
            real = frozenset(step for step in steps if not step.waiver)
            if len(real) < len(steps):
                return self.tried(real)
            self._tried[steps] = self.states.of(steps)
        return self._tried[steps]

    def linked(self, steps: Iterable[Step]) -> Mule:
        """The mule with some steps taken, whatever they are.

        Raises
        ------
        MulewrightError
            If that is no mule any more.
        """
        raw, loaded = self.raw, self.loaded
        changed: set[str] = set()
        for step in sorted(steps):
            for path, value in step.settings:
                place = parse_path(path)
                raw = put(raw, place, value)
                changed.add(place[0])
        part = {key: raw[key] for key in ("schema_version", *sorted(changed))}
        fresh = build(part, loaded.where, loaded.folder, base=loaded.base, catalog=loaded.catalog)
        file = loaded.file.model_copy(update={key: getattr(fresh.file, key) for key in changed})
        return link(replace(loaded, file=file, raw=loaded.raw | fresh.raw))

    def standing(self, question: Question, steps: Steps) -> Standing:
        """How a question stands with some steps taken."""
        known = (question, steps)
        if known not in self._standings:
            self._standings[known] = self._standing(question, steps)
        return self._standings[known]

    def _standing(self, question: Question, steps: Steps) -> Standing:
        state = self.tried(steps)
        if state is None:
            return NOT_KNOWN
        found, _ = self._answer(question, state)
        waived = any(step.waiver and step.path == f"limits.{question.check.id}" for step in steps)
        if waived and 0 < found.severity <= Severity.WARN:
            return Standing(np.asarray(int(Severity.NOTE)), np.asarray(-1.0))
        return found

    def _answer(self, question: Question, state: State) -> tuple[Standing, int]:
        """How a question stands, and what that rests on; asked where no state that is alike in that was asked."""
        answers = self._answers.setdefault(question, Remembered())
        known = answers.get(state)
        if known is not None:
            return known
        with READING.apart() as own:
            found = asked(question, state.evaluation, self.level)
        answers.keep(state, own.seen, found)
        return found, own.seen

    def rests_on(self, question: Question, paths: Iterable[str], steps: Steps = NOTHING) -> bool:
        """Whether a question rests on one of some inputs, with some steps taken."""
        state = self.tried(steps)
        return state is not None and bool(self._answer(question, state)[1] & self.states.bits(paths))

    def alters(self, step: Step, question: Question) -> bool:
        """Whether a single step changes something that a question rests on."""
        if question not in self._rests:
            before = self.tried(NOTHING)
            assert before is not None
            self._rests[question] = self._answer(question, before)[1]
        after = self.tried(frozenset({step}))
        return after is not None and bool(self._rests[question] & after.bits)

    def felt(self, question: Question, steps: Steps) -> Steps:
        """The steps of some on which it depends how a question stands with all of them taken."""
        state = self.tried(steps)
        if state is None:
            return steps
        _, rests = self._answer(question, state)
        return frozenset(step for step in steps if self._feels(question, rests, step))

    def _feels(self, question: Question, rests: int, step: Step) -> bool:
        if step.waiver:
            return step.path == f"limits.{question.check.id}"
        alone = self.tried(frozenset({step}))
        return alone is None or bool(alone.bits & rests)

    def scan(
        self, questions: Collection[Question], steps: Steps, values: Mapping[str, NDArray[np.float64]]
    ) -> dict[Question, Standing]:
        """How questions stand over values of numbers, in one evaluation, or a few where some values cannot be."""
        base = self.tried(steps)
        if base is None or not questions:
            return {}
        size = len(next(iter(values.values())))
        found = {one: Standing(np.full(size, UNKNOWN), np.full(size, np.inf)) for one in questions}
        parts = [(slice(0, size), list(questions))]
        for _ in range(MOST_PARTS):
            if not parts:
                break
            part, asked_for = parts.pop(0)
            evaluation = base.with_values({path: value[part] for path, value in values.items()})
            open_ones = []
            for question in asked_for:
                one = asked(question, evaluation, self.level)
                if one is NOT_KNOWN:
                    open_ones.append(question)
                else:
                    found[question].severity[part], found[question].excess[part] = one.severity, one.excess
            middle = (part.start + part.stop) // 2
            if open_ones and part.stop - part.start > 1:
                parts += [(slice(part.start, middle), open_ones), (slice(middle, part.stop), open_ones)]
        return found

    def verdicts(self, steps: Steps, checks: Iterable[Check]) -> list[Verdict]:
        """What all checks say with some steps taken; asked where no state that is alike was asked.

        Raises
        ------
        MulewrightError
            If that is no mule any more.
        """
        state = self.tried(steps)
        if state is None:
            raise MulewrightError("these steps do not go together", found=", ".join(map(str, sorted(steps))))
        waived = {step.path.removeprefix("limits."): step for step in steps if step.waiver}
        return [one for rule in checks for one in self._said(rule, waived.get(rule.id), state)]

    def _said(self, rule: Check, waiver: Step | None, state: State) -> list[Verdict]:
        said = self._verdicts.setdefault((rule.id, waiver), Remembered())
        known = said.get(state)
        if known is not None:
            return known[0]
        with READING.apart() as own:
            file = state.mule.file if waiver is None else self.linked([waiver]).file
            found = run_one(state.evaluation, rule, file.limits.get(rule.id))
        said.keep(state, own.seen, found)
        return found

    def judged_anew(self, steps: Steps, checks: Iterable[Check]) -> list[Verdict]:
        """What all checks say of the mule with some steps taken, with nothing taken over from what is known.

        Raises
        ------
        MulewrightError
            If that is no mule any more.
        """
        return run(Evaluation(self.linked(steps)), checks)


def asked(question: Question, evaluation: Evaluation, level: int) -> Standing:
    """Ask one check about one thing in an evaluation, draws or not."""
    entity = _entity(question, evaluation)
    if entity is None:
        return GONE
    limits = _limits(question.check, evaluation)
    answer: Any = None
    with evaluation.watch() as seen:
        answer = question.check.judge(entity, limits)
    if seen.gaps or answer is None:
        return NOT_KNOWN
    return GONE if isinstance(answer, NotApplicable) else _compared(answer, limits, level)


def _entity(question: Question, evaluation: Evaluation) -> Facts | None:
    every = evaluation.all(question.check.on)
    return next((one for one in every if one.id == question.entity), None)


def _limits(rule: Check, evaluation: Evaluation) -> Limits:
    return limits_of(rule, evaluation.mule.file.limits.get(rule.id))


def _compared(answer: Comparison, limits: Limits, level: int) -> Standing:
    severity: Any = np.asarray(0)
    excess: Any = np.asarray(-1.0)
    for one in (answer, *answer.others):
        for at, past in sorted((at, _past(one, at)) for at in one.levels):
            severity = np.where(past > 0, np.maximum(severity, int(at)), severity)
            if at >= level:
                excess = np.maximum(excess, past)
    if limits.deliberate:
        severity, excess = np.minimum(severity, int(Severity.NOTE)), np.full_like(excess, -1.0)
    return Standing(np.asarray(severity), np.asarray(excess))


def _past(one: Comparison, level: Severity) -> NDArray[np.float64]:
    """How far a comparison is past its limit, over the larger of the two; below 0 it passes."""
    value, limit = np.broadcast_arrays(one.value, one.levels[level])
    size = np.maximum(np.abs(value), np.abs(limit))
    with np.errstate(invalid="ignore"):
        gap = np.asarray(one.sign * (value - limit))
    past = np.divide(gap, size, out=np.array(np.sign(gap)), where=(size > 0) & np.isfinite(size))
    past = np.where(np.isnan(past), -1.0, past)  # what is not a number trips no check
    for second in one.also:
        (only,) = second.levels
        past = np.minimum(past, _past(second, only))
    return np.asarray(past)
