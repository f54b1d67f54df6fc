"""Text with a unit to SI and back; what is not a quantity of the kind is refused with the units that are."""

import math

import pytest

from mulewright.errors import UnitError
from mulewright.units.kinds import KINDS
from mulewright.units.parse import number_to_si, to_si


@pytest.mark.parametrize(
    ("text", "kind", "si"),
    [
        ("12 V", "voltage", 12),
        ("12V", "voltage", 12),
        ("  2.4  N m ", "torque", 2.4),
        ("2.4Nm", "torque", 2.4),
        ("1 kgf.cm", "torque", 0.0980665),
        ("+.5 A", "current", 0.5),
        ("1e3 mA", "current", 1),
        ("1 µs", "pulse", 1e-6),
        ("0.09 deg/us", "servo_gain", math.radians(0.09) * 1e6),
        ("0.16 s/60deg", "servo_time", 0.16 / math.radians(60)),
        ("3.0 Ah", "charge", 10800),
        ("25 C", "c_rate", 25 / 3600),
        ("20 degC", "temperature", 293.15),
        ("293.15 K", "temperature", 293.15),
        ("80 K", "temperature_rise", 80),
        ("120 %", "percent", 1.2),
        ("85 %", "ratio", 0.85),
        ("0.85", "ratio", 0.85),
        ("4", "count", 4),
        ("1.5 mm2", "area", 1.5e-6),
        ("-30 deg", "angle", math.radians(-30)),
    ],
)
def test_usual_texts(text: str, kind: str, si: float) -> None:
    assert to_si(text, kind) == pytest.approx(si, rel=1e-12)


@pytest.mark.parametrize("text", ["18 AWG", "AWG 18", "awg18", "18awg"])
def test_a_gauge_is_a_cross_section(text: str) -> None:
    assert to_si(text, "area") == pytest.approx(math.pi / 4 * 1.0237e-3**2, rel=1e-3)


def test_a_unit_beyond_the_usual_ones_is_converted_too() -> None:
    assert to_si("2 yard", "length") == pytest.approx(1.8288, rel=1e-12)
    assert to_si("1 horsepower", "power") == pytest.approx(745.7, rel=1e-3)
    assert to_si("3 newton*metre", "torque") == pytest.approx(3)


@pytest.mark.parametrize(
    ("text", "kind", "nearest"),
    [
        ("12", "voltage", "12 V"),
        ("0,5 N m", "torque", "0.5 N m"),
        ("3 kg.cm", "torque", "3 kgf.cm"),
        ("200 rpn", "rotation", "200 rpm"),
        ("12 kg", "length", "12 m"),  # a unit of another kind is no slip of the finger for km
    ],
)
def test_a_refusal_names_the_accepted_units_and_the_nearest_text(text: str, kind: str, nearest: str) -> None:
    with pytest.raises(UnitError) as caught:
        to_si(text, kind)
    assert KINDS[kind].accepted in caught.value.rule
    assert caught.value.found == text
    assert nearest in caught.value.nearest


@pytest.mark.parametrize(
    ("text", "kind"),
    [
        ("", "length"),
        ("m", "length"),
        ("3 kg", "length"),
        ("5 N m", "force"),
        ("one", "count"),
        ("4 m", "count"),
    ],
)
def test_what_is_no_quantity_of_the_kind_is_refused(text: str, kind: str) -> None:
    with pytest.raises(UnitError) as caught:
        to_si(text, kind)
    assert KINDS[kind].accepted in caught.value.rule


def test_a_long_text_is_shortened_in_the_message() -> None:
    with pytest.raises(UnitError) as caught:
        to_si("x" * 500, "length")
    assert len(caught.value.found) == 60


def test_a_bare_number_passes_only_where_it_means_something() -> None:
    assert number_to_si(0.85, "ratio") == 0.85
    assert number_to_si(3, "count") == 3
    with pytest.raises(UnitError, match='"12 V"'):
        number_to_si(12, "voltage")


@pytest.mark.parametrize("value", [True, math.nan, math.inf])
def test_what_only_looks_like_a_number_is_refused(value: float) -> None:
    with pytest.raises(UnitError):
        number_to_si(value, "ratio")
