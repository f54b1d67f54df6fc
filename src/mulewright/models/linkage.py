"""When does a linkage lock? The angle between rod and lever of four bars while the horn turns."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray

from mulewright.errors import require
from mulewright.models.bounds import Floats, between, number, positive
from mulewright.models.formula import formula

FARTHEST = 3 * np.pi / 2  # [rad] from the line between the pivots, to either side


@formula("maximum(cos(clip(0, minimum(first, last), maximum(first, last))), maximum(cos(first), cos(last)))")
def largest_cosine(first: ArrayLike, last: ArrayLike) -> NDArray[np.float64]:
    """Cosine of the angle of a swing that comes nearest to its zero line.

    Parameters
    ----------
    first : array_like
        One end of the swing; -270 to 270 degrees. [rad]
    last : array_like
        The other end; the same. [rad]

    Returns
    -------
    cosine : ndarray
        One where the swing crosses the line. [1]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    low, high = _swing(first, last)
    ends = np.maximum(np.cos(low), np.cos(high))
    return np.asarray(np.maximum(np.cos(np.clip(0, low, high)), ends))


@formula(
    "minimum(minimum(cos(clip(pi, minimum(first, last), maximum(first, last))),"
    " cos(clip(-pi, minimum(first, last), maximum(first, last)))), minimum(cos(first), cos(last)))"
)
def smallest_cosine(first: ArrayLike, last: ArrayLike) -> NDArray[np.float64]:
    """Cosine of the angle of a swing that comes nearest to the far side of its zero line.

    Parameters
    ----------
    first : array_like
        One end of the swing; -270 to 270 degrees. [rad]
    last : array_like
        The other end; the same. [rad]

    Returns
    -------
    cosine : ndarray
        Minus one where the swing crosses the far side. [1]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    low, high = _swing(first, last)
    inside = np.minimum(np.cos(np.clip(np.pi, low, high)), np.cos(np.clip(-np.pi, low, high)))
    return np.asarray(np.minimum(inside, np.minimum(np.cos(low), np.cos(high))))


@formula(
    "minimum("
    "arccos(clip((rod**2 + lever**2 - horn**2 - base**2 + 2 * horn * base * nearest) / (2 * rod * lever), -1, 1)),"
    " pi - arccos(clip((rod**2 + lever**2 - horn**2 - base**2 + 2 * horn * base * farthest)"
    " / (2 * rod * lever), -1, 1)))"
)
def smallest_transmission_angle(
    horn: ArrayLike,
    rod: ArrayLike,
    lever: ArrayLike,
    base: ArrayLike,
    nearest: ArrayLike,
    farthest: ArrayLike,
) -> NDArray[np.float64]:
    """Smallest angle between the lines of rod and lever while the horn swings.

    Horn, rod, lever and base form a quadrangle. The distance from the end of the horn to the far pivot decides
    the angle between rod and lever; it is shortest where the horn points to that pivot and longest where it
    points away.

    Parameters
    ----------
    horn : array_like
        From the servo's axis to the rod; > 0. [m]
    rod : array_like
        Between its two ends; > 0. [m]
    lever : array_like
        From the driven axis to the rod; > 0. [m]
    base : array_like
        Between the two axes; > 0. [m]
    nearest : array_like
        Largest cosine, in the swing, of the angle between horn and base; -1 to 1. [1]
    farthest : array_like
        Smallest cosine of it; -1 to 1. [1]

    Returns
    -------
    angle : ndarray
        A right angle at best; 0 where rod and lever lie in line, or do not reach each other at all. [rad]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    bars = (positive(horn, "horn", "m"), positive(rod, "rod", "m"))
    further = (positive(lever, "lever", "m"), positive(base, "base", "m"))
    shortest = _between_rod_and_lever(*bars, *further, between(nearest, "nearest", -1, 1))
    longest = _between_rod_and_lever(*bars, *further, between(farthest, "farthest", -1, 1))
    return np.asarray(np.minimum(shortest, np.pi - longest))


def _between_rod_and_lever(horn: Floats, rod: Floats, lever: Floats, base: Floats, cosine: Floats) -> Floats:
    """[rad] angle between rod and lever, by the law of cosines twice; 0 or a half turn where they do not meet."""
    reach = horn**2 + base**2 - 2 * horn * base * cosine  # [m^2] square of the distance to the far pivot
    return np.arccos(np.clip((rod**2 + lever**2 - reach) / (2 * rod * lever), -1, 1))


def _swing(first: ArrayLike, last: ArrayLike) -> tuple[Floats, Floats]:
    """[rad] lower and upper end."""
    ends = number(first), number(last)
    for name, end in zip(("first", "last"), ends, strict=True):
        require(~(np.abs(end) > FARTHEST), name, "must be from -270 to 270 degrees", end)
    return np.minimum(*ends), np.maximum(*ends)
