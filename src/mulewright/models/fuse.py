"""When does a blade fuse blow, and does it protect the wire after it? Bands of time, never one time."""

from __future__ import annotations

from collections.abc import Mapping
from itertools import pairwise

import numpy as np
from numpy.typing import ArrayLike, NDArray

from mulewright.models.bounds import not_negative, positive
from mulewright.models.formula import formula

NEVER = np.inf  # [s]

# Multiple of the rated current -> time [s], ISO 8820-3, medium blade. Between its two times a fuse may
# have blown or not; a fuse that has carried current is at the early end.
SHORTEST: Mapping[float, float] = {
    1.1: 360e3,  # 100 h, from memory
    1.35: 0.75,
    1.6: 0.25,
    2.0: 0.15,
    3.5: 0.04,  # from memory, within a factor of 2: some revisions have 0.08
    6.0: 0.02,  # from memory, within a factor of 2
}
LONGEST: Mapping[float, float] = {
    1.35: 1800,
    1.6: 50,
    2.0: 5,
    3.5: 0.5,  # from memory, within a factor of 2
    6.0: 0.1,  # from memory, within a factor of 2
}

HOLDS_UP_TO = min(SHORTEST)  # [1] of its rating: up to here no such fuse blows within 100 h
MAY_BLOW_FROM = min(LONGEST)  # [1] of its rating: from here it may blow in a second, and must in the end

# How large a fuse may be, as a part of what the wire after it bears: ABYC E-11, circuits without motors.
RATIO_MAX = 1.0  # [1]
NEXT_SIZE_MAX = 1.5  # [1] where no size lies at or below the wire's own current


def _power_laws(table: Mapping[float, float]) -> str:
    """The formula of a table: straight pieces in double logarithms, then constant I^2 t."""
    points = list(table.items())
    (first, time), (last, _) = points[0], points[-1]
    pieces = [
        f"({t1:g} / {t0:g}) ** (log(clip(multiple, {m0:g}, {m1:g}) / {m0:g}) / log({m1:g} / {m0:g}))"
        for (m0, t0), (m1, t1) in pairwise(points)
    ]
    pieces.append(f"({last:g} / maximum(multiple, {last:g})) ** 2")
    return f"where(multiple < {first:g}, NEVER, {time:g} * {' * '.join(pieces)})"


def _blow_time(multiple: ArrayLike, table: Mapping[float, float]) -> NDArray[np.float64]:
    multiple = not_negative(multiple, "multiple")
    multiples, times = np.array(list(table.items())).T
    inside = np.clip(multiple, multiples[0], multiples[-1])
    time = np.exp(np.interp(np.log(inside), np.log(multiples), np.log(times)))
    beyond = np.maximum(multiple / multiples[-1], 1)
    return np.asarray(np.where(multiple < multiples[0], NEVER, time / beyond**2))


@formula(_power_laws(SHORTEST))
def blow_time_min(multiple: ArrayLike) -> NDArray[np.float64]:
    """Time that a medium blade fuse holds at least.

    Parameters
    ----------
    multiple : array_like
        Current over rated current; >= 0. [1]

    Returns
    -------
    time : ndarray
        Infinite below 1.1. Before it no such fuse blows; see :func:`blow_time_max`. [s]

    Raises
    ------
    DomainError
        If the multiple is negative.

    Notes
    -----
    The standard binds at its own multiples. Between them this is a straight line in double
    logarithms, above the last one constant I^2 t: our judgement.

    References
    ----------
    ISO 8820-3, Road vehicles, Fuse-links, Part 3: Fuse-links with tabs (blade type).
    """
    return _blow_time(multiple, SHORTEST)


@formula(_power_laws(LONGEST))
def blow_time_max(multiple: ArrayLike) -> NDArray[np.float64]:
    """Time after which every medium blade fuse has blown.

    Parameters
    ----------
    multiple : array_like
        Current over rated current; >= 0. [1]

    Returns
    -------
    time : ndarray
        Infinite below 1.35: there nothing says that it must blow at all. [s]

    Raises
    ------
    DomainError
        If the multiple is negative.

    Notes
    -----
    The standard binds at its own multiples. Between them this is a straight line in double
    logarithms, above the last one constant I^2 t: our judgement.

    References
    ----------
    ISO 8820-3, Road vehicles, Fuse-links, Part 3: Fuse-links with tabs (blade type).
    """
    return _blow_time(multiple, LONGEST)


@formula("voltage_drop / rating")
def fuse_resistance_max(voltage_drop: ArrayLike, rating: ArrayLike) -> NDArray[np.float64]:
    """Resistance that a fuse has at most, from the largest voltage drop in its data sheet.

    Parameters
    ----------
    voltage_drop : array_like
        The largest at rated current; >= 0. [V]
    rating : array_like
        Rated current; > 0. [A]

    Returns
    -------
    resistance : ndarray
        Without its holder. [ohm]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    return np.asarray(not_negative(voltage_drop, "voltage_drop", "V") / positive(rating, "rating", "A"))


@formula("rating / ampacity")
def fuse_ratio(rating: ArrayLike, ampacity: ArrayLike) -> NDArray[np.float64]:
    """Rating of a fuse as a part of the current that the thinnest wire after it bears.

    Parameters
    ----------
    rating : array_like
        Rated current of the fuse; >= 0. [A]
    ampacity : array_like
        Continuous current of the thinnest wire after it; > 0. [A]

    Returns
    -------
    ratio : ndarray
        Above ``RATIO_MAX`` the wire is the fuse; ``NEXT_SIZE_MAX`` is the most that is ever allowed. [1]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.

    References
    ----------
    ABYC E-11, AC and DC electrical systems on boats (through secondary articles).
    """
    return np.asarray(not_negative(rating, "rating", "A") / positive(ampacity, "ampacity", "A"))
