"""How a cart on roller wheels moves, pushes and turns, and what it does with wheels of the wrong hand.

x points ahead, y to the left; angles and yaw rates are positive to the left (anticlockwise from above).
Four wheels come in the order front left, front right, rear left, rear right.
"""

from collections.abc import Sequence

import numpy as np
from numpy.typing import ArrayLike, NDArray

from mulewright.errors import require
from mulewright.models.bounds import Floats, not_negative, number, positive
from mulewright.models.formula import formula
from mulewright.models.mixing import Each

HANDS = (-1, 1, 1, -1)
"""Hand of each 45 degree roller wheel where all is right: the rollers on top form an X from above."""

AHEAD = (1, 1, 1, 1)
YAW = (-1, 1, -1, 1)

RANK_TOLERANCE = 1e-9  # [1]  a lever this small against the others turns nothing


def _together(name: str, values: Each, signs: Sequence[int]) -> Floats:
    """Add up what the wheels do in one direction of the cart."""
    require(len(values) == len(signs), name, f"must be one for each of {len(signs)} wheels", len(values))
    return np.asarray(sum(sign * number(value) for sign, value in zip(signs, values, strict=True)))


@formula(
    "((x * sin(drive_angle + roller_angle) - y * cos(drive_angle + roller_angle)) * yaw_rate"
    " + cos(drive_angle + roller_angle) * forward + sin(drive_angle + roller_angle) * left)"
    " / (wheel_radius * cos(roller_angle))"
)
def roller_wheel_rate(
    yaw_rate: ArrayLike,
    forward: ArrayLike,
    left: ArrayLike,
    x: ArrayLike,
    y: ArrayLike,
    drive_angle: ArrayLike,
    roller_angle: ArrayLike,
    wheel_radius: ArrayLike,
) -> NDArray[np.float64]:
    """Turning rate that a wheel with rollers on its rim needs for a wanted motion of the cart.

    Parameters
    ----------
    yaw_rate : array_like
        Yaw rate, positive to the left. [rad/s]
    forward : array_like
        Speed ahead. [m/s]
    left : array_like
        Speed to the left. [m/s]
    x : array_like
        Place of the wheel ahead of the middle. [m]
    y : array_like
        Place of the wheel left of the middle. [m]
    drive_angle : array_like
        Direction in which the wheel drives, from straight ahead. [rad]
    roller_angle : array_like
        Angle by which the free sliding of the rollers is off the axle: 0 for an all-way wheel,
        a quarter of pi times the hand for a 45 degree roller wheel; less than a quarter turn. [rad]
    wheel_radius : array_like
        Wheel radius; > 0. [m]

    Returns
    -------
    rate : ndarray
        Turning rate, positive for forward. [rad/s]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.

    References
    ----------
    Lynch and Park, Modern Robotics, section 13.2 (from memory).
    """
    slant = number(roller_angle)
    require(~(np.abs(slant) >= np.pi / 2), "roller_angle", "must be less than a quarter turn", slant)
    grip = number(drive_angle) + slant
    lever = number(x) * np.sin(grip) - number(y) * np.cos(grip)
    along = lever * number(yaw_rate) + np.cos(grip) * number(forward) + np.sin(grip) * number(left)
    return np.asarray(along / (positive(wheel_radius, "wheel_radius", "m") * np.cos(slant)))


@formula("half_wheelbase + half_track")
def turning_lever(half_wheelbase: ArrayLike, half_track: ArrayLike) -> NDArray[np.float64]:
    """Lever with which four 45 degree roller wheels turn the cart, all hands right.

    Parameters
    ----------
    half_wheelbase : array_like
        Half the distance from the front to the rear wheels; > 0. [m]
    half_track : array_like
        Half the distance from the left to the right wheels; > 0. [m]

    Returns
    -------
    lever : ndarray
        Speed of the rims for each rad/s of yaw. [m]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    return np.asarray(
        positive(half_wheelbase, "half_wheelbase", "m") + positive(half_track, "half_track", "m")
    )


@formula("abs(half_wheelbase - half_track)")
def crossed_turning_lever(half_wheelbase: ArrayLike, half_track: ArrayLike) -> NDArray[np.float64]:
    """Lever that is left when all four roller wheels have the wrong hand: none for a square.

    Parameters
    ----------
    half_wheelbase : array_like
        Half the distance from the front to the rear wheels; > 0. [m]
    half_track : array_like
        Half the distance from the left to the right wheels; > 0. [m]

    Returns
    -------
    lever : ndarray
        Speed of the rims for each rad/s of yaw. [m]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    return np.abs(positive(half_wheelbase, "half_wheelbase", "m") - positive(half_track, "half_track", "m"))


@formula("hand * x - y")
def contact_lever(hand: ArrayLike, x: ArrayLike, y: ArrayLike) -> NDArray[np.float64]:
    """Rim speed of one 45 degree roller wheel for each rad/s of yaw.

    Parameters
    ----------
    hand : array_like
        1 where the wheel's push ahead also pushes to the left, -1 where to the right. [1]
    x : array_like
        Place of the wheel ahead of the middle. [m]
    y : array_like
        Place of the wheel left of the middle. [m]

    Returns
    -------
    lever : ndarray
        Lever, signed. [m]
    """
    return np.asarray(number(hand) * number(x) - number(y))


