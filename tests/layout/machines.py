"""Layout problems made up at random, or of a given size."""

from __future__ import annotations

import random
from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise

from mulewright.layout.problem import Channel, Control, Function, Pair, Problem, Seat
from mulewright.shelf.tables import group

COSTS = {
    name: quantity.value
    for table in ("layout_cost", "layout_packing")
    for name, quantity in group(table).items()
}
DRIVE = ("forward", "strafe", "turn")


def machine(
    functions: int,
    controls: int,
    seed: int,
    *,
    radios: int = 1,
    channels: int | None = None,
    choosable: bool = False,
    mixed: bool = False,
    leads: int = 0,
) -> Problem:
    """A machine by chance: always the same one for the same numbers."""
    chance = random.Random(f"{functions} {controls} {seed} {radios} {channels} {choosable} {mixed} {leads}")
    known = [
        Channel(radio, number + 1)
        for radio in ("radio", "second_radio")[:radios]
        for number in range(channels or controls)
    ]
    every = [
        one
        for radio in ("radio", "second_radio")[:radios]
        for one in _controls(chance, radio, controls, known, choosable)
    ]
    made = _functions(chance, functions)
    taken: dict[Channel, str] = {}
    if mixed and len(known) > 2:
        outputs = (known[1], known[0])
        taken = dict.fromkeys(outputs, "radio.mix.0 moves it")
        made = [
            replace(one, needs="control", outputs=outputs) if one.name in ("forward", "turn") else one
            for one in made
        ]
    free = tuple(one for one in known if one not in taken)
    led = [one for one in made if not one.drive and one.wants_channel][:leads]
    followers = [
        Function(f"{one.name}, lead 2", one.kind, (), one.motor, needs="channel", follows=one.name)
        for one in led
    ]
    protected = frozenset(one for one in known if chance.random() < 0.4)
    present = {one.name: Seat(control.id, None) for one, control in zip(made, every, strict=False)}
    return Problem(
        (*made, *followers), tuple(every), free, COSTS, protected, taken,
        (*_pairs(chance, made), *(Pair(one.follows, one.name, "same lead") for one in followers)), present,
    )  # fmt: skip


def _controls(
    chance: random.Random, radio: str, count: int, known: Sequence[Channel], choosable: bool
) -> list[Control]:
    own = [one for one in known if one.radio == radio]
    found = []
    for number in range(count):
        fixed = (own[number],) if number < len(own) else ()
        reach = tuple(own) if choosable and number % 2 else fixed
        id, slowed = f"{radio}.control.C{number}", chance.random() < 0.5
        if number < 4:
            axis = ("vertical", "horizontal")[number % 2]
            spring = chance.choice(("none", "sprung", "sprung", "converted"))
            gimbal = ("left", "right")[number // 2]
            found.append(Control(id, "stick", reach, axis, gimbal, spring, 2, slowed, number < 2))  # type: ignore[arg-type]
        else:
            kind = chance.choice(("switch", "knob", "button"))
            found.append(Control(id, kind, reach, positions=chance.choice((2, 3)), slowed=slowed))  # type: ignore[arg-type]
    return [one for one in found if one.channels]


def _functions(chance: random.Random, count: int) -> list[Function]:
    found = []
    for name in (*DRIVE, *(f"part{number}" for number in range(count)))[:count]:
        kind = "speed" if name in DRIVE else chance.choice(("speed", "constant", "position", "two-state"))
        motor, drive = kind in ("speed", "constant"), name in DRIVE
        axis = chance.choice(("vertical", "horizontal", None))
        one = Function(name, kind, (name,), motor, drive, held=kind == "speed" and not drive)  # type: ignore[arg-type]
        found.append(replace(one, axis=axis, wants_slow=chance.random() < 0.5))  # type: ignore[arg-type]
    return found


def _pairs(chance: random.Random, functions: Sequence[Function]) -> list[Pair]:
    names = [one.name for one in functions]
    found = [Pair("forward", "strafe", "apart")] if "strafe" in names else []
    boxed = [one.name for one in functions if one.drive and one.wants_channel]
    found += [Pair(one, other, "box order") for one, other in pairwise(boxed)]
    for part in functions:
        if part.held:
            found += [Pair(part.name, "forward", "arm with forward")]
            found += [Pair(part.name, "turn", "arm with turn")] if "turn" in names else []
    for _ in range(len(names) // 2 if len(names) > 1 else 0):
        one, other = chance.sample(names, 2)
        found.append(Pair(one, other, "together"))
    return found
