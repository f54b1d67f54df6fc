"""Arms against gravity: closed forms, two general robotics programs, and a textbook's balance."""

from collections.abc import Callable
from typing import Any

import modern_robotics as robotics
import mujoco
import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from numpy.typing import NDArray
from scipy.optimize import brentq

from mulewright.errors import DomainError
from mulewright.models.constants import GRAVITY
from mulewright.models.joint import (
    counterbalance_angle,
    counterbalance_stiffness,
    gravity_torque,
    needed_torque,
    safety_factor,
    swing_energy,
)
from tests.models.agreement import assert_keeps_promises
from tests.published import agrees, as_printed, outside

BALANCE = {"mass": 10.0, "arm": 0.3, "stiffness": 4000.0, "radius": 0.08}


@pytest.mark.parametrize(
    ("model", "arguments"),
    [
        (gravity_torque, {"masses": [1.2, 1.0], "arms": [0.3, 0.6], "angle": 0.4}),
        (needed_torque, {"torque": 9.42, "ratio": 1.5, "efficiency": 0.85}),
        (safety_factor, {"available": 12.1, "needed": 9.4}),
        (swing_energy, {"level_torque": 9.42, "lowest": -0.4, "highest": 1.1}),
        (swing_energy, {"level_torque": 9.42, "lowest": -2.0, "highest": 3.0}),
        (counterbalance_angle, BALANCE),
        (counterbalance_angle, BALANCE | {"stiffness": 8000.0}),
        (counterbalance_stiffness, BALANCE | {"angle": 0.9}),
    ],
)
def test_models_keep_their_promises(
    model: Callable[..., NDArray[np.float64]], arguments: dict[str, Any]
) -> None:
    assert_keeps_promises(model, arguments)


ARM = """<mujoco><option gravity="0 0 -9.81"/><worldbody><body>
    <joint type="hinge" axis="0 -1 0"/>
    <geom type="sphere" size="0.01" mass="0.5" pos="0.30 0 0"/>
    <geom type="sphere" size="0.01" mass="0.2" pos="0.15 0 0"/>
    </body></worldbody></mujoco>"""


@outside("A1", quantity="gravity torque of an arm", source="computed independently (MuJoCo)", mark="C")
@pytest.mark.parametrize(
    ("degrees", "newton_metres"), [(0, "1.7658"), (30, "1.52923"), (60, "0.88290"), (90, "0.0000")]
)
def test_arm_equals_a_physics_engine(degrees: float, newton_metres: str) -> None:
    torque = gravity_torque([0.5, 0.2], [0.30, 0.15], np.radians(degrees))
    agrees(torque, newton_metres)
    model = mujoco.MjModel.from_xml_string(ARM)
    data = mujoco.MjData(model)
    data.qpos[0] = np.radians(degrees)
    mujoco.mj_forward(model, data)
    agrees(torque, data.qfrc_bias[0], abs=1e-9)


def shifted(x: float) -> NDArray[np.float64]:
    """A frame moved along x."""
    frame = np.eye(4)
    frame[0, 3] = x
    return frame


@outside(
    "A2", quantity="gravity torques of two links", source="computed independently (modern_robotics)", mark="C"
)
@pytest.mark.parametrize(
    ("angles", "shoulder", "elbow"),
    [
        ((0.0, 0.0), "6.5727", "1.4715"),
        ((0.5, -0.3), "5.91889", "1.44217"),
        ((1.2, 0.4), "1.80549", "-0.04297"),
    ],
)
def test_two_links_from_two_single_arms(angles: tuple[float, float], shoulder: str, elbow: str) -> None:
    upper, lower, at_elbow, at_hand = 0.4, 0.3, 0.8, 0.5
    at_joint_2 = gravity_torque([at_hand], [lower], sum(angles))
    at_joint_1 = gravity_torque([at_elbow, at_hand], [upper, upper], angles[0]) + at_joint_2
    agrees(at_joint_1, shoulder)
    agrees(at_joint_2, elbow)
    expected = robotics.GravityForces(
        np.array(angles),
        np.array([0, -GRAVITY, 0]),
        np.array([shifted(upper), shifted(lower), np.eye(4)]),
        np.array([np.diag([0, 0, 0] + [at_elbow] * 3), np.diag([0, 0, 0] + [at_hand] * 3)]),
        np.array([[0, 0, 1, 0, 0, 0], [0, 0, 1, 0, -upper, 0]], dtype=float).T,
    )
    agrees([at_joint_1, at_joint_2], list(expected), abs=1e-9)


