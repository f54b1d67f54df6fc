"""Which candidates serve, which of them does nothing beat, and how near does the best come where none serves?"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from mulewright.advice.choosing.tables import Tables
from mulewright.shelf.tables import default

CHUNK = 65_536  # candidates between two looks at the clock
MOST = 2_000_000  # candidates that serve, kept until the next sorting out
STEP = 10.0  # score of one finding less: no share in another property is worth one
WORST = 1e300  # score of what cannot be told: it never beats anything

Tick = Callable[[int, int], None]


@dataclass
class Served:
    """What a search found."""

    tried: int
    candidates: int
    feasible: int
    places: NDArray[np.int64]  # of the candidates that nothing beats
    numbers: NDArray[np.float64]  # of these, by the kernel
    nearest: tuple[int, float, int] | None = None  # where none serves: place, reach, what it lacks
    lacking: dict[int, int] = field(default_factory=dict)  # what most of those that do not serve lack

    @property
    def complete(self) -> bool:
        """Whether it was not stopped before its end."""
        return self.tried == self.candidates


def search(tables: Tables, alike: float, tick: Tick | None = None) -> Served:
    """Judge every candidate; an interrupt ends the search with what was found so far.

    Parameters
    ----------
    tables : Tables
        The numbers of every option.
    alike : float
        Candidates that differ by less than this share in every property count as one. [1]
    tick : callable, optional
        Told how many candidates were tried, and how many there are.
    """
    from mulewright.kernels.choosing import REACH, SHORT, judged

    found = Served(0, tables.count, 0, np.empty(0, np.int64), np.empty((0, 8)))
    try:
        for start in range(0, tables.count, CHUNK):
            places = np.arange(start, min(start + CHUNK, tables.count))
            numbers = judged(places, tables.choices, tables.wiring, tables.links, tables.work)
            serves = numbers[:, REACH] >= 1
            found.tried += len(places)
            found.feasible += int(serves.sum())
            for short, count in zip(*np.unique(numbers[~serves, SHORT], return_counts=True), strict=True):
                found.lacking[int(short)] = found.lacking.get(int(short), 0) + int(count)
            best = int(np.argmax(numbers[:, REACH]))
            if found.nearest is None or numbers[best, REACH] > found.nearest[1]:
                found.nearest = int(places[best]), float(numbers[best, REACH]), int(numbers[best, SHORT])
            found.places = np.concatenate([found.places, places[serves]])
            found.numbers = np.concatenate([found.numbers, numbers[serves]])
            if len(found.places) > MOST:
                _sort_out(found, tables, alike)
            if tick is not None:
                tick(found.tried, found.candidates)
    except KeyboardInterrupt:
        pass
    _sort_out(found, tables, alike)
    return found


def _sort_out(found: Served, tables: Tables, alike: float) -> None:
    merit = scores(found.numbers, plenty(tables))
    clean = -STEP * tables.found_on(found.places)
    keep = unbeaten(np.column_stack([merit, clean]), alike)
    found.places, found.numbers = found.places[keep], found.numbers[keep]


def plenty(tables: Tables) -> float:
    """Margin beyond which more of it is worth nothing."""
    return float(tables.work.asked[0]) * default("plenty").value


def scores(numbers: NDArray[np.float64], enough: float) -> NDArray[np.float64]:
    """Margin, speed, current, heat and mass so that more is better and equal steps are equal shares."""
    from mulewright.kernels.choosing import CURRENT, HEAT, MARGIN, MASS, SPEED

    signs = {MARGIN: 1, SPEED: 1, CURRENT: -1, HEAT: 1, MASS: -1}
    with np.errstate(divide="ignore", invalid="ignore"):
        logs = np.column_stack([sign * np.log(numbers[:, column]) for column, sign in signs.items()])
    logs[:, MARGIN] = np.minimum(logs[:, MARGIN], np.log(enough))
    return np.asarray(np.nan_to_num(logs, nan=-WORST, posinf=WORST, neginf=-WORST))


def unbeaten(merit: NDArray[np.float64], alike: float) -> NDArray[np.int64]:
    """Places of the rows of scores that no other beats, one for all that are alike.

    Each row left out has one of these that is at most ``alike`` worse in each property. Where the candidates did not
    fit at once, that share may add up over the sortings.
    """
    from mulewright.kernels.covering import covering

    order = np.argsort(-np.clip(merit, -1e3, 1e3).sum(axis=1), kind="stable")
    return np.asarray(covering(merit, order, -float(np.log1p(-alike))))
