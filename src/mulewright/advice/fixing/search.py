"""Which set of moves at least cost leaves nothing bad? Best first, with bounds that never promise too much."""

from __future__ import annotations

import heapq
from collections.abc import Callable, Collection, Hashable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from itertools import count, product
from math import fsum
from typing import Generic, Protocol, TypeVar

A = TypeVar("A", bound=Hashable)  # an atom: one thing to do
T = TypeVar("T", bound=Hashable)  # a target: one thing that is bad until it is cleared

EPSILON = 1e-9
PATIENCE = 24  # turns without anything better
MEMORY = 6  # turns for which a change stays


class Spent(Exception):
    """The search may look at no more sets."""


class Budget(Protocol):
    """What a search may spend."""

    def spend(self) -> None:
        """Count one set that is looked at; raise Spent where there have been enough."""


@dataclass(frozen=True)
class Puzzle(Generic[A, T]):
    """What is to be cleared, and by what.

    Parameters
    ----------
    moves : mapping of target to collection of sets of atoms
        What may help each target; several atoms together are one move.
    bad : callable
        Whether a target is bad once a set of atoms is done.
    cost : callable
        What one atom costs. [1]
    touches : mapping of target to set of atoms
        The atoms on which it may depend whether a target is bad.
    fits : callable
        Whether atoms can be done together.
    penalty : mapping of target to float
        What it costs to leave a target bad; one that is not named may not be left. [1]
    broken : float
        What it weighs, on the way to an answer, that a target is bad which may not be left so. [1]
    """

    moves: Mapping[T, Collection[frozenset[A]]]
    bad: Callable[[T, frozenset[A]], bool]
    cost: Callable[[A], float]
    touches: Mapping[T, frozenset[A]]
    fits: Callable[[frozenset[A]], bool]
    penalty: Mapping[T, float]
    broken: float = 3000.0

    def price(self, atoms: Iterable[A]) -> float:
        """What a set of atoms costs."""
        return fsum(map(self.cost, atoms))  # whatever their order


@dataclass(frozen=True)
class Answer(Generic[A, T]):
    """A set of atoms, and the targets that it leaves bad."""

    atoms: frozenset[A]
    left: frozenset[T]
    total: float
    proven: bool  # whether nothing is cheaper


def solve(
    puzzle: Puzzle[A, T],
    targets: Collection[T],
    budget: Budget,
    known: Answer[A, T] | None = None,
    start: frozenset[A] = frozenset(),
) -> Answer[A, T]:
    """Find the cheapest answer that is cheaper than a known one; where none is known, a good one near a start."""
    alone = {target: _alone(puzzle, target, budget) for target in targets if puzzle.bad(target, frozenset())}
    lost = {target for target, answer in alone.items() if answer.left and answer.proven}
    needs = {target: answer.total for target, answer in alone.items() if answer.proven}
    answers = [alone[target] for target in lost]
    for group in _groups(puzzle, [target for target in targets if target not in lost]):
        seek = _Seek(puzzle, group, needs)
        if known is None:
            near = seek.wander(start, budget)
            stuck = [target for target in near.left if target not in puzzle.penalty]
            if start and stuck:  # so begin again without all that touches what may not be left so
                apart = near.atoms.difference(*(puzzle.touches[target] for target in stuck))
                near = min(near, seek.wander(apart, budget), key=lambda one: one.total)
            answers.append(near)
        else:
            answers.append(_best_first(seek, seek.part_of(known), budget))
    atoms = frozenset(atom for answer in answers for atom in answer.atoms)
    left = frozenset(target for answer in answers for target in answer.left)
    return Answer(atoms, left, sum(a.total for a in answers), all(a.proven for a in answers))


def _alone(puzzle: Puzzle[A, T], target: T, budget: Budget) -> Answer[A, T]:
    """What one target takes if it were the only one."""
    seek = _Seek(puzzle, [target], {})
    return _best_first(seek, seek.nothing(), budget)


