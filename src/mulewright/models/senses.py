"""Which way round does a command come out, and how much of it, after every link of a chain?

A sense is 1 for the way that is wanted and -1 for the other one.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import reduce

import numpy as np
from numpy.typing import ArrayLike, NDArray

from mulewright.models.arithmetic import largest, smallest
from mulewright.models.bounds import not_negative, number
from mulewright.models.formula import formula


@formula("prod(factors)")
def chain_product(factors: Sequence[ArrayLike]) -> NDArray[np.float64]:
    """What a chain of links makes of one: senses, shares, or a share of a quantity.

    Parameters
    ----------
    factors : sequence of array_like
        One per link. [any]

    Returns
    -------
    product : ndarray
        Broadcast shape of the factors. [product of their units]
    """
    return number(reduce(np.multiply, map(number, factors), np.asarray(1.0)))


@formula("sign(value) * wanted + (1 - abs(sign(value))) * nothing")
def relative_sense(value: ArrayLike, wanted: ArrayLike, nothing: ArrayLike) -> NDArray[np.float64]:
    """Sense of a value against the sign that it should have.

    Parameters
    ----------
    value : array_like
        Any value with a sign. [any]
    wanted : array_like
        Sign that it should have, 1 or -1. [1]
    nothing : array_like
        What a value of 0 counts as. [1]

    Returns
    -------
    sense : ndarray
        Broadcast shape of the inputs. [1]
    """
    found = np.sign(number(value))
    return np.asarray(found * number(wanted) + (1 - np.abs(found)) * number(nothing))


@formula("minimum(own * max(senses), own * min(senses))")
def worst_sense(own: ArrayLike, senses: Sequence[ArrayLike]) -> NDArray[np.float64]:
    """Smallest of several senses once each went through one more link.

    Parameters
    ----------
    own : array_like
        Sense of the last link. [1]
    senses : sequence of array_like
        One per command; at least one. [1]

    Returns
    -------
    sense : ndarray
        Broadcast shape of the inputs. [1]

    Raises
    ------
    DomainError
        If there is no sense.
    """
    last = number(own)
    return np.asarray(np.minimum(last * largest(senses), last * smallest(senses)))


@formula("(1 - sign(sense - 0.5)) / 2")
def turned_round(sense: ArrayLike) -> NDArray[np.float64]:
    """Whether a sense is not the wanted one: 1 or 0.

    Parameters
    ----------
    sense : array_like
        Sense; 1, 0 or -1. [1]

    Returns
    -------
    turned : ndarray
        Shape of the input. [1]
    """
    return np.asarray((1 - np.sign(number(sense) - 0.5)) / 2)


@formula("1 / maximum(command, 1)")
def share_let_through(command: ArrayLike) -> NDArray[np.float64]:
    """Share of a command that an output gives, which can give 1 at most.

    Parameters
    ----------
    command : array_like
        Size of the command, as a fraction of what the output can give; >= 0. [1]

    Returns
    -------
    share : ndarray
        Shape of the input. [1]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    return np.asarray(1 / np.maximum(not_negative(command, "command"), 1))


@formula("upward * maximum(command, 0) + downward * minimum(command, 0)")
def position_deviation(command: ArrayLike, upward: ArrayLike, downward: ArrayLike) -> NDArray[np.float64]:
    """Pulse from neutral at one position of a switch.

    Parameters
    ----------
    command : array_like
        What the position commands, -1 to 1. [1]
    upward : array_like
        Pulse from neutral at a command of 1. [s]
    downward : array_like
        Pulse from neutral at a command of -1, counted the other way. [s]

    Returns
    -------
    deviation : ndarray
        Broadcast shape of the inputs. [s]
    """
    asked = number(command)
    above, below = np.maximum(asked, 0), np.minimum(asked, 0)
    return np.asarray(number(upward) * above + number(downward) * below)
