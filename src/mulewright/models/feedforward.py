"""How many volts does a motion ask for? Terms of a feed-forward from motor constants, first loop gains."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray

from mulewright.models.bounds import efficiency_of, positive
from mulewright.models.formula import formula


@formula("back_emf_constant * ratio / radius")
def volts_per_speed(back_emf_constant: ArrayLike, ratio: ArrayLike, radius: ArrayLike) -> NDArray[np.float64]:
    """Volts that each m/s of steady speed takes, friction apart.

    Parameters
    ----------
    back_emf_constant : array_like
        At the shaft of the motor or gearmotor; > 0. [V s/rad]
    ratio : array_like
        Its turns for one turn of the wheel or drum; > 0. [1]
    radius : array_like
        Of the wheel or drum; > 0. [m]

    Returns
    -------
    volts : ndarray
        Speed term of the feed-forward. [V s/m]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    per_turn = positive(back_emf_constant, "back_emf_constant", "V s/rad") * positive(ratio, "ratio")
    return np.asarray(per_turn / positive(radius, "radius", "m"))


@formula("mass * radius * resistance / (motors * torque_constant * ratio * efficiency)")
def volts_per_acceleration(
    mass: ArrayLike,
    radius: ArrayLike,
    resistance: ArrayLike,
    motors: ArrayLike,
    torque_constant: ArrayLike,
    ratio: ArrayLike,
    efficiency: ArrayLike,
) -> NDArray[np.float64]:
    """Volts that each m/s^2 of acceleration takes.

    Parameters
    ----------
    mass : array_like
        That all motors move together; > 0. [kg]
    radius : array_like
        Of the wheel or drum; > 0. [m]
    resistance : array_like
        Of the winding of one motor; > 0. [ohm]
    motors : array_like
        That share the load; > 0. [1]
    torque_constant : array_like
        At the shaft of the motor or gearmotor; > 0. [N m/A]
    ratio : array_like
        Its turns for one turn of the wheel or drum; > 0. [1]
    efficiency : array_like
        Of that reduction; > 0, at most 1. [1]

    Returns
    -------
    volts : ndarray
        Acceleration term of the feed-forward. [V s^2/m]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    torque = positive(mass, "mass", "kg") * positive(radius, "radius", "m")
    per_ampere = positive(torque_constant, "torque_constant", "N m/A") * positive(ratio, "ratio")
    current = torque / (positive(motors, "motors") * per_ampere * efficiency_of(efficiency))
    return np.asarray(current * positive(resistance, "resistance", "ohm"))


@formula("volts_per_acceleration / closed_loop_time")
def speed_loop_gain(volts_per_acceleration: ArrayLike, closed_loop_time: ArrayLike) -> NDArray[np.float64]:
    """First proportional gain of a speed loop, to be tuned and never trusted.

    Parameters
    ----------
    volts_per_acceleration : array_like
        Acceleration term of the feed-forward; > 0. [V s^2/m]
    closed_loop_time : array_like
        Wanted time constant of the loop, three times its delays or more; > 0. [s]

    Returns
    -------
    gain : ndarray
        Volts for each m/s of error. [V s/m]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    inert = positive(volts_per_acceleration, "volts_per_acceleration", "V s^2/m")
    return np.asarray(inert / positive(closed_loop_time, "closed_loop_time", "s"))


@formula("volts_per_speed / closed_loop_time")
def speed_loop_integral_gain(volts_per_speed: ArrayLike, closed_loop_time: ArrayLike) -> NDArray[np.float64]:
    """First integral gain of a speed loop, to be tuned and never trusted.

    Parameters
    ----------
    volts_per_speed : array_like
        Speed term of the feed-forward; > 0. [V s/m]
    closed_loop_time : array_like
        Wanted time constant of the loop, three times its delays or more; > 0. [s]

    Returns
    -------
    gain : ndarray
        Volts for each metre of error summed over time. [V/m]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    steady = positive(volts_per_speed, "volts_per_speed", "V s/m")
    return np.asarray(steady / positive(closed_loop_time, "closed_loop_time", "s"))
