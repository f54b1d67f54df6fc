"""What a mix makes of the driver's controls for each wheel, and what the wheels make of it.

Controls are positive for forward, strafe to the right, and turn to the right (clockwise from above).
Wheels come in the order of :data:`WHEELS`.
"""

from collections.abc import Sequence

import numpy as np
from numpy.typing import ArrayLike, NDArray

from mulewright.errors import require
from mulewright.models.bounds import Floats, not_negative, number, positive
from mulewright.models.formula import formula

Each = Sequence[ArrayLike] | Floats
"""Something for each wheel or control: a sequence, or an array with them along its first axis."""


def _fixed(rows: Sequence[Sequence[int]]) -> Floats:
    matrix = np.array(rows, dtype=np.float64)
    matrix.setflags(write=False)
    return matrix


WHEELS = ("front left", "front right", "rear left", "rear right")

TWO_SIDE = _fixed([[1, 1], [1, -1]])
"""Left and right side (rows) from forward and turn (columns)."""

SKID_STEER = _fixed([[1, 1], [1, -1], [1, 1], [1, -1]])
"""Four wheels that each follow their side, from forward and turn."""

HADAMARD = _fixed([[1, 1, 1, 1], [1, -1, -1, 1], [1, -1, 1, -1], [1, 1, -1, -1]])
"""Four 45 degree roller wheels from forward, strafe, turn and scrub, the mode in which they only fight."""

ROLLER = HADAMARD[:, :3]
"""Four 45 degree roller wheels from forward, strafe and turn."""

# A radio's two-channel mix on one pair of the three controls, the third left alone.
MIX_FORWARD_STRAFE = _fixed([[1, 1, 0], [1, -1, 0], [0, 0, 1]])
MIX_FORWARD_TURN = _fixed([[1, 0, 1], [0, 1, 0], [1, 0, -1]])
MIX_STRAFE_TURN = _fixed([[1, 0, 0], [0, 1, 1], [0, 1, -1]])


@formula("matrix @ commands")
def mixed(matrix: ArrayLike, commands: Each) -> NDArray[np.float64]:
    """Commands behind a mix, before anything is clipped.

    Mixes in a row multiply: a two-side mix behind a two-side mix gives twice what went in, so each
    control moves one side only.

    Parameters
    ----------
    matrix : array_like
        Weights; a row for each output, a column for each input. [1]
    commands : sequence of array_like
        Commands, one per column of the matrix; 1 is full. [1]

    Returns
    -------
    outputs : ndarray
        Commands, first axis one per row of the matrix. [1]

    Raises
    ------
    DomainError
        If there is not one command for each column.
    """
    weights, inputs = number(matrix), np.stack(np.broadcast_arrays(*map(number, commands)))
    columns = weights.shape[-1]
    require(columns == len(inputs), "commands", f"must be one for each of {columns} columns", len(inputs))
    return np.asarray(np.tensordot(weights, inputs, axes=1))


@formula("forward_weight * forward + turn_weight * turn")
def left_command(
    forward: ArrayLike, turn: ArrayLike, forward_weight: ArrayLike, turn_weight: ArrayLike
) -> NDArray[np.float64]:
    """Command of the left side of a two-side drive, before anything is clipped.

    Parameters
    ----------
    forward : array_like
        Forward command; 1 is full. [1]
    turn : array_like
        Turn command, positive to the right; 1 is full. [1]
    forward_weight : array_like
        Weight of forward in the mix. [1]
    turn_weight : array_like
        Weight of turn in the mix. [1]

    Returns
    -------
    command : ndarray
        Command of the left side. [1]
    """
    return np.asarray(number(forward_weight) * number(forward) + number(turn_weight) * number(turn))


@formula("forward_weight * forward - turn_weight * turn")
def right_command(
    forward: ArrayLike, turn: ArrayLike, forward_weight: ArrayLike, turn_weight: ArrayLike
) -> NDArray[np.float64]:
    """Command of the right side of a two-side drive, before anything is clipped.

    Parameters
    ----------
    forward : array_like
        Forward command; 1 is full. [1]
    turn : array_like
        Turn command, positive to the right; 1 is full. [1]
    forward_weight : array_like
        Weight of forward in the mix. [1]
    turn_weight : array_like
        Weight of turn in the mix. [1]

    Returns
    -------
    command : ndarray
        Command of the right side. [1]
    """
    return np.asarray(number(forward_weight) * number(forward) - number(turn_weight) * number(turn))


