"""When does a linkage lock, and where must its horn stand? The angles of four bars: horn, rod, lever and base."""

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


@formula(
    "clip(1 + minimum(sign(horn + rod - sqrt(lever**2 + base**2 + 2 * lever * base * outward)),"
    " sign(sqrt(maximum(lever**2 + base**2 + 2 * lever * base * inward, 0)) - abs(horn - rod))), 0, 1)"
)
def closes(
    horn: ArrayLike, rod: ArrayLike, lever: ArrayLike, base: ArrayLike, outward: ArrayLike, inward: ArrayLike
) -> NDArray[np.float64]:
    """Whether horn and rod reach the lever's end on its whole way.

    The end of the lever lies between the sum and the difference of horn and rod from the servo's axis, or the
    four bars have no real solution.

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
    outward : array_like
        Largest cosine, on its way, of the lever's angle from the line that leads from the servo's axis to its
        own and on; -1 to 1. [1]
    inward : array_like
        Smallest cosine of it; -1 to 1. [1]

    Returns
    -------
    closes : ndarray
        1 where they do, else 0. [1]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    arms = positive(horn, "horn", "m"), positive(rod, "rod", "m")
    further = positive(lever, "lever", "m"), positive(base, "base", "m")
    farthest = _reach(*further, between(outward, "outward", -1, 1))
    nearest = _reach(*further, between(inward, "inward", -1, 1))
    stretches, folds = np.sign(sum(arms) - farthest), np.sign(nearest - np.abs(arms[0] - arms[1]))
    return np.asarray(np.clip(1 + np.minimum(stretches, folds), 0, 1))


@formula(
    "arctan2(lever * sin(lever_angle), base + lever * cos(lever_angle)) + side * arccos("
    "(horn**2 - rod**2 + lever**2 + base**2 + 2 * lever * base * cos(lever_angle))"
    " / (2 * horn * sqrt(lever**2 + base**2 + 2 * lever * base * cos(lever_angle))))"
)
def horn_angle(
    lever_angle: ArrayLike,
    horn: ArrayLike,
    rod: ArrayLike,
    lever: ArrayLike,
    base: ArrayLike,
    side: ArrayLike,
) -> NDArray[np.float64]:
    """Angle at which the horn has to stand for a wanted angle of the lever.

    The end of the horn lies where two circles meet: that of the horn about the servo's axis, and that of the
    rod about the lever's end. They meet twice, ahead of the line between their middles and behind it. Both
    angles are read from the line that leads from the servo's axis to the lever's axis and on, the same way
    round; in a parallelogram the two are equal.

    Parameters
    ----------
    lever_angle : array_like
        Wanted. [rad]
    horn : array_like
        From the servo's axis to the rod; > 0. [m]
    rod : array_like
        Between its two ends; > 0. [m]
    lever : array_like
        From the driven axis to the rod; > 0. [m]
    base : array_like
        Between the two axes; > 0. [m]
    side : array_like
        +1 for the meeting point ahead, which makes the angle larger, -1 for the one behind; -1 to 1. [1]

    Returns
    -------
    angle : ndarray
        Of the horn; not a number where the circles do not meet, see ``closes``. It jumps by a turn where the
        lever's end passes behind the servo's axis. [rad]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.

    Examples
    --------
    A parallelogram whose lever stands square to the line between the axes:

    >>> print(f"{np.degrees(horn_angle(np.pi / 2, 0.02, 0.06, 0.02, 0.06, 1)):.0f} degrees")
    90 degrees
    """
    short, long = positive(horn, "horn", "m"), positive(rod, "rod", "m")
    far, apart = positive(lever, "lever", "m"), positive(base, "base", "m")
    turned, branch = number(lever_angle), between(side, "side", -1, 1)
    distance = _reach(far, apart, np.cos(turned))
    bearing = np.arctan2(far * np.sin(turned), apart + far * np.cos(turned))
    with np.errstate(invalid="ignore", divide="ignore"):
        return np.asarray(
            bearing + branch * np.arccos((short**2 - long**2 + distance**2) / (2 * short * distance))
        )


@formula("angle * closing")
def reached(angle: ArrayLike, closing: ArrayLike) -> NDArray[np.float64]:
    """Angle of the horn on a linkage that closes; there is none on another.

    Parameters
    ----------
    angle : array_like
        Of the horn. [rad]
    closing : array_like
        1 where horn and rod reach the lever's end on its whole way; must be 1. [1]

    Returns
    -------
    angle : ndarray
        The same. [rad]

    Raises
    ------
    DomainError
        If horn and rod do not reach the lever's end somewhere on its way.
    """
    meets = number(closing)
    require(
        ~(meets < 1), "closing", "must be 1: horn and rod have to reach the lever from open to closed", meets
    )
    return np.asarray(number(angle) * meets)


def _reach(lever: Floats, base: Floats, cosine: Floats) -> Floats:
    """[m] from the servo's axis to the lever's end, by the law of cosines."""
    return np.sqrt(np.maximum(lever**2 + base**2 + 2 * lever * base * cosine, 0))


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
