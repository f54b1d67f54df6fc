"""What changes by which factor, when a machine gets more signal, more volts, other gears or another mass?"""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray

from mulewright.models.bounds import not_negative, positive
from mulewright.models.formula import formula


@formula("duty_factor**2 * voltage_factor")
def battery_stall_factor(duty_factor: ArrayLike, voltage_factor: ArrayLike) -> NDArray[np.float64]:
    """Factor on the current that a motor held fast takes from the battery.

    The winding's current grows with duty and volts; the battery gives it for the share of time that is the duty.

    Parameters
    ----------
    duty_factor : array_like
        New duty over old duty; >= 0. [1]
    voltage_factor : array_like
        New supply over old supply; >= 0. [1]

    Returns
    -------
    factor : ndarray
        New battery current over old battery current. [1]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    duty, voltage = not_negative(duty_factor, "duty_factor"), not_negative(voltage_factor, "voltage_factor")
    return np.asarray(duty**2 * voltage)


@formula("speed_factor**2 * mass_factor")
def energy_factor(speed_factor: ArrayLike, mass_factor: ArrayLike) -> NDArray[np.float64]:
    """Factor on the energy of a moving machine.

    Parameters
    ----------
    speed_factor : array_like
        New speed over old speed; >= 0. [1]
    mass_factor : array_like
        New mass over old mass; >= 0. [1]

    Returns
    -------
    factor : ndarray
        New energy over old energy. [1]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    speed, mass = not_negative(speed_factor, "speed_factor"), not_negative(mass_factor, "mass_factor")
    return np.asarray(speed**2 * mass)


@formula("signal_factor * ratio_factor / mass_factor")
def acceleration_factor(
    signal_factor: ArrayLike, ratio_factor: ArrayLike, mass_factor: ArrayLike
) -> NDArray[np.float64]:
    """Factor on the first acceleration from standstill, short of slip.

    Parameters
    ----------
    signal_factor : array_like
        New duty times volts over old duty times volts; >= 0. [1]
    ratio_factor : array_like
        New reduction over old reduction; >= 0. [1]
    mass_factor : array_like
        New mass over old mass; > 0. [1]

    Returns
    -------
    factor : ndarray
        New acceleration over old acceleration. [1]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    signal = not_negative(signal_factor, "signal_factor")
    ratio, mass = not_negative(ratio_factor, "ratio_factor"), positive(mass_factor, "mass_factor")
    return np.asarray(signal * ratio / mass)


@formula("mass_factor / ratio_factor**2")
def time_constant_factor(mass_factor: ArrayLike, ratio_factor: ArrayLike) -> NDArray[np.float64]:
    """Factor on the time in which a motor makes 63 % of a change of speed, whatever duty and volts are.

    Parameters
    ----------
    mass_factor : array_like
        New mass over old mass; >= 0. [1]
    ratio_factor : array_like
        New reduction over old reduction; > 0. [1]

    Returns
    -------
    factor : ndarray
        New time constant over old time constant. [1]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    mass, ratio = not_negative(mass_factor, "mass_factor"), positive(ratio_factor, "ratio_factor")
    return np.asarray(mass / ratio**2)


@formula("1 / rate**2")
def geared_force_factor(rate: ArrayLike) -> NDArray[np.float64]:
    """Force of a machine that is geared down to a speed, over that of one whose rate was turned down to it.

    A rate takes volts, and with them both speed and force; a reduction of one over the rate gives the same
    speed with force divided by the rate.

    Parameters
    ----------
    rate : array_like
        Rate that was driven with; > 0. [1]

    Returns
    -------
    factor : ndarray
        Force geared over force at the rate. [1]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    return np.asarray(1 / positive(rate, "rate") ** 2)


@formula("voltage_factor * duty / duty_at_rate")
def same_speed_gear_factor(
    voltage_factor: ArrayLike, duty: ArrayLike, duty_at_rate: ArrayLike
) -> NDArray[np.float64]:
    """Factor on the reduction that keeps a speed liked at a low rate, now at full signal.

    Parameters
    ----------
    voltage_factor : array_like
        New supply over old supply; >= 0. [1]
    duty : array_like
        Duty at full signal on the new machine; >= 0. [1]
    duty_at_rate : array_like
        Duty that the old one had at that rate; > 0. [1]

    Returns
    -------
    factor : ndarray
        New reduction over old reduction. [1]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    share = not_negative(duty, "duty") / positive(duty_at_rate, "duty_at_rate")
    return np.asarray(not_negative(voltage_factor, "voltage_factor") * share)
