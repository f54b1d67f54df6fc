"""The machine as one mass: grip, slopes, stopping and energy."""

from collections.abc import Callable
from typing import Any

import mujoco
import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from numpy.typing import NDArray
from scipy.integrate import solve_ivp

from mulewright.errors import DomainError
from mulewright.models.body import tipping_acceleration
from mulewright.models.constants import GRAVITY
from mulewright.models.moving import (
    delay_until_stop,
    falling_energy,
    friction_from_slope,
    kinetic_energy,
    runaway_distance,
    sliding_acceleration,
    slope_force,
    stopping_distance,
    traction_acceleration,
)
from tests.models.agreement import assert_keeps_promises
from tests.published import agrees, as_printed, outside


@pytest.mark.parametrize(
    ("model", "arguments"),
    [
        (traction_acceleration, {"friction": 0.8, "driven_load": 37.5, "mass": 6.0}),
        (slope_force, {"mass": 6.0, "slope": 0.2, "rolling": 0.02}),
        (sliding_acceleration, {"slope": 0.6, "friction": 0.5}),
        (sliding_acceleration, {"slope": 0.3, "friction": 0.6}),
        (friction_from_slope, {"slope": 0.54}),
        (stopping_distance, {"speed": 2.0, "delay": 0.3, "deceleration": 5.9}),
        (
            runaway_distance,
            {"speed": 2.0, "fail_safe_delay": 1.0, "reaction_time": 0.25, "deceleration": 1.5},
        ),
        (delay_until_stop, {"delay": 1.0, "runs_on": 0.0}),
        (delay_until_stop, {"delay": 1.0, "runs_on": 1.0}),
        (kinetic_energy, {"mass": 9.0, "speed": -1.9}),
        (falling_energy, {"mass": 3.8, "height": 0.8}),
    ],
)
def test_models_keep_their_promises(
    model: Callable[..., NDArray[np.float64]], arguments: dict[str, Any]
) -> None:
    assert_keeps_promises(model, arguments)


@outside("K19", quantity="grip-limited acceleration, all wheels driven", source="from memory", mark="M")
def test_grip_and_the_smaller_limit() -> None:
    grip = traction_acceleration(0.9, 7 * GRAVITY, 7)
    agrees(grip, "8.829")
    agrees(np.minimum(grip, tipping_acceleration(0.12, 0.15)), "7.848")


@outside("K22", quantity="friction from a slip at 31 degrees", source="computed independently", mark="C")
def test_tilt_test() -> None:
    agrees(friction_from_slope(np.radians(31)), "0.6009")


def test_rolling_resistance_against_a_slope() -> None:
    level = slope_force(10, 0, 0.008)
    assert level == pytest.approx(0.785, abs=5e-4)  # by hand: 98.1 * 0.008
    assert slope_force(10, -np.arctan(0.008), 0.008) == pytest.approx(0, abs=1e-12)  # rolls by itself


SLOPE = """<mujoco><option timestep="0.001" cone="elliptic" impratio="10" gravity="0 0 -9.81"/>
    <default><geom friction="0.6 0 0" condim="3" solimp="0.99 0.999"/></default>
    <worldbody><geom type="plane" size="9 9 1"/><body pos="0 0 0.05"><freejoint/>
    <geom type="box" size="0.1 0.1 0.05" mass="1"/></body></worldbody></mujoco>"""


@outside("P5", quantity="block on a slope after 2 s", source="computed independently (MuJoCo)", mark="C")
@pytest.mark.parametrize(
    ("degrees", "speed"), [(25, "0.00000"), (30, "0.00000"), (32, "0.41379"), (35, "1.61051")]
)
def test_block_on_a_slope_equals_a_physics_engine(degrees: float, speed: str) -> None:
    slope = np.radians(degrees)
    after = 2 * sliding_acceleration(slope, 0.6)
    agrees(after, speed)
    model = mujoco.MjModel.from_xml_string(SLOPE)
    data = mujoco.MjData(model)
    mujoco.mj_step(model, data, nstep=500)  # settles on the level, then the field leans
    model.opt.gravity[:] = GRAVITY * np.sin(slope), 0, -GRAVITY * np.cos(slope)
    start = float(data.qpos[0])
    mujoco.mj_step(model, data, nstep=2000)
    # the way, because a soft contact chatters: its speed at one instant is 1 % off, its way is not
    way = after / 2 * 2
    agrees(way, data.qpos[0] - start, rel=5e-3, abs=2e-3)  # creep below 1 mm/s is a stand


@given(speed=st.floats(0.1, 5), delay=st.floats(0, 1.5), deceleration=st.floats(0.3, 9))
def test_stopping_equals_an_integrator(speed: float, delay: float, deceleration: float) -> None:
    time = speed / deceleration
    run = solve_ivp(lambda t, _: [speed - deceleration * t], (0, time), [speed * delay], rtol=1e-9)
    assert stopping_distance(speed, delay, deceleration) == pytest.approx(run.y[0, -1], rel=1e-6)


def test_runaway_by_hand() -> None:
    # 2 m/s for 1 s, then 4 / 3 m at 1.5 m/s^2; a quarter of a second of thinking adds half a metre
    assert runaway_distance(2, 1, 0, 1.5) == as_printed("3.3")
    assert runaway_distance(2, 1, 0.25, 1.5) == as_printed("3.83")
    assert np.isinf(runaway_distance(2, np.inf, 0.25, 1.5))  # a receiver that holds


def test_what_falls_arrives_with_what_it_had() -> None:
    height = 0.8
    assert falling_energy(3.8, height) == pytest.approx(kinetic_energy(3.8, np.sqrt(2 * GRAVITY * height)))


@pytest.mark.parametrize(
    ("call", "says"),
    [
        (lambda: stopping_distance(1, 0, 0), "deceleration must be > 0 m/s"),
        (lambda: runaway_distance(1, -1, 0, 1), "fail_safe_delay must be >= 0 s"),
        (lambda: traction_acceleration(-0.1, 1, 1), "friction must be >= 0"),
    ],
)
def test_impossible_inputs_are_refused_by_name(call: Callable[[], object], says: str) -> None:
    with pytest.raises(DomainError, match=says):
        call()
