"""Which layout costs least? Solved exactly as an assignment with costs of pairs; the next best ones after it."""

from __future__ import annotations

from collections.abc import Callable, Hashable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from mulewright.layout.pairing import between
from mulewright.layout.pricing import Priced, place, plugs_to_move, price
from mulewright.layout.problem import Channel, Control, Function, Pair, Problem, Seat
from mulewright.layout.suiting import Line, on_channel, on_control

SHARE = 100  # of a point that is still counted
EASE = 100  # among layouts of equal cost, the one with the least work; more work than this nobody has
LONGEST = 60.0  # steps of the solver that take about as many seconds; the same on every machine
OPTIMAL, FEASIBLE = "OPTIMAL", "FEASIBLE"


@dataclass(frozen=True)
class Solved:
    """A layout, and whether it was proved that none costs less."""

    priced: Priced
    proved: bool


@dataclass
class _Sum:
    """A weighted sum of variables."""

    terms: list[tuple[int, Any]] = field(default_factory=list)

    def add(self, weight: int, variable: Any) -> None:
        if weight:
            self.terms.append((weight, variable))

    def of(self, factor: int = 1) -> Any:
        return factor * sum(weight * variable for weight, variable in self.terms)


class Model:
    """The layouts of a problem as a model of an exact solver."""

    def __init__(self, problem: Problem, *, leave_out: bool = False) -> None:
        from ortools.sat.python import cp_model

        self.problem = problem
        self.cp = cp_model
        self.model: Any = cp_model.CpModel()
        self.risk, self.handling, self.work, self.missing = _Sum(), _Sum(), _Sum(), _Sum()
        self.on: dict[str, dict[str, Any]] = {}
        self.at: dict[str, dict[Channel, Any]] = {}
        self.out: dict[str, Any] = {}
        for function in problem.functions:
            self._seats(function, leave_out=leave_out)
        self._one_each()
        self._leads()
        for number, pair in enumerate(problem.pairs):
            self._pair(number, pair)

    # --- what may be ---------------------------------------------------------------------------------------------

    def _seats(self, function: Function, *, leave_out: bool) -> None:
        """The controls and the channels on which a function may sit, one of each, or its being left out."""
        name = function.name
        usable = [function.at] if function.at is not None else list(self.problem.channels)
        fits = [one for one in self.problem.controls if fitting(function, one, usable)]
        reached = {channel for one in fits for channel in one.channels}
        if not function.wants_control:
            fits, reached = [], set(usable)
        if not function.wants_channel:
            reached = set()
        on = {one.id: self.model.new_bool_var(f"{name} on {one.id}") for one in fits}
        at = {one: self.model.new_bool_var(f"{name} at {one.socket}") for one in usable if one in reached}
        out = self.model.new_bool_var(f"without {name}") if leave_out else 0
        self.on[name], self.at[name], self.out[name] = on, at, out
        if leave_out:
            self.missing.add(len(self.problem.functions) + 1 + function.drive, out)
        if function.wants_control:
            self.model.add(sum(on.values()) + out == 1)
        if function.wants_channel:
            self.model.add(sum(at.values()) + out == 1)
            for control in fits:
                self.model.add(sum(at[one] for one in control.channels if one in at) >= on[control.id])
        self._prices(function, fits)

    def _prices(self, function: Function, fits: Sequence[Control]) -> None:
        """What each seat costs by itself, and the work to get there."""
        now = self.problem.present.get(function.name)
        for control in fits:
            variable = self.on[function.name][control.id]
            self._weigh(on_control(function, control, self.problem.costs), variable)
            self.work.add(now is None or now.control != control.id, variable)
            if not function.wants_channel:
                self._weigh(on_channel(function, None, self.problem), variable)
        for channel, variable in self.at[function.name].items():
            self._weigh(on_channel(function, channel, self.problem), variable)
            self.work.add(plugs_to_move(self.problem, function, channel), variable)

    def _weigh(self, lines: Iterator[Line], variable: Any) -> None:
        for line in lines:
            part = self.risk if line.about == "risk" else self.handling
            part.add(round(line.cost * SHARE), variable)

    def _one_each(self) -> None:
        """One function to a control, one to a channel; a control that a mix takes in still moves its own channel."""
        for control in self.problem.controls:
            on = [seats[control.id] for seats in self.on.values() if control.id in seats]
            self.model.add_at_most_one(on)
            if len(control.channels) == 1:
                mixed = [one.name for one in self.problem.functions if not one.wants_channel]
                through = [self.on[name][control.id] for name in mixed if control.id in self.on[name]]
                at = [
                    seats[control.channels[0]] for seats in self.at.values() if control.channels[0] in seats
                ]
                if through and at:
                    self.model.add_at_most_one([*through, *at])
        for channel in {one for seats in self.at.values() for one in seats}:
            self.model.add_at_most_one([seats[channel] for seats in self.at.values() if channel in seats])

    def _leads(self) -> None:
        """A second lead sits at the receiver of its function's transmitter."""
        for function in self.problem.functions:
            if function.follows:
                on = self.on[function.follows].items()
                for channel, variable in self.at[function.name].items():
                    near = [one for id, one in on if self.problem.control(id).radio == channel.radio]
                    self.model.add(sum(near) >= variable)

    def _pair(self, number: int, pair: Pair) -> None:
        """Say where both are at once, as in a transport from places of the one to those of the other."""
        first, second = (self._places(pair, name) for name in (pair.first, pair.second))
        both = {
            (here, there): self.model.new_bool_var(f"pair {number}: {here}, {there}")
            for here in first
            for there in second
        }
        for (here, there), variable in both.items():
            if here is not None and there is not None:
                line = between(pair, here, there, self.problem.costs)
                self._weigh(iter([line] if line is not None else []), variable)
        for here, one in first.items():
            self.model.add(sum(both[here, there] for there in second) == sum(one))
        for there, other in second.items():
            self.model.add(sum(both[here, there] for here in first) == sum(other))

    def _places(self, pair: Pair, name: str) -> dict[Hashable | None, list[Any]]:
        """The places that matter to a pair, each with the variables of which one says that it is taken."""
        found: dict[Hashable | None, list[Any]] = {None: [self.out[name]]}
        seats = [(Seat(id, None), one) for id, one in self.on[name].items()]
        seats += [(Seat(None, channel), one) for channel, one in self.at[name].items()]
        for seat, variable in seats:
            if (here := place(self.problem, pair, seat)) is not None:
                found.setdefault(here, []).append(variable)
        return found

    # --- what is best --------------------------------------------------------------------------------------------

    def best(self) -> Solved | None:
        """The cheapest layout, of several the one with the least work; none if there is none."""
        self._place_most()
        return self._least(self.cost.of(EASE) + self.work.of())

    def _place_most(self) -> None:
        """Leave out no more than has to be."""
        if self.missing.terms and self._least(self.missing.of()) is not None:
            self.model.add(self.missing.of() <= round(self._objective))
            self.missing = _Sum()

    @property
    def cost(self) -> _Sum:
        """All that it costs."""
        return _Sum([*self.risk.terms, *self.handling.terms])

    def next_best(self, so_far: Priced, most: float) -> Solved | None:
        """The cheapest layout with other controls than all before, if it costs no more than so much."""
        seats = [self.on[name].get(seat.control or "") for name, seat in so_far.layout.items()]
        taken = [one for one in seats if one is not None]
        self.model.add(sum(taken) <= len(taken) - 1)
        if so_far.cost <= most:
            self.model.add(self.cost.of() <= round(most * SHARE))
        return self.best()

    def first_by(self, part: Callable[[Model], _Sum]) -> Solved | None:
        """The layout that is best by one part of the price, and by all of it among those."""
        self._place_most()
        if self._least(part(self).of()) is None:
            return None
        self.model.add(part(self).of() <= round(self._objective))
        return self.best()

    def _least(self, objective: Any) -> Solved | None:
        self.model.minimize(objective)
        solver = self.cp.CpSolver()
        solver.parameters.num_workers = 1
        solver.parameters.random_seed = 0
        solver.parameters.linearization_level = 2
        solver.parameters.max_deterministic_time = LONGEST
        status = solver.status_name(solver.solve(self.model))
        if status not in (OPTIMAL, FEASIBLE):
            return None
        self._objective = solver.objective_value
        layout = dict(self._read(solver))
        self.model.clear_hints()
        for name, seat in layout.items():
            for id, variable in self.on[name].items():
                self.model.add_hint(variable, id == seat.control)
        return Solved(price(self.problem, layout), status == OPTIMAL)

    def _read(self, solver: Any) -> Iterator[tuple[str, Seat]]:
        for function in self.problem.functions:
            on, at = self.on[function.name], self.at[function.name]
            control = next((id for id, one in on.items() if solver.value(one)), None)
            channel = next((one for one, variable in at.items() if solver.value(variable)), None)
            if control is not None or channel is not None:
                yield function.name, Seat(control, channel)


def fitting(function: Function, control: Control, channels: Sequence[Channel]) -> bool:
    """Whether a function can be put on a control at all."""
    if function.only is not None and control.id not in function.only:
        return False
    if function.outputs:
        return control.radio == function.outputs[0].radio
    return not function.wants_channel or any(one in channels for one in control.channels)


def solve(problem: Problem) -> tuple[Model, Solved]:
    """Find the cheapest layout; if not everything fits, that which leaves out least.

    Parameters
    ----------
    problem : Problem
        Functions, controls, channels and costs.

    Returns
    -------
    model : Model
        The solver's model, to ask for the next best.
    solved : Solved
        The layout.
    """
    model = Model(problem)
    found = model.best()
    if found is None:
        model = Model(problem, leave_out=True)
        found = model.best()
        assert found is not None  # leaving everything out is allowed
    return model, found


PARTS: Mapping[str, Callable[[Model], _Sum]] = {
    "least at risk": lambda model: model.risk,
    "handiest": lambda model: model.handling,
    "least work": lambda model: model.work,
}
