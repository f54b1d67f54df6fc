"""Which measurements first, and which set of them within so many minutes? Every set is tried."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import combinations

import networkx as nx
import numpy as np
from numpy.typing import NDArray

MOST_TOGETHER = 18  # measurements that hang together and are tried in every combination
MOST_TIES = 8
SAME = 1e-9
SHORTEST = 0.1  # minutes; what takes no time is taken to be as quick as this
Set = frozenset[int]


@dataclass(frozen=True)
class Prospect:
    """What measuring would do for one verdict: nothing before all that it needs is measured, then ``gains``.

    ``gains[n]`` is the gain where measurement ``beside[k]`` is made as well for every bit k that is set in n.
    """

    needs: Set
    beside: tuple[int, ...]
    gains: NDArray[np.float64]

    @cached_property
    def relevant(self) -> Set:
        """All measurements that do something for it."""
        return self.needs.union(self.beside)

    def gain(self, made: Set) -> float:
        """Gain of a set of measurements. [verdicts]."""
        if not self.needs <= made:
            return 0.0
        return float(self.gains[sum(1 << place for place, one in enumerate(self.beside) if one in made)])

    def least(self, made: Set) -> list[Set]:
        """The sets that gain something beyond what is made, and of which no part does."""
        found: list[Set] = []
        before, rest = self.gain(made), [one for one in self.beside if one not in made]
        lacking = self.needs - made
        for size in range(0 if lacking else 1, len(rest) + 1):
            for some in (lacking.union(more) for more in combinations(rest, size)):
                if not any(less <= some for less in found) and self.gain(made | some) > before + SAME:
                    found.append(some)
        return found


@dataclass(frozen=True)
class Best:
    """The best set within a time, and others that are just as good."""

    made: Set
    ties: tuple[Set, ...]
    exact: bool


def worth(prospects: Iterable[Prospect], made: Set) -> float:
    """What a set of measurements gains in all. [verdicts]."""
    return sum(one.gain(made) for one in prospects)


def in_order(
    prospects: Sequence[Prospect], minutes: Sequence[float], allowed: Set
) -> Iterator[tuple[tuple[int, ...], Set]]:
    """Measurements in the order in which one would make them: most gain per minute first.

    Measurements that gain only together come together. Ends where nothing gains any more.

    Yields
    ------
    step : tuple of (tuple of int, frozenset of int)
        What is measured next, and all that was measured before.
    """
    made: Set = frozenset()
    while True:
        steps = {some for one in prospects for some in one.least(made) if some <= allowed}
        rated = [(_gain(prospects, made, some), sorted(some)) for some in steps]
        able = [(gain / _time(minutes, some), gain, some) for gain, some in rated if gain > SAME]
        if not able:
            return
        _, _, chosen = min(able, key=lambda one: (-round(one[0], 9), len(one[2]), one[2]))
        yield tuple(chosen), made
        made |= frozenset(chosen)


def _gain(prospects: Iterable[Prospect], made: Set, some: Set) -> float:
    after = made | some
    return sum(one.gain(after) - one.gain(made) for one in prospects if not some.isdisjoint(one.relevant))


def _time(minutes: Sequence[float], some: Iterable[int]) -> float:
    return max(SHORTEST, sum(minutes[one] for one in some))


def best_set(prospects: Sequence[Prospect], minutes: Sequence[float], limit: float) -> Best:
    """The set of measurements that gains most within a time; of equal ones the quickest.

    Measurements that matter to the same verdicts are tried in all combinations; groups that share no verdict are put
    together by dynamic programming over the minutes.

    Parameters
    ----------
    prospects : sequence of Prospect
        What each set of measurements does for each verdict.
    minutes : sequence of float
        How long each takes. [min]
    limit : float
        How long all may take. [min]

    Returns
    -------
    best : Best
        The set, those that are just as good, and whether every combination was tried.
    """
    graph: nx.Graph[int] = nx.Graph()
    for one in prospects:
        nx.add_path(graph, sorted(one.relevant))
    exact = True
    fronts: dict[float, tuple[float, list[Set]]] = {0.0: (0.0, [frozenset()])}
    for group in sorted(map(sorted, nx.connected_components(graph))):
        inside = [one for one in prospects if not one.relevant.isdisjoint(group)]
        units = [unit for unit in _units(inside, group) if _time(minutes, unit) <= limit + SAME]
        if len(units) > MOST_TOGETHER:
            exact = False
            units = _first(inside, minutes, frozenset().union(*units), limit)
        fronts = _joined(fronts, _tried(inside, minutes, units, limit), limit)
    value = max(gain for gain, _ in fronts.values())
    time = min(time for time, (gain, _) in fronts.items() if gain >= value - SAME)
    sets = fronts[time][1]
    return Best(sets[0], tuple(sets[1:]), exact)


def _units(prospects: Sequence[Prospect], group: Iterable[int]) -> list[Set]:
    """Measurements that are needed by the same verdicts and matter to no other: nobody makes one without the rest."""
    units: dict[object, list[int]] = {}
    for one in group:
        needed = tuple(place for place, prospect in enumerate(prospects) if one in prospect.needs)
        alone = any(one in prospect.beside for prospect in prospects)
        units.setdefault(one if alone else needed, []).append(one)
    return [frozenset(unit) for unit in units.values()]


def _first(prospects: Sequence[Prospect], minutes: Sequence[float], able: Set, limit: float) -> list[Set]:
    """The first steps that one would take, as far as each fits the time by itself."""
    steps = (frozenset(step) for step, _ in in_order(prospects, minutes, able))
    return [step for step in steps if _time(minutes, step) <= limit + SAME][:MOST_TOGETHER]


def _tried(
    prospects: Sequence[Prospect], minutes: Sequence[float], units: Sequence[Set], limit: float
) -> dict[float, tuple[float, list[Set]]]:
    """For each total of minutes, the best gain of all combinations and the sets that reach it."""
    masks = np.arange(1 << len(units))
    made = {one: masks >> place & 1 for place, unit in enumerate(units) for one in unit}
    time = np.zeros(masks.size)
    for one, bit in made.items():
        time += minutes[one] * bit
    gain = np.zeros(masks.size)
    for prospect in prospects:
        if prospect.needs <= made.keys():
            told = np.ones_like(masks)
            for one in prospect.needs:
                told &= made[one]
            places = np.zeros_like(masks)
            for place, one in enumerate(prospect.beside):
                if one in made:
                    places |= made[one] << place
            gain += prospect.gains[places] * told
    found: dict[float, tuple[float, list[Set]]] = {}
    for total in np.unique(time[time <= limit + SAME]):
        there = time == total
        most = gain[there].max()
        equal = masks[there & (gain >= most - SAME)][:MOST_TIES]
        found[float(total)] = (float(most), [_set(int(mask), units) for mask in equal])
    return found


def _set(mask: int, units: Sequence[Set]) -> Set:
    return frozenset(one for place, unit in enumerate(units) if mask >> place & 1 for one in unit)


def _joined(
    some: dict[float, tuple[float, list[Set]]], more: dict[float, tuple[float, list[Set]]], limit: float
) -> dict[float, tuple[float, list[Set]]]:
    """Both groups together: for each total of minutes the best gain; what a quicker one beats is dropped."""
    found: dict[float, tuple[float, list[Set]]] = {}
    for time, (gain, sets) in some.items():
        for extra, (added, others) in more.items():
            total, value = round(time + extra, 6), gain + added
            if total > limit + SAME or value < (known := found.get(total, (-1.0, [])))[0] - SAME:
                continue
            both = [one | other for one in sets for other in others]
            kept = known[1] if value <= known[0] + SAME else []
            found[total] = (max(value, known[0]), [*kept, *both][:MOST_TIES])
    best = -1.0
    for total in sorted(found):
        if found[total][0] <= best + SAME:
            del found[total]
        else:
            best = found[total][0]
    return found
