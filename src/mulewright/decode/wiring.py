"""Which way does each wheel turn on each push, for a given state of plugs, leads and reverse flags?

Signs and plugs act in this order, from the wheel back to the stick::

    what is seen = leads . plugs . channel reverses . mix . inputs . control reverses

When a plug moves, the signs before it stay with the stick and the signs behind it stay with the wheel.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import permutations, product

Word = tuple[int, ...]
"""Signs of one wheel, one for each command."""

Rows = tuple[Word, ...]
"""Signs of every wheel."""


@dataclass(frozen=True)
class Code:
    """A drive: what each wheel should do on each push, and which plugs can change places."""

    wheels: tuple[str, ...]
    commands: tuple[str, ...]
    rows: Rows  # one for each wheel
    plugs: tuple[tuple[int, ...], ...]  # the wheels behind each plug that can be moved
    channels: tuple[int, ...]  # for each plug's own socket the channel that feeds it

    @cached_property
    def plug_of(self) -> tuple[int, ...]:
        """The plug of each wheel."""
        return tuple(
            next(plug for plug, behind in enumerate(self.plugs) if wheel in behind)
            for wheel in range(len(self.wheels))
        )

    @cached_property
    def sockets(self) -> Rows:
        """What the mix gives at each plug's own socket."""
        return tuple(self.rows[behind[0]] for behind in self.plugs)

    @property
    def channel_count(self) -> int:
        """How many channels feed the sockets."""
        return max(self.channels) + 1


@dataclass(frozen=True)
class Wiring:
    """One state of everything that decides which way a wheel turns."""

    sockets: tuple[int, ...]  # the socket in which each plug sits
    inputs: tuple[int, ...]  # the input of the mix at which each command is plugged
    controls: tuple[int, ...]  # sign of each command before the mix
    channels: tuple[int, ...]  # sign of each channel behind the mix
    leads: tuple[int, ...]  # sign of each wheel behind its plug


def right(code: Code) -> Wiring:
    """The wiring in which every label tells the truth and nothing is reversed."""
    commands = len(code.commands)
    return Wiring(
        tuple(range(len(code.plugs))),
        tuple(range(commands)),
        (1,) * commands,
        (1,) * code.channel_count,
        (1,) * len(code.wheels),
    )


def at_sockets(code: Code, inputs: Sequence[int], controls: Sequence[int]) -> Rows:
    """What a push of each command gives at each socket."""
    entries = tuple(zip(inputs, controls, strict=True))
    return tuple(tuple(row[place] * sign for place, sign in entries) for row in code.sockets)


def behaviour(code: Code, wiring: Wiring) -> Rows:
    """What each wheel does on each push."""
    given = at_sockets(code, wiring.inputs, wiring.controls)
    return tuple(
        times(sign * wiring.channels[code.channels[socket]], given[socket])
        for sign, plug in zip(wiring.leads, code.plug_of, strict=True)
        for socket in (wiring.sockets[plug],)
    )


def seatings(code: Code, given: Rows, wanted: Rows) -> Iterator[tuple[Word, Word]]:
    """Orders of the plugs in which each wheel gets its word, one way or the other, and the sign that each needs."""
    fitting = [
        [socket for socket, word in enumerate(given) if all(sense(word, wanted[wheel]) for wheel in behind)]
        for behind in code.plugs
    ]
    for sockets in product(*fitting):
        if len({*sockets}) == len(sockets):
            needed = zip(code.plug_of, wanted, strict=True)
            yield sockets, tuple(sense(given[sockets[plug]], word) for plug, word in needed)


def sense(word: Word, wanted: Word) -> int:
    """The sign that makes one word of another; 0 where none does."""
    return 1 if word == wanted else -1 if times(-1, word) == wanted else 0


def times(sign: int, word: Word) -> Word:
    """A word, or the word of a wheel that turns the other way."""
    return tuple(sign * one for one in word)


def orders(count: int) -> tuple[tuple[int, ...], ...]:
    """Every order of so many things, the plain one first."""
    return tuple(permutations(range(count)))


def signs(count: int) -> tuple[tuple[int, ...], ...]:
    """Every choice of so many signs, all plus first."""
    return tuple(product((1, -1), repeat=count))


def exchanges(now: Sequence[int], wanted: Sequence[int]) -> Iterator[tuple[int, int]]:
    """The pairs to exchange, one after the other, that turn one order into another: as few as there can be."""
    here = list(now)
    for place, goal in enumerate(wanted):
        if here[place] != goal:
            other = here.index(goal)
            here[place], here[other] = here[other], here[place]
            yield place, other