def brute_force(puzzle: Puzzle[A, T], targets: Collection[T]) -> Answer[A, T]:
    """Look at every set of atoms there is: the slow truth that tests compare with."""
    atoms = sorted({atom for target in targets for move in puzzle.moves[target] for atom in move}, key=str)
    best: Answer[A, T] | None = None
    for taken in product((False, True), repeat=len(atoms)):
        chosen = frozenset(atom for atom, take in zip(atoms, taken, strict=True) if take)
        if not puzzle.fits(chosen):
            continue
        left = frozenset(target for target in targets if puzzle.bad(target, chosen))
        if any(target not in puzzle.penalty for target in left):
            continue
        total = puzzle.price(chosen) + sum(puzzle.penalty[target] for target in left)
        if best is None or (total, len(chosen)) < (best.total - EPSILON, len(best.atoms)):
            best = Answer(chosen, left, total, True)
    assert best is not None
    return best


def _groups(puzzle: Puzzle[A, T], targets: Collection[T]) -> list[list[T]]:
    """Targets that no atom ties together, directly or through others, are apart."""
    own = {
        target: {atom for move in puzzle.moves[target] for atom in move} | puzzle.touches[target]
        for target in targets
    }
    useful = {atom for target in targets for move in puzzle.moves[target] for atom in move}
    groups: list[tuple[set[A], list[T]]] = []
    for target in targets:
        atoms, members = own[target] & useful, [target]
        apart = []
        for group in groups:
            if group[0] & atoms:
                atoms, members = atoms | group[0], group[1] + members
            else:
                apart.append(group)
        groups = [*apart, (atoms, members)]
    return [members for _, members in groups]


def _best_first(seek: _Seek[A, T], known: Answer[A, T], budget: Budget) -> Answer[A, T]:
    """Take the likeliest cheapest set, and branch on what may help one target that is still bad."""
    tie = count()
    heap = [(0.0, 0, next(tie), frozenset[A](), frozenset[T]())]
    seen: set[tuple[frozenset[A], frozenset[T]]] = set()
    try:
        while heap:
            bound, _, _, chosen, given_up = heapq.heappop(heap)
            if bound >= known.total - EPSILON:
                break
            if (chosen, given_up) in seen:
                continue
            budget.spend()
            still = seek.still(chosen, given_up)
            better = seek.so_far(chosen, given_up) + seek.ahead(chosen, still)
            if better > bound + EPSILON:
                heapq.heappush(heap, (better, -len(chosen), next(tie), chosen, given_up))
                continue
            seen.add((chosen, given_up))
            if not still:
                return Answer(chosen, given_up, seek.so_far(chosen, given_up), True)
            for child, left in seek.children(chosen, given_up, still):
                if (child, left) not in seen:
                    ahead = max(bound, seek.so_far(child, left))
                    heapq.heappush(heap, (ahead, -len(child), next(tie), child, left))
    except Spent:
        return known
    return Answer(known.atoms, known.left, known.total, True)


