"""What voltage is left at each point of a harness? All loads on at once, solved by folding a tree.

The harness is a tree. With slow decay and duty u a brushed motor draws from its supply
I = u (u V - ke w) / R, so every load is a straight line I = G V - c: a conductance G and an offset c.
Sums of such lines and lines seen through a run of wire are again such lines. So the tree is folded from
its loads to the battery and the voltages follow from the battery outwards: exact, without iteration.
A load that draws a constant current I has G = 0 and c = -I.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import ArrayLike, NDArray

from mulewright.models.bounds import Floats, between, not_negative, number, positive
from mulewright.models.formula import formula

TINY = 1e-9  # [S] of a load that draws a constant current


@formula("duty ** 2 / resistance")
def brushed_load_conductance(duty: ArrayLike, resistance: ArrayLike) -> NDArray[np.float64]:
    """Conductance of a brushed motor behind its controller, as its supply sees it.

    Parameters
    ----------
    duty : array_like
        Part of the supply voltage that the motor gets; -1 to 1. [1]
    resistance : array_like
        Of the motor, its leads and the controller; > 0. [ohm]

    Returns
    -------
    conductance : ndarray
        G of the load. [S]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    share, winding = between(duty, "duty", -1, 1), positive(resistance, "resistance", "ohm")
    return np.asarray(share**2 / winding)


@formula("duty * back_emf_constant * speed / resistance")
def brushed_load_offset(
    duty: ArrayLike, back_emf_constant: ArrayLike, speed: ArrayLike, resistance: ArrayLike
) -> NDArray[np.float64]:
    """Offset of a brushed motor behind its controller, as its supply sees it.

    Parameters
    ----------
    duty : array_like
        Part of the supply voltage that the motor gets; -1 to 1. [1]
    back_emf_constant : array_like
        Volts for each radian per second, at the shaft whose speed is given. [V s/rad]
    speed : array_like
        0 when stalled. [rad/s]
    resistance : array_like
        Of the motor, its leads and the controller; > 0. [ohm]

    Returns
    -------
    offset : ndarray
        c of the load; it feeds back where this exceeds G V. [A]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    share, winding = between(duty, "duty", -1, 1), positive(resistance, "resistance", "ohm")
    return np.asarray(share * number(back_emf_constant) * number(speed) / winding)


@formula("sum(values)")
def total(values: Sequence[ArrayLike]) -> NDArray[np.float64]:
    """Conductance, or offset, of loads at one point.

    Parameters
    ----------
    values : sequence of array_like
        One for each load; none gives 0. [S or A]

    Returns
    -------
    total : ndarray
        Of all loads together. [S or A]
    """
    return np.asarray(sum((number(value) for value in values), np.zeros(())))


@formula("conductance / (1 + run_resistance * conductance)")
def through_run_conductance(conductance: ArrayLike, run_resistance: ArrayLike) -> NDArray[np.float64]:
    """Conductance of what lies behind a run of wire, seen from the near end.

    Parameters
    ----------
    conductance : array_like
        At the far end; >= 0. [S]
    run_resistance : array_like
        There and back, with plugs and fuses; >= 0. [ohm]

    Returns
    -------
    conductance : ndarray
        At the near end. [S]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    return np.asarray(number(conductance) / _divider(conductance, run_resistance))