@formula("clip(command, -limit, limit)")
def clipped(command: ArrayLike, limit: ArrayLike) -> NDArray[np.float64]:
    """Command cut off at a limit, each output for itself: what most mixes do.

    Parameters
    ----------
    command : array_like
        Command. [1]
    limit : array_like
        Largest size of a command, in the unit of the command; >= 0. [1]

    Returns
    -------
    command : ndarray
        Command that gets through. [1]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    most = not_negative(limit, "limit")
    return np.asarray(np.clip(number(command), -most, most))


@formula("command / maximum(1, maximum(max(commands), -min(commands)) / limit)")
def ratio_kept(command: ArrayLike, commands: Each, limit: ArrayLike) -> NDArray[np.float64]:
    """Command shrunk together with its fellows until the largest of them is at the limit.

    Parameters
    ----------
    command : array_like
        Command of one output. [1]
    commands : sequence of array_like
        Commands, one per output that has to keep its ratio to this one. [1]
    limit : array_like
        Largest size of a command, in the unit of the command; > 0. [1]

    Returns
    -------
    command : ndarray
        Command that gets through. [1]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    largest = np.abs(np.stack(np.broadcast_arrays(*map(number, commands)))).max(axis=0)
    return np.asarray(number(command) / np.maximum(1, largest / positive(limit, "limit")))


@formula(
    "(minimum(1, forward_weight + turn_weight) - clip(forward_weight - turn_weight, -1, 1))"
    " / (2 * turn_weight)"
)
def turn_reserve(forward_weight: ArrayLike, turn_weight: ArrayLike) -> NDArray[np.float64]:
    """Share of the turn that a two-side mix still gives at full forward, its outputs clipped at 1.

    Parameters
    ----------
    forward_weight : array_like
        Weight of forward in the mix, times its rate; >= 0. [1]
    turn_weight : array_like
        Weight of turn in the mix, times its rate; > 0. [1]

    Returns
    -------
    share : ndarray
        Difference of the sides at full forward and full turn, as a share of that in a turn on the
        spot without clipping. [1]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    ahead, turn = not_negative(forward_weight, "forward_weight"), positive(turn_weight, "turn_weight")
    outer, inner = np.minimum(1, ahead + turn), np.clip(ahead - turn, -1, 1)
    return np.asarray((outer - inner) / (2 * turn))


@formula("sum(weights)")
def largest_command(weights: Each) -> NDArray[np.float64]:
    """Largest command of one output over all positions of its controls; above 1 the mix clips.

    The output meets it in a corner, with every control at one of its ends.

    Parameters
    ----------
    weights : sequence of array_like
        Sizes of the weights without their signs, times the rates, one per control; >= 0. [1]

    Returns
    -------
    command : ndarray
        Largest size of the command. [1]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    sizes = [not_negative(weight, "weights") for weight in weights]
    return np.asarray(np.stack(np.broadcast_arrays(*sizes)).sum(axis=0))


@formula("HADAMARD.T @ wheels / 4")
def roller_motion(wheels: Each) -> NDArray[np.float64]:
    """Motion that the turning of four 45 degree roller wheels adds up to.

    For a floor that resists in proportion to the slip; dry friction changes sizes, not signs.

    Parameters
    ----------
    wheels : sequence of array_like
        Speed of each wheel, one per wheel in the order of :data:`WHEELS`. [1]

    Returns
    -------
    motion : ndarray
        First axis forward, strafe to the right, turn to the right, and scrub: the part in which
        the wheels fight and which no look at the floor shows. In the unit of the wheels. [1]

    Raises
    ------
    DomainError
        If there are not four wheels.
    """
    return np.asarray(mixed(HADAMARD.T, wheels) / 4)
