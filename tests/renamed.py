"""Shipped designs whose things all bear other names: a name is only a name, and changes no number."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from typing import Any

from mulewright.design.merging import Raw
from mulewright.design.mule import Mule, link
from mulewright.design.names import KINDS_OF_THING
from mulewright.design.resolve import build
from tests.designs import EXAMPLES

ODD_NAME = " <#:&=%|;,/\\[]{}'`$!?~^()+"  # all that a name may hold and that means something elsewhere
RADIOS = ("radio", "second_radio")
FUNCTIONS = ("mechanism", "motor", "servo")  # what a control commands by the bare name


def renamed(design: str, more: str = ODD_NAME) -> Mule:
    """The mule of these tables."""
    return link(build(renamed_raw(design, more), folder=EXAMPLES / design))


def renamed_raw(design: str, more: str = ODD_NAME) -> Raw:
    """The tables of a shipped design, with something added to the name of every thing and every control."""
    raw = tomllib.loads((EXAMPLES / design / "mule.toml").read_text("utf-8"))
    raw.pop("variant", None)
    ids = {f"{kind}.{name}" for kind in KINDS_OF_THING for name in raw.get(kind, ())}
    controls = {name for radio in RADIOS for name in _controls(raw, radio)}
    bare = controls | {name for kind in FUNCTIONS for name in raw.get(kind, ())}

    def new(word: str) -> str:
        thing = ".".join(word.split(".")[:2])
        return f"{thing}{more}{word[len(thing) :]}" if thing in ids else word + more * (word in bare)

    def walked(value: Any, key: str = "") -> Any:
        if isinstance(value, dict):
            return {name: walked(inner, name) for name, inner in value.items()}
        if isinstance(value, list):
            return [walked(inner, key) for inner in value]
        return new(value) if isinstance(value, str) and key not in ("kind", "part") else value

    told: Raw = walked(raw)
    for kind in KINDS_OF_THING:
        if kind in told:
            told[kind] = _more(told[kind], more)
    for radio in RADIOS:
        if _controls(told, radio):
            told[radio]["control"] = _more(told[radio]["control"], more)
    return told


def _controls(raw: Raw, radio: str) -> Mapping[str, Any]:
    controls: Mapping[str, Any] = raw.get(radio, {}).get("control", {})
    return {name: table for name, table in controls.items() if name != "others"}


def _more(tables: Mapping[str, Any], more: str) -> dict[str, Any]:
    return {name if name == "others" else name + more: table for name, table in tables.items()}
