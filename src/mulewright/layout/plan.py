"""What is the best layout of a mule, what is as good, what would a change gain, and what if channels run short?"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from mulewright.design.schema.electrics import Servo
from mulewright.design.schema.functions import Gripper
from mulewright.facts.graph import Evaluation
from mulewright.layout.changes import Again, Change, possible, what_changes_gain
from mulewright.layout.describing import describe
from mulewright.layout.packing import Packed, moves, pack
from mulewright.layout.pricing import Priced, price
from mulewright.layout.problem import Problem
from mulewright.layout.solving import PARTS, Model, Solved, solve
from mulewright.shelf.tables import default

MOST_TIES = 5


@dataclass(frozen=True)
class Springs:
    """The functions that want a spring, and the stick axes that have one."""

    wanted: tuple[str, ...]
    there: tuple[str, ...]


@dataclass(frozen=True)
class Plan:
    """Everything that can be said about the layout of a mule."""

    problem: Problem
    best: Priced
    present: Priced
    proved: bool
    ties: tuple[Priced, ...]  # as good, or nearly so, the best first
    more_ties: bool
    pareto: tuple[tuple[str, Priced], ...]  # what each is best at, and the layout
    changes: tuple[Change, ...]
    packing: tuple[Packed, ...]  # each move by itself
    packed: Packed | None  # the cheapest set of moves after which nothing is left over
    springs: Springs
    notes: tuple[str, ...]

    @property
    def short(self) -> int:
        """Functions that find no place."""
        return len(self.best.left_out)


def steps(evaluation: Evaluation) -> int:
    """How many steps a plan takes, for a progress bar."""
    return sum(1 for _ in possible(evaluation.mule)) + len(PARTS) + 2


def lay_out(evaluation: Evaluation, again: Again, step: Callable[[], None] = lambda: None) -> Plan:
    """Work out the layout of a mule.

    Parameters
    ----------
    evaluation : Evaluation
        The mule as it is.
    again : callable
        Makes the same mule with further settings.
    step : callable
        Called after each step.

    Returns
    -------
    plan : Plan
        The best layout with its reasons, and what stands beside it.

    Raises
    ------
    MulewrightError
        If there is nothing to lay out.
    """
    problem = describe(evaluation)
    model, solved = solve(problem)
    step()
    ties, more = next_best(model, solved)
    step()
    pareto = _trio(problem, solved, step)
    changes, skipped = what_changes_gain(evaluation.mule, solved.priced, again, step)
    alone: list[Packed] = []
    packed = None
    if solved.priced.left_out:
        alone, packed = pack(problem, list(moves(problem, *_of_servos(evaluation, problem))))
    return Plan(
        problem, solved.priced, price(problem, problem.present), solved.proved, tuple(ties), more, pareto,
        tuple(changes), tuple(alone), packed, _springs(problem), (*problem.notes, *skipped),
    )  # fmt: skip


def next_best(model: Model, best: Solved, most: int = MOST_TIES) -> tuple[list[Priced], bool]:
    """Layouts on other controls that cost as much as the best or hardly more, and whether there are further ones."""
    limit = best.priced.cost + default("layout_near").value
    found: list[Priced] = []
    last: Solved | None = best
    while last is not None and len(found) <= most:
        last = model.next_best(last.priced, limit)
        if last is not None and last.priced.left_out == best.priced.left_out:
            found.append(last.priced)
    return found[:most], len(found) > most


def _trio(problem: Problem, best: Solved, step: Callable[[], None]) -> tuple[tuple[str, Priced], ...]:
    """The layouts that are best by risk, by handling and by work; what is best at several stands once."""
    found: dict[tuple[object, ...], tuple[list[str], Priced]] = {}
    for name, part in PARTS.items():
        model = Model(problem, leave_out=bool(best.priced.left_out))
        solved = model.first_by(part)
        step()
        if solved is not None:
            key = tuple(sorted((one, seat.control) for one, seat in solved.priced.layout.items()))
            found.setdefault(key, ([], solved.priced))[0].append(name)
    return tuple((" and ".join(names), priced) for names, priced in found.values())


def _springs(problem: Problem) -> Springs:
    wanted = (one.name for one in problem.functions if one.kind == "speed" and one.wants_control)
    there = (one.name for one in problem.controls if one.kind == "stick" and one.spring != "none")
    return Springs(tuple(wanted), tuple(there))


def _of_servos(evaluation: Evaluation, problem: Problem) -> tuple[Sequence[str], Sequence[str]]:
    """Functions that are grippers; second leads of servos that are mounted mirror-wise."""
    mule = evaluation.mule
    grippers = [
        one.name
        for one in problem.functions
        if one.names and isinstance(mule.things.get(mule.functions[one.names[0]]), Gripper)
    ]
    mirrored = []
    for one in problem.functions:
        devices = (mule.things.get(lead.removesuffix(".signal")) for lead in one.leads)
        if one.follows and any(isinstance(table, Servo) and table.mirrored for table in devices):
            mirrored.append(one.name)
    return grippers, mirrored
