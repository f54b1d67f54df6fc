"""How much doubt about a verdict is left once some of its inputs are measured? Read off draws, by binning them."""

from __future__ import annotations

import zlib
from collections.abc import Container, Iterable, Mapping, Sequence
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from mulewright.advice.at_hand import spread, usual
from mulewright.advice.draws import DRAWS, SEED, draw, on_draws
from mulewright.checks import CHECKS
from mulewright.checks.engine import Outcome, Verdict, run
from mulewright.facts.graph import Evaluation
from mulewright.units.quantity import Quantity

FEWEST = 20  # draws of each half that a bin holds on average, at least
PER_ERROR = 4  # bins to the error of an instrument
ROUNDS = 4  # what is missing may hide more that is missing, but not for ever
MOST_HEARD = 4  # inputs of one verdict that are weighed in every combination: those that explain most of it
DECIDES = 0.5  # of a verdict's variance; an input that explains more decides it nearly alone
Reading = tuple[str, float]  # what is measured, and how far off the result may be
Key = tuple[str, str]  # id of the check, id of the entity


@dataclass
class Question:
    """A verdict that could not be told, or that trips in some of the draws and not in others."""

    verdict: Verdict
    needs: frozenset[str]  # missing inputs; it is settled by nothing less than all of them
    tripped: NDArray[np.bool_] | None  # in which draws it trips, where it could be drawn
    inputs: tuple[str, ...]  # drawn inputs that it rests on
    told: bool  # with all that it needs it could be told on the draws, so that nothing more is missing
    contradicted: bool  # it cannot be told because of what was typed, not because of what is missing
    known: dict[frozenset[Reading], float] = field(default_factory=dict, repr=False)
    shares: dict[Reading, float] = field(default_factory=dict, repr=False)

    @property
    def share(self) -> float | None:
        """The share of the draws in which it trips."""
        return None if self.tripped is None else float(np.mean(self.tripped))

    @property
    def doubt(self) -> float:
        """1 where nothing can be told, or else the chance that the likelier answer is wrong."""
        return 1.0 if self.needs else wrong_at_best(self.tripped)


def wrong_at_best(tripped: NDArray[np.bool_] | None) -> float:
    """How often the likelier answer is wrong; 0 where nothing was drawn."""
    if tripped is None:
        return 0.0
    share = float(np.mean(tripped))
    return min(share, 1 - share)