@formula("offset / (1 + run_resistance * conductance)")
def through_run_offset(
    offset: ArrayLike, conductance: ArrayLike, run_resistance: ArrayLike
) -> NDArray[np.float64]:
    """Offset of what lies behind a run of wire, seen from the near end.

    Parameters
    ----------
    offset : array_like
        At the far end. [A]
    conductance : array_like
        At the far end; >= 0. [S]
    run_resistance : array_like
        There and back, with plugs and fuses; >= 0. [ohm]

    Returns
    -------
    offset : ndarray
        At the near end. [A]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    return np.asarray(number(offset) / _divider(conductance, run_resistance))


@formula("(open_circuit_voltage + source_resistance * offset) / (1 + source_resistance * conductance)")
def node_voltage(
    open_circuit_voltage: ArrayLike, source_resistance: ArrayLike, conductance: ArrayLike, offset: ArrayLike
) -> NDArray[np.float64]:
    """Voltage of a battery with everything connected to it.

    Parameters
    ----------
    open_circuit_voltage : array_like
        Of the battery at rest. [V]
    source_resistance : array_like
        Its internal resistance, and any wire before this point; >= 0. [ohm]
    conductance : array_like
        Of all that hangs on this point; >= 0. [S]
    offset : array_like
        Of all that hangs on this point. [A]

    Returns
    -------
    voltage : ndarray
        At this point. [V]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.

    Examples
    --------
    Two stalled motors of 1.2 ohm and a steady 1.5 A behind 80 mohm:

    >>> print(f"{node_voltage(12.6, 0.080, 2 / 1.2, -1.5):.3f} V")
    11.012 V
    """
    lifted = number(open_circuit_voltage) + number(source_resistance) * number(offset)
    return np.asarray(lifted / _divider(conductance, source_resistance))


@formula("minimum(set_voltage, maximum((current_limit + offset) / maximum(conductance, TINY), 0))")
def limited_node_voltage(
    set_voltage: ArrayLike, current_limit: ArrayLike, conductance: ArrayLike, offset: ArrayLike
) -> NDArray[np.float64]:
    """Voltage of a bench supply with everything connected to it.

    It holds what it is set to until its current reaches the limit; then it holds the current, and the voltage
    falls to that at which the load takes just that much.

    Parameters
    ----------
    set_voltage : array_like
        With less than the limit drawn; >= 0. [V]
    current_limit : array_like
        Most that it gives; >= 0. [A]
    conductance : array_like
        Of all that hangs on it; >= 0. [S]
    offset : array_like
        Of all that hangs on it. [A]

    Returns
    -------
    voltage : ndarray
        At its terminals; 0 where constant currents alone ask for more than the limit. [V]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.

    Examples
    --------
    Two stalled motors of 1.2 ohm on a supply that gives 5 A:

    >>> print(f"{limited_node_voltage(12.0, 5.0, 2 / 1.2, 0.0):.1f} V")
    3.0 V
    """
    held = not_negative(set_voltage, "set_voltage", "V")
    most = not_negative(current_limit, "current_limit", "A")
    load = np.maximum(not_negative(conductance, "conductance", "S"), TINY)
    return np.asarray(np.minimum(held, np.maximum((most + number(offset)) / load, 0)))


@formula("(near_voltage + run_resistance * offset) / (1 + run_resistance * conductance)")
def far_end_voltage(
    near_voltage: ArrayLike, conductance: ArrayLike, offset: ArrayLike, run_resistance: ArrayLike
) -> NDArray[np.float64]:
    """Voltage at the far end of a run.

    Parameters
    ----------
    near_voltage : array_like
        At the near end. [V]
    conductance : array_like
        At the far end; >= 0. [S]
    offset : array_like
        At the far end. [A]
    run_resistance : array_like
        There and back, with plugs and fuses; >= 0. [ohm]

    Returns
    -------
    voltage : ndarray
        At the far end. [V]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    return node_voltage(near_voltage, run_resistance, conductance, offset)


@formula("(conductance * near_voltage - offset) / (1 + run_resistance * conductance)")
def run_current(
    near_voltage: ArrayLike, conductance: ArrayLike, offset: ArrayLike, run_resistance: ArrayLike
) -> NDArray[np.float64]:
    """Current through a run, and into all that lies behind it.

    Parameters
    ----------
    near_voltage : array_like
        At the near end; for the whole harness, the battery's open-circuit voltage. [V]
    conductance : array_like
        At the far end; >= 0. [S]
    offset : array_like
        At the far end. [A]
    run_resistance : array_like
        There and back, with plugs and fuses; 0 for a load at the point itself; >= 0. [ohm]

    Returns
    -------
    current : ndarray
        Positive away from the battery. [A]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    wanted = number(conductance) * number(near_voltage) - number(offset)
    return np.asarray(wanted / _divider(conductance, run_resistance))


def _divider(conductance: ArrayLike, resistance: ArrayLike) -> Floats:
    """How many times as large a voltage, or a current, would be without the resistance before it."""
    ohms = not_negative(resistance, "resistance", "ohm")
    return np.asarray(1 + ohms * not_negative(conductance, "conductance", "S"))
