"""The cheapest layout by trying every one: slow, plain, and written without the solver's rules in sight."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field

from mulewright.layout.pricing import price
from mulewright.layout.problem import Function, Problem, Seat

NOWHERE = Seat(None, None)


@dataclass
class Enumeration:
    """Every layout of a problem, function after function."""

    problem: Problem
    alone: dict[tuple[str, Seat], float] = field(default_factory=dict)
    beside: dict[tuple[str, Seat, str, Seat], float] = field(default_factory=dict)
    tried: int = 0

    def best(self) -> tuple[int, float]:
        """Weight of what is left out, and the cost of the cheapest layout that leaves out so little."""
        self.names = [one.name for one in self.problem.functions]
        self.seats = {one.name: [*self.possible(one), NOWHERE] for one in self.problem.functions}
        self.coupled = {frozenset((one.first, one.second)) for one in self.problem.pairs}
        return min(self.every(0, {}, 0, 0.0))

    def possible(self, function: Function) -> Iterator[Seat]:
        """Seats that a function may have by itself."""
        channels = [function.at] if function.at is not None else list(self.problem.channels)
        if function.needs == "channel":
            yield from (Seat(None, channel) for channel in channels)
            return
        for control in self.problem.controls:
            if function.only is not None and control.id not in function.only:
                continue
            if function.needs == "control":
                if control.radio == function.outputs[0].radio:
                    yield Seat(control.id, None)
                continue
            yield from (Seat(control.id, channel) for channel in control.channels if channel in channels)

    def every(
        self, place: int, layout: dict[str, Seat], missing: int, cost: float
    ) -> Iterator[tuple[int, float]]:
        """The price of every way to go on."""
        if place == len(self.names):
            self.tried += 1
            yield missing, round(cost, 6)
            return
        name = self.names[place]
        function = self.problem.functions[place]
        for seat in self.seats[name]:
            if seat == NOWHERE:
                weight = len(self.names) + 1 + function.drive
                yield from self.every(place + 1, layout, missing + weight, cost)
            elif self.free(function, seat, layout):
                more = self.own(name, seat) + sum(
                    self.together(other, there, name, seat) for other, there in layout.items()
                )
                yield from self.every(place + 1, layout | {name: seat}, missing, cost + more)

    def free(self, function: Function, seat: Seat, layout: dict[str, Seat]) -> bool:
        """Whether nobody sits there yet, and a second lead is at the receiver of its function."""
        for there in layout.values():
            if seat.control is not None and seat.control == there.control:
                return False
            if seat.channel is not None and seat.channel == there.channel:
                return False
            if self.moves_too(seat, there) or self.moves_too(there, seat):
                return False
        if function.follows:
            lead = layout.get(function.follows)
            assert seat.channel is not None
            return lead is not None and str(lead.control).startswith(f"{seat.channel.radio}.")
        return True

    def moves_too(self, mixed: Seat, other: Seat) -> bool:
        """Whether a control that a mix takes in moves the channel of another seat as well, and cannot be set not to."""
        if mixed.control is None or mixed.channel is not None or other.channel is None:
            return False
        return self.problem.control(mixed.control).channels == (other.channel,)

    def own(self, name: str, seat: Seat) -> float:
        """What a seat costs by itself."""
        if (name, seat) not in self.alone:
            self.alone[name, seat] = price(self.problem, {name: seat}).cost
        return self.alone[name, seat]

    def together(self, first: str, here: Seat, second: str, there: Seat) -> float:
        """What two seats cost beyond what each costs by itself."""
        if frozenset((first, second)) not in self.coupled:
            return 0.0
        key = (first, here, second, there)
        if key not in self.beside:
            both = price(self.problem, {first: here, second: there}).cost
            self.beside[key] = both - self.own(first, here) - self.own(second, there)
        return self.beside[key]
