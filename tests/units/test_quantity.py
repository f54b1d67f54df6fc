"""What a person knows about a number besides the number."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from mulewright.errors import UnitError
from mulewright.units.quantity import WORDS, Origin, Quantity, read_quantity


def test_a_text_alone_is_a_number_that_somebody_typed() -> None:
    quantity = read_quantity("11.0 kg", "mass")
    assert quantity == Quantity(11.0, "mass", "11.0 kg", Origin.TYPED)
    assert quantity.unit == "kg"
    assert quantity.source == "typed"


def test_all_that_can_be_said() -> None:
    quantity = read_quantity(
        {
            "value": "11.0 kg",
            "from": "measured",
            "with": "luggage scale",
            "ref": "day 2",
            "plus_minus": "0.2 kg",
        },
        "mass",
    )
    assert quantity.origin is Origin.MEASURED
    assert (quantity.low, quantity.high) == pytest.approx((10.8, 11.2))
    assert quantity.source == "measured with luggage scale (day 2)"


def test_a_spread_in_percent_is_a_share_of_the_value() -> None:
    quantity = read_quantity({"value": "-20 deg", "plus_minus": "10 %"}, "angle")
    assert quantity.low == pytest.approx(quantity.value * 1.1)
    assert quantity.high == pytest.approx(quantity.value * 0.9)


def test_a_spread_of_a_percentage_is_in_its_own_points() -> None:
    quantity = read_quantity({"value": "80 %", "plus_minus": "5 %"}, "percent")
    assert (quantity.low, quantity.high) == pytest.approx((0.75, 0.85))


def test_a_spread_of_a_temperature_is_a_difference() -> None:
    quantity = read_quantity({"value": "20 degC", "plus_minus": "2 degC"}, "temperature")
    assert (quantity.low, quantity.high) == pytest.approx((291.15, 295.15))


def test_two_ends_without_a_value_mean_their_middle() -> None:
    quantity = read_quantity({"min": "10 V", "max": "14 V"}, "voltage")
    assert (quantity.value, quantity.low, quantity.high) == (12, 10, 14)
    assert quantity.text == "10 V .. 14 V"


def test_one_end_may_be_open() -> None:
    quantity = read_quantity({"value": "12 V", "max": "14 V"}, "voltage")
    assert (quantity.low, quantity.high) == (None, 14)


@pytest.mark.parametrize(
    "raw",
    [
        {"value": "12 V", "min": "13 V", "max": "14 V"},
        {"value": "12 V", "max": "11 V"},
        {"min": "14 V", "max": "10 V"},
    ],
)
def test_an_interval_that_contradicts_the_value_is_refused(raw: dict[str, str]) -> None:
    with pytest.raises(UnitError, match="min <= value <= max"):
        read_quantity(raw, "voltage")


@pytest.mark.parametrize(
    ("raw", "message"),
    [
        ({"min": "10 V"}, "give value"),
        ({}, "give value"),
        ({"value": "12 V", "fom": "measured"}, "Closest: from"),
        ({"value": "12 V", "from": "data sheet"}, "Closest: data-sheet"),
        ({"value": ["12 V"]}, "V, mV, kV"),
        (None, "V, mV, kV"),
        ([], "V, mV, kV"),
    ],
)
def test_what_cannot_be_said(raw: object, message: str) -> None:
    with pytest.raises(UnitError, match=message):
        read_quantity(raw, "voltage")


@pytest.mark.parametrize("word", WORDS)
def test_every_origin_by_its_word(word: str) -> None:
    origin = read_quantity({"value": 1, "from": word}, "ratio").origin
    assert origin.word == word


def test_origins_are_ordered_from_best_to_weakest() -> None:
    assert max(Origin.MEASURED, Origin.DATA_SHEET, Origin.ASSUMED) is Origin.ASSUMED
    assert max(Origin.EXACT, Origin.MEASURED) is Origin.MEASURED


def test_a_quantity_passes_through() -> None:
    quantity = read_quantity("1 A", "current")
    assert read_quantity(quantity, "current") is quantity


@given(
    st.recursive(
        st.one_of(st.none(), st.booleans(), st.floats(), st.integers(), st.text(max_size=5)),
        lambda inner: (
            st.dictionaries(st.sampled_from(["value", "min", "max", "plus_minus", "from", "x"]), inner)
            | st.lists(inner, max_size=2)
        ),
        max_leaves=4,
    )
)
def test_anything_else_is_read_or_refused(raw: object) -> None:
    try:
        quantity = read_quantity(raw, "ratio")
    except UnitError:
        return
    assert isinstance(quantity.value, float)
    assert quantity.low is None or quantity.low <= quantity.value
    assert quantity.high is None or quantity.high >= quantity.value
