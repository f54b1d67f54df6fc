"""How hard is a body to turn? Moments of inertia of plain shapes, and the energy of a spinning one."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray

from mulewright.models.bounds import not_negative, number
from mulewright.models.formula import formula


@formula("mass * radius**2 / 2")
def disc_inertia(mass: ArrayLike, radius: ArrayLike) -> NDArray[np.float64]:
    """Inertia of a full disc or cylinder about its axis.

    Parameters
    ----------
    mass : array_like
        Of the body; >= 0. [kg]
    radius : array_like
        Of the body; >= 0. [m]

    Returns
    -------
    inertia : ndarray
        About the axis of the cylinder. [kg m^2]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    return np.asarray(not_negative(mass, "mass", "kg") * not_negative(radius, "radius", "m") ** 2 / 2)


@formula("mass * (3 * radius**2 + length**2) / 12")
def cylinder_inertia_across(mass: ArrayLike, radius: ArrayLike, length: ArrayLike) -> NDArray[np.float64]:
    """Inertia of a full cylinder about a line through its middle, square to its axis.

    Parameters
    ----------
    mass : array_like
        Of the body; >= 0. [kg]
    radius : array_like
        Of the body; >= 0. [m]
    length : array_like
        Along its axis; >= 0. [m]

    Returns
    -------
    inertia : ndarray
        About that line. [kg m^2]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    shape = 3 * not_negative(radius, "radius", "m") ** 2 + not_negative(length, "length", "m") ** 2
    return np.asarray(not_negative(mass, "mass", "kg") * shape / 12)


@formula("mass * (side**2 + other_side**2) / 12")
def box_inertia(mass: ArrayLike, side: ArrayLike, other_side: ArrayLike) -> NDArray[np.float64]:
    """Inertia of a full box about a line through its middle; a rod is a box with one side of zero.

    Parameters
    ----------
    mass : array_like
        Of the body; >= 0. [kg]
    side : array_like
        Edge square to the line; >= 0. [m]
    other_side : array_like
        The other edge square to the line; >= 0. [m]

    Returns
    -------
    inertia : ndarray
        About that line. [kg m^2]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    shape = not_negative(side, "side", "m") ** 2 + not_negative(other_side, "other_side", "m") ** 2
    return np.asarray(not_negative(mass, "mass", "kg") * shape / 12)


@formula("2 / 5 * mass * radius**2")
def ball_inertia(mass: ArrayLike, radius: ArrayLike) -> NDArray[np.float64]:
    """Inertia of a full ball about any line through its middle.

    Parameters
    ----------
    mass : array_like
        Of the body; >= 0. [kg]
    radius : array_like
        Of the body; >= 0. [m]

    Returns
    -------
    inertia : ndarray
        About that line. [kg m^2]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    return np.asarray(2 / 5 * not_negative(mass, "mass", "kg") * not_negative(radius, "radius", "m") ** 2)


@formula("mass * radius**2")
def point_inertia(mass: ArrayLike, radius: ArrayLike) -> NDArray[np.float64]:
    """Inertia of a lump about a far line; of any body, with its radius of gyration.

    Parameters
    ----------
    mass : array_like
        Of the lump; >= 0. [kg]
    radius : array_like
        From the line to the lump; >= 0. [m]

    Returns
    -------
    inertia : ndarray
        About that line. [kg m^2]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    return np.asarray(not_negative(mass, "mass", "kg") * not_negative(radius, "radius", "m") ** 2)


@formula("inertia + mass * distance**2")
def shifted_inertia(inertia: ArrayLike, mass: ArrayLike, distance: ArrayLike) -> NDArray[np.float64]:
    """Inertia about a line that runs beside the middle of a body.

    Parameters
    ----------
    inertia : array_like
        About the parallel line through its centre of gravity; >= 0. [kg m^2]
    mass : array_like
        Of the body; >= 0. [kg]
    distance : array_like
        From line to line; >= 0. [m]

    Returns
    -------
    inertia : ndarray
        About the far line. [kg m^2]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    return np.asarray(not_negative(inertia, "inertia", "kg m^2") + point_inertia(mass, distance))


@formula("inertia * speed**2 / 2")
def flywheel_energy(inertia: ArrayLike, speed: ArrayLike) -> NDArray[np.float64]:
    """Energy of a spinning body.

    Parameters
    ----------
    inertia : array_like
        About its axis; >= 0. [kg m^2]
    speed : array_like
        Of its spin. [rad/s]

    Returns
    -------
    energy : ndarray
        That a burst, or a stop, sets free. [J]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    return np.asarray(not_negative(inertia, "inertia", "kg m^2") * number(speed) ** 2 / 2)
