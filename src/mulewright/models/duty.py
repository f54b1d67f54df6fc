"""What share of the supply voltage a controller makes of a pulse."""

import numpy as np
from numpy.typing import ArrayLike, NDArray

from mulewright.errors import require
from mulewright.models.bounds import Floats, between, not_negative, number, positive
from mulewright.models.formula import formula


@formula("sub_trim + trim + neutral - controller_neutral")
def neutral_offset(
    sub_trim: ArrayLike, trim: ArrayLike, neutral: ArrayLike, controller_neutral: ArrayLike
) -> NDArray[np.float64]:
    """Distance of the resting pulse from what the controller takes for neutral.

    Parameters
    ----------
    sub_trim : array_like
        Offset set in the radio's menu. [s]
    trim : array_like
        Offset set with the trim beside the stick. [s]
    neutral : array_like
        Pulse of the channel at rest without trims. [s]
    controller_neutral : array_like
        Pulse at which the controller gives nothing. [s]

    Returns
    -------
    offset : ndarray
        Offset, positive towards forward. [s]
    """
    return np.asarray(number(sub_trim) + number(trim) + number(neutral) - number(controller_neutral))


@formula("pulse - controller_neutral")
def pulse_deviation(pulse: ArrayLike, controller_neutral: ArrayLike) -> NDArray[np.float64]:
    """Distance of a pulse from the controller's neutral.

    Parameters
    ----------
    pulse : array_like
        Pulse width. [s]
    controller_neutral : array_like
        Pulse at which the controller gives nothing. [s]

    Returns
    -------
    deviation : ndarray
        Deviation, positive above neutral. [s]
    """
    return np.asarray(number(pulse) - number(controller_neutral))


@formula("deviation / controller_half_range")
def signal_fraction(deviation: ArrayLike, controller_half_range: ArrayLike) -> NDArray[np.float64]:
    """Deviation as a fraction of the controller's full signal; not the duty, and not clipped.

    Parameters
    ----------
    deviation : array_like
        Pulse minus the controller's neutral. [s]
    controller_half_range : array_like
        Deviation at which the controller gives everything; > 0. [s]

    Returns
    -------
    fraction : ndarray
        Fraction of full signal. [1]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    return np.asarray(number(deviation) / positive(controller_half_range, "controller_half_range", "s"))


def _band(controller_half_range: ArrayLike, dead_band: ArrayLike) -> tuple[Floats, Floats]:
    """Half dead band, and what the controller has beyond it."""
    dead = not_negative(dead_band, "dead_band", "s")
    beyond = number(controller_half_range) - dead
    require(~(beyond <= 0), "controller_half_range", "less dead_band must be > 0 s", beyond)
    return dead, beyond


@formula("sign(deviation) * clip((abs(deviation) - dead_band) / (controller_half_range - dead_band), 0, 1)")
def duty_rescaled(
    deviation: ArrayLike, controller_half_range: ArrayLike, dead_band: ArrayLike
) -> NDArray[np.float64]:
    """Duty of a controller that starts from nothing at the edge of its dead band.

    Parameters
    ----------
    deviation : array_like
        Pulse minus the controller's neutral. [s]
    controller_half_range : array_like
        Deviation at which the controller gives everything; > dead_band. [s]
    dead_band : array_like
        Half of the dead band; >= 0. [s]

    Returns
    -------
    duty : ndarray
        Share of the supply voltage that the motor gets, -1 to 1. [1]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    pulse, (dead, beyond) = number(deviation), _band(controller_half_range, dead_band)
    return np.asarray(np.sign(pulse) * np.clip((np.abs(pulse) - dead) / beyond, 0, 1))


@formula("where(abs(deviation) < dead_band, 0, clip(deviation / controller_half_range, -1, 1))")
def duty_jump(
    deviation: ArrayLike, controller_half_range: ArrayLike, dead_band: ArrayLike
) -> NDArray[np.float64]:
    """Duty of a controller that jumps at the edge of its dead band.

    Parameters
    ----------
    deviation : array_like
        Pulse minus the controller's neutral. [s]
    controller_half_range : array_like
        Deviation at which the controller gives everything; > dead_band. [s]
    dead_band : array_like
        Half of the dead band; >= 0. [s]

    Returns
    -------
    duty : ndarray
        Share of the supply voltage that the motor gets, -1 to 1. [1]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    pulse, (dead, beyond) = number(deviation), _band(controller_half_range, dead_band)
    runs = np.heaviside(np.abs(pulse) - dead, 1.0)  # keeps nan, which a comparison would lose
    return np.asarray(runs * np.clip(pulse / (dead + beyond), -1, 1))


@formula("sign(duty) * dead_band + duty * (controller_half_range - dead_band)")
def deviation_for_duty(
    duty: ArrayLike, controller_half_range: ArrayLike, dead_band: ArrayLike
) -> NDArray[np.float64]:
    """Deviation that makes a controller which rescales give a wanted duty.

    Divided by the half range of the radio it is the product of travel and rate to set.

    Parameters
    ----------
    duty : array_like
        Wanted share of the supply voltage; -1 to 1. [1]
    controller_half_range : array_like
        Deviation at which the controller gives everything; > dead_band. [s]
    dead_band : array_like
        Half of the dead band; >= 0. [s]

    Returns
    -------
    deviation : ndarray
        Pulse minus the controller's neutral. [s]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    share, (dead, beyond) = between(duty, "duty", -1, 1), _band(controller_half_range, dead_band)
    return np.asarray(np.sign(share) * dead + share * beyond)
