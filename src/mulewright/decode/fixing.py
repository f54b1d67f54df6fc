"""Which changes put the wiring right, what do they cost, and in which order are they made?"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from functools import lru_cache

from mulewright.decode.wiring import (
    Code,
    Rows,
    Wiring,
    Word,
    at_sockets,
    behaviour,
    exchanges,
    orders,
    right,
    seatings,
    signs,
)

PLUGS, INPUTS, CONTROL, CHANNEL, LEADS = (
    "swap-plugs", "swap-inputs", "reverse-control", "reverse-channel", "swap-motor-leads",
)  # fmt: skip
MOVES = (PLUGS, INPUTS)
DIGITS = 9  # a sum of costs is rounded to so many


@dataclass(frozen=True)
class Action:
    """One thing to do, and what the wheels do after it."""

    kind: str
    of: tuple[int, ...]  # plugs, inputs, command, channel or wheel
    cost: float
    then: Rows


@dataclass(frozen=True)
class Fix:
    """Things to do, in their order, and the wiring that they lead to."""

    actions: tuple[Action, ...]
    to: Wiring

    @property
    def cost(self) -> float:
        """What all of it costs."""
        return round(sum(action.cost for action in self.actions), DIGITS)

    def count(self, kind: str) -> int:
        """How many of the things to do are of a kind."""
        return sum(action.kind == kind for action in self.actions)


@lru_cache(maxsize=32)
def _goals(code: Code) -> tuple[tuple[Word, Word, Word, Word], ...]:
    """Every order of plugs and inputs and every choice of control signs that can be right, with the wheels' signs."""
    return tuple(
        (sockets, inputs, controls, needed)
        for inputs in orders(len(code.commands))
        for controls in signs(len(code.commands))
        for sockets, needed in seatings(code, at_sockets(code, inputs, controls), code.rows)
    )


def fixes(code: Code, now: Wiring, costs: Mapping[str, float]) -> list[Fix]:
    """Every fix that these costs know, the cheapest first; a kind of change without a cost cannot be made."""
    found = []
    for sockets, inputs, controls, needed in _goals(code):
        if CONTROL not in costs and controls != now.controls:
            continue
        moved = Wiring(sockets, inputs, controls, now.channels, now.leads)
        found.append(fix(code, now, _turned(code, moved, needed, costs), costs))
    return sorted(found, key=lambda one: (one.cost, len(one.actions), one.count(LEADS), one.to.sockets))


def reversals(code: Code, now: Wiring, costs: Mapping[str, float]) -> list[Fix]:
    """Every fix that leaves all plugs where they are; there is always one once the moves of a fix were made."""
    return [one for one in fixes(code, now, costs) if not one.count(PLUGS) + one.count(INPUTS)]


def cleanest(code: Code, now: Wiring, costs: Mapping[str, float]) -> Fix:
    """The fix after which every plug sits where its label says and every lead is joined straight."""
    return fix(code, now, right(code), costs)


def _turned(code: Code, moved: Wiring, needed: Word, costs: Mapping[str, float]) -> Wiring:
    """Turn every wheel the right way, by the channel where that is cheaper than by the leads of its wheels."""
    channels, leads = list(moved.channels), list(moved.leads)
    for channel in range(code.channel_count):
        wheels = [
            wheel
            for wheel, plug in enumerate(code.plug_of)
            if code.channels[moved.sockets[plug]] == channel
        ]  # fmt: skip
        wrong = [wheel for wheel in wheels if leads[wheel] * channels[channel] != needed[wheel]]
        rest = [wheel for wheel in wheels if wheel not in wrong]
        by_channel = costs.get(CHANNEL, float("inf")) + len(rest) * costs[LEADS]
        if wrong and by_channel < len(wrong) * costs[LEADS]:
            channels[channel], wrong = -channels[channel], rest
        for wheel in wrong:
            leads[wheel] = -leads[wheel]
    return replace(moved, channels=tuple(channels), leads=tuple(leads))


def fix(code: Code, now: Wiring, to: Wiring, costs: Mapping[str, float]) -> Fix:
    """What leads from one wiring to another: plug moves first, reversals last."""
    actions, here = [], now
    for kind, of, after in _steps(now, to):
        here = replace(here, **after)
        actions.append(Action(kind, of, costs.get(kind, costs[LEADS]), behaviour(code, here)))
    return Fix(tuple(actions), to)


def _steps(now: Wiring, to: Wiring) -> Iterator[tuple[str, tuple[int, ...], dict[str, Word]]]:
    for kind, name in ((PLUGS, "sockets"), (INPUTS, "inputs")):
        here = list(getattr(now, name))
        for one, other in exchanges(here, getattr(to, name)):
            here[one], here[other] = here[other], here[one]
            yield kind, (one, other), {name: tuple(here)}
    for kind, name in ((CONTROL, "controls"), (CHANNEL, "channels"), (LEADS, "leads")):
        here = list(getattr(now, name))
        for place, wanted in enumerate(getattr(to, name)):
            if here[place] != wanted:
                here[place] = wanted
                yield kind, (place,), {name: tuple(here)}
