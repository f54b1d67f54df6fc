"""What of a mule file does a result rest on? Tables that tell which of their fields were read, one bit for each."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from functools import cache
from types import new_class
from typing import Any, ClassVar, Generic, Self, TypeVar, cast, overload

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

    def telling(self, table: Model, path: str = "", inside: Mapping[str, Any] | None = None) -> Model:
        """The same table, which tells what is read of it, and of the tables within it.

        Parameters
        ----------
        table : Table
            The table.
        path : str, optional
            Where it stands; empty for the file as a whole.
        inside : mapping of str to object, optional
            What it holds, where its tables tell already.
        """
        if inside is None:
            inside = {name: self._telling(value, _at(path, name)) for name, value in vars(table).items()}
        bits = {name: self.bit(path, name) for name in inside}
        made = object.__new__(_telling_class(type(table)))
        object.__setattr__(made, "__dict__", {"said within": inside, "bits of fields": bits})
        return cast(Model, made)

    def _telling(self, value: Any, path: str) -> Any:
        if isinstance(value, Table):
            return self.telling(value, path)
        if isinstance(value, Mapping):
            return {name: self._telling(inner, _at(path, name)) for name, inner in value.items()}
        if isinstance(value, list):
            return [self._telling(inner, _at(path, place)) for place, inner in enumerate(value)]
        return value

    def fields(self, table: Table, path: str) -> dict[int, object]:
        """What each field of a table says, and of the tables within it; of a table itself only that it is there."""
        found: dict[int, object] = {}
        for name, value in vars(table).items():
            found[self.bit(path, name)] = _outline(value)
            for at, inner in _tables(value, _at(path, name)):
                found |= self.fields(inner, at)
        return found


def _at(path: str, name: object) -> str:
    return f"{path}.{name}" if path else str(name)


def _outline(value: Any) -> object:
    """What can be seen of a value without reading the tables in it."""
    if isinstance(value, Table):
        return type(value)
    if isinstance(value, Mapping):
        return tuple((name, _outline(inner)) for name, inner in value.items())
    if isinstance(value, list):
        return tuple(map(_outline, value))
    return value


def _tables(value: Any, path: str) -> list[tuple[str, Table]]:
    if isinstance(value, Table):
        return [(path, value)]
    inner = (
        value.items() if isinstance(value, Mapping) else enumerate(value) if isinstance(value, list) else ()
    )
    return [found for name, one in inner for found in _tables(one, _at(path, name))]


class _Telling:
    """Comes before a form of table: fields are looked up here, since an instance holds none of its own."""

    stands_for: ClassVar[type[Table]]

    def __getattr__(self, name: str) -> Any:
        own = object.__getattribute__(self, "__dict__")
        try:
            value = own["said within"][name]
        except KeyError:
            raise AttributeError(name) from None
        READING.seen |= own["bits of fields"][name]
        return value


@cache
def _telling_class(form: type[Table]) -> type[Table]:
    made = new_class(
        form.__name__, (_Telling, form), {}, lambda body: body.update(__module__=form.__module__)
    )
    cast(type[_Telling], made).stands_for = form
    return made
