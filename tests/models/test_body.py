"""Weight on wheels and tipping: hand sums, and a physics engine that tips a block."""

from collections.abc import Callable
from typing import Any

import mujoco
import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from numpy.typing import NDArray

from mulewright.errors import DomainError
from mulewright.models.body import (
    axle_load,
    centre_height_by_tilting,
    combined_centre,
    lateral_acceleration,
    slope_ratio,
    static_margin,
    tip_ratio,
    tipping_acceleration,
    tipping_slope,
)
from mulewright.models.constants import GRAVITY
from tests.models.agreement import assert_keeps_promises
from tests.published import agrees, as_printed, outside


@pytest.mark.parametrize(
    ("model", "arguments"),
    [
        (combined_centre, {"masses": [8.0, 1.2, 1.0], "positions": [0.0, 0.35, 0.65]}),
        (axle_load, {"mass": 6.0, "lever": 0.14, "wheelbase": 0.22}),
        (static_margin, {"edge": 0.13, "centre": 0.105, "half_base": 0.13}),
        (tipping_acceleration, {"distance": 0.12, "height": 0.15}),
        (tipping_slope, {"distance": 0.12, "height": 0.15}),
        (slope_ratio, {"slope": 0.2, "distance": 0.12, "height": 0.15}),
        (tip_ratio, {"acceleration": 5.0, "tipping": 11.2}),
        (lateral_acceleration, {"speed": -1.5, "turn_rate": 2.0}),
        (
            centre_height_by_tilting,
            {"load_change": 3.0, "wheelbase": 0.22, "mass": 6.0, "slope": 0.2, "wheel_radius": 0.05},
        ),
    ],
)
def test_models_keep_their_promises(
    model: Callable[..., NDArray[np.float64]], arguments: dict[str, Any]
) -> None:
    assert_keeps_promises(model, arguments)


def test_slope_ratio_is_one_on_the_slope_that_tips() -> None:
    assert slope_ratio(tipping_slope(0.12, 0.15), 0.12, 0.15) == pytest.approx(1)
    assert slope_ratio(0, 0.12, 0.15) == 0
    with pytest.raises(DomainError, match="slope must be level to less than upright"):
        slope_ratio(1.6, 0.12, 0.15)


@outside("K19b", quantity="acceleration that lifts the front wheels", source="moments, from memory", mark="M")
def test_front_wheels_lift() -> None:
    agrees(tipping_acceleration(0.12, 0.15), "7.848")


def test_a_physics_engine_tips_at_that_acceleration() -> None:
    # a box 0.2 m long and 0.25 m high, on a floor that it cannot slide on, pushed by a field along x
    limit = float(tipping_acceleration(0.1, 0.125))

    def turned(acceleration: float) -> float:
        model = mujoco.MjModel.from_xml_string(
            f"""<mujoco><option gravity="{-acceleration} 0 -{GRAVITY}" timestep="0.001" cone="elliptic"
            impratio="10"/><default><geom friction="3 0 0" condim="3" solimp="0.99 0.999 0.0001"/></default>
            <worldbody><geom type="plane" size="5 5 1"/><body pos="0 0 0.125"><freejoint/>
            <geom type="box" size="0.1 0.1 0.125" mass="2"/></body></worldbody></mujoco>"""
        )
        data = mujoco.MjData(model)
        mujoco.mj_step(model, data, nstep=1000)
        return float(abs(2 * np.arcsin(data.qpos[5])))  # [rad] about the y axis

    assert turned(0.97 * limit) < 0.01
    assert turned(1.03 * limit) > 0.05


def test_scales_under_two_axles() -> None:
    # by hand: 6 kg, centre 80 mm ahead of the rear axle, wheels 220 mm apart
    front, rear = axle_load(6, 0.08, 0.22), axle_load(6, 0.14, 0.22)
    assert front + rear == pytest.approx(6 * GRAVITY)
    assert rear == as_printed("37.46")
    assert combined_centre([front, rear], [0.22, 0]) == pytest.approx(0.08)
    assert axle_load(6, -0.01, 0.22) < 0


@given(
    height=st.floats(0.06, 0.4), ahead=st.floats(0.02, 0.2), slope=st.floats(0.05, 0.5), mass=st.floats(1, 20)
)
def test_height_from_tilting_by_moments(height: float, ahead: float, slope: float, mass: float) -> None:
    wheelbase, wheel = 0.25, 0.05
    # moments about the rear axle, the front one lowered: the centre moves forwards as it leans
    above = height - wheel
    level = mass * GRAVITY * ahead / wheelbase
    tilted = mass * GRAVITY * (ahead * np.cos(slope) + above * np.sin(slope)) / (wheelbase * np.cos(slope))
    found = centre_height_by_tilting(tilted - level, wheelbase, mass, slope, wheel)
    assert found == pytest.approx(height, rel=1e-6)


def test_slope_and_acceleration_tip_alike() -> None:
    assert np.tan(tipping_slope(0.12, 0.15)) * GRAVITY == pytest.approx(tipping_acceleration(0.12, 0.15))


def test_turning_by_hand() -> None:
    # 2 m/s around 0.8 m: 5 m/s^2
    assert lateral_acceleration(2, -2 / 0.8) == pytest.approx(5)
    assert tip_ratio(5, 10) == pytest.approx(0.5)


@pytest.mark.parametrize(
    ("call", "says"),
    [
        (lambda: combined_centre([1, 2], [0.1]), "positions must be one for each of the 2 masses"),
        (lambda: combined_centre([0, 0], [0.1, 0.2]), "sum of masses must be > 0 kg"),
        (lambda: tipping_acceleration(0.1, 0), "height must be > 0 m"),
        (lambda: axle_load(1, 0.1, 0), "wheelbase must be > 0 m"),
    ],
)
def test_impossible_inputs_are_refused_by_name(call: Callable[[], object], says: str) -> None:
    with pytest.raises(DomainError, match=says):
        call()
