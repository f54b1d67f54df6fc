"""What does a text such as ``"12 mm"`` or ``"18 AWG"`` mean in SI?"""

from __future__ import annotations

import math
import re
from functools import lru_cache
from typing import Any

from mulewright.errors import UnitError, closest
from mulewright.units.gauge import awg_to_area
from mulewright.units.kinds import ALIASES, KINDS, Kind

_NUMBER = re.compile(r"^\s*([+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?)\s*(.*?)\s*$")
_GAUGE_FIRST = re.compile(r"^\s*AWG\s*([+-]?\d+)\s*$", re.IGNORECASE)
_POWER = r"[A-Za-zµμΩ]+(?:(?:\*\*|\^)?-?\d)?"
_UNIT = re.compile(rf"(?:1 ?/ ?)?{_POWER}(?: ?[ */.·] ?{_POWER}){{0,4}}")  # so that nothing else is evaluated
_ANGULAR = re.compile("rad|deg|arc|turn|rev|rp[ms]|cycle")  # the registry takes an angle for a plain number
_COMMA = re.compile(r"^\s*[+-]?\d+,\d+")
_EVERY = frozenset(unit for kind in KINDS.values() for unit in kind.factors)
CELSIUS = 273.15  # [K] exact, 0 degC


@lru_cache(maxsize=4096)
def to_si(text: str, kind_name: str) -> float:
    """Convert what a person typed to SI.

    Raises
    ------
    UnitError
        If the text is no number with a unit of that kind; the message names the accepted units.
    """
    kind = KINDS[kind_name]
    if kind.name == "area" and (gauge := _GAUGE_FIRST.match(text)):
        return _gauge_area(gauge[1], kind, text)
    if _COMMA.match(text):
        raise _refusal(kind, text, text.replace(",", ".", 1))
    match = _NUMBER.match(text)
    if not match:
        raise _refusal(kind, text)
    number, unit = float(match[1]), ALIASES.get(match[2], match[2])
    if not math.isfinite(number):
        raise _refusal(kind, text)
    if not unit:
        if kind.bare_ok:
            return number
        raise _refusal(kind, text, f"{match[1]} {kind.shown}")
    if unit == "AWG" and kind.name == "area":
        return _gauge_area(match[1], kind, text)
    if unit == "degC" and kind.name == "temperature":
        return number + CELSIUS
    factor = kind.factors.get(unit)
    value = number * (factor if factor is not None else _by_registry(number, unit, kind, text))
    if not math.isfinite(value):
        raise _refusal(kind, text)
    return value


def _gauge_area(digits: str, kind: Kind, text: str) -> float:
    """Cross-section of a gauge; 00 to 0000 count on below 0."""
    gauge = float(1 - len(digits)) if set(digits) == {"0"} else float(digits)
    if not -3 <= gauge <= 56:
        raise _refusal(kind, text)
    return awg_to_area(gauge)


def number_to_si(value: float, kind_name: str) -> float:
    """Accept a bare number where the kind needs no unit; refuse it by name elsewhere."""
    kind = KINDS[kind_name]
    if isinstance(value, bool) or not math.isfinite(value) or not kind.bare_ok:
        raise _refusal(kind, repr(value), f'"{value:g} {kind.shown}"' if not isinstance(value, bool) else "")
    return float(value)


def _by_registry(number: float, unit: str, kind: Kind, text: str) -> float:
    """Ask the general unit registry for a unit that is not among the usual ones."""
    meant = [kind.shown] if unit in _EVERY else closest(unit, kind.factors, 2)  # of another kind: not a slip
    near = [f"{number:g} {name}" for name in meant]
    angular = "rad" in kind.si
    if not kind.factors or not _UNIT.fullmatch(unit) or bool(_ANGULAR.search(unit)) != angular:
        raise _refusal(kind, text, *near)
    import tokenize

    import pint

    si = kind.si.replace("m2", "m**2").replace("s2", "s**2")
    try:
        none, one = (float(_registry().Quantity(count, unit).to(si).magnitude) for count in (0.0, 1.0))
    except (
        pint.PintError, tokenize.TokenError, ArithmeticError, AssertionError, AttributeError, SyntaxError,
        TypeError, ValueError,
    ) as no:  # fmt: skip
        raise _refusal(kind, text, *near) from no
    if none:  # a scale that does not start at nothing, such as degF or dBm
        raise _refusal(kind, text, *near)
    return one


@lru_cache(maxsize=1)
def _registry() -> Any:
    import pint

    return pint.UnitRegistry()


def _refusal(kind: Kind, text: str, *nearest: str) -> UnitError:
    return UnitError(
        what=f"not a {kind.name.replace('_', ' ')}",
        rule=f"a number with one of these units: {kind.accepted}" if kind.factors else "a plain number",
        found=text if len(text) < 60 else text[:57] + "...",
        nearest=tuple(hint for hint in nearest if hint),
    )
