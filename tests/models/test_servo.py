"""Servos under load."""

from collections.abc import Callable
from typing import Any

import numpy as np
import pytest
from numpy.typing import NDArray

from mulewright.errors import DomainError
from mulewright.models.servo import servo_free_speed, share_needed
from tests.models.agreement import assert_keeps_promises

FAST = {"transit": 0.16 / (np.pi / 3), "voltage": 5.0, "rated_voltage": 6.0}


@pytest.mark.parametrize(
    ("model", "arguments"),
    [
        (servo_free_speed, FAST),
        (share_needed, {"needed": 0.3, "available": 0.5}),
        (share_needed, {"needed": 0.7, "available": 0.5}),
    ],
)
def test_models_keep_their_promises(
    model: Callable[..., NDArray[np.float64]], arguments: dict[str, Any]
) -> None:
    assert_keeps_promises(model, arguments)


def test_sixty_degrees_in_the_time_of_the_sheet_and_longer_on_fewer_volts() -> None:
    # by hand: 60 degrees in 0.16 s are 6.545 rad/s at 6 V, five sixths of it at 5 V
    assert servo_free_speed(**FAST | {"voltage": 6.0}) == pytest.approx(6.545, abs=5e-4)
    assert servo_free_speed(**FAST) == pytest.approx(6.545 * 5 / 6, abs=5e-4)


def test_nothing_left_is_an_unlimited_share() -> None:
    assert share_needed([0.1, 0.0, 0.2], [0.0, 0.0, 0.4]).tolist() == [np.inf, np.inf, 0.5]


@pytest.mark.parametrize("bad", [{"transit": 0.0}, {"rated_voltage": 0.0}, {"voltage": -1.0}])
def test_impossible_servos_are_refused(bad: dict[str, float]) -> None:
    with pytest.raises(DomainError, match=next(iter(bad))):
        servo_free_speed(**FAST | bad)
