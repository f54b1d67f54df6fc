"""Links between battery and load: shared currents, margins, sprockets, heat."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np
import pytest

from mulewright.errors import DomainError
from mulewright.models.chain import (
    current_for_heat,
    held_fast_ratio,
    load_margin,
    sprocket_radius,
    torque_at_draw,
)
from tests.published import agrees, as_printed, outside


def test_one_motor_gives_what_is_left_of_the_current() -> None:
    # (10 - 0.9) A at 0.471 N m/A
    assert torque_at_draw(10.0, [0.9], [1 / 0.471]) == pytest.approx(4.2861)


def test_several_motors_share_a_current_by_what_they_draw() -> None:
    # 12 A, of which 1 A turns bare shafts; 2 + 3 A for each newton metre of both
    assert torque_at_draw(12.0, [0.6, 0.4], [2.0, 3.0]) == pytest.approx(2.2)


def test_a_current_below_the_free_one_turns_nothing() -> None:
    assert torque_at_draw([0.0, 0.5, 1.0], [1.0], [2.0]) == pytest.approx([0, 0, 0])


def test_the_margin_of_nothing_is_without_bound() -> None:
    assert load_margin(8.0, 7.39) == as_printed("1.08")
    assert load_margin([8.0, 8.0, np.nan], [4.0, 0.0, 2.0]) == pytest.approx([2, np.inf, np.nan], nan_ok=True)
    assert np.isnan(load_margin(8.0, np.nan))


@outside(
    "A22",
    quantity="pitch diameter of a sprocket of 1/2 inch pitch and 15 teeth",
    source="ANSI/ASME B29.1, pitch diameter = pitch / sin(180 deg / teeth); table value from memory",
    mark="M",
)
def test_pitch_circle_of_a_sprocket() -> None:
    agrees(2 * sprocket_radius(0.5, 15), "2.405")


def test_a_polygon_of_six_has_the_side_for_its_radius() -> None:
    assert sprocket_radius(8e-3, 6) == pytest.approx(8e-3)


def test_heat_and_its_current_belong_together() -> None:
    current = current_for_heat([0.0, 4.0], 2.0)
    assert current**2 * 2.0 == pytest.approx([0, 4])


@pytest.mark.parametrize(
    ("call", "says"),
    [
        (lambda: torque_at_draw(1.0, [0.1], []), "per_torque"),
        (lambda: torque_at_draw(1.0, [0.1], [0.0]), "per_torque"),
        (lambda: load_margin(-1.0, 1.0), "limit"),
        (lambda: sprocket_radius(8e-3, 2), "teeth"),
        (lambda: current_for_heat(-1.0, 1.0), "power"),
    ],
)
def test_impossible_inputs_are_refused_by_name(call: Callable[[], object], says: str) -> None:
    with pytest.raises(DomainError, match=says):
        call()


def test_the_weakest_that_breaks_is_held_against_the_first_that_yields() -> None:
    # a gearbox of 8 and a rope of 12 against a stall of 10 and a grip of 16
    assert held_fast_ratio([8.0, 12.0], [10.0, 16.0]) == pytest.approx(0.8)
    assert held_fast_ratio([np.inf], [[10.0, 20.0]]).tolist() == [np.inf, np.inf]
    with pytest.raises(DomainError, match="yielding must be > 0"):
        held_fast_ratio([8.0], [0.0])
