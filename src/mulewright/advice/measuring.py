"""What is worth measuring next? The measurements that settle most verdicts per minute, with what is at hand."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

import numpy as np

from mulewright.advice.at_hand import AtHand, Means, instruments_for
from mulewright.advice.doubt import MOST_HEARD, Question, Study, study
from mulewright.advice.picking import Best, Prospect, Set, best_set, in_order
from mulewright.checks.engine import Verdict
from mulewright.design.mule import Mule
from mulewright.facts.graph import Evaluation

NOISE = 3.0  # standard errors of the draws; a smaller gain may be chance
AUDIBLE = 0.01  # of a verdict's variance; what explains less is left out
DECIMALS = 2  # of a gain; what is finer is noise, and would part what is equal
LEAST = 5e-3  # [verdicts] a gain that nobody would measure for
Drawn = Mapping[str, float]


@dataclass(frozen=True)
class Measurement:
    """One thing to measure; where one part stands in several places, it serves all of them."""

    means: tuple[Means, ...]

    @property
    def path(self) -> str:
        """Where the first result goes."""
        return self.means[0].path

    @property
    def also(self) -> tuple[str, ...]:
        """Where the same result goes as well."""
        return tuple(one.path for one in self.means[1:])

    @property
    def minutes(self) -> float:
        """How long it takes."""
        return self.means[0].way.minutes


@dataclass(frozen=True)
class Settled:
    """What a measurement does for one verdict: how much less often it is missing or wrong."""

    verdict: Verdict
    by: float  # its share of what is gained together
    before: float
    after: float  # doubt, once all that is measured together is known
    sure: bool  # nothing more can turn out to be missing
    turns_at: float | None  # where it turns as what is measured grows, in SI


@dataclass(frozen=True)
class Line:
    """One line of a worksheet."""

    rank: int
    measurement: Measurement
    settles: tuple[Settled, ...]
    together: tuple[str, ...]  # what has to be measured with it, or else it settles nothing


@dataclass(frozen=True)
class Left:
    """A verdict that stays open, with the doubt that is left and the reason."""

    verdict: Verdict
    doubt: float
    why: str


@dataclass(frozen=True)
class Worksheet:
    """What to measure, in order, and what is left after that."""

    lines: tuple[Line, ...]
    ties: tuple[tuple[str, ...], ...]
    exact: bool
    undecided: int
    doubtful: int
    left: tuple[Left, ...]
    study: Study
    at_hand: AtHand

    @property
    def minutes(self) -> float:
        """How long all lines take."""
        return sum(line.measurement.minutes for line in self.lines)


def worksheet(evaluation: Evaluation, at_hand: AtHand, minutes: float | None = None) -> Worksheet:
    """Work out what to measure next, or within some minutes.

    Parameters
    ----------
    evaluation : Evaluation
        The mule as it is.
    at_hand : AtHand
        The instruments.
    minutes : float, optional
        The time that there is; without it, all that is worth measuring is listed. [min]

    Returns
    -------
    worksheet : Worksheet
        The lines, the best first.
    """
    found = study(evaluation)
    made = _measurements(evaluation.mule, at_hand, found)
    prospects = [_prospect(found, question, made) for question in found.questions]
    rough = [Prospect(one.needs, one.beside, np.round(one.gains, DECIMALS)) for one in prospects]
    times = [one.minutes for one in made]
    best = Best(frozenset(range(len(made))), (), True)
    if minutes is not None:
        best = best_set(rough, times, minutes)
    lines: list[Line] = []
    for step, before in in_order(rough, times, best.made):
        more = list(_lines(len(lines), step, before, found, made, prospects))
        lines += more if any(line.settles for line in more) else []  # a gain that rounding made is none
    done = frozenset(made.index(line.measurement) for line in lines)
    return Worksheet(
        tuple(lines), tuple(tuple(made[one].path for one in sorted(tie)) for tie in best.ties), best.exact,
        sum(bool(one.needs) for one in found.questions), sum(not one.needs for one in found.questions),
        tuple(_left(evaluation.mule, found, made, prospects, best.made, done)), found, at_hand,
    )  # fmt: skip


def _measurements(mule: Mule, at_hand: AtHand, found: Study) -> list[Measurement]:
    """Everything that may be worth measuring, each in its best way; equal parts together."""
    choices: dict[str, list[Means]] = {}
    for path in sorted({path for one in found.questions for path in (*one.needs, *one.inputs)}):
        drawn = found.drawn.get(path)
        means = at_hand.means(mule, path, abs(drawn.value) if drawn else 0.0)
        if means:
            choices[path] = means
    exact = {path: min(one.off for one in means) for path, means in choices.items()}
    together: dict[tuple[object, ...], list[Means]] = {}
    for means in choices.values():
        one = max(means, key=lambda one: _promise(found, one, exact))
        together.setdefault((one.way, *one.same), []).append(one)
    return [Measurement(tuple(group)) for group in together.values()]


def _promise(found: Study, means: Means, others: Drawn) -> tuple[float, float]:
    """Gain per minute of measuring one input this way, where all else that is missing is measured as well as can be."""
    gain = 0.0
    for question in found.questions:
        needs = {path: others.get(path, 0.0) for path in question.needs - {means.path}}
        if means.path in question.needs:
            gain += question.doubt - found.remaining(question, needs | {means.path: means.off})
        elif means.path in question.inputs:
            gain += found.remaining(question, needs) - found.remaining(
                question, needs | {means.path: means.off}
            )
    return round(gain / max(means.way.minutes, 0.1), 9), -means.off


def _prospect(found: Study, question: Question, made: list[Measurement]) -> Prospect:
    """What each set of the measurements that matter to a verdict would do for it."""
    at = {means.path: (place, means.off) for place, one in enumerate(made) for means in one.means}
    if question.contradicted or not question.needs <= at.keys():
        return Prospect(frozenset(), (), np.zeros(1))
    needed = {path: at[path][1] for path in question.needs}
    beside = {
        path: found.explained(question, path, at[path][1])
        for path in question.inputs
        if path in at and path not in needed
    }
    heard = sorted(
        (path for path in beside if beside[path] > AUDIBLE), key=lambda path: (-beside[path], path)
    )
    needs = frozenset(at[path][0] for path in needed)
    places = tuple(dict.fromkeys(at[path][0] for path in heard[:MOST_HEARD] if at[path][0] not in needs))
    gains = np.zeros(1 << len(places))
    for mask in range(gains.size):
        on = {one for bit, one in enumerate(places) if mask >> bit & 1}
        more = {path: at[path][1] for path in heard[:MOST_HEARD] if at[path][0] in on}
        gains[mask] = question.doubt - found.remaining(question, needed | more)
    return Prospect(needs, places, np.where(gains > _noise(question), gains, 0.0))


def _noise(question: Question) -> float:
    """What a gain must exceed to be no accident of the draws."""
    share = question.share or 0.0
    count = question.tripped.size if question.tripped is not None else 1
    return max(LEAST, NOISE * float(np.sqrt(share * (1 - share) / count)))


def _lines(
    above: int,
    step: tuple[int, ...],
    before: Set,
    found: Study,
    made: list[Measurement],
    prospects: list[Prospect],
) -> Iterable[Line]:
    """The lines of measurements that are made together; what they gain together is shared out."""
    settled: dict[int, list[Settled]] = {one: [] for one in step}
    for question, prospect in zip(found.questions, prospects, strict=True):
        was, is_ = (
            question.doubt - prospect.gain(made_by_then) for made_by_then in (before, before | set(step))
        )
        takes_part = [one for one in step if one in prospect.relevant]
        for one in takes_part if was - is_ > LEAST else ():
            turns = (found.turns_at(question, means.path) for means in made[one].means)
            at = next((value for value in turns if value is not None), None)
            by = (was - is_) / len(takes_part)
            settled[one].append(Settled(question.verdict, by, was, is_, question.told, at))
    for rank, one in enumerate(step, above + 1):
        others = tuple(made[other].path for other in step if other != one)
        yield Line(rank, made[one], tuple(sorted(settled[one], key=_order)), others)


def _order(settled: Settled) -> tuple[float, str, str]:
    return -settled.by, settled.verdict.check.id, settled.verdict.entity


def _left(
    mule: Mule,
    found: Study,
    made: list[Measurement],
    prospects: list[Prospect],
    there_is_time: Set,
    done: Set,
) -> Iterable[Left]:
    """Every verdict that stays undecided or doubtful, with the reason."""
    able = {means.path for one in made for means in one.means}
    for question, prospect in zip(found.questions, prospects, strict=True):
        doubt = question.doubt - prospect.gain(done)
        if doubt > LEAST:
            why = _out_of_reach(mule, found, question, able)
            if not why and not prospect.relevant <= there_is_time:
                why = "there is no time for all that it needs"
            elif not why and not prospect.relevant:
                why = "nothing at hand reads what it rests on more closely than it is known"
            elif not why and prospect.gains.max() <= 0:
                why = "no reading that is likely would turn it"
            yield Left(question.verdict, doubt, why or "its number may come to lie too near to the limit")


def _out_of_reach(mule: Mule, found: Study, question: Question, able: set[str]) -> str:
    """What a verdict rests on and nothing at hand measures, or why measuring does not help at all; else nothing."""
    if question.contradicted:
        return question.verdict.what
    matter = [path for path in question.inputs if found.explained(question, path, 0.0) > AUDIBLE]
    beyond = sorted((question.needs or set(matter)) - able)
    ways = {path: instruments_for(mule, path) for path in beyond}
    named = (f"{path} ({' or '.join(known) if known else 'no way is known'})" for path, known in ways.items())
    return f"not at hand: what measures {', '.join(named)}" if beyond else ""