@dataclass(frozen=True)
class Study:
    """The open questions about a mule, and the draws that they were asked on."""

    questions: tuple[Question, ...]
    drawn: Mapping[str, Quantity]  # every input that was drawn, with its interval
    draws: Mapping[str, NDArray[np.float64]]
    usual: tuple[str, ...]  # of these, the missing ones, over their usual range
    spread: tuple[str, ...]  # and the weak ones, over their usual spread

    def remaining(self, question: Question, off: Mapping[str, float]) -> float:
        """Doubt that is left about a verdict once some inputs are measured, each off by so much at most.

        Parameters
        ----------
        question : Question
            The verdict.
        off : mapping of str to float
            How far off the result may be, by the path of what is measured. [SI]

        Returns
        -------
        doubt : float
            Expected, over all results that may be found; 0 to 1. [1]
        """
        if not question.needs <= off.keys():
            return question.doubt
        if question.tripped is None:
            return 0.0
        measured = [(path, off[path]) for path in sorted(off.keys() & question.inputs)]
        measured.sort(key=lambda one: -self.explained(question, *one))
        return self._least(question, frozenset(measured[:MOST_HEARD]))

    def explained(self, question: Question, path: str, off: float) -> float:
        """The share of a verdict's variance that measuring one input would explain. [1]."""
        if (path, off) not in question.shares:
            bins = None if question.tripped is None else self._bins([(path, off)], question.tripped.size)
            question.shares[path, off] = (
                0.0 if question.tripped is None or bins is None else explained(question.tripped, bins)
            )
        return question.shares[path, off]

    def turns_at(self, question: Question, path: str) -> float | None:
        """Where a verdict turns as one input grows: the value that parts its draws best; None where others decide.

        Parameters
        ----------
        question : Question
            The verdict.
        path : str
            The input.

        Returns
        -------
        value : float or None
            Where it turns. [SI]
        """
        if path not in question.inputs or self.explained(question, path, 0.0) < DECIDES:
            return None
        assert question.tripped is not None
        order = np.argsort(self.draws[path])
        votes = np.cumsum(np.where(question.tripped[order], 1, -1))
        place = int(np.argmax(np.abs(votes - votes[-1] / 2)))
        return float(self.draws[path][order[place]])

    def _least(self, question: Question, measured: frozenset[Reading]) -> float:
        """The doubt after the best use of some results: to know more never leaves more doubt."""
        if measured not in question.known:
            assert question.tripped is not None
            bins = self._bins(sorted(measured), question.tripped.size)
            left = wrong_at_best(question.tripped) if bins is None else wrong_in_bins(question.tripped, bins)
            fewer = (self._least(question, measured - {one}) for one in measured)
            question.known[measured] = min((left, *fewer))
        return question.known[measured]

    def _bins(self, measured: Sequence[Reading], count: int) -> NDArray[np.intp] | None:
        """Which of the draws would read alike; None where nothing is read more closely than it is known."""
        bins, above = None, 1
        for path, off in measured:
            values = self.draws[path]
            if off >= np.ptp(values) / 2:
                continue
            most = (count / 2 / FEWEST) ** (1 / len(measured))
            read = readings(path, values, off)
            wide = float(np.ptp(read))
            steps = max(1, int(min(most, PER_ERROR * wide / off if off > 0 else most)))
            place = np.minimum((read - read.min()) / wide * steps, steps - 1).astype(np.intp)
            bins = place if bins is None else bins + above * place
            above *= steps
        return bins


def readings(path: str, values: NDArray[np.float64], off: float) -> NDArray[np.float64]:
    """What an instrument would show in each draw: the value, off by anything up to its error.

    Parameters
    ----------
    path : str
        What is measured; the errors depend on it and on nothing else.
    values : ndarray, shape (n,)
        What it is. [SI]
    off : float
        How far off the instrument may be, either way. [SI]

    Returns
    -------
    readings : ndarray, shape (n,)
        What is read. [SI]
    """
    random = np.random.default_rng((SEED, zlib.crc32(f"{path} as read".encode())))
    return np.asarray(values + off * random.uniform(-1.0, 1.0, values.size))


def explained(tripped: NDArray[np.bool_], bins: NDArray[np.intp]) -> float:
    """The share of a verdict's variance that goes with the bins: its first-order index where they part one input.

    The product of what both halves of the draws say, so that chance alone gives 0.

    Parameters
    ----------
    tripped : ndarray of bool, shape (n,)
        Whether it trips, for each draw. [1]
    bins : ndarray of int, shape (n,)
        In which bin each draw lies. [1]

    Returns
    -------
    share : float
        0 to 1, and a little beyond by chance. [1]
    """
    size = int(bins.max()) + 1
    off = tripped - float(np.mean(tripped))
    sums = [np.bincount(bins[half::2], off[half::2], size) for half in (0, 1)]
    counts = [np.bincount(bins[half::2], minlength=size) for half in (0, 1)]
    both = (counts[0] > 0) & (counts[1] > 0)
    weight = (counts[0] + counts[1])[both]
    product = np.prod([total[both] / count[both] for total, count in zip(sums, counts, strict=True)], axis=0)
    variance = float(np.var(tripped))
    return float(np.sum(weight * product) / tripped.size / variance) if variance else 0.0


