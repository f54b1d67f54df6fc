"""Gear trains: ratios, efficiencies, and inertia through them."""

from collections.abc import Callable
from typing import Any

import mujoco
import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from numpy.typing import NDArray
from scipy.optimize import minimize_scalar

from mulewright.errors import DomainError
from mulewright.models.gear import (
    back_driving_efficiency,
    best_ratio_for_acceleration,
    geared_acceleration,
    gearmotor_efficiency,
    reflected_damping,
    reflected_inertia,
    stage_ratio,
    train_efficiency,
    train_ratio,
)
from mulewright.models.inertia import point_inertia
from mulewright.models.joint import needed_torque
from mulewright.models.motor_power import shaft_power
from mulewright.models.moving import slope_force
from mulewright.models.rope import drum_torque
from tests.models.agreement import assert_keeps_promises
from tests.published import agrees, outside

KHURMI = "Khurmi and Gupta, Theory of Machines"


@pytest.mark.parametrize(
    ("model", "arguments"),
    [
        (stage_ratio, {"driver_teeth": 20.0, "driven_teeth": 50.0}),
        (train_ratio, {"ratios": [2.5, 3.0, 2.5]}),
        (train_efficiency, {"efficiencies": [0.9, 0.85]}),
        (gearmotor_efficiency, {"torque_constant": 0.338, "back_emf_constant": 0.542}),
        (back_driving_efficiency, {"efficiency": 0.62}),
        (back_driving_efficiency, {"efficiency": 0.4}),
        (reflected_inertia, {"inertia": 700.0, "speed_ratio": 0.1}),
        (reflected_damping, {"damping": 800.0, "speed_ratio": 0.1}),
        (
            geared_acceleration,
            {"torque": 100.0, "ratio": 4.0, "motor_inertia": 2.0, "load_inertia": 32.0},
        ),
        (best_ratio_for_acceleration, {"motor_inertia": 2.0, "load_inertia": 32.0}),
    ],
)
def test_models_keep_their_promises(
    model: Callable[..., NDArray[np.float64]], arguments: dict[str, Any]
) -> None:
    assert_keeps_promises(model, arguments)


@pytest.mark.parametrize(
    ("call", "says"),
    [
        (lambda: stage_ratio(0, 20), "driver_teeth must be > 0"),
        (lambda: train_ratio([2, -1]), "ratio must be > 0"),
        (lambda: train_efficiency([0.9, 1.1]), "efficiency must be 0 to 1"),
        (lambda: back_driving_efficiency(0), "efficiency must be > 0 and <= 1"),
    ],
)
def test_impossible_inputs_are_refused_by_name(call: Callable[[], object], says: str) -> None:
    with pytest.raises(DomainError, match=says):
        call()


@outside(
    "M15",
    quantity="inertia and damping at the motor",
    source="Nise, Control Systems Engineering, ex. 2.23",
    mark="R",
)
def test_load_seen_by_the_motor() -> None:
    inertia = 5 + reflected_inertia(700, 1 / 10)
    damping = 2 + reflected_damping(800, 1 / 10)
    agrees(inertia, 12)
    agrees(damping, 10)
    torque_per_volt, volts_per_speed = 500 / 100, 100 / 50  # stalled, and free, at 100 V
    agrees(torque_per_volt / inertia / 10, "0.0417")
    agrees((damping + torque_per_volt * volts_per_speed) / inertia, "1.667")


@outside("M16", quantity="torque and power of a haulage motor", source=f"{KHURMI}, ex. 3.4, p. 35", mark="R")
def test_haulage_motor() -> None:
    acceleration, speed, radius, ratio = 0.1, 1.8, 0.5, 40
    rope = slope_force(14_000, np.arcsin(1 / 20), 0) + 14_000 * acceleration + 1200
    agrees(drum_torque(rope, radius), "4733.5")
    spin_up = point_inertia(1250, 0.45) * acceleration / radius
    agrees(spin_up, "50.625")
    load = needed_torque(drum_torque(rope, radius) + spin_up, ratio, 0.85)
    motor = load + point_inertia(110, 0.125) * ratio * acceleration / radius
    agrees(motor, "154.46")
    agrees(shaft_power(motor, ratio * speed / radius) / 1e3, "22.242")


@outside("M18", quantity="best ratio for acceleration", source=f"{KHURMI}, ex. 3.14, p. 51", mark="R")
def test_best_ratio() -> None:
    ratio = best_ratio_for_acceleration(2, 32)
    agrees(ratio, 4)
    agrees(geared_acceleration(100, ratio, 2, 32), 6.25)
    agrees(ratio * geared_acceleration(100, ratio, 2, 32), 25)


@given(motor=st.floats(1e-6, 1e-2), load=st.floats(1e-3, 10))
def test_an_optimiser_finds_the_same_ratio(motor: float, load: float) -> None:
    found = minimize_scalar(lambda log: -float(geared_acceleration(1, np.exp(log), motor, load)), (0, 1))
    assert best_ratio_for_acceleration(motor, load) == pytest.approx(np.exp(found.x), rel=1e-5)


@outside("M20", quantity="speed after three gear pairs", source=f"{KHURMI}, ex. 13.1, p. 432", mark="R")
def test_three_pairs() -> None:
    ratio = train_ratio([stage_ratio(20, 50), stage_ratio(25, 75), stage_ratio(26, 65)])
    agrees(975 / ratio, 52)


@outside(
    "M24",
    quantity="efficiency of three stages",
    source="Boylestad, Introductory Circuit Analysis, ex. 4.14",
    mark="R",
)
def test_three_stages() -> None:
    agrees(train_efficiency([0.40, 0.85, 0.95]), 0.323)


@outside(
    "P4", quantity="acceleration with a rotor behind 20:1", source="computed independently (MuJoCo)", mark="C"
)
def test_rotor_inertia_is_what_a_physics_engine_calls_armature() -> None:
    model = mujoco.MjModel.from_xml_string(
        """<mujoco><option gravity="0 0 0"/><worldbody><body>
        <joint name="j" type="hinge" axis="0 0 1" armature="0.008"/>
        <inertial pos="0 0 0" mass="1" diaginertia="0.01 0.01 0.01"/>
        </body></worldbody></mujoco>"""
    )
    data = mujoco.MjData(model)
    data.qfrc_applied[0] = 1.0
    mujoco.mj_forward(model, data)
    agrees(reflected_inertia(2e-5, 20), 0.008)
    # 1 N m at the joint is 0.05 N m at the rotor
    agrees(geared_acceleration(0.05, 20, 2e-5, 0.01), data.qacc[0], rel=1e-9)
    agrees(data.qacc[0], "55.5556")


def test_a_train_without_stages_changes_nothing() -> None:
    assert train_ratio([]) == 1
    assert train_efficiency([]) == 1


def test_a_train_with_one_stage_that_its_load_cannot_drive_is_not_driven() -> None:
    assert train_efficiency([0.9, back_driving_efficiency(0.4)]) == 0


def test_backwards_the_friction_torque_stays_the_same() -> None:
    # by hand at 0.8: of 1 N m out, 0.25 N m is lost; from 1 N m driven back 0.75 N m is left
    assert back_driving_efficiency([0.8, 0.5, 0.3]) == pytest.approx([0.75, 0, 0])
