"""Mistakes that were met in sources: each is repeated here on purpose, and the models do not make it."""

from __future__ import annotations

import modern_robotics
import numpy as np
import pytest

from mulewright.checks import CHECKS
from mulewright.checks.engine import Severity
from mulewright.models.joint import counterbalance_angle
from mulewright.models.motor import back_emf, current_at_speed
from mulewright.models.motor_power import no_load_loss
from mulewright.shelf.tables import default
from tests.published import agrees, noted, outside, within

RPM = 2 * np.pi / 60  # [rad/s]
FITZGERALD_7_9 = "Fitzgerald, Kingsley and Umans, Electric Machinery, ex. 7.9"


@outside(
    "T0.2",
    quantity="power at 1700 rpm by a rounded over by an exact constant",
    source=FITZGERALD_7_9,
    mark="R",
)
def test_a_constant_rounded_on_the_way_moves_the_power_by_three_per_cent() -> None:
    exact = (50 - 1.25 * 1.03) / (2100 * RPM)
    powers = []
    for constant in (0.22, exact):
        current = current_at_speed(1, 48, 1700 * RPM, constant, 1.03)
        powers.append(back_emf(48, current, 1.03) * current - no_load_loss(50, 1.25, 1.03))
    agrees(powers[0] / powers[1], 275.05 / 267.06, rel=1e-3)


@outside(
    "T0.8",
    quantity="counterbalance: sine of radians, not of degrees",
    source="Beer and Johnston, Vector Mechanics for Engineers, sample problem 10.4",
    mark="R",
)
def test_a_sine_of_degrees_finds_no_second_root() -> None:
    angle = counterbalance_angle(10, 0.3, 4000, 0.08)
    agrees(angle, "0.9018")
    mistaken = np.linspace(0.01, np.pi, 1000)
    assert np.all(np.sin(np.radians(mistaken)) < 0.86986 * mistaken)
    noted("no root above 0 with a sine of degrees", "about 0 in a copy of it", "as said", case="the mistake")


@outside(
    "T0.9",
    quantity="standard deviation of 1001 numbers near 1e7",
    source="NIST StRD, data set NumAcc4",
    mark="R",
)
def test_a_variance_in_one_pass_loses_every_digit() -> None:
    numbers = np.array([10000000.2, *([10000000.1, 10000000.3] * 500)])
    agrees(np.std(numbers, ddof=1), 0.1, rel=1e-7)
    one_pass = np.sum(numbers**2) - numbers.size * np.mean(numbers) ** 2
    assert one_pass / (numbers.size - 1) != pytest.approx(0.01, rel=0.5)


@outside(
    "A3",
    quantity="gravity torques of a three-joint arm: the program that other values are compared with",
    source="modern_robotics, docstring of GravityForces",
    mark="R",
)
def test_the_program_for_comparison_gives_its_own_example() -> None:
    frames = np.array(
        [
            [[1, 0, 0, 0], [0, 1, 0, 0], [0, 0, 1, 0.089159], [0, 0, 0, 1]],
            [[0, 0, 1, 0.28], [0, 1, 0, 0.13585], [-1, 0, 0, 0], [0, 0, 0, 1]],
            [[1, 0, 0, 0], [0, 1, 0, -0.1197], [0, 0, 1, 0.395], [0, 0, 0, 1]],
            [[1, 0, 0, 0], [0, 1, 0, 0], [0, 0, 1, 0.14225], [0, 0, 0, 1]],
        ]
    )
    inertias = np.array(
        [
            np.diag([0.010267, 0.010267, 0.00666, 3.7, 3.7, 3.7]),
            np.diag([0.22689, 0.22689, 0.0151074, 8.393, 8.393, 8.393]),
            np.diag([0.0494433, 0.0494433, 0.004095, 2.275, 2.275, 2.275]),
        ]
    )
    axes = np.array([[1, 0, 1, 0, 1, 0], [0, 1, 0, -0.089, 0, 0], [0, 1, 0, -0.089, 0, 0.425]]).T
    angles, gravity = np.array([0.1, 0.1, 0.1]), np.array([0, 0, -9.8])
    torques = modern_robotics.GravityForces(angles, gravity, frames, inertias, axes)
    agrees(torques, [28.40331262, -37.64094817, -5.4415892], abs=1e-8)


# --- defaults within what others found


@outside(
    "K20",
    quantity="grip of rubber, sliding to standing",
    source="Serway, Physics for Scientists and Engineers; others 0.6 to 1.0",
    mark="R",
)
@pytest.mark.parametrize("floor", ["hard-rubber-on-wood", "soft-rubber-on-carpet"])
def test_assumed_grip_is_that_of_rubber_on_a_dry_floor(floor: str) -> None:
    within(default(f"friction.{floor}").value, 0.6, 1.0)


@outside(
    "K23",
    quantity="rolling resistance, good road to loose sand",
    source="Marks' Standard Handbook for Mechanical Engineers (0.008); others to 0.4",
    mark="R",
)
def test_assumed_rolling_resistance_lies_between_a_road_and_sand() -> None:
    within(default("rolling_resistance").value, 0.008, 0.4)


@outside(
    "W24",
    quantity="drop of voltage that is borne: critical, other feeders",
    source="ABYC E-11, through an article",
    mark="R",
)
def test_drops_that_are_warned_of_lie_between_the_classes_of_small_craft() -> None:
    limits = CHECKS["P26"].limits
    agrees(limits[Severity.STOP].quantity.value, 0.10, case="stop")
    within(limits[Severity.WARN].quantity.value, 0.03, 0.10, case="warn")
