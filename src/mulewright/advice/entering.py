"""What is to be typed where, once something has been measured?"""

from __future__ import annotations

from datetime import date
from typing import Literal, get_args, get_origin

from mulewright.design.mule import Mule
from mulewright.design.paths import parse_path, written
from mulewright.design.schema.file import MuleFile
from mulewright.errors import DesignError
from mulewright.shelf.measuring import DECISION, SHEET, Way, error_in_si
from mulewright.units.fields import Of
from mulewright.units.kinds import KINDS
from mulewright.units.parse import CELSIUS
from mulewright.units.quantity import Origin
from mulewright.units.shown import people
from mulewright.units.table import Table, kinds_of

TO_FILL = "..."
_SCALED = ("length", "mass", "time", "resistance")  # read in another unit where they are small
_NO_ERROR = ("", "0 %")


def field_at(mule: Mule, path: str) -> tuple[type[Table], str] | None:
    """The table and the field that a path leads to; None where the file has no such table, or it is no path."""
    try:
        *above, name = parse_path(path)
        table = type(mule.table(written(tuple(above)))) if above else MuleFile
    except (DesignError, KeyError, IndexError, ValueError):
        return None
    return (table, name) if name in table.model_fields else None


def number_at(mule: Mule, path: str) -> Of | None:
    """Which kind of number belongs at a path; None where it is a choice, or nothing that a file says."""
    found = field_at(mule, path)
    return kinds_of(found[0]).get(found[1]) if found else None


def part_at(mule: Mule, path: str) -> tuple[str, ...]:
    """What things of the same part share: the part, and what is said of it; the path itself without a part."""
    if field_at(mule, path) is None:
        return (path,)
    words = parse_path(path)
    thing = mule.things.get(written(words[:2]))
    part = getattr(thing, "part", None)
    return (words[0], part, *words[2:]) if part else words


def to_enter(mule: Mule, path: str, way: Way, error: str, near: float) -> str:
    """The line of a mule file that holds the result, with three dots for what was found.

    Parameters
    ----------
    mule : Mule
        The design.
    path : str
        Where the result goes.
    way : Way
        How it was measured.
    error : str
        How far off the result may be, as a text such as ``2 % + 50 g``.
    near : float
        About where on its scale the result will lie. [SI]
    """
    number = number_at(mule, path)
    if number is None:
        found = field_at(mule, path)
        return f"{path} = {_a_choice(*found)}" if found else f"add to the file: {path}"
    value = _filled(TO_FILL, unit_for(number.kind, near))
    if way.instrument == DECISION and error in _NO_ERROR:
        return f"{path} = {value}"
    origin = {SHEET: Origin.DATA_SHEET, DECISION: Origin.ESTIMATE}.get(way.instrument, Origin.MEASURED)
    said = [f"value = {value}", f'from = "{origin.word}"']
    if origin is Origin.MEASURED:
        said.append(f'with = "{way.instrument}"')
    if error not in _NO_ERROR:
        said.append(f"plus_minus = {_error(error, number.kind, near)}")
    return f"{path} = {{ {', '.join(said)} }}"


def unit_for(kind: str, near: float) -> str:
    """The unit in which one reads a number of about this size."""
    found = KINDS[kind]
    word = people(near, found.si).partition(" ")[2] if kind in _SCALED and near else ""
    return word if word in found.factors else found.shown


def shown(mule: Mule, path: str, value: float) -> str:
    """A number as one would type it at a path; ``value`` in SI."""
    number = number_at(mule, path)
    assert number is not None
    unit = unit_for(number.kind, value)
    in_unit = value - CELSIUS if unit == "degC" else value / KINDS[number.kind].factors.get(unit, 1.0)
    return f"{in_unit:.3g} {unit}".rstrip()


def _error(text: str, kind: str, near: float) -> str:
    if "+" not in text:
        return f'"{text}"' if KINDS[kind].factors else text
    unit = unit_for(kind, near)
    return _filled(f"{error_in_si(text, kind, near) / KINDS[kind].factors.get(unit, 1.0):.2g}", unit)


def _filled(number: str, unit: str) -> str:
    return f'"{number} {unit}"' if unit else number


def _a_choice(table: type[Table], name: str) -> str:
    kind = table.model_fields[name].annotation
    options = (kind, *get_args(kind))
    words = [word for option in options if get_origin(option) is Literal for word in get_args(option)]
    if words:
        return f'"{TO_FILL}"  # one of {", ".join(map(str, words))}'
    if bool in options:
        return f"{TO_FILL}  # true or false" + (", or the day" if date in options else "")
    return f'"{TO_FILL}"' if str in options else TO_FILL
