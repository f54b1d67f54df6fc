"""Which set of atoms at least cost leaves nothing bad? Sets are proposed, tried, and refused with what that teaches."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable, Iterator, Mapping
from dataclasses import dataclass
from itertools import chain, combinations
from math import fsum
from typing import Generic, Protocol

from mulewright.advice.fixing.lessons import A, Lesson, Lessons, Master, T

MOST_SUBSETS = 4  # atoms of which every part is looked at


class Spent(Exception):
    """The search may try no more sets."""


class Budget(Protocol):
    """What a search may spend."""

    def spend(self) -> None:
        """Count one set that is tried; raise Spent where there have been enough."""


@dataclass(frozen=True)
class Puzzle(Generic[A, T]):
    """What is to be cleared, and by what.

    Parameters
    ----------
    helps : mapping of target to collection of atoms
        What may help each target, in a fixed order.
    bad : callable
        Whether a target is bad once a set of atoms is done.
    pain : callable
        How bad a target is; less is better. [1]
    cost : callable
        What one atom costs. [1]
    felt : callable
        The atoms of a set on which it depends whether a target is bad there.
    clash : callable
        Whether two atoms cannot be done together.
    fits : callable
        Whether atoms of which no two clash can be done together.
    penalty : mapping of target to float
        What it costs to leave a target bad; one that is not named may not be left. [1]
    broken : float
        What it weighs to leave a target bad that may not be left so, but was bad before. [1]
    """

    helps: Mapping[T, Collection[A]]
    bad: Callable[[T, frozenset[A]], bool]
    pain: Callable[[T, frozenset[A]], float]
    cost: Callable[[A], float]
    felt: Callable[[T, frozenset[A]], frozenset[A]]
    clash: Callable[[A, A], bool]
    fits: Callable[[frozenset[A]], bool]
    penalty: Mapping[T, float]
    broken: float = 1e5

    def price(self, atoms: Iterable[A]) -> float:
        """What a set of atoms costs."""
        return fsum(map(self.cost, atoms))  # whatever their order

    def total(self, atoms: Iterable[A], left: Iterable[T]) -> float:
        """What a set costs with what it leaves."""
        return self.price(atoms) + sum(self.penalty.get(target, self.broken) for target in left)


@dataclass(frozen=True)
class Answer(Generic[A, T]):
    """A set of atoms, and the targets that it leaves bad."""

    atoms: frozenset[A]
    left: frozenset[T]
    total: float
    proven: bool  # whether nothing is cheaper


def solve(
    puzzle: Puzzle[A, T], targets: Collection[T], budget: Budget, lessons: Lessons[A, T] | None = None
) -> Answer[A, T]:
    """Find the cheapest answer; where the budget ends before, give the set that came next.

    The solver proposes the cheapest set that agrees with all lessons. What is bad in it is looked into: a lesson
    says in which sets the target is bad for the same reason. A set in which nothing is bad is the cheapest one.
    """
    lessons = Lessons() if lessons is None else lessons
    helps = {target: list(puzzle.helps[target]) for target in targets}
    cost = {atom: puzzle.cost(atom) for atom in sorted({a for own in helps.values() for a in own}, key=str)}
    nothing: frozenset[A] = frozenset()
    penalty = {t: puzzle.penalty.get(t, puzzle.broken) for t in helps if puzzle.bad(t, nothing)}
    master = Master(helps, cost, penalty, lessons, puzzle.clash)
    atoms, left, proven = nothing, frozenset(penalty), False
    try:
        while not proven:
            budget.spend()
            atoms, left = master.cheapest()
            if not puzzle.fits(atoms):
                lessons.unfit.append(_unfit(puzzle, atoms))
                master.forbid(lessons.unfit[-1])
                continue
            wrong = [target for target in helps if target not in left and puzzle.bad(target, atoms)]
            for target in wrong:
                lesson = _lesson(puzzle, target, atoms, helps[target])
                lessons.learn(target, lesson)
                master.heed(target, lesson)
            proven = not wrong
    except Spent:
        left = frozenset(target for target in helps if puzzle.bad(target, atoms))
    return Answer(atoms, left, puzzle.total(atoms, left), proven)


def _unfit(puzzle: Puzzle[A, T], atoms: frozenset[A]) -> frozenset[A]:
    """As few of some atoms as cannot be done together."""
    for atom in sorted(atoms, key=str):
        if not puzzle.fits(atoms - {atom}):
            atoms = atoms - {atom}
    return atoms


def _lesson(puzzle: Puzzle[A, T], target: T, atoms: frozenset[A], helps: Collection[A]) -> Lesson[A]:
    """In which sets a target is bad for the reason for which it is in one: what of the set has to be in them."""
    within = puzzle.felt(target, atoms) | atoms.intersection(helps)
    good = [some for some in _parts(puzzle, target, within) if not puzzle.bad(target, some)]
    holds: set[A] = set()
    while open_ones := [some for some in good if some.issuperset(holds)]:
        holds.add(max(sorted(within, key=str), key=lambda atom: sum(atom not in one for one in open_ones)))
    return Lesson(within if holds else _wider(puzzle, target, within, helps), frozenset(holds))


def _wider(puzzle: Puzzle[A, T], target: T, atoms: frozenset[A], helps: Collection[A]) -> frozenset[A]:
    """More that does not help a target either, so that one lesson is worth several."""
    wide = atoms
    for atom in sorted(helps, key=lambda atom: (puzzle.cost(atom), str(atom))):
        if len(wide) > MOST_SUBSETS:
            break
        more = wide | {atom}
        if (
            not any(puzzle.clash(atom, one) for one in wide)
            and puzzle.fits(more)
            and puzzle.bad(target, more)
        ):
            wide = more
    return wide if all(puzzle.bad(target, some) for some in _parts(puzzle, target, wide)) else atoms


def _parts(puzzle: Puzzle[A, T], target: T, atoms: frozenset[A]) -> Iterator[frozenset[A]]:
    """Parts of a set: all of a small one; of a large one each atom alone, all but one, and what does no harm in it."""
    every, size = sorted(atoms, key=str), len(atoms)
    sizes = range(size) if size <= MOST_SUBSETS else (0, 1, size - 1)
    for part in map(frozenset, chain.from_iterable(combinations(every, count) for count in sizes)):
        if puzzle.fits(part):
            yield part
    if size > MOST_SUBSETS:
        pain = puzzle.pain(target, atoms)
        part = frozenset(atom for atom in every if puzzle.pain(target, atoms - {atom}) >= pain)
        if puzzle.fits(part):
            yield part
