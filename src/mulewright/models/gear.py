"""What does a gear train do? Ratio, efficiency forwards and backwards, and inertia seen through it."""

from __future__ import annotations

from collections.abc import Sequence
from math import prod

import numpy as np
from numpy.typing import ArrayLike, NDArray

from mulewright.models.bounds import Floats, between, efficiency_of, not_negative, number, positive
from mulewright.models.formula import formula


@formula("driven_teeth / driver_teeth")
def stage_ratio(driver_teeth: ArrayLike, driven_teeth: ArrayLike) -> NDArray[np.float64]:
    """Reduction of one pair of gears, sprockets or pulleys.

    Parameters
    ----------
    driver_teeth : array_like
        Teeth, or diameter, of the wheel on the motor's side; > 0. [1]
    driven_teeth : array_like
        Teeth, or diameter in the same unit, of the wheel that it drives; > 0. [1]

    Returns
    -------
    ratio : ndarray
        Turns in for one turn out, without the sense of turning. [1]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    return np.asarray(positive(driven_teeth, "driven_teeth") / positive(driver_teeth, "driver_teeth"))


@formula("prod(ratios)")
def train_ratio(ratios: Sequence[ArrayLike]) -> NDArray[np.float64]:
    """Reduction of stages in a row.

    Parameters
    ----------
    ratios : sequence of array_like
        One per stage; > 0. [1]

    Returns
    -------
    ratio : ndarray
        Turns in for one turn out. [1]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    return _product([positive(ratio, "ratio") for ratio in ratios])


@formula("prod(efficiencies)")
def train_efficiency(efficiencies: Sequence[ArrayLike]) -> NDArray[np.float64]:
    """Share of the power that passes through stages in a row.

    Parameters
    ----------
    efficiencies : sequence of array_like
        One per stage; 0 to 1, and 0 for a stage that its load cannot drive. [1]

    Returns
    -------
    efficiency : ndarray
        From the motor to the load, or back. [1]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    return _product([between(efficiency, "efficiency", 0, 1) for efficiency in efficiencies])


@formula("torque_constant / back_emf_constant")
def gearmotor_efficiency(torque_constant: ArrayLike, back_emf_constant: ArrayLike) -> NDArray[np.float64]:
    """Efficiency of the gearbox in a gearmotor, from its two constants at the shaft that comes out.

    In the bare motor both constants are the same number; the gearbox costs torque but no speed.

    Parameters
    ----------
    torque_constant : array_like
        At the shaft that comes out; > 0. [N m/A]
    back_emf_constant : array_like
        At the same shaft; > 0. [V s/rad]

    Returns
    -------
    efficiency : ndarray
        While the motor drives; above 1 the sheet is wrong. [1]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    made = positive(back_emf_constant, "back_emf_constant", "V s/rad")
    return np.asarray(positive(torque_constant, "torque_constant", "N m/A") / made)


@formula("maximum(2 - 1 / efficiency, 0)")
def back_driving_efficiency(efficiency: ArrayLike) -> NDArray[np.float64]:
    """Efficiency of a gear train that is driven by its load.

    The torque lost to friction is taken as the same both ways. A train at or below one half does
    not let its load drive it: it is self-locking.

    Parameters
    ----------
    efficiency : array_like
        While the motor drives; > 0, at most 1. [1]

    Returns
    -------
    efficiency : ndarray
        While the load drives. [1]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    return np.asarray(np.maximum(2 - 1 / efficiency_of(efficiency), 0))


@formula("inertia * speed_ratio**2")
def reflected_inertia(inertia: ArrayLike, speed_ratio: ArrayLike) -> NDArray[np.float64]:
    """Inertia of a part as another shaft feels it through gears.

    Parameters
    ----------
    inertia : array_like
        Of the part about its own axis; >= 0. [kg m^2]
    speed_ratio : array_like
        Turns of the part for one turn of the shaft that feels it; > 0. [1]

    Returns
    -------
    inertia : ndarray
        Seen from that shaft. [kg m^2]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.

    References
    ----------
    Nise, Control Systems Engineering, ex. 2.23.
    """
    return np.asarray(not_negative(inertia, "inertia", "kg m^2") * positive(speed_ratio, "speed_ratio") ** 2)


@formula("damping * speed_ratio**2")
def reflected_damping(damping: ArrayLike, speed_ratio: ArrayLike) -> NDArray[np.float64]:
    """Drag of a part, growing with its speed, as another shaft feels it through gears.

    Parameters
    ----------
    damping : array_like
        Torque for each rad/s of the part; >= 0. [N m s/rad]
    speed_ratio : array_like
        Turns of the part for one turn of the shaft that feels it; > 0. [1]

    Returns
    -------
    damping : ndarray
        Seen from that shaft. [N m s/rad]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.

    References
    ----------
    Nise, Control Systems Engineering, ex. 2.23.
    """
    return np.asarray(
        not_negative(damping, "damping", "N m s/rad") * positive(speed_ratio, "speed_ratio") ** 2
    )


@formula("ratio * torque / (load_inertia + motor_inertia * ratio**2)")
def geared_acceleration(
    torque: ArrayLike, ratio: ArrayLike, motor_inertia: ArrayLike, load_inertia: ArrayLike
) -> NDArray[np.float64]:
    """Angular acceleration of a load behind gears without loss.

    Parameters
    ----------
    torque : array_like
        Of the motor, less what friction takes. [N m]
    ratio : array_like
        Motor turns for one turn of the load; > 0. [1]
    motor_inertia : array_like
        About the motor's axis; >= 0. [kg m^2]
    load_inertia : array_like
        About the load's axis; > 0. [kg m^2]

    Returns
    -------
    acceleration : ndarray
        Of the load. [rad/s^2]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.

    References
    ----------
    Khurmi and Gupta, Theory of Machines, ex. 3.14.
    """
    inertia = positive(load_inertia, "load_inertia", "kg m^2") + reflected_inertia(motor_inertia, ratio)
    return np.asarray(number(ratio) * number(torque) / inertia)


@formula("sqrt(load_inertia / motor_inertia)")
def best_ratio_for_acceleration(motor_inertia: ArrayLike, load_inertia: ArrayLike) -> NDArray[np.float64]:
    """Reduction with which a given motor torque speeds its load up most.

    Parameters
    ----------
    motor_inertia : array_like
        About the motor's axis; > 0. [kg m^2]
    load_inertia : array_like
        About the load's axis; > 0. [kg m^2]

    Returns
    -------
    ratio : ndarray
        Motor turns for one turn of the load. [1]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.

    References
    ----------
    Khurmi and Gupta, Theory of Machines, ex. 3.14.
    """
    load = positive(load_inertia, "load_inertia", "kg m^2")
    return np.asarray(np.sqrt(load / positive(motor_inertia, "motor_inertia", "kg m^2")))


def _product(factors: Sequence[Floats]) -> Floats:
    return np.asarray(prod(factors, start=np.float64(1.0)))