class _Seek(Generic[A, T]):
    """The steps of the search for one group of targets."""

    def __init__(self, puzzle: Puzzle[A, T], targets: Sequence[T], needs: Mapping[T, float]) -> None:
        self.puzzle = puzzle
        self.needs = needs  # what each target needs where it is alone
        self.targets = sorted(targets, key=str)
        self.atoms = {
            target: frozenset(atom for move in puzzle.moves[target] for atom in move) for target in targets
        }

    def part_of(self, known: Answer[A, T]) -> Answer[A, T]:
        """The part of a known answer that is about these targets."""
        useful = {
            atom for target in self.targets for atom in self.atoms[target] | self.puzzle.touches[target]
        }
        atoms, left = known.atoms & useful, known.left & frozenset(self.targets)
        return Answer(atoms, left, self.so_far(atoms, left), False)

    def still(self, chosen: frozenset[A], given_up: frozenset[T]) -> list[T]:
        """Targets that are bad and not given up."""
        return [t for t in self.targets if t not in given_up and self.puzzle.bad(t, chosen)]

    def so_far(self, chosen: frozenset[A], given_up: frozenset[T]) -> float:
        """What was spent."""
        return self.puzzle.price(chosen) + self._hurt(given_up)

    def _hurt(self, left: Iterable[T]) -> float:
        return sum(self.puzzle.penalty.get(target, self.puzzle.broken) for target in left)

    def ahead(self, chosen: frozenset[A], still: Collection[T]) -> float:
        """What it will cost at least to clear the rest: targets that share no atoms need a move each."""
        taken: set[A] = set()
        total = 0.0
        for need, target in sorted(((self._need(t, chosen), t) for t in still), key=lambda one: -one[0]):
            if taken.isdisjoint(self.atoms[target]):
                total += need
                taken |= self.atoms[target]
        return total

    def _need(self, target: T, chosen: frozenset[A]) -> float:
        cheapest = min(
            (self.puzzle.price(move - chosen) for move in self.puzzle.moves[target] if not move <= chosen),
            default=float("inf"),
        )
        own = self.needs.get(target, 0.0) - self.puzzle.price(chosen & self.atoms[target])
        cheapest = max(cheapest, own)
        return min(cheapest, self.puzzle.penalty.get(target, float("inf")))

    def children(
        self, chosen: frozenset[A], given_up: frozenset[T], still: Collection[T]
    ) -> list[tuple[frozenset[A], frozenset[T]]]:
        """Every way of going on for the target with the fewest ways."""
        target = min(still, key=lambda one: (len(self.puzzle.moves[one]), str(one)))
        found = [(child, given_up) for child in self._ways(target, chosen)]
        if target in self.puzzle.penalty:
            found.append((chosen, given_up | {target}))
        return found

    def _ways(self, target: T, chosen: frozenset[A]) -> list[frozenset[A]]:
        ways = (chosen | move for move in self.puzzle.moves[target] if not move <= chosen)
        return [way for way in ways if self.puzzle.fits(way)]

    def nothing(self) -> Answer[A, T]:
        """Doing nothing at all."""
        return self._answer(frozenset())

    def _answer(self, chosen: frozenset[A]) -> Answer[A, T]:
        left = frozenset(self.still(chosen, frozenset()))
        return Answer(chosen, left, self.so_far(chosen, left), False)

    def wander(self, start: frozenset[A], budget: Budget) -> Answer[A, T]:
        """From a start go to the best neighbour again and again, never straight back; the best that was met."""
        useful = {atom for atoms in self.atoms.values() for atom in atoms}
        here = best = self._answer(start & useful)
        away: dict[A, int] = {}  # until when an atom stays as it is
        stale = 0
        try:
            for turn in count():
                if stale > PATIENCE:
                    break
                near = [self._answer(way) for way in self._near(here, away, turn)]
                for _ in near:
                    budget.spend()
                if not near:
                    break
                there = min(near, key=lambda one: (one.total, len(one.atoms), sorted(map(str, one.atoms))))
                away |= dict.fromkeys(there.atoms ^ here.atoms, turn + MEMORY)
                here = there
                stale = 0 if here.total < best.total - EPSILON else stale + 1
                best = min(best, here, key=lambda one: one.total)
        except Spent:
            pass
        return best

    def _near(self, here: Answer[A, T], away: Mapping[A, int], turn: int) -> list[frozenset[A]]:
        """Sets that differ in what may help one bad target, or by an atom less."""
        ways = {here.atoms - {atom} for atom in here.atoms}
        for target in here.left:
            for move in self.puzzle.moves[target]:
                kept = (atom for atom in here.atoms if self.puzzle.fits(move | {atom}))
                ways.add(frozenset(kept) | move)
        found = []
        for way in sorted(ways - {here.atoms}, key=lambda way: sorted(map(str, way))):
            fresh = all(away.get(atom, -1) < turn for atom in way ^ here.atoms)
            if fresh and self.puzzle.fits(way):
                found.append(way)
        return found
