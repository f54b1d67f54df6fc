"""What was learned about sets that were tried, and which set at least cost agrees with all of it?"""

from __future__ import annotations

from collections.abc import Callable, Collection, Hashable, Iterable, Mapping
from dataclasses import dataclass, field
from itertools import combinations
from typing import Any, Generic, TypeVar

A = TypeVar("A", bound=Hashable)  # an atom: one thing to do
T = TypeVar("T", bound=Hashable)  # a target: one thing that is bad until it is cleared

SOLVER = "SAT"
ALONE = (  # one worker, so that it ends the same everywhere; the rest spares it what is of no use for sets so small
    "num_workers:1,catch_sigint_signal:false,linearization_level:0,cp_model_probing_level:0,symmetry_level:0,"
    "max_presolve_iterations:1,optimize_with_core:true,use_sat_inprocessing:false"
)

GRAIN = 1e7  # whole numbers that the solver counts with for a cost of 1; of equal sets it takes that of earlier atoms


@dataclass(frozen=True)
class Lesson(Generic[A]):
    """A target is bad in every set that holds some atoms, and of what may help it no others than those looked at."""

    within: frozenset[A]
    holds: frozenset[A]


@dataclass
class Lessons(Generic[A, T]):
    """All that was learned; it holds whatever the atoms cost."""

    about: dict[T, list[Lesson[A]]] = field(default_factory=dict)
    unfit: list[frozenset[A]] = field(default_factory=list)  # what cannot be done together

    def learn(self, target: T, lesson: Lesson[A]) -> None:
        """Remember that a target is bad in some sets."""
        self.about.setdefault(target, []).append(lesson)


class Master(Generic[A, T]):
    """The sets that agree with all lessons, and the cheapest of them, found by an exact solver.

    Parameters
    ----------
    helps : mapping of target to collection of atoms
        What may help each target.
    cost : mapping of atom to float
        What each atom costs. [1]
    penalty : mapping of target to float
        What it costs to leave a target bad; one that is not named may not be left. [1]
    lessons : Lessons
        What was learned before.
    clash : callable
        Whether two atoms cannot be done together.
    """

    def __init__(
        self,
        helps: Mapping[T, Collection[A]],
        cost: Mapping[A, float],
        penalty: Mapping[T, float],
        lessons: Lessons[A, T],
        clash: Callable[[A, A], bool],
    ) -> None:
        from ortools.linear_solver import pywraplp

        self.helps = helps
        self.solver: Any = pywraplp.Solver.CreateSolver(SOLVER)
        self.solver.SetSolverSpecificParametersAsString(ALONE)
        self.exact: Any = pywraplp.MPSolverParameters()
        self.exact.SetDoubleParam(self.exact.RELATIVE_MIP_GAP, 0.0)
        self.done: dict[A, Any] = {atom: self.solver.BoolVar("") for atom in cost}
        self.left: dict[T, Any] = {target: self.solver.BoolVar("") for target in penalty}
        weights = [(self.done[atom], GRAIN * cost[atom] + place) for place, atom in enumerate(cost)]
        weights += [(self.left[target], GRAIN * penalty[target]) for target in penalty]
        for variable, weight in weights:
            self.solver.Objective().SetCoefficient(variable, round(weight))
        self.solver.Objective().SetMinimization()
        for clique in _cliques(list(cost), clash):
            self._row(-self.solver.infinity(), 1, [(self.done[atom], 1) for atom in clique])
        for unfit in lessons.unfit:
            self.forbid(unfit)
        for target in helps:
            for lesson in lessons.about.get(target, ()):
                self.heed(target, lesson)

    def _row(self, low: float, high: float, terms: Iterable[tuple[Any, int]]) -> None:
        row = self.solver.Constraint(low, high)
        for variable, factor in terms:
            row.SetCoefficient(variable, factor)

    def forbid(self, atoms: Collection[A]) -> None:
        """Never do all of some atoms together."""
        if self.done.keys() >= set(atoms):
            self._row(-self.solver.infinity(), len(atoms) - 1, [(self.done[atom], 1) for atom in atoms])

    def heed(self, target: T, lesson: Lesson[A]) -> None:
        """Do something else for a target than what was looked at, without what it holds, or leave the target."""
        if not self.done.keys() >= lesson.holds:
            return
        terms = [(self.done[atom], 1) for atom in self.helps[target] if atom not in lesson.within]
        terms += [(self.done[atom], -1) for atom in sorted(lesson.holds, key=str)]
        if target in self.left:
            terms.append((self.left[target], 1))
        self._row(1 - len(lesson.holds), self.solver.infinity(), terms)

    def cheapest(self) -> tuple[frozenset[A], frozenset[T]]:
        """The cheapest set, and the targets that it leaves."""
        status = self.solver.Solve(self.exact)
        assert status == self.solver.OPTIMAL, status  # leaving everything is allowed, or was so before
        done = frozenset(atom for atom, variable in self.done.items() if variable.solution_value() > 0.5)
        left = frozenset(target for target, variable in self.left.items() if variable.solution_value() > 0.5)
        return done, left


def _cliques(atoms: list[A], clash: Callable[[A, A], bool]) -> list[list[A]]:
    """Atoms of which only one can be done, as many as possible at once."""
    clashing: dict[A, set[A]] = {atom: set() for atom in atoms}
    for one, other in combinations(atoms, 2):
        if clash(one, other):
            clashing[one].add(other)
            clashing[other].add(one)
    found: list[list[A]] = []
    covered: set[tuple[A, A]] = set()
    for one, other in ((a, b) for a in atoms for b in atoms if b in clashing[a]):
        if (one, other) not in covered:
            clique = [one, other]
            for third in atoms:
                if third not in clique and clashing[third].issuperset(clique):
                    clique.append(third)
            covered |= {(a, b) for a in clique for b in clique}
            found.append(clique)
    return found
