"""How fast a cart moves and turns, and where it ends up.

x points ahead, y to the left; angles and yaw rates are positive to the left (anticlockwise from above).
"""

import numpy as np
from numpy.typing import ArrayLike, NDArray

from mulewright.models.bounds import Floats, between, not_negative, number, positive
from mulewright.models.formula import formula

TINY = 1e-20  # [rad]  stands for no turn at all, where sin(turn) / turn is 1 to the last place


@formula("wheel_radius * (left_rate + right_rate) / 2")
def cart_speed(left_rate: ArrayLike, right_rate: ArrayLike, wheel_radius: ArrayLike) -> NDArray[np.float64]:
    """Speed of a two-side drive whose wheels do not slip.

    Parameters
    ----------
    left_rate : array_like
        Turning rate of the left wheels, positive for forward. [rad/s]
    right_rate : array_like
        Turning rate of the right wheels, positive for forward. [rad/s]
    wheel_radius : array_like
        Wheel radius; > 0. [m]

    Returns
    -------
    speed : ndarray
        Speed ahead of the point midway between the driven wheels. [m/s]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    return np.asarray(
        positive(wheel_radius, "wheel_radius", "m") * (number(left_rate) + number(right_rate)) / 2
    )


@formula("wheel_radius * (right_rate - left_rate) / track")
def cart_yaw_rate(
    left_rate: ArrayLike, right_rate: ArrayLike, wheel_radius: ArrayLike, track: ArrayLike
) -> NDArray[np.float64]:
    """Yaw rate of a two-side drive whose wheels roll without slip.

    Parameters
    ----------
    left_rate : array_like
        Turning rate of the left wheels, positive for forward. [rad/s]
    right_rate : array_like
        Turning rate of the right wheels, positive for forward. [rad/s]
    wheel_radius : array_like
        Wheel radius; > 0. [m]
    track : array_like
        Distance from the left to the right wheels (some books print half of it); > 0. [m]

    Returns
    -------
    yaw_rate : ndarray
        Yaw rate, positive to the left. [rad/s]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    rim = positive(wheel_radius, "wheel_radius", "m") * (number(right_rate) - number(left_rate))
    return np.asarray(rim / positive(track, "track", "m"))


@formula("(speed - yaw_rate * y) / wheel_radius")
def wheel_rate(
    speed: ArrayLike, yaw_rate: ArrayLike, y: ArrayLike, wheel_radius: ArrayLike
) -> NDArray[np.float64]:
    """Turning rate that a plain wheel needs for a wanted motion of the cart.

    Parameters
    ----------
    speed : array_like
        Wanted speed ahead. [m/s]
    yaw_rate : array_like
        Wanted yaw rate, positive to the left. [rad/s]
    y : array_like
        Place of the wheel left of the middle: half the track, with a minus on the right. [m]
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
    """
    rim = number(speed) - number(yaw_rate) * number(y)
    return np.asarray(rim / positive(wheel_radius, "wheel_radius", "m"))


def _chord(yaw_rate: ArrayLike, time: ArrayLike) -> tuple[Floats, Floats]:
    """Half of the turn, and the straight way from start to end for each unit of speed."""
    half_turn = np.asarray(number(yaw_rate) * number(time) / 2)
    return half_turn, np.asarray(number(time) * np.sinc(half_turn / np.pi))


@formula(
    "time * sin(maximum(abs(yaw_rate * time / 2), TINY)) / maximum(abs(yaw_rate * time / 2), TINY)"
    " * (forward * cos(heading + yaw_rate * time / 2) - left * sin(heading + yaw_rate * time / 2))"
)
def displacement_x(
    forward: ArrayLike, left: ArrayLike, yaw_rate: ArrayLike, time: ArrayLike, heading: ArrayLike
) -> NDArray[np.float64]:
    """Way along the x axis of the floor while a motion stays as it is; exact, an arc and no polygon.

    Parameters
    ----------
    forward : array_like
        Speed ahead. [m/s]
    left : array_like
        Speed to the left, 0 where the wheels cannot strafe. [m/s]
    yaw_rate : array_like
        Yaw rate, positive to the left. [rad/s]
    time : array_like
        How long the motion lasts. [s]
    heading : array_like
        Heading at the start, from the x axis of the floor. [rad]

    Returns
    -------
    way : ndarray
        Displacement along x. [m]
    """
    half_turn, chord = _chord(yaw_rate, time)
    course = number(heading) + half_turn
    return np.asarray(chord * (number(forward) * np.cos(course) - number(left) * np.sin(course)))


@formula(
    "time * sin(maximum(abs(yaw_rate * time / 2), TINY)) / maximum(abs(yaw_rate * time / 2), TINY)"
    " * (forward * sin(heading + yaw_rate * time / 2) + left * cos(heading + yaw_rate * time / 2))"
)
def displacement_y(
    forward: ArrayLike, left: ArrayLike, yaw_rate: ArrayLike, time: ArrayLike, heading: ArrayLike
) -> NDArray[np.float64]:
    """Way along the y axis of the floor while a motion stays as it is; exact, an arc and no polygon.

    Parameters
    ----------
    forward : array_like
        Speed ahead. [m/s]
    left : array_like
        Speed to the left, 0 where the wheels cannot strafe. [m/s]
    yaw_rate : array_like
        Yaw rate, positive to the left. [rad/s]
    time : array_like
        How long the motion lasts. [s]
    heading : array_like
        Heading at the start, from the x axis of the floor. [rad]

    Returns
    -------
    way : ndarray
        Displacement along y. [m]
    """
    half_turn, chord = _chord(yaw_rate, time)
    course = number(heading) + half_turn
    return np.asarray(chord * (number(forward) * np.sin(course) + number(left) * np.cos(course)))


@formula("free_speed * duty * voltage / nominal_voltage / reduction * wheel_radius * running_share")
def top_speed(
    free_speed: ArrayLike,
    duty: ArrayLike,
    voltage: ArrayLike,
    nominal_voltage: ArrayLike,
    reduction: ArrayLike,
    wheel_radius: ArrayLike,
    running_share: ArrayLike,
) -> NDArray[np.float64]:
    """Speed to expect on the level, by rule of thumb from the sheet's free speed.

    Parameters
    ----------
    free_speed : array_like
        Free speed of the motor on its sheet; >= 0. [rad/s]
    duty : array_like
        Largest duty; 0 to 1. [1]
    voltage : array_like
        Volts at the controller; >= 0. [V]
    nominal_voltage : array_like
        Volts for which the sheet holds; > 0. [V]
    reduction : array_like
        Turns of the motor for one turn of the wheel; > 0. [1]
    wheel_radius : array_like
        Wheel radius; > 0. [m]
    running_share : array_like
        What rolling leaves of the free speed; 0 to 1, and 0.85 by common practice, no source. [1]

    Returns
    -------
    speed : ndarray
        Top speed. [m/s]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    volts = between(duty, "duty", 0, 1) * not_negative(voltage, "voltage", "V")
    motor = not_negative(free_speed, "free_speed", "rad/s") * volts
    motor = motor / positive(nominal_voltage, "nominal_voltage", "V")
    rim = motor / positive(reduction, "reduction") * positive(wheel_radius, "wheel_radius", "m")
    return np.asarray(rim * between(running_share, "running_share", 0, 1))
