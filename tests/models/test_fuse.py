"""Blade fuses: the bands of the standard, and nothing sharper than a band."""

from collections.abc import Callable
from typing import Any

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from mulewright.errors import DomainError
from mulewright.models import fuse
from mulewright.models.fuse import (
    LONGEST,
    NEXT_SIZE_MAX,
    RATIO_MAX,
    SHORTEST,
    blow_time_max,
    blow_time_min,
    fuse_ratio,
    fuse_resistance_max,
)
from tests.models.agreement import assert_keeps_promises
from tests.published import agrees, noted, outside, within

BLADE = "ISO 8820-3, medium blade"
multiples = st.floats(0, 1000, allow_nan=False)


def band(multiple: float) -> tuple[float, float]:
    return float(blow_time_min(multiple)), float(blow_time_max(multiple))


@outside("F1", quantity="blade fuse at 1.35 x", source=BLADE, mark="R")
def test_band_at_135_percent() -> None:
    agrees(band(1.35), (0.75, 1800))


@outside("F2", quantity="blade fuse at 1.6 x", source=f"{BLADE}, quoted from a data sheet", mark="R")
def test_band_at_160_percent() -> None:
    agrees(band(1.6), (0.25, 50))


@outside("F3", quantity="blade fuse at 2 x", source=f"{BLADE}, quoted from a data sheet", mark="R")
def test_band_at_200_percent() -> None:
    agrees(band(2.0), (0.15, 5))


@outside("F4", quantity="blade fuse at 1.1 x holds 100 h", source=f"{BLADE}, from memory", mark="M")
def test_no_blow_region() -> None:
    agrees(band(1.1), (100 * 3600, np.inf))
    assert band(1.0) == (np.inf, np.inf)


@outside("F5", quantity="blade fuse at 3.5 x, within a factor of 2", source=f"{BLADE}, from memory", mark="M")
def test_band_at_350_percent() -> None:
    shortest, longest = band(3.5)
    within(shortest, 0.02, 0.08, case="shortest time")
    within(longest, 0.25, 1.0, case="longest time")


@outside("F6", quantity="blade fuse at 6 x, within a factor of 2", source=f"{BLADE}, from memory", mark="M")
def test_band_at_600_percent() -> None:
    shortest, longest = band(6.0)
    within(shortest, 0.01, 0.04, case="shortest time")
    within(longest, 0.05, 0.2, case="longest time")


@outside("F9", quantity="fuse resistance from its largest drop", source="ISO 8820-3, form E", mark="R")
def test_resistance_from_the_largest_drop() -> None:
    agrees(fuse_resistance_max([0.125, 0.100], [20, 40]), [6.25e-3, 2.5e-3], rel=1e-7)


@outside("F10", quantity="a fast small fuse is no blade fuse", source="UL 248-14", mark="R")
def test_the_small_glass_fuse_has_another_curve() -> None:
    # fast small fuse: 110 % at least 4 h, 135 % at most 60 min, 200 % at most 2 min
    within(blow_time_min(1.1), 4 * 3600, np.inf, case="1.1 x")
    within(blow_time_max(1.35), 0, 60 * 60, case="1.35 x")
    within(blow_time_max(2.0), 0, 2 * 60, case="2 x")


@outside("F12", quantity="constant I^2 t above the table", source="common practice, no source", mark="T")
@pytest.mark.parametrize("model", [blow_time_min, blow_time_max])
def test_adiabatic_region(model: Callable[..., Any]) -> None:
    agrees(model(6.5) / model(13), 4, rel=0.2)
    agrees(model(20) / model(40), 4)


@outside("F13", quantity="fuse against wire, next size up", source="ABYC E-11, through an article", mark="R")
def test_fuse_against_wire() -> None:
    whole, larger, next_size, too_large = fuse_ratio([20.0, 20.2, 30.0, 30.2], 20)
    agrees([RATIO_MAX, NEXT_SIZE_MAX], [1.0, 1.5])
    assert whole <= RATIO_MAX < larger
    assert next_size <= NEXT_SIZE_MAX
    assert too_large > NEXT_SIZE_MAX


@outside("F14", quantity="a band at every multiple, never one time", source="logic", mark="C")
@given(multiples)
def test_there_is_always_a_band(multiple: float) -> None:
    shortest, longest = band(multiple)
    noted("the longest is twice the shortest, or more", "a band", "logic")
    assert longest >= 2 * shortest  # infinity counts as twice infinity


@outside("F14b", quantity="more current never takes longer", source="logic", mark="C")
@given(multiples, multiples)
def test_both_ends_fall_with_current(one: float, other: float) -> None:
    less, more = sorted((one, other))
    assert blow_time_min(less) >= blow_time_min(more)
    assert blow_time_max(less) >= blow_time_max(more)
    noted("neither end rises with the current", "neither end rises", "logic")


def test_every_row_of_the_tables_is_met() -> None:
    np.testing.assert_allclose(blow_time_min(list(SHORTEST)), list(SHORTEST.values()))
    np.testing.assert_allclose(blow_time_max(list(LONGEST)), list(LONGEST.values()))


def test_halfway_by_hand() -> None:
    # 2 to 3.5 times: the middle in logarithms is sqrt(7), and sqrt(5 * 0.5) s
    assert blow_time_max(np.sqrt(7)) == pytest.approx(np.sqrt(2.5))


def test_shape_and_nan() -> None:
    assert blow_time_min([[1.0, 2.0], [3.0, 4.0]]).shape == (2, 2)
    assert np.isnan(blow_time_max([np.nan, 2.0])).tolist() == [True, False]


@pytest.mark.parametrize(
    ("model", "arguments"),
    [
        *((blow_time_min, {"multiple": multiple}) for multiple in (1.0, 1.1, 1.12, 1.5, 1.9, 3.0, 5.0, 9.0)),
        *((blow_time_max, {"multiple": multiple}) for multiple in (1.0, 1.35, 1.5, 1.9, 3.0, 5.0, 9.0)),
        (fuse_resistance_max, {"voltage_drop": 0.125, "rating": 20}),
        (fuse_ratio, {"rating": 20, "ampacity": 15}),
    ],
)
def test_models_keep_their_promises(model: Callable[..., Any], arguments: dict[str, Any]) -> None:
    assert_keeps_promises(model, arguments)


@pytest.mark.parametrize(
    ("model", "arguments", "says"),
    [
        ("blow_time_min", (-1,), "multiple must be >= 0"),
        ("blow_time_max", (-1,), "multiple must be >= 0"),
        ("fuse_resistance_max", (-0.1, 20), "voltage_drop must be >= 0 V"),
        ("fuse_resistance_max", (0.1, 0), "rating must be > 0 A"),
        ("fuse_ratio", (-1, 20), "rating must be >= 0 A"),
        ("fuse_ratio", (20, 0), "ampacity must be > 0 A"),
    ],
)
def test_impossible_inputs_are_refused_by_name(model: str, arguments: tuple[float, ...], says: str) -> None:
    with pytest.raises(DomainError, match=says):
        getattr(fuse, model)(*arguments)
