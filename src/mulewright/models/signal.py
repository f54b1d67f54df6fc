"""How a stick becomes a pulse, how much of it is dead, and how far it reaches."""

import numpy as np
from numpy.typing import ArrayLike, NDArray

from mulewright.models.bounds import between, not_negative, number, positive
from mulewright.models.duty import duty_rescaled
from mulewright.models.formula import formula, valid_for

HALVINGS = 52  # [1]  from a whole stick down to one unit in the last place of a double
STEEPEST, FLATTEST = -0.5, 1.0  # [1]  expo beyond which the curve would turn back


def _shaped(stick: NDArray[np.float64], expo: NDArray[np.float64]) -> NDArray[np.float64]:
    return np.asarray((1 - expo) * stick + expo * stick * stick * stick)


def _reach(half_range: ArrayLike, travel: ArrayLike, rate: ArrayLike) -> NDArray[np.float64]:
    return np.asarray(
        positive(half_range, "half_range", "s") * not_negative(travel, "travel") * not_negative(rate, "rate")
    )


@valid_for(expo=(0.0, 1.0))
@formula("(1 - expo) * stick + expo * stick**3")
def expo_curve(stick: ArrayLike, expo: ArrayLike) -> NDArray[np.float64]:
    """Stick after the radio's expo: flatter in the middle, unchanged at both ends.

    The cubic is the common form (common practice, no source); a radio may use another. Negative
    expo, steeper in the middle, is worked out too but rests on no source.

    Parameters
    ----------
    stick : array_like
        Stick, -1 to 1 from end to end. [1]
    expo : array_like
        Share of the cubic part; -0.5 to 1. [1]

    Returns
    -------
    shaped : ndarray
        Shaped stick. [1]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    return _shaped(between(stick, "stick", -1, 1), between(expo, "expo", STEEPEST, FLATTEST))


@formula("neutral + sub_trim + trim + half_range * travel * rate * stick")
def pulse_width(
    neutral: ArrayLike,
    sub_trim: ArrayLike,
    trim: ArrayLike,
    half_range: ArrayLike,
    travel: ArrayLike,
    rate: ArrayLike,
    stick: ArrayLike,
) -> NDArray[np.float64]:
    """Pulse that the receiver sends for a shaped (and perhaps mixed) stick.

    Parameters
    ----------
    neutral : array_like
        Pulse of the channel at rest. [s]
    sub_trim : array_like
        Offset set in the radio's menu. [s]
    trim : array_like
        Offset set with the trim beside the stick. [s]
    half_range : array_like
        What this radio means by 100 % travel; > 0. [s]
    travel : array_like
        Endpoint of the side that the stick is on; >= 0. [1]
    rate : array_like
        Rate (dual rate); >= 0. [1]
    stick : array_like
        Shaped stick. [1]

    Returns
    -------
    pulse : ndarray
        Pulse width. [s]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    centre = number(neutral) + number(sub_trim) + number(trim)
    return np.asarray(centre + _reach(half_range, travel, rate) * number(stick))


@formula("clip((half_range * travel * rate - dead_band) / (controller_half_range - dead_band), 0, 1)")
def full_stick_duty(
    half_range: ArrayLike,
    travel: ArrayLike,
    rate: ArrayLike,
    controller_half_range: ArrayLike,
    dead_band: ArrayLike,
) -> NDArray[np.float64]:
    """Duty at the end of the stick, for a controller that rescales beyond its dead band.

    At a low rate this is less than the rate: the dead band takes its share first.

    Parameters
    ----------
    half_range : array_like
        What this radio means by 100 % travel; > 0. [s]
    travel : array_like
        Endpoint; >= 0. [1]
    rate : array_like
        Rate (dual rate); >= 0. [1]
    controller_half_range : array_like
        Deviation at which the controller gives everything; > dead_band. [s]
    dead_band : array_like
        Half of the dead band; >= 0. [s]

    Returns
    -------
    duty : ndarray
        Largest duty that the stick reaches, 0 to 1. [1]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    return duty_rescaled(_reach(half_range, travel, rate), controller_half_range, dead_band)


@valid_for(expo=(0.0, 1.0))
@formula(
    "half_range * travel * rate * ((1 - expo) * result + expo * result**3)"
    " == minimum(threshold, half_range * travel * rate)"
)
def dead_stick(
    half_range: ArrayLike, travel: ArrayLike, rate: ArrayLike, expo: ArrayLike, threshold: ArrayLike
) -> NDArray[np.float64]:
    """Share of the stick's way in which nothing moves yet.

    The smallest stick whose pulse gets past the threshold, exact to the last place of a double;
    1 where the whole stick is not enough. Low rate and expo together make it grow.

    Parameters
    ----------
    half_range : array_like
        What this radio means by 100 % travel; > 0. [s]
    travel : array_like
        Endpoint; >= 0. [1]
    rate : array_like
        Rate (dual rate); >= 0. [1]
    expo : array_like
        Share of the cubic part; -0.5 to 1. [1]
    threshold : array_like
        Deviation from neutral at which something starts to move: the half dead band, or more
        where friction has to be overcome; >= 0. [s]

    Returns
    -------
    stick : ndarray
        Dead part of the stick, 0 to 1. [1]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    reach = _reach(half_range, travel, rate)
    curve = between(expo, "expo", STEEPEST, FLATTEST)
    needed = not_negative(threshold, "threshold", "s")

    dead = np.where(np.isnan(reach + curve + needed), np.nan, 0.0)
    live = dead + 1.0
    for _ in range(HALVINGS):
        middle = (dead + live) / 2
        moves = reach * _shaped(middle, curve) >= needed
        dead, live = np.where(moves, dead, middle), np.where(moves, middle, live)
    return live
