"""How fast does a motor take up speed? Exact answer to a step of voltage, with its two time constants."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray

from mulewright.errors import require
from mulewright.models.bounds import Floats, not_negative, number, positive
from mulewright.models.formula import formula


@formula("inertia * resistance / (torque_constant * back_emf_constant)")
def mechanical_time_constant(
    inertia: ArrayLike, resistance: ArrayLike, torque_constant: ArrayLike, back_emf_constant: ArrayLike
) -> NDArray[np.float64]:
    """Time in which a motor makes 63 % of a change of speed, when its inductance does not matter.

    Parameters
    ----------
    inertia : array_like
        All that turns, seen at the shaft; > 0. [kg m^2]
    resistance : array_like
        Of the winding; n motors on one shaft have the n-th part of one; > 0. [ohm]
    torque_constant : array_like
        At the shaft; > 0. [N m/A]
    back_emf_constant : array_like
        At the shaft; > 0. [V s/rad]

    Returns
    -------
    time_constant : ndarray
        Without friction that grows with speed. [s]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    constants = _constants(torque_constant, back_emf_constant)
    mass_side = positive(inertia, "inertia", "kg m^2") * positive(resistance, "resistance", "ohm")
    return np.asarray(mass_side / constants)


@formula("voltage * torque_constant / (resistance * drag + torque_constant * back_emf_constant)")
def final_speed(
    voltage: ArrayLike,
    resistance: ArrayLike,
    drag: ArrayLike,
    torque_constant: ArrayLike,
    back_emf_constant: ArrayLike,
) -> NDArray[np.float64]:
    """Speed that a motor reaches against a drag that grows with speed.

    Parameters
    ----------
    voltage : array_like
        Across the motor. [V]
    resistance : array_like
        Of the winding; > 0. [ohm]
    drag : array_like
        Friction torque for each rad/s; >= 0. [N m s/rad]
    torque_constant : array_like
        At the shaft; > 0. [N m/A]
    back_emf_constant : array_like
        At the shaft; > 0. [V s/rad]

    Returns
    -------
    speed : ndarray
        After a long time. [rad/s]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    stiffness = _stiffness(resistance, drag, torque_constant, back_emf_constant)
    return np.asarray(number(voltage) * number(torque_constant) / stiffness)


@formula(
    "((resistance * inertia + inductance * drag)"
    " + sqrt((resistance * inertia + inductance * drag)**2"
    " - 4 * inductance * inertia * (resistance * drag + torque_constant * back_emf_constant)))"
    " / (2 * (resistance * drag + torque_constant * back_emf_constant))"
)
def slow_time_constant(
    inductance: ArrayLike,
    resistance: ArrayLike,
    inertia: ArrayLike,
    drag: ArrayLike,
    torque_constant: ArrayLike,
    back_emf_constant: ArrayLike,
) -> NDArray[np.float64]:
    """Longer time constant of a motor with inductance, mostly that of its inertia.

    Parameters
    ----------
    inductance : array_like
        Of the winding; > 0, and so small that the motor does not ring. [H]
    resistance : array_like
        Of the winding; > 0. [ohm]
    inertia : array_like
        All that turns, seen at the shaft; > 0. [kg m^2]
    drag : array_like
        Friction torque for each rad/s; >= 0. [N m s/rad]
    torque_constant : array_like
        At the shaft; > 0. [N m/A]
    back_emf_constant : array_like
        At the shaft; > 0. [V s/rad]

    Returns
    -------
    time_constant : ndarray
        Minus one over the pole nearer to zero. [s]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    stiffness = _stiffness(resistance, drag, torque_constant, back_emf_constant)
    return np.asarray(_half_root(inductance, resistance, inertia, drag, stiffness) / stiffness)


@formula(
    "2 * inductance * inertia / ((resistance * inertia + inductance * drag)"
    " + sqrt((resistance * inertia + inductance * drag)**2"
    " - 4 * inductance * inertia * (resistance * drag + torque_constant * back_emf_constant)))"
)
def fast_time_constant(
    inductance: ArrayLike,
    resistance: ArrayLike,
    inertia: ArrayLike,
    drag: ArrayLike,
    torque_constant: ArrayLike,
    back_emf_constant: ArrayLike,
) -> NDArray[np.float64]:
    """Shorter time constant of a motor with inductance, mostly that of its winding.

    Parameters
    ----------
    inductance : array_like
        Of the winding; > 0, and so small that the motor does not ring. [H]
    resistance : array_like
        Of the winding; > 0. [ohm]
    inertia : array_like
        All that turns, seen at the shaft; > 0. [kg m^2]
    drag : array_like
        Friction torque for each rad/s; >= 0. [N m s/rad]
    torque_constant : array_like
        At the shaft; > 0. [N m/A]
    back_emf_constant : array_like
        At the shaft; > 0. [V s/rad]

    Returns
    -------
    time_constant : ndarray
        Minus one over the pole farther from zero. [s]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    stiffness = _stiffness(resistance, drag, torque_constant, back_emf_constant)
    half_root = _half_root(inductance, resistance, inertia, drag, stiffness)
    return np.asarray(number(inductance) * number(inertia) / half_root)


@formula("final_speed * (1 - (slow * exp(-time / slow) - fast * exp(-time / fast)) / (slow - fast))")
def speed_after_step(
    time: ArrayLike, final_speed: ArrayLike, slow: ArrayLike, fast: ArrayLike
) -> NDArray[np.float64]:
    """Speed of a motor some time after the voltage came on, from rest.

    Parameters
    ----------
    time : array_like
        Since the step; >= 0. [s]
    final_speed : array_like
        Towards which it goes. [rad/s]
    slow : array_like
        Longer time constant; above the shorter one. [s]
    fast : array_like
        Shorter time constant; > 0. [s]

    Returns
    -------
    speed : ndarray
        Of the shaft. [rad/s]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    return np.asarray(number(final_speed) * _step(time, slow, fast))


