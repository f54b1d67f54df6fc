"""Friction of ropes and belts on round things: textbook examples."""

from collections.abc import Callable
from typing import Any

import numpy as np
import pytest
from numpy.typing import NDArray

from mulewright.errors import DomainError
from mulewright.models.constants import GRAVITY
from mulewright.models.rope_friction import (
    belt_power,
    friction_from_tensions,
    groove_friction,
    slack_tension,
    tight_tension,
)
from tests.models.agreement import assert_keeps_promises
from tests.published import agrees, outside

TURN = 2 * np.pi  # [rad]


@pytest.mark.parametrize(
    ("model", "arguments"),
    [
        (slack_tension, {"tight": 981.0, "friction": 0.2, "wrap": 4.7}),
        (tight_tension, {"slack": 150.0, "friction": 0.3, "wrap": 12.6}),
        (friction_from_tensions, {"tight": 7500.0, "slack": 150.0, "wrap": 12.6}),
        (groove_friction, {"friction": 0.25, "half_angle": 0.314}),
        (belt_power, {"tight": 2500.0, "slack": 1240.0, "speed": 6.28}),
    ],
)
def test_models_keep_their_promises(
    model: Callable[..., NDArray[np.float64]], arguments: dict[str, Any]
) -> None:
    assert_keeps_promises(model, arguments)


@outside("A10", quantity="rope over three quarters of a turn", source="common practice, no source", mark="T")
def test_three_quarters_of_a_turn() -> None:
    agrees(slack_tension(100 * GRAVITY, 0.2, 3 * np.pi / 2), "382.26")


@outside(
    "A11",
    quantity="friction from two turns, then three turns",
    source="Beer and Johnston, Vector Mechanics for Engineers: Statics, sample problem 8.7",
    mark="R",
)
def test_fit_then_predict() -> None:
    friction = friction_from_tensions(7500, 150, 2 * TURN)
    agrees(friction, "0.311309")
    agrees(tight_tension(150, friction, 3 * TURN), "53033.0")


@outside("A14", quantity="pull after two and a half turns", source="common practice, no source", mark="T")
def test_two_and_a_half_turns() -> None:
    held = slack_tension(2000, 0.25, 2.5 * TURN)
    agrees(held, "39.41")
    agrees(held, 40, rel=0.02)
    assert tight_tension(held, 0.25, 2.5 * TURN) == pytest.approx(2000)


@outside("A15", quantity="gain of an 18 degree groove", source="common practice, no source", mark="T")
def test_groove() -> None:
    agrees(groove_friction(1, np.radians(18)), "3.236")
    assert groove_friction(0.3, np.pi / 2) == pytest.approx(0.3)  # flat


@outside(
    "A16",
    quantity="power of a flat belt",
    source="Khurmi and Gupta, Theory of Machines, ex. 11.4, p. 342",
    mark="R",
)
def test_belt() -> None:
    speed = np.pi * 0.6 * 200 / 60  # 600 mm at 200 rpm
    slack = slack_tension(2500, 0.25, np.radians(160))
    agrees(belt_power(2500, slack, speed) / 1e3, "7.89")


@pytest.mark.parametrize(
    ("call", "says"),
    [
        (lambda: friction_from_tensions(10, 20, 1), "tight must be at least the slack pull"),
        (lambda: groove_friction(0.3, 0), "half_angle must be > 0"),
        (lambda: slack_tension(10, -0.1, 1), "friction must be >= 0"),
    ],
)
def test_impossible_inputs_are_refused_by_name(call: Callable[[], object], says: str) -> None:
    with pytest.raises(DomainError, match=says):
        call()
