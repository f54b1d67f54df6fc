"""How much does a rope or belt hold by friction? Turns around a post, grooves, and belt power."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray

from mulewright.errors import require
from mulewright.models.bounds import not_negative, number, positive
from mulewright.models.formula import formula


@formula("tight * exp(-friction * wrap)")
def slack_tension(tight: ArrayLike, friction: ArrayLike, wrap: ArrayLike) -> NDArray[np.float64]:
    """Smallest pull at the slack end that keeps a wrapped rope or belt from slipping.

    Parameters
    ----------
    tight : array_like
        Pull at the tight end; >= 0. [N]
    friction : array_like
        Of rope on post; for a groove that of ``groove_friction``; >= 0. [1]
    wrap : array_like
        Angle of contact, 2 pi for each turn; >= 0. [rad]

    Returns
    -------
    force : ndarray
        At the slack end. [N]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.

    References
    ----------
    Beer and Johnston, Vector Mechanics for Engineers: Statics, sample problem 8.7 (Euler-Eytelwein).
    """
    grip = not_negative(friction, "friction") * not_negative(wrap, "wrap", "rad")
    return np.asarray(not_negative(tight, "tight", "N") * np.exp(-grip))


@formula("slack * exp(friction * wrap)")
def tight_tension(slack: ArrayLike, friction: ArrayLike, wrap: ArrayLike) -> NDArray[np.float64]:
    """Largest pull that a wrapped rope or belt bears before it slips.

    Parameters
    ----------
    slack : array_like
        Pull at the slack end; >= 0. [N]
    friction : array_like
        Of rope on post; for a groove that of ``groove_friction``; >= 0. [1]
    wrap : array_like
        Angle of contact, 2 pi for each turn; >= 0. [rad]

    Returns
    -------
    force : ndarray
        At the tight end. [N]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.

    References
    ----------
    Beer and Johnston, Vector Mechanics for Engineers: Statics, sample problem 8.7 (Euler-Eytelwein).
    """
    grip = not_negative(friction, "friction") * not_negative(wrap, "wrap", "rad")
    return np.asarray(not_negative(slack, "slack", "N") * np.exp(grip))


@formula("log(tight / slack) / wrap")
def friction_from_tensions(tight: ArrayLike, slack: ArrayLike, wrap: ArrayLike) -> NDArray[np.float64]:
    """Friction of a wrapped rope from the pulls at its two ends when it starts to slip.

    Parameters
    ----------
    tight : array_like
        Pull at the tight end; at least that of the slack end. [N]
    slack : array_like
        Pull at the slack end; > 0. [N]
    wrap : array_like
        Angle of contact, 2 pi for each turn; > 0. [rad]

    Returns
    -------
    friction : ndarray
        Of rope on post. [1]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.

    References
    ----------
    Beer and Johnston, Vector Mechanics for Engineers: Statics, sample problem 8.7 (Euler-Eytelwein).
    """
    pull, held = number(tight), positive(slack, "slack", "N")
    require(~(pull < held), "tight", "must be at least the slack pull, in N", pull)
    return np.asarray(np.log(pull / held) / positive(wrap, "wrap", "rad"))


@formula("friction / sin(half_angle)")
def groove_friction(friction: ArrayLike, half_angle: ArrayLike) -> NDArray[np.float64]:
    """Friction that a rope or belt wedged in a V-shaped groove seems to have.

    Parameters
    ----------
    friction : array_like
        Of the flat materials; >= 0. [1]
    half_angle : array_like
        Between one side of the groove and its middle; > 0, at most pi/2. [rad]

    Returns
    -------
    friction : ndarray
        To be used in place of the flat one. [1]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    half = number(half_angle)
    require(~((half <= 0) | (half > np.pi / 2)), "half_angle", "must be > 0 and <= pi/2 rad", half)
    return np.asarray(not_negative(friction, "friction") / np.sin(half))


@formula("(tight - slack) * speed")
def belt_power(tight: ArrayLike, slack: ArrayLike, speed: ArrayLike) -> NDArray[np.float64]:
    """Power that a belt carries.

    Parameters
    ----------
    tight : array_like
        Pull of the tight side. [N]
    slack : array_like
        Pull of the slack side. [N]
    speed : array_like
        Of the belt; >= 0. [m/s]

    Returns
    -------
    power : ndarray
        From pulley to pulley. [W]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.

    References
    ----------
    Khurmi and Gupta, Theory of Machines, ex. 11.4.
    """
    return np.asarray((number(tight) - number(slack)) * not_negative(speed, "speed", "m/s"))
