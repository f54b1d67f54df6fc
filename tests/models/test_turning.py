"""Sideways acceleration in the worst turn, against circles worked by hand and a search over all stick positions."""

import numpy as np
import pytest

from mulewright.errors import DomainError
from mulewright.models.kinematics import cart_speed, cart_yaw_rate
from mulewright.models.turning import turning_acceleration
from tests.published import agrees, outside


@outside(
    "K30",
    quantity="sideways acceleration about a standing inner wheel",
    source="speed squared over radius, by hand",
    mark="C",
)
def test_a_cart_that_turns_about_its_inner_wheel() -> None:
    # rims at 1.0 m/s, track 0.30 m: the middle goes 0.5 m/s on a circle of 0.15 m: 0.25 / 0.15
    agrees(turning_acceleration(1.0, 1.0, 1.0, 0.15), 0.25 / 0.15)


def searched(forward: float, turn: float, limit: float, track: float) -> float:
    """The largest of speed times yaw rate over a grid of sticks, each side cut off by itself."""
    ahead, around = np.meshgrid(np.linspace(0, forward, 401), np.linspace(0, turn, 401))
    left, right = np.clip(ahead + around, -limit, limit), np.clip(ahead - around, -limit, limit)
    speed, yaw = cart_speed(left, right, 1.0), cart_yaw_rate(left, right, 1.0, track)
    return float(np.max(np.abs(speed * yaw)))


@outside(
    "K31",
    quantity="sideways acceleration in the worst turn",
    source="computed independently (numpy, search over all stick positions)",
    mark="C",
)
@pytest.mark.parametrize(
    ("forward", "turn", "limit"),
    [(1.0, 1.0, 1.0), (0.4, 0.4, 1.0), (1.0, 0.3, 1.0), (0.3, 1.0, 1.0), (0.8, 0.5, 0.9), (0.2, 0.1, 1.0)],
)
def test_no_stick_position_is_worse(forward: float, turn: float, limit: float) -> None:
    found = turning_acceleration(forward, turn, limit, 0.3 / 2)
    agrees(found, searched(forward, turn, limit, 0.3), rel=1e-3)


def test_a_drive_that_cannot_turn_has_none() -> None:
    assert turning_acceleration(1.0, [0.0, -0.2], 1.0, 0.15) == pytest.approx([0.0, 0.0])
    assert turning_acceleration(-0.1, 1.0, 1.0, 0.15) == 0


def test_unknown_stays_unknown_and_nonsense_is_refused() -> None:
    assert np.isnan(turning_acceleration(np.nan, 1.0, 1.0, 0.15))
    with pytest.raises(DomainError, match="lever"):
        turning_acceleration(1.0, 1.0, 1.0, 0.0)
