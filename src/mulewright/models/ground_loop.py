"""Which way does a motor's current take home: its own minus, or the thin grounds of the signal leads?

Every controller has its own minus to a common point, and a signal lead whose ground meets those of the other leads at
the receiver. So beside a controller's minus lies a loop: its lead to the receiver, and from there back through the
leads and the minuses of all others, side by side. :func:`mulewright.models.wire.thin_ground_share` divides the current.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import ArrayLike, NDArray

from mulewright.models.bounds import not_negative, number, positive
from mulewright.models.formula import formula


@formula("1 / sum(resistances)")
def way_conductance(resistances: Sequence[ArrayLike]) -> NDArray[np.float64]:
    """Conductance of a way through several resistances, one after the other.

    Parameters
    ----------
    resistances : sequence of array_like
        One for each piece of the way; >= 0, and not all of them 0. [ohm]

    Returns
    -------
    conductance : ndarray
        Ways side by side add up. [S]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above, or there is none.
    """
    pieces = [not_negative(resistance, "resistances", "ohm") for resistance in resistances]
    return np.asarray(1 / positive(sum(pieces, np.zeros(())), "sum of the resistances", "ohm"))


@formula("lead + 1 / (conductance_of_all - own_conductance)")
def thin_loop_resistance(
    lead: ArrayLike, conductance_of_all: ArrayLike, own_conductance: ArrayLike
) -> NDArray[np.float64]:
    """Resistance of the loop through the signal grounds that lies beside one controller's minus.

    Parameters
    ----------
    lead : array_like
        Ground of the controller's own signal lead with its contacts; >= 0. [ohm]
    conductance_of_all : array_like
        Of the ways from the receiver back through every lead and minus; above the controller's own. [S]
    own_conductance : array_like
        That of the controller's own way, which is no part of the loop; >= 0. [S]

    Returns
    -------
    resistance : ndarray
        The others lie side by side, the controller's lead in front of them. [ohm]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above: alone, a controller has no loop.

    Examples
    --------
    A lead of 60 mohm, and one neighbour with a lead of 60 mohm and a minus of 6 mohm:

    >>> print(f"{thin_loop_resistance(0.060, 1 / 0.066 + 1 / 0.067, 1 / 0.067) * 1e3:.0f} mohm")
    126 mohm
    """
    own = not_negative(own_conductance, "own_conductance", "S")
    others = positive(number(conductance_of_all) - own, "conductance_of_all - own_conductance", "S")
    return np.asarray(not_negative(lead, "lead", "ohm") + 1 / others)
