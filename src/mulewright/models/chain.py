"""At which load does a link between battery and output give? Currents and pulls turned to torque, margins."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import ArrayLike, NDArray

from mulewright.errors import require
from mulewright.models.arithmetic import smallest
from mulewright.models.bounds import not_negative, number, one_each, positive
from mulewright.models.bus import total
from mulewright.models.formula import formula


@formula("maximum(current - sum(idle), 0) / sum(per_torque)")
def torque_at_draw(
    current: ArrayLike, idle: Sequence[ArrayLike], per_torque: Sequence[ArrayLike]
) -> NDArray[np.float64]:
    """Torque that each of several motors gives, all alike, while together they draw a current.

    Parameters
    ----------
    current : array_like
        That all of them draw together; >= 0. [A]
    idle : sequence of array_like
        What each draws with nothing on its shaft, one per motor; >= 0. [A]
    per_torque : sequence of array_like
        What each draws on top of that for its torque, one per motor; > 0. [A/(N m)]

    Returns
    -------
    torque : ndarray
        At the shaft of each motor; 0 where the current does not even turn the bare shafts. [N m]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above, or the lists differ in length.
    """
    one_each("per_torque", per_torque, "idle currents", idle)
    free = total([not_negative(each, "idle", "A") for each in idle])
    useful = np.maximum(not_negative(current, "current", "A") - free, 0)
    return np.asarray(useful / total([positive(each, "per_torque", "A/(N m)") for each in per_torque]))


@formula("where(load > 0, limit / where(load > 0, load, 1), inf)")
def load_margin(limit: ArrayLike, load: ArrayLike) -> NDArray[np.float64]:
    """How many times the load may grow before something gives.

    Parameters
    ----------
    limit : array_like
        Load at which it gives; >= 0. [N]
    load : array_like
        Load that it bears at work, in the same unit; >= 0. [N]

    Returns
    -------
    margin : ndarray
        Infinite where nothing is borne. [1]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    limit, load = not_negative(limit, "limit", "N"), not_negative(load, "load", "N")
    loaded = np.where(load > 0, load, np.where(np.isnan(load), load, 1))
    return np.asarray(np.where(load == 0, np.inf, limit / loaded))


@formula("min(breaking) / min(yielding)")
def held_fast_ratio(breaking: Sequence[ArrayLike], yielding: Sequence[ArrayLike]) -> NDArray[np.float64]:
    """Load that breaks something over the load at which something gives way without harm.

    Parameters
    ----------
    breaking : sequence of array_like
        Loads at which something burns or snaps; at least one, each >= 0. [N]
    yielding : sequence of array_like
        Loads at which a motor stalls or a wheel slips, in the same unit; at least one, each > 0. [N]

    Returns
    -------
    ratio : ndarray
        Below one something breaks when it is held fast. [1]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    least = not_negative(smallest(breaking), "breaking", "N")
    return np.asarray(least / positive(smallest(yielding), "yielding", "N"))


@formula("pitch / (2 * sin(pi / teeth))")
def sprocket_radius(pitch: ArrayLike, teeth: ArrayLike) -> NDArray[np.float64]:
    """Radius at which a chain pulls on its sprocket.

    Parameters
    ----------
    pitch : array_like
        From pin to pin of the chain; > 0. [m]
    teeth : array_like
        Of the sprocket; >= 3. [1]

    Returns
    -------
    radius : ndarray
        Of the circle through the pins. [m]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.

    Notes
    -----
    The pins are the corners of a polygon with one corner for each tooth. For a belt, whose teeth bend, the pitch
    line is a circle; from 12 teeth on the difference is below 1.2 %.
    """
    corners = number(teeth)
    require(~(corners < 3), "teeth", "must be >= 3", corners)
    return np.asarray(positive(pitch, "pitch", "m") / (2 * np.sin(np.pi / corners)))


@formula("sqrt(power / resistance)")
def current_for_heat(power: ArrayLike, resistance: ArrayLike) -> NDArray[np.float64]:
    """Current that turns a power to heat in a winding.

    Parameters
    ----------
    power : array_like
        That may turn to heat; >= 0. [W]
    resistance : array_like
        Of the winding; > 0. [ohm]

    Returns
    -------
    current : ndarray
        Its size, whichever way it flows. [A]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    return np.asarray(np.sqrt(not_negative(power, "power", "W") / positive(resistance, "resistance", "ohm")))
