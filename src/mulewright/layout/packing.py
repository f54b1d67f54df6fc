"""Channels run short: what can share one, go away or be added, and at what price?"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from functools import partial
from itertools import combinations

from mulewright.layout.joining import (
    freed,
    joined,
    with_leads_on_one,
    with_second_radio,
    without,
)
from mulewright.layout.pricing import Priced
from mulewright.layout.problem import Function, Kind, Problem
from mulewright.layout.solving import solve

MOST_MOVES = 3
MOST_SETS = 400  # sets of moves that are tried


@dataclass(frozen=True)
class Move:
    """One thing that one can do when channels run short."""

    what: str
    price: float
    gone: frozenset[str]  # functions that it changes; two moves that change the same one do not go together
    made: Callable[[Problem], Problem]


@dataclass(frozen=True)
class Packed:
    """Moves that were made, and the best layout after them."""

    moves: tuple[Move, ...]
    best: Priced

    @property
    def price(self) -> float:
        """What the moves cost, without the layout."""
        return sum(one.price for one in self.moves)

    @property
    def short(self) -> int:
        """Functions that still find no place."""
        return len(self.best.left_out)


def moves(problem: Problem, grippers: Sequence[str], mirrored: Sequence[str]) -> Iterator[Move]:
    """Every move that the functions allow.

    Parameters
    ----------
    problem : Problem
        The layout to be made.
    grippers : sequence of str
        Functions that are grippers.
    mirrored : sequence of str
        Second leads that need a reversing lead to share the signal of the first.

    Yields
    ------
    move : Move
        What to do and its price.
    """
    costs = problem.costs
    yield from _mixes(problem)
    for one in problem.functions:
        if one.follows:
            how = "reversing lead" if one.name in mirrored else ""
            price = costs["y_lead_reversing" if how else "y_lead"]
            yield Move(
                f"Y-lead {'with a reversing lead ' if how else ''}for all of {one.follows}", price,
                frozenset({one.name}), partial(with_leads_on_one, follower=one.name),
            )  # fmt: skip
        if one.name in grippers:
            yield _without(one.name, f"{one.name} holds by a spring or its shape", costs["passive_gripper"])
        if one.name == "strafe":
            yield _without(one.name, "do without strafing; its box is free too", costs["drop_strafe"])
    yield from _shared(problem)
    if all(channel.radio == "radio" for channel in problem.channels):
        yield Move(
            "second transmitter with receiver and driver",
            costs["second_radio"],
            frozenset(),
            with_second_radio,
        )


def pack(problem: Problem, known: Sequence[Move]) -> tuple[list[Packed], Packed | None]:
    """What each move gives alone, and the cheapest set of moves after which everything has a place.

    Parameters
    ----------
    problem : Problem
        The layout to be made.
    known : sequence of Move
        The moves that there are.

    Returns
    -------
    alone : list of Packed
        Each move by itself, the cheapest of those that help first.
    together : Packed or None
        The cheapest set with nothing left over, of at most three moves; none if there is no such set.
    """
    alone = [Packed((move,), solve(move.made(problem))[1].priced) for move in known]
    alone.sort(key=lambda one: (one.short, one.price, one.best.cost, one.moves[0].what))
    sets = [
        chosen
        for size in range(1, MOST_MOVES + 1)
        for chosen in combinations(known, size)
        if all(one.gone.isdisjoint(other.gone) for one, other in combinations(chosen, 2))
    ]
    sets.sort(key=lambda chosen: sum(move.price for move in chosen))
    for chosen in sets[:MOST_SETS]:
        now = problem
        for move in chosen:
            now = move.made(now)
        if _room(now):
            best = solve(now)[1].priced
            if not best.left_out:
                return alone, Packed(chosen, best)
    return alone, None


def _room(problem: Problem) -> bool:
    """Whether controls and channels are enough at first sight."""
    controls = sum(one.wants_control for one in problem.functions)
    channels = sum(one.wants_channel and one.at is None for one in problem.functions)
    return controls <= len(problem.controls) and channels <= len(problem.channels)


def _without(name: str, what: str, price: float) -> Move:
    return Move(what, price, frozenset({name}), partial(without, names={name}))


def _mixes(problem: Problem) -> Iterator[Move]:
    """Mixes that take channels on which nothing of the mule sits."""
    outputs = {channel for one in problem.functions for channel in (*one.outputs, *filter(None, [one.at]))}
    for why in dict.fromkeys(problem.taken.values()):
        channels = [one for one, reason in problem.taken.items() if reason == why]
        if ".mix." in why and outputs.isdisjoint(channels):
            yield Move(
                f"switch {why.split()[0]} off", problem.costs["mix_off"], frozenset(),
                partial(freed, channels=tuple(channels)),
            )  # fmt: skip


def _shared(problem: Problem) -> Iterator[Move]:
    """Functions that can share one control."""
    costs = problem.costs
    together = {frozenset((one.first, one.second)) for one in problem.pairs if one.why == "together"}
    three = frozenset(one.id for one in problem.controls if one.kind == "switch" and one.positions > 2)
    led = {one.follows for one in problem.functions}
    free = [one for one in problem.functions if one.wants_control and one.wants_channel and not one.drive]
    for one, other in combinations([one for one in free if one.name not in led], 2):
        names, both = (one.name, other.name), frozenset((one.name, other.name))
        at_once = both in together
        if three and not at_once and all(part.kind in ("two-state", "constant") for part in (one, other)):
            yield _join(names, f"{_and(names)} at the two ends of one switch", costs["one_switch"], three)
        if not at_once and one.kind == other.kind == "constant":
            what = f"{_and(names)} by one motor, through one-way clutches"
            yield _join(names, what, costs["one_way_clutch"], None, kind="speed")
        if _run_together(one, other):
            yield _join(names, f"{_and(names)} always together on one control", costs["one_control"], None)


def _run_together(one: Function, other: Function) -> bool:
    return one.motor and one.kind == other.kind and not (one.held or other.held)


def _join(
    names: tuple[str, str], what: str, price: float, only: frozenset[str] | None, kind: Kind | None = None
) -> Move:
    return Move(what, price, frozenset(names), partial(joined, names=names, only=only, kind=kind))


def _and(names: Sequence[str]) -> str:
    return " and ".join(names)
