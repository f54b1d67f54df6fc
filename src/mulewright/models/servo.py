"""What is a servo left with? Its speed at other volts, and its load as a share of what it has."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray

from mulewright.models.bounds import not_negative, positive
from mulewright.models.formula import formula


@formula("voltage / (rated_voltage * transit)")
def servo_free_speed(transit: ArrayLike, voltage: ArrayLike, rated_voltage: ArrayLike) -> NDArray[np.float64]:
    """Speed of a servo without load, which grows with the volts of its rail.

    Parameters
    ----------
    transit : array_like
        Time over an angle on its sheet, without load; > 0. [s/rad]
    voltage : array_like
        Of its rail; >= 0. [V]
    rated_voltage : array_like
        At which the sheet's time holds; > 0. [V]

    Returns
    -------
    speed : ndarray
        In the middle of a long way. [rad/s]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    at_sheet = positive(rated_voltage, "rated_voltage", "V") * positive(transit, "transit", "s/rad")
    return np.asarray(not_negative(voltage, "voltage", "V") / at_sheet)


@formula("where(available > 0, needed / where(available > 0, available, 1), inf)")
def share_needed(needed: ArrayLike, available: ArrayLike) -> NDArray[np.float64]:
    """Torque that is needed over torque that there is; unlimited where nothing is left.

    Parameters
    ----------
    needed : array_like
        What the load asks; >= 0. [N m]
    available : array_like
        What there is; >= 0. [N m]

    Returns
    -------
    share : ndarray
        Above one it does not get there. [1]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    asked, left = np.broadcast_arrays(
        not_negative(needed, "needed", "N m"), not_negative(available, "available", "N m")
    )
    never = np.where(np.isnan(asked + left), np.nan, np.inf)
    return np.asarray(np.divide(asked, left, out=never, where=left > 0))
