"""The search finds what looking at every set finds, and says so; where it may not, it says that too."""

from __future__ import annotations

import random
from itertools import combinations

import pytest

from mulewright.advice.fixing.lessons import Lessons
from mulewright.advice.fixing.search import Puzzle, Spent, solve
from tests.advice.oracle import brute_force


class Budget:
    """So many sets."""

    def __init__(self, most: int) -> None:
        self.most = most

    def spend(self) -> None:
        self.most -= 1
        if self.most < 0:
            raise Spent


def puzzle(seed: int, *, hard: bool = False) -> tuple[Puzzle[str, str], list[str]]:
    """Targets that are cleared by one of several pairs or singles; some atoms clash, some undo another's work."""
    dice = random.Random(seed)
    atoms = [f"a{number}" for number in range(9)]
    costs = {atom: dice.choice([0.5, 1.0, 1.5, 4.0, 6.0]) for atom in atoms}
    targets = [f"t{number}" for number in range(5)]
    cures = {t: [frozenset(dice.sample(atoms, dice.choice([1, 1, 2]))) for _ in range(3)] for t in targets}
    undoes = {target: frozenset(dice.sample(atoms, 1)) for target in targets}
    clashes = frozenset(dice.sample(atoms, 2))
    helps = {target: sorted({atom for cure in cures[target] for atom in cure}) for target in targets}

    def bad(target: str, done: frozenset[str]) -> bool:
        return bool(undoes[target] & done) or not any(cure <= done for cure in cures[target])

    def pain(target: str, done: frozenset[str]) -> float:
        return len(undoes[target] & done) + min(len(cure - done) for cure in cures[target])

    def felt(target: str, done: frozenset[str]) -> frozenset[str]:
        return done & (undoes[target] | set(helps[target]))

    def clash(one: str, other: str) -> bool:
        return {one, other} == clashes

    penalty = {target: 50.0 for target in targets if not (hard and target == "t0")}
    return Puzzle(
        helps, bad, pain, costs.__getitem__, felt, clash, lambda some: len(some) < 9, penalty
    ), targets


@pytest.mark.parametrize("seed", range(60))
def test_the_best_is_what_looking_at_every_set_finds(seed: int) -> None:
    given, targets = puzzle(seed)
    best = solve(given, targets, Budget(10**6))
    truth = brute_force(given, targets)
    assert best.proven
    assert best.total == pytest.approx(truth.total)
    assert all(given.bad(target, best.atoms) == (target in best.left) for target in targets)


def helped(seed: int) -> bool:
    given, _ = puzzle(seed, hard=True)
    every = (frozenset(some) for some in combinations(given.helps["t0"], 2))
    singles = (frozenset({atom}) for atom in given.helps["t0"])
    return any(
        not given.clash(*(*some, *some)[:2]) and not given.bad("t0", some) for some in (*singles, *every)
    )


@pytest.mark.parametrize("seed", [seed for seed in range(20) if helped(seed)])
def test_what_may_not_be_left_is_not_left_where_it_can_be_helped(seed: int) -> None:
    given, targets = puzzle(seed, hard=True)
    best = solve(given, targets, Budget(10**6))
    assert "t0" not in best.left
    assert best.total == pytest.approx(brute_force(given, targets).total)


def test_a_search_that_may_not_look_far_says_so() -> None:
    given, targets = puzzle(3)
    short = solve(given, targets, Budget(2))
    assert not short.proven
    assert all(given.bad(target, short.atoms) == (target in short.left) for target in targets)


def test_a_search_with_lessons_from_before_tries_less_and_finds_the_same() -> None:
    given, targets = puzzle(5)
    lessons: Lessons[str, str] = Lessons()
    first, second = Budget(10**6), Budget(10**6)
    once, again = solve(given, targets, first, lessons), solve(given, targets, second, lessons)
    assert again == once
    assert second.most == 10**6 - 1 > first.most


def test_targets_that_share_nothing_take_few_sets() -> None:
    count = 14
    looked = Budget(10**6)
    helps = {f"t{n}": [f"a{n}", f"b{n}"] for n in range(count)}
    given: Puzzle[str, str] = Puzzle(
        helps,
        lambda target, done: not done & set(helps[target]),
        lambda target, done: 0.0 if done & set(helps[target]) else 1.0,
        lambda atom: 1.0 if atom.startswith("a") else 2.0,
        lambda target, done: done & set(helps[target]),
        lambda one, other: False,
        lambda some: True,
        dict.fromkeys(helps, 100.0),
    )
    best = solve(given, list(helps), looked)
    assert best.total == count
    assert 10**6 - looked.most < 20
