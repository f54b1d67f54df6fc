"""What does a whole layout cost, and for which reasons?"""

from __future__ import annotations

from collections import Counter
from collections.abc import Hashable, Iterator
from dataclasses import dataclass

from mulewright.layout.pairing import OF_CHANNELS, between, hand
from mulewright.layout.problem import Channel, Function, Layout, Pair, Problem, Seat
from mulewright.layout.suiting import About, Line, on_channel, on_control


@dataclass(frozen=True)
class Entry:
    """One function in a layout, with what it costs there by itself."""

    function: Function
    seat: Seat
    lines: tuple[Line, ...]

    @property
    def cost(self) -> float:
        """All its lines."""
        return sum(line.cost for line in self.lines)


@dataclass(frozen=True)
class Beside:
    """What two functions cost together."""

    pair: Pair
    line: Line


@dataclass(frozen=True)
class Priced:
    """A layout with its price, line by line."""

    layout: Layout
    entries: tuple[Entry, ...]
    beside: tuple[Beside, ...]
    clashes: tuple[Line, ...]
    left_out: tuple[str, ...]
    work: int  # controls that change their function, and plugs that move

    @property
    def lines(self) -> list[Line]:
        """Every reason."""
        own = [line for entry in self.entries for line in entry.lines]
        return [*own, *(one.line for one in self.beside), *self.clashes]

    @property
    def cost(self) -> float:
        """What it costs altogether."""
        return round(sum(line.cost for line in self.lines), 6)

    def part(self, about: About) -> float:
        """What it costs in risk, or in handling."""
        return round(sum(line.cost for line in self.lines if line.about == about), 6)


def price(problem: Problem, layout: Layout) -> Priced:
    """Price a layout, a new one or the present one.

    Parameters
    ----------
    problem : Problem
        Functions, controls, channels and costs.
    layout : Layout
        A seat for each function that is not left out.

    Returns
    -------
    priced : Priced
        Its price with every reason.
    """
    entries = tuple(
        Entry(function, layout[function.name], tuple(_own(problem, function, layout[function.name])))
        for function in problem.functions
        if function.name in layout
    )
    beside = tuple(
        Beside(pair, line)
        for pair in problem.pairs
        if pair.first in layout and pair.second in layout
        if (line := _between(problem, pair, layout)) is not None
    )
    left_out = tuple(one.name for one in problem.functions if one.name not in layout)
    moved = sum(work(problem, entry.function, entry.seat) for entry in entries)
    return Priced(layout, entries, beside, tuple(_clashes(problem, layout)), left_out, moved)


def work(problem: Problem, function: Function, seat: Seat) -> int:
    """How many controls change and how many plugs move when a function gets a seat."""
    now = problem.present.get(function.name)
    changed = function.wants_control and (now is None or now.control != seat.control)
    return int(changed) + plugs_to_move(problem, function, seat.channel)


def plugs_to_move(problem: Problem, function: Function, channel: Channel | None) -> int:
    """How many plugs do not sit yet where a channel comes out."""
    if channel is None:
        return 0
    return sum(problem.plugged.get(lead) != channel.socket for lead in function.leads)


def place(problem: Problem, pair: Pair, seat: Seat) -> Hashable | None:
    """What of a seat matters to a pair."""
    if pair.why in OF_CHANNELS:
        return seat.channel
    return hand(problem.control(seat.control)) if seat.control is not None else None


def _own(problem: Problem, function: Function, seat: Seat) -> Iterator[Line]:
    if seat.control is not None:
        yield from on_control(function, problem.control(seat.control), problem.costs)
    yield from on_channel(function, seat.channel, problem)


def _between(problem: Problem, pair: Pair, layout: Layout) -> Line | None:
    first, second = (place(problem, pair, layout[name]) for name in (pair.first, pair.second))
    return between(pair, first, second, problem.costs) if first is not None and second is not None else None


def _clashes(problem: Problem, layout: Layout) -> Iterator[Line]:
    controls = Counter(seat.control for seat in layout.values() if seat.control is not None)
    channels = Counter(seat.channel for seat in layout.values() if seat.channel is not None)
    for id, count in controls.items():
        if count > 1:
            names = " and ".join(name for name, seat in layout.items() if seat.control == id)
            cost = problem.costs["clash"] * (count - 1)
            yield Line(cost, f"{names} share {problem.control(id).name}", "risk")
    for channel, count in channels.items():
        sharing = [name for name, seat in layout.items() if seat.channel == channel]
        if count > 1 and len({layout[name].control for name in sharing}) > 1:
            cost = problem.costs["clash"] * (count - 1)
            yield Line(cost, f"{' and '.join(sharing)} share channel {channel.number}", "risk")
