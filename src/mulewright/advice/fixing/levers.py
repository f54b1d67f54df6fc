"""Which inputs of a mule does a lever such as ``controller.*.red_wire`` mean?"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from fnmatch import fnmatchcase
from typing import Any, Literal, get_args, get_origin

from mulewright.advice.fixing.bench import Bench
from mulewright.design.merging import UNKNOWN
from mulewright.design.mule import Mule
from mulewright.design.paths import Path, look_up, parse_path, written
from mulewright.design.placing import shown
from mulewright.design.schema.radio import FailSafe
from mulewright.design.typed import OTHERS, SPREAD
from mulewright.units.fields import Of
from mulewright.units.quantity import Quantity
from mulewright.units.table import Table, kinds_of


@dataclass(frozen=True)
class Input:
    """One input of a mule: where it stands, the table that holds it, what it is now."""

    place: Path
    holder: Any
    now: Any
    stands_for: tuple[str, ...] = ()  # paths that it speaks for, where it is said of all others

    @property
    def path(self) -> str:
        """Its place as people type it."""
        return written(self.place)

    @property
    def thing(self) -> str:
        """The thing that it belongs to."""
        return written(self.place[:-1]) or self.path

    @property
    def name(self) -> str:
        """Its name in its table."""
        return self.place[-1]

    @property
    def kind(self) -> Of | None:
        """Which kind of number it is; None where it is none."""
        return kinds_of(type(self.holder)).get(self.name) if isinstance(self.holder, Table) else None

    @property
    def options(self) -> tuple[Any, ...]:
        """What may stand there, where that is one of a few words or yes and no."""
        if not isinstance(self.holder, Table):
            return tuple(get_args(Literal["left", "right"])) if self.place[-2:-1] == ("hands",) else ()
        return _options(type(self.holder).model_fields[self.name].annotation)

    @property
    def shown(self) -> str:
        """What it is now, for a person."""
        if isinstance(self.now, Quantity):
            return self.now.text
        if isinstance(self.now, list):
            return f"[{', '.join(one.text if isinstance(one, Quantity) else str(one) for one in self.now)}]"
        return UNKNOWN if self.now is None else shown(self.now)


def inputs(bench: Bench, lever: str) -> Iterator[Input]:
    """Every input that a lever means, said or not."""
    mule = bench.mule
    parts = parse_path(lever)
    yield from _walk(mule.file, parts, ())
    if parts[:2] in SPREAD and parts[2] == "*" and len(parts) > 3:
        yield from _others(bench, parts)


def _walk(node: Any, parts: Path, place: Path) -> Iterator[Input]:
    if not parts:
        return
    first, rest = parts[0], parts[1:]
    for name, inner in _inside(node):
        if not fnmatchcase(name, first):
            continue
        here = (*place, name)
        if not rest or (name == "gears" and not inner):  # a stage can be added where there is none
            yield Input(here, node, inner)
        else:
            yield from _walk(inner, rest, here)


def _inside(node: Any) -> Iterator[tuple[str, Any]]:
    if isinstance(node, FailSafe):
        yield from (("others", node.others), ("tested", node.tested))
        yield from ((str(number), reaction) for number, reaction in node.channels.items())
    elif isinstance(node, Table):
        yield from ((name, getattr(node, name)) for name in type(node).model_fields)
    elif isinstance(node, Mapping):
        yield from ((str(name), inner) for name, inner in node.items())
    elif isinstance(node, list):
        yield from ((str(place), inner) for place, inner in enumerate(node))


def _others(bench: Bench, parts: Path) -> Iterator[Input]:
    """What a radio's file says of all channels or controls that do not say it themselves."""
    raw = look_up(bench.raw, parts[:2], {})
    if not isinstance(raw.get(OTHERS), dict):
        return
    tables: Mapping[str, Table] = getattr(getattr(bench.mule.file, parts[0]), parts[1])
    silent = [name for name in tables if parts[3] not in raw.get(name, {})]
    if not silent:
        return
    used = [name for name in silent if used_by(bench.mule, parts[0], parts[1], name)]
    first = tables[used[0] if used else silent[0]]
    paths = tuple(written((*parts[:2], name, *parts[3:])) for name in silent)
    if len(used) > 1:
        yield Input((*parts[:2], OTHERS, *parts[3:]), first, getattr(first, parts[3], None), paths)


def used_by(mule: Mule, radio: str, table: str, name: str) -> bool:
    """Whether something is plugged into a channel, or commanded by a control."""
    if table == "control":
        return bool(mule.commands_of.get(f"{radio}.control.{name}"))
    receiver = "second_receiver" if radio == "second_radio" else "receiver"
    return any(f"{receiver}.{name}" in sockets for sockets in mule.signals.leads.values())


def _options(annotation: Any) -> tuple[Any, ...]:
    if annotation is bool:
        return (True, False)
    if get_origin(annotation) is Literal:
        return get_args(annotation)
    return tuple(one for inner in get_args(annotation) for one in _options(inner))
