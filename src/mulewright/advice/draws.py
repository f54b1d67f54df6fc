"""How sure is a verdict? The same facts and checks, on draws of every input that may be off by something."""

from __future__ import annotations

import zlib
from collections.abc import Iterable, Mapping
from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from mulewright.checks.engine import Verdict, judge, limits_of
from mulewright.facts.catalog import every_fact
from mulewright.facts.graph import Evaluation
from mulewright.units.quantity import Quantity

DRAWS = 10_000
SEED = 2026


def uncertain(evaluation: Evaluation) -> dict[str, Quantity]:
    """The inputs with an interval that an evaluation has read, by path."""
    return {path: quantity for path, quantity in sorted(evaluation.given.items()) if quantity.uncertain}


def draw(path: str, quantity: Quantity, count: int = DRAWS) -> NDArray[np.float64]:
    """Draws of one input: evenly over its interval, one in each of ``count`` equal parts, in random order.

    They depend on the path and on nothing else, so that two variants of a mule are judged on the same draws.

    Parameters
    ----------
    path : str
        Where the input stands.
    quantity : Quantity
        Its interval; a side that was left out ends at the value.
    count : int
        How many.

    Returns
    -------
    values : ndarray, shape (count,)
        The draws. [SI]

    References
    ----------
    JCGM 101:2008, Propagation of distributions using a Monte Carlo method, 6.4.2: where only bounds are known, a
    rectangular distribution. The even parts are Latin hypercube sampling (both from memory).
    """
    random = np.random.default_rng((SEED, zlib.crc32(path.encode())))
    low = quantity.value if quantity.low is None else quantity.low
    high = quantity.value if quantity.high is None else quantity.high
    share = (random.permutation(count) + random.random(count)) / count
    return np.asarray(low + (high - low) * share)


def draws(evaluation: Evaluation, count: int = DRAWS) -> dict[str, NDArray[np.float64]]:
    """Draws of every input with an interval that an evaluation has read, by path."""
    return {path: draw(path, quantity, count) for path, quantity in uncertain(evaluation).items()}


def on_draws(evaluation: Evaluation, values: Mapping[str, NDArray[np.float64]]) -> Evaluation:
    """The same mule, to be evaluated on draws."""
    return evaluation.again(values)


def with_shares(evaluation: Evaluation, verdicts: Iterable[Verdict], count: int = DRAWS) -> list[Verdict]:
    """Say for each verdict in which share of the draws it trips; nothing is drawn where nothing may be off."""
    verdicts = list(verdicts)
    values = draws(evaluation, count)
    if not values:
        return verdicts
    on = on_draws(evaluation, values)
    settings = evaluation.mule.file.limits
    limits = {one.check.id: limits_of(one.check, settings.get(one.check.id)) for one in verdicts}

    def drawn(one: Verdict) -> Verdict:
        entity = next((it for it in on.all(one.check.on) if it.id == one.entity), None)
        if entity is None or not any(read.uncertain for read in one.reads):
            return one
        return replace(one, share=judge(one.check, entity, limits[one.check.id]).share)

    return [drawn(one) for one in verdicts]


def intervals(evaluation: Evaluation, count: int = DRAWS) -> dict[str, tuple[float, float]]:
    """Where 95 % of the draws of each fact lie, for those that rest on an input with an interval.

    Returns
    -------
    intervals : dict of str to (float, float)
        The 2.5 % and the 97.5 % quantile, by the id of the fact. [SI]
    """
    list(every_fact(evaluation))  # so that every input has been read
    values = draws(evaluation, count)
    if not values:
        return {}
    spread = [node for node in every_fact(on_draws(evaluation, values)) if _bounded(node.value)]
    ends = {node.id: np.quantile(node.value, (0.025, 0.975)) for node in spread}
    return {id: (float(low), float(high)) for id, (low, high) in ends.items()}


def _bounded(value: NDArray[np.float64]) -> bool:
    return value.ndim > 0 and bool(np.isfinite(value).all())
