"""Which states of the wiring explain what was seen, and which of them is the most likely?"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from mulewright.decode.wiring import (
    Code,
    Rows,
    Wiring,
    Word,
    at_sockets,
    exchanges,
    orders,
    right,
    seatings,
    signs,
    times,
)


@dataclass(frozen=True)
class Probe:
    """What a tester showed that was plugged in behind the radio."""

    where: str  # input, output or lead
    place: int  # the input, the socket, or the wheel whose lead it was
    word: Word  # what each wheel did; 0 where it stood still

    def fits(self, code: Code, wiring: Wiring) -> bool:
        """Whether a wiring would have shown the same."""
        return self._shown(code, wiring) == self.word

    def _shown(self, code: Code, wiring: Wiring) -> Word:
        if self.where == "lead":
            return tuple(sign * (wheel == self.place) for wheel, sign in enumerate(wiring.leads))
        sockets = [wiring.sockets[plug] for plug in code.plug_of]
        if self.where == "output":
            return tuple(
                sign * (socket == self.place) for sign, socket in zip(wiring.leads, sockets, strict=True)
            )
        return tuple(
            sign * wiring.channels[code.channels[socket]] * code.sockets[socket][self.place]
            for sign, socket in zip(wiring.leads, sockets, strict=True)
        )


def explanations(
    code: Code,
    seen: Rows,
    controls: Iterable[Sequence[int]],
    channels: Sequence[int],
    tests: Iterable[Probe] = (),
) -> list[Wiring]:
    """Every wiring that shows what was seen, for the reverse flags that the controls may have."""
    shown = [*tests]
    found = (
        wiring
        for flags in controls
        for inputs in orders(len(code.commands))
        for wiring in _explained(code, seen, tuple(inputs), tuple(flags), tuple(channels))
    )
    return [wiring for wiring in found if all(test.fits(code, wiring) for test in shown)]


def equivalent(code: Code, seen: Rows) -> int:
    """How many ways of exchanging and reversing the controls, each made up for behind the mix, look the same."""
    plain = right(code).channels
    found = explanations(code, seen, signs(len(code.commands)), plain)
    return len({(wiring.inputs, wiring.controls) for wiring in found})


def _explained(code: Code, seen: Rows, inputs: Word, controls: Word, channels: Word) -> Iterator[Wiring]:
    given = at_sockets(code, inputs, controls)
    behind = [times(channels[channel], word) for channel, word in zip(code.channels, given, strict=True)]
    for sockets, leads in seatings(code, tuple(behind), seen):
        yield Wiring(sockets, inputs, controls, channels, leads)


def faults_in(wiring: Wiring, plain: Wiring) -> int:
    """How many single things are not as another wiring has them: plugs to exchange, signs to turn."""
    moved = [*exchanges(wiring.sockets, plain.sockets), *exchanges(wiring.inputs, plain.inputs)]
    pairs = zip(
        wiring.controls + wiring.channels + wiring.leads,
        plain.controls + plain.channels + plain.leads,
        strict=True,
    )
    return len(moved) + sum(one != other for one, other in pairs)


def likeliest(code: Code, found: Sequence[Wiring], described: Wiring) -> Wiring:
    """The explanation that is least away from the description; of equals that with the fewest faults."""
    plain = right(code)
    return min(
        found,
        key=lambda wiring: (
            faults_in(wiring, described),
            faults_in(wiring, plain),
            len([*exchanges(wiring.inputs, described.inputs)]),
            wiring.sockets,
            wiring.leads,
        ),
    )
