"""What of a mule file does a result rest on? Tables that tell which of their fields were read, one bit for each."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from functools import cache
from types import new_class
from typing import Any, ClassVar, Generic, Self, TypeVar, cast, overload

from mulewright.design.paths import Path
from mulewright.units.table import Table

T = TypeVar("T")
V = TypeVar("V")
Model = TypeVar("Model", bound=Table)


class Reading:
    """What was read so far, in one number; it stays 0 where no table tells."""

    __slots__ = ("seen",)

    def __init__(self) -> None:
        self.seen = 0

    def apart(self) -> Apart:
        """Note what is read in a block by itself; what is around the block has read it too."""
        return Apart(self)


class Apart:
    """What was read in one block."""

    __slots__ = ("before", "reading", "seen")

    def __init__(self, reading: Reading) -> None:
        self.reading = reading
        self.before = self.seen = 0

    def __enter__(self) -> Self:
        self.before, self.reading.seen = self.reading.seen, 0
        return self

    def __exit__(self, *_: object) -> None:
        self.seen = self.reading.seen
        self.reading.seen = self.before | self.seen


READING = Reading()


class kept(Generic[V]):
    """A property that is worked out once, like a cached one; whoever asks for it has read what it rests on."""

    def __init__(self, make: Callable[[Any], V]) -> None:
        self.make = make
        self.name = ""
        self.__doc__ = make.__doc__

    def __set_name__(self, owner: type, name: str) -> None:
        self.name = name

    @overload
    def __get__(self, thing: None, owner: type) -> Self: ...
    @overload
    def __get__(self, thing: object, owner: type) -> V: ...
    def __get__(self, thing: object | None, owner: type) -> Self | V:
        if thing is None:
            return self
        known: dict[str, Any] = thing.__dict__
        found: tuple[V, int] | None = known.get(f"kept {self.name}")
        if found is None:
            with READING.apart() as own:
                value = self.make(thing)
            seen = own.seen | getattr(thing, "rests", 0)  # what it was made from
            if not seen:
                known[self.name] = value  # from here on it is found without asking
                return value
            found = known[f"kept {self.name}"] = value, seen
        READING.seen |= found[1]
        return found[0]


class Ledger:
    """Which bit stands for which field of which table."""

    def __init__(self) -> None:
        self._bits: dict[tuple[str, str], int] = {}

    def bit(self, path: str, name: str) -> int:
        """The bit of a field of the table at a path."""
        return self._bits.setdefault((path, name), 1 << len(self._bits))

    def telling(self, value: V, path: str = "", like: Any = None, told: Any = None) -> V:
        """The same value, whose tables tell what is read of them.

        Parameters
        ----------
        value : object
            A table, or what holds some, or anything else.
        path : str, optional
            Where it stands; empty for the file as a whole.
        like, told : object, optional
            A value like it, and the same that tells already; what is alike is taken from there.
        """
        if told is not None and value == like:
            return cast(V, told)
        found: Any = value
        known: Mapping[Any, Any]
        have: Mapping[Any, Any]
        if isinstance(value, Table):
            known, have = (vars(like), within(told)) if type(like) is type(value) else ({}, {})
            inside = {
                name: self.telling(one, _at(path, name), known.get(name), have.get(name))
                for name, one in vars(value).items()
            }
            found = self.made(type(value), path, inside)
        elif isinstance(value, Mapping):
            known, have = (like, told) if isinstance(like, Mapping) else ({}, {})
            found = {
                name: self.telling(one, _at(path, name), known.get(name), have.get(name))
                for name, one in value.items()
            }
        elif isinstance(value, list):
            found = [self.telling(one, _at(path, place)) for place, one in enumerate(value)]
        return cast(V, found)

    def made(self, form: type[Model], path: str, inside: Mapping[str, Any]) -> Model:
        """A table of a form that tells what is read of it, from what it holds."""
        found = object.__new__(_telling_class(form))
        bits = {name: self.bit(path, name) for name in inside}
        object.__setattr__(found, "__dict__", {WITHIN: inside, BITS: bits})
        return cast(Model, found)

    def differing(self, was: Any, now: Any, place: Path) -> Iterator[Difference]:
        """The fields in which two values differ that stand at one place."""
        if (not isinstance(was, _HOLDS) and not isinstance(now, _HOLDS)) or was == now:
            return
        before, after = _inside(was), _inside(now)
        for name in before | after:
            one, other, here = before.get(name), after.get(name), (*place, str(name))
            if one is other:
                continue
            if isinstance(was, Table) or isinstance(now, Table):
                said = repr(_outline(other))
                if repr(_outline(one)) != said:
                    bit = self.bit(".".join(place), str(name))
                    yield Difference(here, bit, said, other, not (_tables(one) or _tables(other)))
            yield from self.differing(one, other, here)


@dataclass(frozen=True)
class Difference:
    """A field that says something else; of tables in it only that they are there."""

    place: Path
    bit: int
    says: str
    value: Any
    leaf: bool  # whether there are no tables in it


WITHIN, BITS = "said within", "bits of fields"
_HOLDS = (Table, Mapping, list)


def within(told: Table) -> dict[str, Any]:
    """What a table that tells holds, without telling."""
    return cast(dict[str, Any], vars(told)[WITHIN])


def changed(told: Any, path: Path, value: Any) -> Any:
    """A value whose tables tell, with another one put in at a path within it."""
    if not path:
        return value
    if isinstance(told, Table):
        found = object.__new__(type(told))
        inside = within(told)
        inside = inside | {path[0]: changed(inside[path[0]], path[1:], value)}
        object.__setattr__(found, "__dict__", vars(told) | {WITHIN: inside})
        return found
    if isinstance(told, list):
        at = int(path[0])
        return [*told[:at], changed(told[at], path[1:], value), *told[at + 1 :]]
    return {**told, path[0]: changed(told[path[0]], path[1:], value)}


def _at(path: str, name: object) -> str:
    return f"{path}.{name}" if path else str(name)


def _inside(value: Any) -> dict[Any, Any]:
    if isinstance(value, list):
        return dict(enumerate(value))
    return dict(value) if isinstance(value, Mapping) else vars(value) if isinstance(value, Table) else {}


def _tables(value: Any) -> bool:
    return isinstance(value, Table) or any(map(_tables, _inside(value).values()))


def _outline(value: Any) -> object:
    """What can be seen of a value without reading the tables in it."""
    if isinstance(value, Table):
        return type(value).__name__
    if isinstance(value, Mapping):
        return [(name, _outline(inner)) for name, inner in value.items()]
    if isinstance(value, list):
        return list(map(_outline, value))
    return value


class _Telling:
    """Comes before a form of table: fields are looked up here, since an instance holds none of its own."""

    stands_for: ClassVar[type[Table]]

    def __getattr__(self, name: str) -> Any:
        own = self.__dict__
        try:
            value = own[WITHIN][name]
        except KeyError:
            raise AttributeError(name) from None
        READING.seen |= own[BITS][name]
        return value


@cache
def _telling_class(form: type[Table]) -> type[Table]:
    made = new_class(
        form.__name__, (_Telling, form), {}, lambda body: body.update(__module__=form.__module__)
    )
    cast(type[_Telling], made).stands_for = form
    return made
