"""Which chain for which need? As many needs as possible, with few adapters, few leads, and little to spare."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from decimal import Decimal
from functools import cached_property
from itertools import islice
from typing import Any

from mulewright.advice.lead_picking.chains import LONGEST, Chain, Finder, Need
from mulewright.advice.lead_picking.leads import ShelfLead

MOST_CHAINS = 4_000  # of one length that are weighed against each other
MOST_TRIED = 100_000  # of one length that are looked at
LEAST_CHAINS = 10  # that a need may always choose between
LONGEST_SEARCH = 0.3  # steps of the solver that take about as many seconds; the same on every machine
MILLIMETRE = 1e-3  # [m]
CENT = 100
AIMS = 3  # served needs with adapters and leads, length to spare, price


@dataclass(frozen=True)
class Served:
    """A need with the leads that serve it."""

    need: Need
    chain: Chain
    leads: tuple[ShelfLead, ...]

    @property
    def adapters(self) -> int:
        """How many of them are adapters."""
        return sum(lead.is_adapter for lead in self.leads)

    @property
    def surplus(self) -> float:
        """How much longer they are than they need to be, to the millimetre. [m]."""
        return round((self.chain.length - self.need.length) / MILLIMETRE) * MILLIMETRE


@dataclass(frozen=True)
class Solved:
    """Who gets which leads, who gets none, and whether it was proved that there is nothing better."""

    served: tuple[Served, ...]
    unserved: tuple[Need, ...]
    proved: bool

    @cached_property
    def taken(self) -> Counter[str]:
        """How many of each lead are taken, by its id."""
        return Counter(lead.id for one in self.served for lead in one.leads)


@dataclass(frozen=True)
class _Column:
    """A chain that may serve the needs of a group, once or more often."""

    group: int
    chain: Chain
    adapters: int
    surplus: int  # [mm]
    price: int  # hundredths

    @property
    def cost(self) -> tuple[int, int, int, int]:
        return self.adapters, len(self.chain.places), self.surplus, self.price


class _Columns:
    """Chains of every group of like needs."""

    def __init__(self, leads: Sequence[ShelfLead], groups: Mapping[int, Need]) -> None:
        self.leads = leads
        self.finders = {group: Finder(need, leads) for group, need in groups.items()}
        self.all: dict[_Column, None] = {}
        self.complete = True
        priced = [lead.price for lead in leads if lead.price is not None]
        self._dearest = max((price for price, _ in priced), default=Decimal(0))
        self._comparable = len({currency for _, currency in priced}) == 1

    def lengthen(self, size: int) -> None:
        """Add the chains of so many leads; where there are too many, those that cost least."""
        most = max(LEAST_CHAINS, MOST_CHAINS // len(self.finders))
        for group, finder in self.finders.items():
            chains = finder.chains(size, MOST_TRIED // len(self.finders))
            found = sorted((self._column(group, chain) for chain in chains), key=lambda one: one.cost)
            self.complete &= finder.tries >= 0 and len(found) <= most
            self.all |= dict.fromkeys(found[:most])

    def _column(self, group: int, chain: Chain) -> _Column:
        leads = [self.leads[place] for place in chain.places]
        surplus = round((chain.length - self.finders[group].need.length) / MILLIMETRE)
        return _Column(group, chain, sum(lead.is_adapter for lead in leads), surplus, self._price(leads))

    def _price(self, leads: Sequence[ShelfLead]) -> int:
        """What leads cost, in hundredths; one without a price counts as the dearest, for nobody knows better."""
        if not self._comparable:
            return 0
        return sum(round((lead.price[0] if lead.price else self._dearest) * CENT) for lead in leads)


Times = Mapping[_Column, int]


def solve(needs: Sequence[Need], leads: Sequence[ShelfLead]) -> Solved:
    """Give leads to needs.

    As many needs as possible are served; of all ways to do so, that with the fewest adapters, then with the fewest
    leads, then with the least length to spare, then the cheapest, where all prices are in one currency.

    Parameters
    ----------
    needs : sequence of Need
        What has to be joined.
    leads : sequence of ShelfLead
        What there is; of a lead that nobody counted there is none.

    Returns
    -------
    Solved
        The needs with their leads, in the order of the needs.
    """
    stock = sorted((lead for lead in leads if lead.count), key=lambda lead: lead.id)
    alike: dict[tuple[object, ...], list[Need]] = {}
    for need in needs:
        alike.setdefault(need.alike, []).append(need)
    groups = [*alike.values()]
    if not stock or not groups:
        return Solved((), tuple(needs), proved=True)
    found, proved = _best(stock, groups)
    return _solved(needs, groups, stock, found, proved=proved)


def _best(stock: Sequence[ShelfLead], groups: Sequence[Sequence[Need]]) -> tuple[Times, bool]:
    """How often each chain is taken, and whether it was proved that nothing is better.

    First each need gets a single lead; then those that got none get a chain of what is left; from there on, all
    chains are weighed against each other.
    """
    sizes = [len(members) for members in groups]
    every = _Columns(stock, {group: members[0] for group, members in enumerate(groups)})
    every.lengthen(1)
    single, proved = _Model(every.all, stock, sizes).best(_at_hand(every.all, stock, sizes), aims=1)
    if sum(single.values()) == sum(sizes) and not any(column.adapters for column in single):
        found, proved = _Model(every.all, stock, sizes).best(single)
        return found, proved and every.complete
    over, left = _rest(stock, sizes, single)
    rest = _Columns(over, {group: members[0] for group, members in enumerate(groups) if left[group]})
    more: Times = {}
    if rest.finders:
        for size in range(1, LONGEST + 1):
            rest.lengthen(size)
        more, _ = _Model(rest.all, over, left).best(_at_hand(rest.all, over, left), aims=1)
    for size in range(2, LONGEST + 1):
        every.lengthen(size)
    every.all |= rest.all
    found, proved = _Model(every.all, stock, sizes).best({**single, **more})
    return found, proved and every.complete


def _at_hand(columns: Iterable[_Column], stock: Sequence[ShelfLead], sizes: Sequence[int]) -> Times:
    """What one gets by taking what costs least, one after the other: something to begin with."""
    over, left = [lead.count or 0 for lead in stock], [*sizes]
    found = {}
    for column in sorted(columns, key=lambda one: one.cost):
        uses = column.chain.uses
        times = min(left[column.group], *(over[place] // n for place, n in uses.items()))
        if times:
            found[column] = times
            left[column.group] -= times
            for place, n in uses.items():
                over[place] -= n * times
    return found


def _rest(
    stock: Sequence[ShelfLead], sizes: Sequence[int], taken: Times
) -> tuple[list[ShelfLead], list[int]]:
    """What is left of each lead, and how many of each group got nothing."""
    used: Counter[int] = Counter()
    served: Counter[int] = Counter()
    for column, times in taken.items():
        served[column.group] += times
        used.update({place: n * times for place, n in column.chain.uses.items()})
    over = [replace(lead, count=(lead.count or 0) - used[place]) for place, lead in enumerate(stock)]
    return over, [size - served[group] for group, size in enumerate(sizes)]


def _solved(
    needs: Sequence[Need],
    groups: Sequence[Sequence[Need]],
    stock: Sequence[ShelfLead],
    found: Times,
    *,
    proved: bool,
) -> Solved:
    waiting = [iter(members) for members in groups]
    chosen: dict[int, Served] = {}
    for column, times in found.items():
        for _ in range(times):
            need = next(waiting[column.group])
            leads = tuple(stock[place] for place in column.chain.places)
            chosen[id(need)] = Served(need, column.chain, leads)
    served = tuple(chosen[id(need)] for need in needs if id(need) in chosen)
    return Solved(served, tuple(need for need in needs if id(need) not in chosen), proved)


class _Model:
    """Chains for groups of needs as a model of an exact solver."""

    def __init__(self, columns: Iterable[_Column], stock: Sequence[ShelfLead], sizes: Sequence[int]) -> None:
        from ortools.sat.python import cp_model

        self.cp, self.columns, self.needs = cp_model, list(columns), sum(sizes)
        self.model: Any = cp_model.CpModel()
        self.times: list[Any] = []
        used: list[list[Any]] = [[] for _ in stock]
        of_group: list[list[Any]] = [[] for _ in sizes]
        for number, column in enumerate(self.columns):
            uses = column.chain.uses
            most = min(sizes[column.group], *((stock[place].count or 0) // n for place, n in uses.items()))
            times = self.model.new_int_var(0, most, f"chain {number}")
            self.times.append(times)
            of_group[column.group].append(times)
            for place, n in uses.items():
                used[place].append(n * times)
        for lead, terms in zip(stock, used, strict=True):
            if terms:
                self.model.add(sum(terms) <= lead.count)
        for size, terms in zip(sizes, of_group, strict=True):
            if terms:
                self.model.add(sum(terms) <= size)

    def best(self, near: Times, aims: int = AIMS) -> tuple[Times, bool]:
        """How often each chain is taken, and whether that was proved to be best; ``near`` is where to begin."""
        proved, found = True, [near.get(column, 0) for column in self.columns]
        for weights in islice(self._weights(), aims):
            if not any(weights):
                continue
            total = self.cp.LinearExpr.weighted_sum(self.times, weights)
            self.model.minimize(total)
            proved &= self._least(found, weights)
            self.model.add(total <= _sum(found, weights))
        return {c: n for c, n in zip(self.columns, found, strict=True) if n}, proved

    def _weights(self) -> Iterator[list[int]]:
        """What each chain adds to what is to be as little as possible, the most important first.

        A need more counts for more than all adapters, and an adapter for more than all leads.
        """
        most = LONGEST * self.needs + 1
        yield [most * (column.adapters - most) + len(column.chain.places) for column in self.columns]
        yield [column.surplus for column in self.columns]
        yield [column.price for column in self.columns]

    def _least(self, found: list[int], weights: Sequence[int]) -> bool:
        """Solve, keep what is found if it is better, and say whether that is proved."""
        self.model.clear_hints()
        for times, value in zip(self.times, found, strict=True):
            self.model.add_hint(times, value)
        solver = self.cp.CpSolver()
        solver.parameters.num_workers = 1
        solver.parameters.random_seed = 0
        solver.parameters.linearization_level = 2
        solver.parameters.max_deterministic_time = LONGEST_SEARCH
        status = solver.solve(self.model)
        if status in (self.cp.OPTIMAL, self.cp.FEASIBLE):
            values = [solver.value(times) for times in self.times]
            if _sum(values, weights) <= _sum(found, weights):
                found[:] = values
        return bool(status == self.cp.OPTIMAL)


def _sum(values: Sequence[int], weights: Sequence[int]) -> int:
    return sum(value * weight for value, weight in zip(values, weights, strict=True))
