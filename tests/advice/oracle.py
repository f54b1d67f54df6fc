"""Every set of steps there is, looked at one by one: the slow truth that the search for what to change has to reach."""

from __future__ import annotations

from collections.abc import Collection
from itertools import combinations, product

from mulewright.advice.fixing.lessons import A, T
from mulewright.advice.fixing.search import Answer, Puzzle

EPSILON = 1e-9


def brute_force(puzzle: Puzzle[A, T], targets: Collection[T]) -> Answer[A, T]:
    """The cheapest set of atoms; of those that cost the same, the smallest."""
    atoms = sorted({atom for target in targets for atom in puzzle.helps[target]}, key=str)
    best: Answer[A, T] | None = None
    for taken in product((False, True), repeat=len(atoms)):
        chosen = frozenset(atom for atom, take in zip(atoms, taken, strict=True) if take)
        if any(puzzle.clash(*pair) for pair in combinations(chosen, 2)) or not puzzle.fits(chosen):
            continue
        left = frozenset(target for target in targets if puzzle.bad(target, chosen))
        if any(target not in puzzle.penalty for target in left):
            continue
        total = puzzle.total(chosen, left)
        if best is None or (total, len(chosen)) < (best.total - EPSILON, len(best.atoms)):
            best = Answer(chosen, left, total, True)
    assert best is not None
    return best