@formula("rows.T @ rows @ result == rows.T @ rim_speeds")
def floor_motion(rows: ArrayLike, rim_speeds: Each) -> NDArray[np.float64]:
    """Motion of a cart whose roller wheels, of whatever hands, may not agree: the least scrub.

    Of several motions with the same scrub, the smallest.

    Parameters
    ----------
    rows : array_like
        For each wheel a row: 1, its hand and its contact lever. [1, 1, m]
    rim_speeds : sequence of array_like
        Speed of each rim, one per row. [m/s]

    Returns
    -------
    motion : ndarray
        First axis forward, left and yaw. [m/s, m/s, rad/s]

    Raises
    ------
    DomainError
        If there is not one speed for each row.
    """
    contacts, speeds = number(rows), np.stack(np.broadcast_arrays(*map(number, rim_speeds)))
    require(len(contacts) == len(speeds), "rim_speeds", f"must be {len(contacts)}, one per row", len(speeds))
    return np.asarray(np.tensordot(np.linalg.pinv(contacts, rtol=RANK_TOLERANCE), speeds, axes=1))


@formula("wheel_radius * (rates[0] + rates[1] + rates[2] + rates[3]) / 4")
def roller_forward_speed(rates: Each, wheel_radius: ArrayLike) -> NDArray[np.float64]:
    """Speed ahead of a cart on four 45 degree roller wheels.

    Parameters
    ----------
    rates : sequence of array_like
        Turning rates, one per wheel, positive for forward. [rad/s]
    wheel_radius : array_like
        Wheel radius; > 0. [m]

    Returns
    -------
    speed : ndarray
        Speed ahead. [m/s]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    total = _together("rates", rates, AHEAD)
    return np.asarray(positive(wheel_radius, "wheel_radius", "m") * total / 4)


@formula("wheel_radius * (-rates[0] + rates[1] + rates[2] - rates[3]) / 4")
def roller_left_speed(rates: Each, wheel_radius: ArrayLike) -> NDArray[np.float64]:
    """Speed to the left of a cart on four 45 degree roller wheels.

    Parameters
    ----------
    rates : sequence of array_like
        Turning rates, one per wheel, positive for forward. [rad/s]
    wheel_radius : array_like
        Wheel radius; > 0. [m]

    Returns
    -------
    speed : ndarray
        Speed to the left, before any loss in the rollers. [m/s]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    total = _together("rates", rates, HANDS)
    return np.asarray(positive(wheel_radius, "wheel_radius", "m") * total / 4)


@formula("wheel_radius * (-rates[0] + rates[1] - rates[2] + rates[3]) / (4 * lever)")
def roller_yaw_rate(rates: Each, wheel_radius: ArrayLike, lever: ArrayLike) -> NDArray[np.float64]:
    """Yaw rate of a cart on four 45 degree roller wheels.

    Parameters
    ----------
    rates : sequence of array_like
        Turning rates, one per wheel, positive for forward. [rad/s]
    wheel_radius : array_like
        Wheel radius; > 0. [m]
    lever : array_like
        Turning lever: half the wheelbase and half the track together; > 0. [m]

    Returns
    -------
    yaw_rate : ndarray
        Yaw rate, positive to the left. [rad/s]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    total = _together("rates", rates, YAW)
    return np.asarray(
        positive(wheel_radius, "wheel_radius", "m") * total / (4 * positive(lever, "lever", "m"))
    )


@formula("(torques[0] + torques[1] + torques[2] + torques[3]) / wheel_radius")
def roller_force_ahead(torques: Each, wheel_radius: ArrayLike) -> NDArray[np.float64]:
    """Push ahead of four 45 degree roller wheels while none slips: torque is not lost in the rollers.

    Parameters
    ----------
    torques : sequence of array_like
        Torques, one per wheel, positive for forward. [N m]
    wheel_radius : array_like
        Wheel radius; > 0. [m]

    Returns
    -------
    force : ndarray
        Force ahead. [N]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    total = _together("torques", torques, AHEAD)
    return np.asarray(total / positive(wheel_radius, "wheel_radius", "m"))


@formula("(-torques[0] + torques[1] + torques[2] - torques[3]) / wheel_radius")
def roller_force_left(torques: Each, wheel_radius: ArrayLike) -> NDArray[np.float64]:
    """Push to the left of four 45 degree roller wheels while none slips.

    Parameters
    ----------
    torques : sequence of array_like
        Torques, one per wheel, positive for forward. [N m]
    wheel_radius : array_like
        Wheel radius; > 0. [m]

    Returns
    -------
    force : ndarray
        Force to the left, before any loss in the rollers. [N]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    total = _together("torques", torques, HANDS)
    return np.asarray(total / positive(wheel_radius, "wheel_radius", "m"))


@formula("lever * (-torques[0] + torques[1] - torques[2] + torques[3]) / wheel_radius")
def roller_turning_moment(torques: Each, wheel_radius: ArrayLike, lever: ArrayLike) -> NDArray[np.float64]:
    """Moment with which four 45 degree roller wheels turn the cart while none slips.

    Parameters
    ----------
    torques : sequence of array_like
        Torques, one per wheel, positive for forward. [N m]
    wheel_radius : array_like
        Wheel radius; > 0. [m]
    lever : array_like
        Turning lever: half the wheelbase and half the track together; >= 0. [m]

    Returns
    -------
    moment : ndarray
        Moment, positive to the left. [N m]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    total = _together("torques", torques, YAW)
    return np.asarray(not_negative(lever, "lever", "m") * total / positive(wheel_radius, "wheel_radius", "m"))