@formula(
    "voltage / (resistance * drag + torque_constant * back_emf_constant)"
    " * (drag * (1 - (slow * exp(-time / slow) - fast * exp(-time / fast)) / (slow - fast))"
    " + inertia * (exp(-time / slow) - exp(-time / fast)) / (slow - fast))"
)
def current_after_step(
    time: ArrayLike,
    voltage: ArrayLike,
    resistance: ArrayLike,
    inertia: ArrayLike,
    drag: ArrayLike,
    torque_constant: ArrayLike,
    back_emf_constant: ArrayLike,
    slow: ArrayLike,
    fast: ArrayLike,
) -> NDArray[np.float64]:
    """Current of a motor some time after the voltage came on, from rest.

    Parameters
    ----------
    time : array_like
        Since the step; >= 0. [s]
    voltage : array_like
        Across the motor from then on. [V]
    resistance : array_like
        Of the winding; > 0. [ohm]
    inertia : array_like
        All that turns, seen at the shaft; > 0. [kg m^2]
    drag : array_like
        Friction torque for each rad/s; >= 0. [N m s/rad]
    torque_constant : array_like
        At the shaft; > 0. [N m/A]
    back_emf_constant : array_like
        At the shaft; > 0. [V s/rad]
    slow : array_like
        Longer time constant; above the shorter one. [s]
    fast : array_like
        Shorter time constant; > 0. [s]

    Returns
    -------
    current : ndarray
        In the motor. [A]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    per_volt = number(voltage) / _stiffness(resistance, drag, torque_constant, back_emf_constant)
    steady = number(drag) * _step(time, slow, fast)
    speeding_up = positive(inertia, "inertia", "kg m^2") * _pulse(time, slow, fast)
    return np.asarray(per_volt * (steady + speeding_up))


def _constants(torque_constant: ArrayLike, back_emf_constant: ArrayLike) -> Floats:
    """[V s/rad * N m/A] the product by which motor and mass are tied to the volts."""
    return positive(torque_constant, "torque_constant", "N m/A") * positive(
        back_emf_constant, "back_emf_constant", "V s/rad"
    )


def _stiffness(
    resistance: ArrayLike, drag: ArrayLike, torque_constant: ArrayLike, back_emf_constant: ArrayLike
) -> Floats:
    """[V s/rad * N m/A] the last coefficient of the motor's equation."""
    rub = positive(resistance, "resistance", "ohm") * not_negative(drag, "drag", "N m s/rad")
    return rub + _constants(torque_constant, back_emf_constant)


def _half_root(
    inductance: ArrayLike, resistance: ArrayLike, inertia: ArrayLike, drag: ArrayLike, stiffness: Floats
) -> Floats:
    """Larger half of the roots' sum: they are real, or the motor would ring."""
    henries, mass = positive(inductance, "inductance", "H"), positive(inertia, "inertia", "kg m^2")
    half_sum = (number(resistance) * mass + henries * number(drag)) / 2
    square = half_sum**2 - henries * mass * stiffness
    require(~(square < 0), "inductance", "must be so small that the motor does not ring, in H", henries)
    return half_sum + np.sqrt(square)


def _pulse(time: ArrayLike, slow: ArrayLike, fast: ArrayLike) -> Floats:
    """[1/s] answer of two lags in a row to a short knock."""
    longer, shorter = number(slow), positive(fast, "fast", "s")
    require(~(longer <= shorter), "slow", "must be above the shorter time constant, in s", longer)
    since = not_negative(time, "time", "s")
    return (np.exp(-since / longer) - np.exp(-since / shorter)) / (longer - shorter)


def _step(time: ArrayLike, slow: ArrayLike, fast: ArrayLike) -> Floats:
    """[1] answer of two lags in a row to a step: what the step's knock leaves, and its delay."""
    return 1 - np.exp(-number(time) / number(fast)) - number(slow) * _pulse(time, slow, fast)
