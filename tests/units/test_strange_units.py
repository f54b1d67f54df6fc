"""Whatever a person types as a unit, the answer is a finite number or a refusal, and it comes at once."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from mulewright.errors import UnitError
from mulewright.units.kinds import ALIASES, KINDS
from mulewright.units.parse import to_si

kinds = st.sampled_from(sorted(KINDS))
units = st.sampled_from([unit for kind in KINDS.values() for unit in kind.factors] + list(ALIASES))
pieces = st.one_of(
    units, st.text("0123456789.,eE+-*/^()[]{}'\"%°µ \t\\#@=:_²", max_size=3), st.text(max_size=4)
)


def answer(text: str, kind: str) -> None:
    try:
        value = to_si(text, kind)
    except UnitError:
        return
    assert type(value) is float
    assert math.isfinite(value)


@given(st.text(), kinds)
def test_any_text(text: str, kind: str) -> None:
    answer(text, kind)


@given(st.floats(allow_nan=False, allow_infinity=False), st.lists(pieces, max_size=5), kinds)
def test_any_number_with_pieces_of_units(number: float, parts: list[str], kind: str) -> None:
    answer(f"{number!r} {''.join(parts)}", kind)


@pytest.mark.parametrize(
    ("text", "kind"),
    [
        ("1 m**9**9**9", "length"),
        ("1 m*9**99999999", "length"),
        ("1 (", "length"),
        ("1 " + "(" * 5000, "length"),
        ("1 " + "m*" * 5000 + "m", "length"),
        ("1 " + "m   " * 40 + "!", "length"),
        ("1e308 km", "length"),
        ("-9999999 AWG", "area"),
        ("1e9 AWG", "area"),
    ],
)
def test_sums_that_never_end_are_not_begun(text: str, kind: str) -> None:
    with pytest.raises(UnitError):
        to_si(text, kind)


@pytest.mark.parametrize(
    ("text", "kind"),
    [("300 degF", "temperature"), ("10 degF", "temperature_rise"), ("30 dBm", "power")],
)
def test_a_scale_that_does_not_start_at_nothing_is_refused(text: str, kind: str) -> None:
    with pytest.raises(UnitError):
        to_si(text, kind)


@pytest.mark.parametrize(
    ("text", "kind"),
    [
        ("2 hertz", "rotation"),
        ("2 1/s", "rotation"),
        ("60 rpm", "frequency"),
        ("1 rad", "ratio"),
        ("5 %", "angle"),
    ],
)
def test_an_angle_is_not_taken_for_a_plain_number(text: str, kind: str) -> None:
    with pytest.raises(UnitError):
        to_si(text, kind)


def test_turns_a_second_are_a_rotation() -> None:
    assert to_si("2 turn/s", "rotation") == pytest.approx(4 * math.pi)


def test_thick_gauges_are_written_with_zeros() -> None:
    assert to_si("0000 AWG", "area") == pytest.approx(math.pi / 4 * 11.684e-3**2, rel=1e-9)
    assert to_si("AWG 00", "area") == to_si("-1 AWG", "area")
