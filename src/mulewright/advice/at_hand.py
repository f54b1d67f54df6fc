"""Which instruments are at hand, and how can an input be measured with them?"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from fnmatch import fnmatchcase

from mulewright.advice.entering import number_at, part_at, to_enter
from mulewright.design.mule import Mule
from mulewright.design.schema.people import Measuring
from mulewright.errors import NotFound, UnitError, closest
from mulewright.shelf.measuring import (
    CHOICE,
    Way,
    closest_fit,
    error_in_si,
    fit,
    instruments,
    ranges,
    rows,
    spreads,
)
from mulewright.units.fields import Of
from mulewright.units.kinds import KINDS
from mulewright.units.quantity import Origin, Quantity, read_quantity
from mulewright.units.shown import people

UNSAID_MINUTES = 5.0  # of a way that the mule file adds without saying how long it takes
EXACT = "0 %"
WEAK = (Origin.ESTIMATE, Origin.ASSUMED)


@dataclass(frozen=True)
class Means:
    """One way to measure one input, with an instrument that is at hand."""

    path: str
    way: Way
    off: float  # how far off the result may be, in SI; 0 where it is exact or no number
    enter: str
    same: tuple[str, ...]  # things with the same here are measured together


@dataclass(frozen=True)
class AtHand:
    """The instruments that somebody has, each with how far off it may be."""

    errors: Mapping[str, str]
    everything: bool = False  # nobody said which, so all of them are taken to be there

    def means(self, mule: Mule, path: str, near: float) -> list[Means]:
        """Every way to measure an input with what is at hand; ``near`` is about where it lies. [SI]."""
        number = number_at(mule, path)
        found = []
        for way, shared in ways(mule, path, number):
            if way.instrument not in self.errors or _too_much(way, number, near):
                continue
            counted = number is not None and number.kind == "count"
            error = EXACT if counted else way.error or self.errors[way.instrument]
            off = _off(error, number, near, way)
            enter = to_enter(mule, path, way, error, near)
            found.append(Means(path, way, off, enter, part_at(mule, path) if shared else (path,)))
        return found


def at_hand(mule: Mule, named: Sequence[str] | None = None) -> AtHand:
    """The instruments named, or else those of the mule file, or else every one of the table.

    Raises
    ------
    NotFound
        If one of them is not in the table of instruments.
    """
    known = instruments()
    errors = {name: one.error for name, one in known.items()}
    own = {
        _known(said.kind or name.replace("_", " "), f"instrument.{name}.kind"): said.error
        for name, said in mule.file.instrument.items()
    }
    errors |= {name: error for name, error in own.items() if error is not None}
    if named is None and not own:
        return AtHand(errors, everything=True)
    there = own if named is None else [_known(name, "--with") for name in named]
    return AtHand({name: errors[name] for name, one in known.items() if one.always or name in there})


def ways(mule: Mule, path: str, number: Of | None) -> list[tuple[Way, bool]]:
    """Every way to measure an input, and whether one measurement serves all things of the same part."""
    row = fit(path, number.kind if number else CHOICE, rows())
    by = [(way, row.same_part) for way in row.by] if row else []
    own = _own(mule, path)
    if own is None:
        return by
    if own.instrument is not None:
        name = _known(own.instrument, "measuring")
        by = [pair for pair in by if pair[0].instrument == name] or [
            (Way(name, "Measure it.", UNSAID_MINUTES), False)
        ]
    minutes = own.minutes.value if own.minutes is not None else None
    return [
        (
            replace(
                way,
                how=own.how or way.how,
                error=own.error or way.error,
                minutes=way.minutes if minutes is None else minutes,
            ),
            shared,
        )
        for way, shared in by
    ]


def instruments_for(mule: Mule, path: str) -> list[str]:
    """Names of all instruments with which an input could be measured."""
    return list(dict.fromkeys(way.instrument for way, _ in ways(mule, path, number_at(mule, path))))


def usual(mule: Mule, path: str) -> Quantity | None:
    """Between what an unknown number usually lies; None where nothing is known about it."""
    number = number_at(mule, path)
    if number is None:
        return None
    own, row = _own(mule, path), closest_fit(path, ranges())
    low = own.lowest if own and own.lowest is not None else row.low if row else None
    high = own.highest if own and own.highest is not None else row.high if row else None
    if low is None or high is None:
        return None
    said = read_quantity({"min": low, "max": high, "from": Origin.ASSUMED.word}, number.kind)
    return number.within(said)


def spread(mule: Mule, path: str, quantity: Quantity) -> Quantity | None:
    """A weak number with the interval that such numbers usually have; None for all others."""
    number = number_at(mule, path)
    row = fit(path, quantity.kind, spreads())
    if quantity.uncertain or quantity.origin not in WEAK or number is None or row is None:
        return None
    text = row.estimate if quantity.origin is Origin.ESTIMATE else row.assumed
    off = error_in_si(text, quantity.kind, quantity.value)
    if off == 0:
        return None
    return number.within(replace(quantity, low=quantity.value - off, high=quantity.value + off))


def _own(mule: Mule, path: str) -> Measuring | None:
    """What the mule file says about measuring an input; the pattern that leaves least open holds."""
    fits = [pattern for pattern in mule.file.measuring if fnmatchcase(path, pattern)]
    return mule.file.measuring[max(fits, key=lambda one: len(one.replace("*", "")))] if fits else None


def _too_much(way: Way, number: Of | None, near: float) -> bool:
    return bool(way.most) and number is not None and near > read_quantity(way.most, number.kind).value


def _off(error: str, number: Of | None, near: float, way: Way) -> float:
    if number is None:
        return 0.0
    try:
        return error_in_si(error, number.kind, near)
    except UnitError as no:
        rule = f"a share, a number in {KINDS[number.kind].accepted}, or both, such as 2 % + {people(1, number.unit)}"
        raise UnitError(
            f"how far off it may be does not fit a {number.kind}", way.instrument, rule, error
        ) from no


def _known(name: str, where: str) -> str:
    known = instruments()
    if name not in known:
        rule = f"one of {', '.join(name for name, one in known.items() if not one.always)}"
        raise NotFound(f"no instrument is called {name!r}", where, rule, name, closest(name, known))
    return name
