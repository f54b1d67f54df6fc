"""Which measurements first, and which set of them within so many minutes? Every set is tried."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
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
    """What measuring would do for one verdict: the gain for every set of the measurements that matter to it.

    ``gains[n]`` is that of the set in which measurement ``relevant[k]`` is made where bit k of n is set.
    """

    relevant: tuple[int, ...]
    gains: NDArray[np.float64]

    def gain(self, made: Set) -> float:
        """Gain of a set of measurements. [verdicts]."""
        return float(self.gains[sum(1 << place for place, one in enumerate(self.relevant) if one in made)])

    def least(self, made: Set) -> list[Set]:
        """The sets that gain something beyond what is made, and of which no part does."""
        found: list[Set] = []
        before, rest = self.gain(made), [one for one in self.relevant if one not in made]
        for size in range(1, len(rest) + 1):
            for some in map(frozenset, combinations(rest, size)):
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
    return sum(
        one.gain(made | some) - one.gain(made) for one in prospects if not some.isdisjoint(one.relevant)
    )


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
        nx.add_path(graph, one.relevant)
        graph.add_nodes_from(one.relevant)
    exact = True
    fronts: dict[float, tuple[float, list[Set]]] = {0.0: (0.0, [frozenset()])}
    for group in sorted(map(sorted, nx.connected_components(graph))):
        able = [one for one in group if minutes[one] <= limit]
        inside = [one for one in prospects if not set(one.relevant).isdisjoint(able)]
        if len(able) > MOST_TOGETHER:
            exact = False
            order = [one for some, _ in in_order(inside, minutes, frozenset(able)) for one in some]
            able = sorted(order[:MOST_TOGETHER])
        fronts = _joined(fronts, _tried(inside, minutes, able, limit), limit)
    value = max(gain for gain, _ in fronts.values())
    time = min(time for time, (gain, _) in fronts.items() if gain >= value - SAME)
    sets = fronts[time][1]
    return Best(sets[0], tuple(sets[1:]), exact)


def _tried(
    prospects: Sequence[Prospect], minutes: Sequence[float], able: Sequence[int], limit: float
) -> dict[float, tuple[float, list[Set]]]:
    """For each total of minutes, the best gain of all combinations and the sets that reach it."""
    masks = np.arange(1 << len(able))
    made = {one: (masks >> place) & 1 for place, one in enumerate(able)}
    time = np.zeros(masks.size)
    for one, bit in made.items():
        time += minutes[one] * bit
    gain = np.zeros(masks.size)
    for prospect in prospects:
        places = np.zeros_like(masks)
        for place, one in enumerate(prospect.relevant):
            if one in made:
                places |= made[one] << place
        gain += prospect.gains[places]
    found: dict[float, tuple[float, list[Set]]] = {}
    for total in np.unique(time[time <= limit + SAME]):
        there = time == total
        most = gain[there].max()
        equal = masks[there & (gain >= most - SAME)][:MOST_TIES]
        found[float(total)] = (float(most), [_set(int(mask), able) for mask in equal])
    return found


def _set(mask: int, able: Sequence[int]) -> Set:
    return frozenset(one for place, one in enumerate(able) if mask >> place & 1)


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
