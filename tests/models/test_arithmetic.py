"""Sums, shares and tables, by hand."""

from collections.abc import Callable
from typing import Any

import numpy as np
import pytest
from numpy.typing import NDArray

from mulewright.errors import DomainError
from mulewright.models.arithmetic import (
    deviation,
    difference,
    magnitude,
    outside_range,
    product,
    quotient,
    relative_spread,
)
from tests.models.agreement import assert_keeps_promises


@pytest.mark.parametrize(
    ("model", "arguments"),
    [
        (product, {"first": 2.0, "second": 3.0}),
        (quotient, {"part": 2.0, "whole": 3.0}),
        (difference, {"first": 2.0, "second": 3.0}),
        (magnitude, {"value": -2.0}),
        (deviation, {"value": 0.85, "reference": 1.0}),
        (outside_range, {"value": 0.1, "low": 0.15, "high": 0.95}),
        (outside_range, {"value": 1.2, "low": 0.15, "high": 0.95}),
        (relative_spread, {"values": [20.0, 23.0, 21.0]}),
    ],
)
def test_models_keep_their_promises(
    model: Callable[..., NDArray[np.float64]], arguments: dict[str, Any]
) -> None:
    assert_keeps_promises(model, arguments)


def test_by_hand() -> None:
    assert deviation([0.8, 1.2], 1).tolist() == pytest.approx([0.2, 0.2])
    assert relative_spread([20, 23, 21]) == pytest.approx(0.15)
    # half of the lower end, in the range, twice the upper end
    assert outside_range([0.1, 0.4, 1.0], 0.2, 0.5).tolist() == pytest.approx([2, 0.8, 2])


def test_impossible_inputs_are_refused_by_name() -> None:
    with pytest.raises(DomainError, match="whole must not be 0"):
        quotient(1, 0)
    with pytest.raises(DomainError, match="value must be > 0"):
        outside_range(0, 1, 2)
