"""Do all names lead somewhere? Every reference of a mule file against the things that it may name."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping
from typing import TYPE_CHECKING

from mulewright.design.schema.electrics import Mixer
from mulewright.errors import DesignError, MulewrightError, closest
from mulewright.units.table import Table

if TYPE_CHECKING:
    from mulewright.design.mule import Mule

SOCKETS = ("receiver", "second_receiver", "mixer", "y_lead", "inline", "tester")
RUN_ENDS = (
    "battery",
    "bench_supply",
    "fuse",
    "switch",
    "board",
    "controller",
    "regulator",
    "motor",
    "y_lead",
)
FED = ("receiver", "second_receiver", "servo", "mixer", "tester")
MOST_CHANNELS = 18

# kind of table, field, kinds of thing that it may name
REFERENCES: tuple[tuple[str, str, tuple[str, ...]], ...] = (
    ("motor", "turns", ("wheel", "mechanism")),
    ("controller", "feeds", ("motor",)),
    ("controller", "signal", SOCKETS),
    ("servo", "signal", SOCKETS),
    ("servo", "moves", ("mechanism",)),
    ("servo", "power", ("regulator", "battery")),
    ("servo", "coupled_with", ("servo",)),
    ("inline", "signal", SOCKETS),
    ("y_lead", "signal", SOCKETS),
    ("y_lead", "joins", ("battery",)),
    ("mixer", "forward", SOCKETS),
    ("mixer", "strafe", SOCKETS),
    ("mixer", "turn", SOCKETS),
    ("tester", "power", ("battery", "regulator", "controller")),
    ("wire", "path", RUN_ENDS),
    ("regulator", "feeds", FED),
    ("battery", "feeds", FED),
)


def as_list(value: str | list[str] | None) -> list[str]:
    """One, several or none as a list."""
    return [] if value is None else [value] if isinstance(value, str) else list(value)


def outputs_of(mixer: Mixer) -> list[str]:
    """Names of a mixer's outputs."""
    count = 4 if mixer.mixes == "four-roller-wheels" else 2
    return mixer.outputs or [f"out{number}" for number in range(1, count + 1)]


def dangling(mule: Mule) -> Iterator[MulewrightError]:
    """Every reference that leads nowhere, with the nearest name that it may have meant."""
    places = {*mule.things, *(f"wheel.{wheel}" for wheel in mule.wheels), *_sockets(mule)}
    for where, name, kinds in _written(mule):
        kind = name.split(".", 1)[0]
        every = f"{kind}.*" if where.endswith(".path") else None
        if kind in kinds and (name in places or name == every):
            continue
        rule = _sockets_of(mule, kind) if kind in kinds else ""
        rule = rule or f"the name of a {' or '.join(word.replace('_', ' ') for word in kinds)}, as kind.name"
        allowed = sorted(place for place in places if place.split(".", 1)[0] in kinds)
        yield DesignError(f"nothing here is called {name!r}", where, rule, name, closest(name, allowed))
    yield from _unknown_words(mule)


def _written(mule: Mule) -> Iterator[tuple[str, str, tuple[str, ...]]]:
    """Every reference: where it stands, what it names, which kinds it may name."""
    for kind, field, kinds in REFERENCES:
        tables: Mapping[str, Table] = getattr(mule.file, kind)
        for name, table in tables.items():
            for reference in as_list(getattr(table, field)):
                yield f"{kind}.{name}.{field}", reference, kinds


def _sockets(mule: Mule) -> Iterable[str]:
    """Every socket that a signal plug may sit in."""
    for receiver in ("receiver", "second_receiver"):
        table = getattr(mule.file, receiver)
        if table is not None:
            yield from (f"{receiver}.{port}" for port in range(1, (table.channels or MOST_CHANNELS) + 1))
    for name, mixer in mule.file.mixer.items():
        yield from (f"mixer.{name}.{output}" for output in outputs_of(mixer))


def _sockets_of(mule: Mule, kind: str) -> str:
    """The sockets of a receiver, in words; empty for any other kind of thing."""
    table = getattr(mule.file, kind) if kind in ("receiver", "second_receiver") else None
    most = (table.channels or MOST_CHANNELS) if table is not None else 0
    return f"its {most} sockets are {kind}.1 to {kind}.{most}" if most else ""


def _unknown_words(mule: Mule) -> Iterator[MulewrightError]:
    for where, words, known, noun in _words(mule):
        for word in words:
            if word not in known:
                rule, near = f"one of {', '.join(known) or 'none yet'}", closest(word, known)
                yield DesignError(f"no {noun} is called {word!r}", where, rule, word, near)


def _words(mule: Mule) -> Iterator[tuple[str, Iterable[str], Collection[str], str]]:
    """Every name without its kind: where it stands, the names, what they may be, and what that is called."""
    for control, commanded in mule.commands_of.items():
        yield f"{control}.commands", commanded, mule.functions, "function"
    for kind in ("mechanism", "motor", "servo"):
        for name, table in getattr(mule.file, kind).items():
            yield f"{kind}.{name}.used_with", table.used_with or (), mule.functions, "function"
    for radio in ("radio", "second_radio"):
        if (settings := getattr(mule.file, radio)) is None:
            continue
        for number, mix in enumerate(settings.mix):
            yield f"{radio}.mix.{number}.inputs", mix.inputs or (), settings.control, "control"
        if settings.part is not None:  # else it may have more controls than are written
            yield f"{radio}.rate.covers", settings.rate.covers or (), settings.control, "control"


def fed_twice(mule: Mule) -> Iterator[MulewrightError]:
    """Motors that two controllers are said to feed."""
    seen: dict[str, str] = {}
    for name, controller in mule.file.controller.items():
        for motor in as_list(controller.feeds):
            here = f"controller.{name}.feeds"
            if motor in seen:
                what = f"{motor} is already fed by {seen[motor]}"
                yield DesignError(what, here, "one controller to a motor", motor)
            seen[motor] = here
