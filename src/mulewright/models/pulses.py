"""Which angle, step and share of time a pulse means, and which pulse gives a wanted angle."""

from collections.abc import Sequence

import numpy as np
from numpy.typing import ArrayLike, NDArray

from mulewright.errors import require
from mulewright.models.bounds import not_negative, number, positive
from mulewright.models.formula import formula


@formula("servo_gain * (pulse - reference)")
def servo_angle(servo_gain: ArrayLike, pulse: ArrayLike, reference: ArrayLike) -> NDArray[np.float64]:
    """Angle that a servo turns between two pulses: a position, a range, or an error of centres.

    Parameters
    ----------
    servo_gain : array_like
        Angle per pulse width, negative where the servo is reversed. [rad/s]
    pulse : array_like
        Pulse width. [s]
    reference : array_like
        Pulse width from which the angle counts. [s]

    Returns
    -------
    angle : ndarray
        Angle. [rad]
    """
    return np.asarray(number(servo_gain) * (number(pulse) - number(reference)))


@formula("reference + angle / servo_gain")
def pulse_for_angle(servo_gain: ArrayLike, angle: ArrayLike, reference: ArrayLike) -> NDArray[np.float64]:
    """Pulse that turns a servo to a wanted angle.

    Parameters
    ----------
    servo_gain : array_like
        Angle per pulse width, negative where the servo is reversed; not 0. [rad/s]
    angle : array_like
        Wanted angle. [rad]
    reference : array_like
        Pulse width from which the angle counts. [s]

    Returns
    -------
    pulse : ndarray
        Pulse width. [s]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    gain = number(servo_gain)
    require(~(gain == 0), "servo_gain", "must not be 0 rad/s", gain)
    return np.asarray(number(reference) + number(angle) / gain)


@formula("angle * sheet_time / sheet_angle")
def servo_move_time(angle: ArrayLike, sheet_angle: ArrayLike, sheet_time: ArrayLike) -> NDArray[np.float64]:
    """Least time in which a servo turns through an angle: no load, no running up.

    Parameters
    ----------
    angle : array_like
        Angle to turn; >= 0. [rad]
    sheet_angle : array_like
        Angle for which the sheet states its time; > 0. [rad]
    sheet_time : array_like
        Time stated for that angle; > 0. [s]

    Returns
    -------
    time : ndarray
        Time. [s]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    pace = positive(sheet_time, "sheet_time", "s") / positive(sheet_angle, "sheet_angle", "rad")
    return np.asarray(not_negative(angle, "angle", "rad") * pace)


@formula("(pulse - shortest) / (longest - shortest)")
def servo_travel_share(pulse: ArrayLike, shortest: ArrayLike, longest: ArrayLike) -> NDArray[np.float64]:
    """Where a pulse lies in the range of a servo, or of a target that commands 0 to 1.

    Parameters
    ----------
    pulse : array_like
        Pulse width. [s]
    shortest : array_like
        Pulse at the end that counts as 0. [s]
    longest : array_like
        Pulse at the end that counts as 1; > shortest. [s]

    Returns
    -------
    share : ndarray
        Share of the range; below 0 or above 1 outside of it. [1]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    start = number(shortest)
    span = number(longest) - start
    require(~(span <= 0), "longest", "less shortest must be > 0 s", span)
    return np.asarray((number(pulse) - start) / span)


@formula("(pulse - neutral) / half_range")
def travel_for_pulse(pulse: ArrayLike, neutral: ArrayLike, half_range: ArrayLike) -> NDArray[np.float64]:
    """Endpoint (signed) at which full stick sends a wanted pulse, at full rate.

    Parameters
    ----------
    pulse : array_like
        Wanted pulse width. [s]
    neutral : array_like
        Pulse of the channel at rest, trims included. [s]
    half_range : array_like
        What this radio means by 100 % travel; > 0. [s]

    Returns
    -------
    travel : ndarray
        Endpoint, negative for the side below neutral. [1]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    return np.asarray((number(pulse) - number(neutral)) / positive(half_range, "half_range", "s"))


@formula("neutral + widening * (pulse - neutral)")
def widened_pulse(pulse: ArrayLike, neutral: ArrayLike, widening: ArrayLike) -> NDArray[np.float64]:
    """Pulse behind a range widener, which scales about neutral.

    Parameters
    ----------
    pulse : array_like
        Pulse width that goes in. [s]
    neutral : array_like
        Pulse that the widener leaves as it is. [s]
    widening : array_like
        Factor on the distance from neutral; >= 0. [1]

    Returns
    -------
    pulse : ndarray
        Pulse width that comes out. [s]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    fixed = number(neutral)
    return np.asarray(fixed + not_negative(widening, "widening") * (number(pulse) - fixed))


@formula("span / (2**bits - 1)")
def pulse_step(span: ArrayLike, bits: ArrayLike) -> NDArray[np.float64]:
    """Smallest step of a pulse that a radio of so many bits can send.

    Parameters
    ----------
    span : array_like
        Range of pulses that the bits cover; >= 0. [s]
    bits : array_like
        Bits per channel; >= 1. [1]

    Returns
    -------
    step : ndarray
        Step of the pulse. [s]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    depth = number(bits)
    require(~(depth < 1), "bits", "must be >= 1", depth)
    return np.asarray(not_negative(span, "span", "s") / (2**depth - 1))


@formula("pulse / frame")
def pulse_on_share(pulse: ArrayLike, frame: ArrayLike) -> NDArray[np.float64]:
    """Share of the time for which a signal is high; what it means depends on the frame.

    Parameters
    ----------
    pulse : array_like
        Pulse width; 0 to frame. [s]
    frame : array_like
        Time from pulse to pulse; > 0. [s]

    Returns
    -------
    share : ndarray
        Share of the time. [1]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    share = np.asarray(not_negative(pulse, "pulse", "s") / positive(frame, "frame", "s"))
    require(~(share > 1), "pulse", "as a share of frame must be <= 1", share)
    return share


@formula("frame - sum(pulses)")
def sync_interval(frame: ArrayLike, pulses: Sequence[ArrayLike]) -> NDArray[np.float64]:
    """What is left of a frame in which the channels follow each other on one wire.

    A channel lasts from one separator's start to the next, so separators need no place of their own.

    Parameters
    ----------
    frame : array_like
        Time from frame to frame. [s]
    pulses : sequence of array_like
        Pulse widths, one per channel; together at most the frame. [s]

    Returns
    -------
    interval : ndarray
        Time from the last channel's end to the next frame's start. [s]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    left = number(frame)
    for pulse in pulses:
        left = np.asarray(left - number(pulse))
    require(~(left < 0), "pulses", "must leave time in the frame, >= 0 s", left)
    return left
