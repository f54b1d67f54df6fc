"""What each part brings to the mule, and what the file says against it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from typing import Any

from mulewright.design.merging import UNKNOWN, Raw, is_number, merge
from mulewright.design.paths import Path, written
from mulewright.design.typed import OTHERS, Typed
from mulewright.errors import DesignError, MulewrightError, NotFound
from mulewright.shelf.catalog import Catalog
from mulewright.shelf.parts import PART_KINDS

MOST_CHANNELS = 64
NAMED = tuple(kind for kind in PART_KINDS if kind not in ("radio", "receiver", "connector", "lead"))
SINGLE = {"radio": "radio", "receiver": "receiver", "second_radio": "radio", "second_receiver": "receiver"}


@dataclass(frozen=True)
class Override:
    """One value of a part that the mule file replaces."""

    path: str
    part: str
    part_text: str
    file_text: str


@dataclass
class Placement:
    """Lays parts beneath what a file says about them, and keeps note of what it met."""

    catalog: Catalog
    typed: Typed
    overrides: list[Override] = field(default_factory=list)
    problems: list[MulewrightError] = field(default_factory=list)

    def everywhere(self, raw: Raw) -> Raw:
        """Fill in every part of a description and spread the radios' ``others``.

        A part that is on no shelf is noted among the problems, with the nearest ones.
        """
        filled = dict(raw)
        for kind in NAMED:
            if isinstance(tables := raw.get(kind), dict):
                filled[kind] = {name: self.fill(table, kind, (kind, name)) for name, table in tables.items()}
        for key, kind in SINGLE.items():
            if key in raw:
                filled[key] = self.fill(raw[key], kind, (key,))
        if isinstance(wires := raw.get("wire"), dict):
            filled["wire"] = {name: self._fill_joints(wire, ("wire", name)) for name, wire in wires.items()}
        return filled

    def fill(self, table: Any, kind: str, path: Path) -> Any:
        """Lay its part beneath one table; what is no table is left for the validation."""
        if not isinstance(table, dict):
            return table
        name = table.get("part")
        part = self._part(kind, name, path) if isinstance(name, str) and name != UNKNOWN else {}
        if kind == "radio":
            table = spread_others(table, part, path)
        self.overrides += [
            Override(written(at), str(name), said, mine) for at, said, mine in _replaced(part, table, path)
        ]
        return merge(part, table)

    def _part(self, kind: str, name: str, path: Path) -> Mapping[str, Any]:
        try:
            return self.catalog.find(kind, name).raw
        except NotFound as no:
            no.where = self.typed.place((*path, "part"))
            self.problems.append(no)
            return {}

    def _fill_joints(self, wire: Any, path: Path) -> Any:
        joints = wire.get("joints") if isinstance(wire, dict) else None
        if not isinstance(joints, list):
            return wire
        places = [(*path, "joints", str(index)) for index in range(len(joints))]
        filled = [self.fill(joint, "connector", at) for joint, at in zip(joints, places, strict=True)]
        return wire | {"joints": filled}


def _replaced(
    part: Mapping[str, Any], table: Mapping[str, Any], path: Path
) -> Iterator[tuple[Path, str, str]]:
    """Each value of the part that the file replaces: where, what the part says, what the file says."""
    for key, mine in table.items():
        if key not in part:
            continue
        said, at = part[key], (*path, key)
        if isinstance(said, Mapping) and isinstance(mine, Mapping) and not is_number(said):
            yield from _replaced(said, mine, at)
        else:
            yield at, shown(said), shown(mine)


def shown(value: Any) -> str:
    """Write a value as a person would read it: a number by its text."""
    if is_number(value):
        return str(value["value"]) if "value" in value else f"{value['min']} .. {value['max']}"
    if isinstance(value, Mapping):
        return ", ".join(f"{key} {shown(inner)}" for key, inner in value.items())
    return ("false", "true")[value] if isinstance(value, bool) else str(value)


def spread_others(radio: Raw, part: Mapping[str, Any], path: Path = ("radio",)) -> Raw:
    """Lay ``others`` of a radio's channels and controls beneath each of them."""
    controls = _table(part.get("control")) | _table(radio.get("control"))
    names = [name for name in controls if name != OTHERS]
    spread = _spread(radio, "control", names)
    if OTHERS not in _table(radio.get("channel")):
        return spread
    count = radio.get("channels", part.get("channels", 0))
    if isinstance(count, int) and count > MOST_CHANNELS:
        raise DesignError(
            what="no radio has so many",
            where=written((*path, "channels")),
            rule=f"at most {MOST_CHANNELS}",
            found=str(count),
        )
    numbers = range(1, count + 1) if isinstance(count, int) else ()
    used = (control.get("channel") for control in controls.values() if isinstance(control, Mapping))
    channels = [str(number) for number in (*numbers, *used) if isinstance(number, int)]
    return _spread(spread, "channel", [*channels, *_table(radio.get("channel"))])


def _spread(radio: Raw, key: str, names: list[str]) -> Raw:
    tables = _table(radio.get(key))
    others = tables.get(OTHERS)
    if not isinstance(others, dict):
        return radio
    every = {name: tables.get(name, {}) for name in names if name != OTHERS}
    merged = {
        name: merge(others, table) if isinstance(table, dict) else table for name, table in every.items()
    }
    return radio | {key: merged}


def _table(value: Any) -> dict[str, Any]:
    return dict(value) if isinstance(value, Mapping) else {}
