"""Is every row of the table of units what an independent unit registry says?"""

import math
from functools import cache
from typing import Any

import pint
import pytest

from mulewright.units.kinds import ALIASES, KINDS
from mulewright.units.parse import to_si
from tests.published import noted, outside

# Our spelling of a unit -> the registry's; the others are spelled alike.
SPELLED = {
    "N m": "N*m",
    "mN m": "mN*m",
    "N cm": "N*cm",
    "N mm": "N*mm",
    "kgf.cm": "kgf*cm",
    "gf.cm": "gf*cm",
    "ozf.in": "ozf*inch",
    "lbf.in": "lbf*inch",
    "gf": "gf",
    "in": "inch",
    "h": "hour",
    "min": "minute",
    "kg m2": "kg*m**2",
    "g cm2": "g*cm**2",
    "mm2": "mm**2",
    "cm2": "cm**2",
    "m2": "m**2",
    "m/s2": "m/s**2",
    "km/h": "km/hour",
    "s/60deg": "s/(60*deg)",
    "%": "percent",
    "Ah": "A*hour",
    "mAh": "mA*hour",
    "Wh": "W*hour",
    "A s": "A*s",
    "1/s": "1/s",
}
ROWS = [
    (kind.name, unit)
    for kind in KINDS.values()
    for unit, factor in kind.factors.items()
    if not math.isnan(factor)
]


@cache
def registry() -> Any:
    return pint.UnitRegistry()


def spelled(unit: str, kind: str) -> str:
    here = {
        "c_rate": {"C": "1/hour"},
        "acceleration": {"g": "standard_gravity"},
        "temperature_rise": {"degC": "K"},
    }
    return here.get(kind, {}).get(unit, SPELLED.get(unit, unit))


@outside("U1", quantity="every accepted unit in SI", source="computed independently (pint)", mark="C")
@pytest.mark.parametrize(("kind", "unit"), ROWS)
def test_a_unit_is_worth_what_the_registry_says(kind: str, unit: str) -> None:
    si = registry().Quantity(spelled(unit, kind)).to(spelled(KINDS[kind].si, kind)).magnitude
    assert KINDS[kind].factors[unit] == pytest.approx(float(si), rel=1e-12)
    noted("every accepted unit in SI", "the same in the registry", "1e-12")


def test_the_unit_people_read_is_one_they_may_type() -> None:
    for kind in KINDS.values():
        assert kind.shown in kind.factors or (not kind.shown and kind.bare_ok), kind.name


@pytest.mark.parametrize(("alias", "unit"), ALIASES.items())
def test_an_alias_means_its_unit(alias: str, unit: str) -> None:
    kinds = [kind.name for kind in KINDS.values() if unit in kind.factors]
    assert kinds, f"{unit} is a unit of no kind"
    for kind in kinds:
        assert to_si(f"3 {alias}", kind) == to_si(f"3 {unit}", kind)


def test_a_kind_names_its_units_in_the_order_of_use() -> None:
    assert KINDS["torque"].accepted.startswith("N m, mN m")
    assert KINDS["count"].accepted == "a plain number"