def test_the_robotics_program_gives_its_own_printed_example() -> None:
    # Lynch and Park, Modern Robotics: three joints of an arm, as printed with the function
    frames = [
        [[1, 0, 0, 0], [0, 1, 0, 0], [0, 0, 1, 0.089159], [0, 0, 0, 1]],
        [[0, 0, 1, 0.28], [0, 1, 0, 0.13585], [-1, 0, 0, 0], [0, 0, 0, 1]],
        [[1, 0, 0, 0], [0, 1, 0, -0.1197], [0, 0, 1, 0.395], [0, 0, 0, 1]],
        [[1, 0, 0, 0], [0, 1, 0, 0], [0, 0, 1, 0.14225], [0, 0, 0, 1]],
    ]
    bodies = [
        np.diag([0.010267, 0.010267, 0.00666, 3.7, 3.7, 3.7]),
        np.diag([0.22689, 0.22689, 0.0151074, 8.393, 8.393, 8.393]),
        np.diag([0.0494433, 0.0494433, 0.004095, 2.275, 2.275, 2.275]),
    ]
    screws = np.array([[1, 0, 1, 0, 1, 0], [0, 1, 0, -0.089, 0, 0], [0, 1, 0, -0.089, 0, 0.425]]).T
    torques = robotics.GravityForces(
        np.array([0.1, 0.1, 0.1]), np.array([0, 0, -9.8]), np.array(frames), np.array(bodies), screws
    )
    assert list(torques) == [as_printed(text) for text in ("28.40331262", "-37.64094817", "-5.4415892")]


@outside(
    "A5",
    quantity="balance of a spring and a leaning mass",
    source="Beer and Johnston, Vector Mechanics for Engineers: Statics, sample problem 10.4",
    mark="R",
)
def test_counterbalance_in_radians() -> None:
    angle = counterbalance_angle(**BALANCE)
    agrees(angle, "0.90182")
    agrees(np.degrees(angle), "51.67")  # a sine of degrees would put the root at zero
    agrees(np.sin(angle) / angle, "0.86986")
    agrees(angle, brentq(lambda x: 25.6 * x - 10 * GRAVITY * 0.3 * np.sin(x), 0.5, 3), abs=1e-12)
    assert counterbalance_stiffness(angle, **BALANCE) > 0
    assert counterbalance_stiffness(0, **BALANCE) < 0  # upright is a balance too, but falls away


def test_a_stiff_spring_keeps_the_arm_upright() -> None:
    angles = counterbalance_angle(10, 0.3, [4000, 4598, 4599, 8000], 0.08)  # by hand: 29.43 / 0.0064 = 4598.4
    assert (angles > 0).tolist() == [True, True, False, False]
    assert counterbalance_stiffness(0, 10, 0.3, 4599, 0.08) > 0


@given(lowest=st.floats(-4.7, 4.5), sweep=st.floats(0, 6))
def test_energy_of_a_swing_is_that_between_its_highest_and_lowest_point(lowest: float, sweep: float) -> None:
    highest = min(lowest + sweep, 4.7)
    way = np.sin(np.linspace(lowest, highest, 20_001))
    assert swing_energy(2.0, lowest, highest) == pytest.approx(2.0 * (way.max() - way.min()), abs=1e-6)


def test_energy_of_a_swing_by_hand() -> None:
    # 1.2 kg at 0.30 m and 1.0 kg at 0.60 m, from level to hanging: 9.81 * (0.36 + 0.60) = 9.42 J
    level = gravity_torque([1.2, 1.0], [0.3, 0.6], 0)
    assert swing_energy(level, -np.pi / 2, 0) == as_printed("9.42")
    assert swing_energy(level, -np.pi / 2, np.pi) == pytest.approx(2 * level)


def test_impossible_inputs_are_refused_by_name() -> None:
    with pytest.raises(DomainError, match="highest must be from lowest to 270 degrees"):
        swing_energy(1, 0.5, 0.4)
    with pytest.raises(DomainError, match="lowest must be >= -270 degrees"):
        swing_energy(1, -5.0, 3.0)
    with pytest.raises(DomainError, match="arms must be one for each of the 2 masses"):
        gravity_torque([1, 2], [0.3], 0)
    with pytest.raises(DomainError, match="mass must be >= 0 kg"):
        gravity_torque([1, -2], [0.3, 0.4], 0)
    with pytest.raises(DomainError, match="efficiency must be > 0 and <= 1"):
        needed_torque(1, 1, 1.2)