def wrong_in_bins(tripped: NDArray[np.bool_], bins: NDArray[np.intp]) -> float:
    """How often an answer is wrong that is given for each bin, as most of its draws say.

    One half of the draws answers and the other half judges, and the other way round, so that a small bin is not taken
    for knowledge.

    Parameters
    ----------
    tripped : ndarray of bool, shape (n,)
        Whether it trips, for each draw. [1]
    bins : ndarray of int, shape (n,)
        In which bin each draw lies. [1]

    Returns
    -------
    wrong : float
        Share of the draws. [1]
    """
    size = int(bins.max()) + 1
    votes = np.where(tripped, 1.0, -1.0)
    tie = 0.5 if votes.sum() > 0 else -0.5  # an empty bin answers as all of them do
    wrong = 0.0
    for half in (slice(0, None, 2), slice(1, None, 2)):
        other = slice(1 - half.start, None, 2)
        answers = np.bincount(bins[half], votes[half], size) + tie > 0
        wrong += float(np.mean(answers[bins[other]] != tripped[other])) / 2
    return wrong


def study(evaluation: Evaluation, count: int = DRAWS) -> Study:
    """Find every open verdict of a mule, and draw all that they rest on at once.

    What is missing is drawn over the usual range of such a number where one is known; what is only an estimate or
    assumed, and says no interval, over the usual spread. Verdicts that a mule file calls deliberate stay out.
    """
    mule = evaluation.mule
    settled = {id for id, limit in mule.file.limits.items() if limit.deliberate}
    checks = [rule for id, rule in CHECKS.items() if id not in settled]
    first = {(one.check.id, one.entity): one for one in run(evaluation, checks)}
    missing = {key: set(one.needs) for key, one in first.items() if one.outcome is Outcome.CANNOT_TELL}
    guessed, given = _fill(evaluation, missing)
    weak = {path: soft for path, one in sorted(given.items()) if (soft := spread(mule, path, one))}
    said = {path: one for path, one in sorted(given.items()) if one.uncertain}
    drawn = {**said, **weak, **guessed}
    values = {path: draw(path, one, count) for path, one in drawn.items()}
    again = {(one.check.id, one.entity): one for one in run(on_draws(evaluation, values), checks)}
    questions = (
        _question(one, frozenset(missing.get(key, ())), again.get(key), values, evaluation.given)
        for key, one in first.items()
    )
    found = tuple(one for one in questions if one is not None and one.doubt > 0)
    matter = {path for one in found for path in (*one.needs, *one.inputs)}
    return Study(found, drawn, values, _among(guessed, matter), _among(weak, matter))


def _among(paths: Iterable[str], matter: Container[str]) -> tuple[str, ...]:
    return tuple(path for path in paths if path in matter)


def _fill(
    evaluation: Evaluation, missing: dict[Key, set[str]]
) -> tuple[dict[str, Quantity], dict[str, Quantity]]:
    """Put the usual number in the place of each missing one, and add what is found missing behind it.

    Gives back the usual numbers, and every input that was read on the way.
    """
    guessed: dict[str, Quantity] = {}
    given = dict(evaluation.given)
    for _ in range(ROUNDS):
        wanted = sorted({path for needs in missing.values() for path in needs} - guessed.keys())
        likely = {path: usual(evaluation.mule, path) for path in wanted if path not in given}
        more = {path: quantity for path, quantity in likely.items() if quantity is not None}
        if not more:
            break
        guessed |= more
        middle = {path: quantity.value for path, quantity in guessed.items()}
        filled = evaluation.again(middle)
        for one in run(filled, {id: CHECKS[id] for id, _ in missing}.values()):
            if one.outcome is Outcome.CANNOT_TELL and (one.check.id, one.entity) in missing:
                missing[one.check.id, one.entity].update(one.needs)
        given |= filled.given
    return guessed, given


def _question(
    verdict: Verdict,
    needs: frozenset[str],
    drawn: Verdict | None,
    values: Mapping[str, object],
    given: Container[str],
) -> Question | None:
    told = drawn is not None and drawn.outcome is not Outcome.CANNOT_TELL
    tripped = (
        drawn.tripped if drawn is not None and drawn.tripped is not None and drawn.tripped.ndim else None
    )
    if verdict.outcome is Outcome.NOT_APPLICABLE or not (needs or tripped is not None):
        return None
    reads = drawn.reads if drawn is not None else ()
    steps = {node.path for read in reads for node in read.inputs()}
    inputs = tuple(sorted(steps & values.keys()))
    return Question(verdict, needs, tripped, inputs, told, any(path in given for path in needs))
