"""Senses against matrices, and what is left of a command, worked by hand."""

from collections.abc import Callable
from itertools import product
from typing import Any

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from numpy.typing import NDArray

from mulewright.errors import DomainError
from mulewright.models.mixing import TWO_SIDE, clipped, largest_command, mixed
from mulewright.models.senses import (
    chain_product,
    position_deviation,
    relative_sense,
    share_let_through,
    turned_round,
    worst_sense,
)
from tests.models.agreement import assert_keeps_promises

SIGNS = (1.0, -1.0)


@pytest.mark.parametrize(
    ("model", "arguments", "fixed"),
    [
        (chain_product, {"factors": [0.9, -1.0, 0.7]}, ()),
        (relative_sense, {"value": -3e-4, "wanted": -1.0, "nothing": 0.0}, ("nothing",)),
        (worst_sense, {"own": -1.0, "senses": [1.0, -1.0]}, ()),
        (turned_round, {"sense": -1.0}, ()),
        (share_let_through, {"command": 2.4}, ()),
        (position_deviation, {"command": -0.5, "upward": 4e-4, "downward": 3e-4}, ()),
    ],
)
def test_models_keep_their_promises(
    model: Callable[..., NDArray[np.float64]], arguments: dict[str, Any], fixed: tuple[str, ...]
) -> None:
    assert_keeps_promises(model, arguments, fixed)


@pytest.mark.parametrize("signs", list(product(SIGNS, repeat=4)))
def test_a_chain_of_senses_is_the_matrix_product_of_its_links(signs: tuple[float, ...]) -> None:
    links = np.linalg.multi_dot([np.diag([sign, sign]) for sign in signs])
    assert chain_product(signs) == links[0, 0]


def test_nothing_in_a_chain_changes_nothing() -> None:
    assert chain_product([]) == 1


@pytest.mark.parametrize(("own", "senses"), list(product(SIGNS, product(SIGNS, repeat=3))))
def test_worst_sense_is_the_smallest_after_the_last_link(own: float, senses: tuple[float, ...]) -> None:
    assert worst_sense(own, senses) == min(own * sense for sense in senses)


def test_no_pulse_has_the_sense_that_the_caller_says() -> None:
    np.testing.assert_array_equal(relative_sense([0.0, 2.0, -2.0], 1, -1), [-1, 1, -1])
    np.testing.assert_array_equal(relative_sense([0.0, 2.0, -2.0], -1, 0), [0, -1, 1])


def test_only_the_wanted_sense_is_not_turned_round() -> None:
    np.testing.assert_array_equal(turned_round([1.0, 0.0, -1.0]), [0, 1, 1])


@given(commands=st.lists(st.floats(0, 3), min_size=1, max_size=4))
def test_share_let_through_is_what_clipping_leaves(commands: list[float]) -> None:
    asked = largest_command(commands)
    assert share_let_through(asked) * asked == pytest.approx(float(clipped(asked, 1)))


def test_share_let_through_refuses_a_size_below_nothing() -> None:
    with pytest.raises(DomainError, match="command must be >= 0"):
        share_let_through(-0.1)


def test_position_of_a_switch_uses_the_end_on_its_side() -> None:
    # by hand: 60 % of 400 us up, 60 % of 300 us down, nothing in the middle
    pulses = position_deviation([0.6, -0.6, 0.0], 400e-6, 300e-6)
    np.testing.assert_allclose(pulses, [240e-6, -180e-6, 0], atol=1e-18)


def test_two_mixes_in_a_row_leave_one_side_without_a_sense() -> None:
    twice = mixed(TWO_SIDE, mixed(TWO_SIDE, [1, 0]))
    np.testing.assert_array_equal(relative_sense(twice, 1, -1), [1, -1])
