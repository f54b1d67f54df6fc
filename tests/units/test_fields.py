"""Fields hold a quantity of their kind within bounds; tables refuse unknown keys and bear unknown values."""

from typing import Any

import pytest
from pydantic import ValidationError

from mulewright.errors import UnitError
from mulewright.units import fields as u
from mulewright.units.fields import Of
from mulewright.units.quantity import Quantity
from mulewright.units.table import Table, kinds_of


class Wheel(Table):
    diameter: u.Length | None = None
    friction: u.Ratio | None = None
    efficiency: u.Efficiency | None = None
    title: str | None = None


def test_a_value_left_out_is_unknown() -> None:
    assert Wheel().quantity("diameter") is None


def test_a_value_is_read_with_its_unit() -> None:
    quantity = Wheel.model_validate({"diameter": "100 mm"}).quantity("diameter")
    assert quantity is not None
    assert quantity.value == pytest.approx(0.1)


def test_an_unknown_key_is_refused() -> None:
    with pytest.raises(ValidationError, match="diamter"):
        Wheel.model_validate({"diamter": "100 mm"})


@pytest.mark.parametrize(
    ("values", "rule"),
    [
        ({"diameter": "0 mm"}, "must be > 0 m"),
        ({"friction": -0.1}, "must be >= 0"),
        ({"efficiency": 1.2}, "must be > 0 and must be <= 1"),
        ({"diameter": {"value": "1 mm", "plus_minus": "2 mm"}}, "must be > 0 m"),
    ],
)
def test_an_impossible_value_is_refused_with_its_rule(values: dict[str, Any], rule: str) -> None:
    with pytest.raises(ValidationError) as caught:
        Wheel.model_validate(values)
    cause = caught.value.errors()[0]["ctx"]["error"]
    assert isinstance(cause, UnitError)
    assert cause.rule == rule


def test_the_kinds_of_a_table_are_read_off_its_fields() -> None:
    assert {name: of.kind for name, of in kinds_of(Wheel).items()} == {
        "diameter": "length",
        "friction": "ratio",
        "efficiency": "ratio",
    }


def test_the_json_schema_takes_texts_tables_and_where_it_means_something_numbers() -> None:
    properties = Wheel.model_json_schema()["properties"]
    assert _types(properties["diameter"]) == ["string", "object", "null"]
    assert _types(properties["friction"]) == ["string", "number", "object", "null"]
    assert "m, mm, cm" in _options(properties["diameter"])[0]["description"]


def _options(schema: dict[str, Any]) -> list[dict[str, Any]]:
    flat: list[dict[str, Any]] = []
    for option in schema["anyOf"]:
        flat += _options(option) if "anyOf" in option else [option]
    return flat


def _types(schema: dict[str, Any]) -> list[str]:
    return [option["type"] for option in _options(schema)]


def test_an_interval_is_cut_off_where_its_field_ends() -> None:
    ratio, length = Of("ratio", above=0, most=1), Of("length", above=0)
    cut = ratio.within(Quantity(0.9, "ratio", "0.9", low=-0.1, high=1.3))
    assert cut.low == pytest.approx(0.9e-3)
    assert cut.high == 1
    assert length.within(Quantity(2.0, "length", "2 m", low=1.0, high=3.0)).low == 1.0
