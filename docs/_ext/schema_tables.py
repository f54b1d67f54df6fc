"""Which tables and keys may a mule file and a part hold? Read off the schemas, field by field."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from datetime import date
from types import UnionType
from typing import Annotated, Any, Literal, Union, get_args, get_origin

from docs._ext.markdown import code, listed, plain, sentence, table
from mulewright.design.schema.file import MuleFile
from mulewright.design.schema.functions import Function
from mulewright.shelf import parts
from mulewright.shelf.tables import Column, Row, columns, rows
from mulewright.units.fields import Of
from mulewright.units.kinds import KINDS
from mulewright.units.quantity import Quantity
from mulewright.units.table import Table, kinds_of

UNITS_SHOWN = 3
DEEPEST = 4  # level of heading
HEADINGS = ("key", "what it says", "what one may write")
WORDS: dict[Any, str] = {
    str: "text",
    bool: "`true` or `false`",
    int: "whole number",
    float: "number",
    date: "day, as `2026-11-02`",
    Any: "anything",
}
PART_LINKS: dict[type[Table], str] = {
    form: f"[a {kind} on the shelf](#part-{kind})" for kind, form in parts.PART_KINDS.items()
}
ELSEWHERE: dict[type[Table], str] = {  # forms whose keys others take over, and where they are listed
    parts.Part: "[every part](#part-every)",
    **PART_LINKS,
    parts.ControlPart: "[a control of a radio](#part-radio)",
    Function: "[any function](#mule-any-function)",
}


@dataclass(frozen=True)
class Block:
    """One table of a file: what it belongs to, how its heading is typed, its form."""

    form: type[Table]
    address: str = ""
    owner: str = ""
    many: bool = False  # a list of tables
    depth: int = 2

    @property
    def title(self) -> str:
        """Its heading."""
        if not self.address:
            return self.owner
        typed = code(f"[[{self.address}]]" if self.many else f"[{self.address}]")
        kind = self.form.model_fields.get("kind")
        fixed = f", {get_args(kind.annotation)[0]}" if kind is not None and kind.is_required() else ""
        return f"{self.owner}: {typed}" if self.owner else f"{typed}{fixed}"

    def inner(self, name: str) -> list[Block]:
        """The tables that one of its keys holds."""
        address = f"{self.address}.{name}".removeprefix(".")
        depth = min(self.depth + 1, DEEPEST) if self.owner or self.address else self.depth
        below = Block(self.form, address, self.owner, depth=depth)
        return list(_tables(self.form.model_fields[name].annotation, below))


def _tables(annotation: Any, at: Block) -> Iterator[Block]:
    for option in options(annotation):
        origin, inside = get_origin(option), get_args(option)
        if isinstance(option, type) and issubclass(option, Table):
            yield Block(option, at.address, at.owner, at.many, at.depth)
        elif origin is list:
            yield from _tables(inside[0], Block(at.form, at.address, at.owner, True, at.depth))
        elif _is_named(option):
            yield from _tables(inside[1], Block(at.form, f"{at.address}.NAME", at.owner, depth=at.depth))


def options(annotation: Any) -> Iterator[Any]:
    """The alternatives of an annotation, None left out."""
    if get_origin(annotation) in (Union, UnionType):
        for one in get_args(annotation):
            yield from options(one)
    elif get_origin(annotation) is Annotated and get_args(annotation)[0] is not Quantity:
        yield from options(get_args(annotation)[0])
    elif annotation is not type(None):
        yield annotation


def _is_named(option: Any) -> bool:
    origin = get_origin(option)
    return isinstance(origin, type) and issubclass(origin, Mapping)


@dataclass
class Writer:
    """Writes tables one after another, each form once."""

    seen: dict[type[Table], str] = field(default_factory=dict)

    def pieces(self, block: Block) -> Iterator[str]:
        """Write a table and the tables inside it."""
        yield f"{'#' * block.depth} {block.title}"
        if block.address and block.form in self.seen:
            yield f"The same keys as {self.seen[block.form]}."
            return
        self.seen.setdefault(block.form, block.title)
        yield plain(block.form.__doc__ or "")
        bases = _bases(block.form)
        keys = [name for name in block.form.model_fields if _is_own(block.form, name, bases)]
        if simple := [name for name in keys if not block.inner(name)]:
            yield key_table(block.form, simple)
        if bases:
            listed_there = " and of ".join(ELSEWHERE[base] for base in bases)
            yield f"{'Also' if simple else 'It has'} every key of {listed_there}."
        for name in keys:
            for below in block.inner(name):
                yield from self.pieces(below)


def _bases(form: type[Table]) -> list[type[Table]]:
    """The forms whose keys a form takes over, only the nearest of each line."""
    found = [base for base in ELSEWHERE if base is not form and issubclass(form, base)]
    return [one for one in found if not any(other is not one and issubclass(other, one) for other in found)]


def _is_own(form: type[Table], name: str, bases: list[type[Table]]) -> bool:
    taken = (base.model_fields[name] for base in bases if name in base.model_fields)
    return all(info.annotation != form.model_fields[name].annotation for info in taken)


def key_table(form: type[Table], names: list[str]) -> str:
    """Write some keys of a form, each with its description and what may be written there."""
    infos = {name: form.model_fields[name] for name in names}
    quantities = kinds_of(form)
    return table(
        HEADINGS,
        (
            (
                code(name),
                plain(info.description or ""),
                quantity_text(quantities[name]) if name in quantities else _text(info.annotation),
            )
            for name, info in infos.items()
        ),
    )


def _text(annotation: Any) -> str:
    return ", or ".join(map(_one_text, options(annotation)))


def _one_text(option: Any) -> str:
    origin, inside = get_origin(option), get_args(option)
    if origin is Literal:
        return listed(map(str, inside))
    if origin is Annotated:
        return next(quantity_text(mark) for mark in inside if isinstance(mark, Of))
    if origin is list:
        return f"list: {_text(inside[0])}"
    if _is_named(option):
        return f"for each name: {_text(inside[1])}"
    return WORDS[option]


def quantity_text(of: Of) -> str:
    """Say a kind of quantity with the first of its units and its bounds."""
    kind = KINDS[of.kind]
    units = [*kind.factors][:UNITS_SHOWN] + ["..."] * (len(kind.factors) > UNITS_SHOWN)
    written = ["a plain number"] * kind.bare_ok + [", ".join(units)] * bool(units)
    bounds = of.rule.replace("must be ", "").replace(">=", "≥").replace("<=", "≤")
    text = f"[{kind.name.replace('_', ' ')}](#units): {plain(' or '.join(written))}"
    return f"{text}; {plain(bounds)}" if bounds else text


def mule_file() -> str:
    """Write every table of the mule file."""
    top, writer = Block(MuleFile), Writer()
    simple = [name for name in MuleFile.model_fields if not top.inner(name)]
    pieces = ["## At the top of the file", key_table(MuleFile, simple)]
    for name in MuleFile.model_fields:
        for block in top.inner(name):
            pieces += writer.pieces(block)
    pieces += ["(mule-any-function)=", *writer.pieces(Block(Function, owner="Any function"))]
    return "\n\n".join(pieces)


def part_kinds() -> str:
    """Write every kind of part."""
    writer = Writer(dict(PART_LINKS))
    pieces = ["(part-every)=", *writer.pieces(Block(parts.Part, owner="Every part"))]
    for kind, form in parts.PART_KINDS.items():
        pieces += [f"(part-{kind})=", *writer.pieces(Block(form, owner=kind))]
    return "\n\n".join(pieces)


def units() -> str:
    """Write every kind of quantity with all the units that it may be typed in."""
    return table(
        ("kind", "may be typed in", "is read in"),
        (
            (kind.name.replace("_", " "), listed(kind.factors) or "a plain number", plain(kind.shown or "1"))
            for kind in KINDS.values()
        ),
    )


def assumptions() -> str:
    """Write every number that is taken where nobody has given one, with mark and source."""
    single: list[tuple[Row | Column, str]] = [(one, one.quantity.text) for one in rows().values()]
    by_gauge = [(one, f"{one.currents.min():g} to {one.currents.max():g} A") for one in columns().values()]
    return table(
        ("name", "value", "what it is", "mark", "source"),
        (
            (code(one.name), plain(value), plain(sentence(one.about)), one.mark, plain(one.source))
            for one, value in [*single, *by_gauge]
        ),
    )
