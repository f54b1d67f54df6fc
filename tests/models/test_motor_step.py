"""A motor that takes up speed, against a matrix exponential, root finding and a circuit simulator."""

from collections.abc import Callable
from typing import Any

import numpy as np
import pytest
from numpy.typing import NDArray
from scipy.linalg import expm

from mulewright.errors import DomainError
from mulewright.models.motor_step import (
    current_after_step,
    fast_time_constant,
    final_speed,
    mechanical_time_constant,
    slow_time_constant,
    speed_after_step,
)
from tests.models.agreement import assert_keeps_promises
from tests.ngspice import needs_ngspice, run
from tests.published import agrees, outside

CONSTANTS = {"torque_constant": 0.05, "back_emf_constant": 0.05}
STEADY = CONSTANTS | {"resistance": 0.5, "drag": 1e-5}
MOTOR = STEADY | {"inductance": 1e-3, "inertia": 1e-4}
VOLTS = 12.0
TUTORIAL = {
    "inductance": 0.5,
    "resistance": 1.0,
    "inertia": 0.01,
    "drag": 0.1,
    "torque_constant": 0.01,
    "back_emf_constant": 0.01,
}


@pytest.mark.parametrize(
    ("model", "arguments"),
    [
        (mechanical_time_constant, CONSTANTS | {"inertia": 1e-4, "resistance": 0.5}),
        (final_speed, STEADY | {"voltage": VOLTS}),
        (slow_time_constant, MOTOR),
        (fast_time_constant, MOTOR),
        (speed_after_step, {"time": 0.02, "final_speed": 240.0, "slow": 0.0177, "fast": 0.00225}),
        (
            current_after_step,
            STEADY | {"voltage": VOLTS, "inertia": 1e-4, "time": 0.005, "slow": 0.0177, "fast": 0.00225},
        ),
    ],
)
def test_models_keep_their_promises(
    model: Callable[..., NDArray[np.float64]], arguments: dict[str, Any]
) -> None:
    assert_keeps_promises(model, arguments)


def speed_at(time: float | NDArray[np.float64]) -> NDArray[np.float64]:
    """[rad/s] of the motor above."""
    slow, fast = slow_time_constant(**MOTOR), fast_time_constant(**MOTOR)
    return speed_after_step(time, final_speed(VOLTS, **STEADY), slow, fast)


def current_at(time: float | NDArray[np.float64]) -> NDArray[np.float64]:
    """[A] of the motor above."""
    slow, fast = slow_time_constant(**MOTOR), fast_time_constant(**MOTOR)
    return current_after_step(time, VOLTS, inertia=1e-4, slow=slow, fast=fast, **STEADY)


@outside("M11", quantity="poles and gain of a tutorial motor", source="computed independently", mark="C")
def test_tutorial_motor() -> None:
    agrees(-1 / slow_time_constant(**TUTORIAL), "-2.00250")
    agrees(-1 / fast_time_constant(**TUTORIAL), "-9.99750")
    steady = {name: value for name, value in TUTORIAL.items() if name not in ("inductance", "inertia")}
    agrees(final_speed(1, **steady), "0.0999001")


@outside("M14", quantity="start of a motor at 12 V", source="computed independently", mark="C")
def test_start_of_a_motor() -> None:
    agrees(speed_at(0.020), "150.807")
    agrees(speed_at(0.050), "223.215")
    agrees(final_speed(VOLTS, **STEADY), "239.521")
    agrees(current_at(0.020), "10.0449")
    agrees(-1 / fast_time_constant(**MOTOR), "-443.63")
    agrees(-1 / slow_time_constant(**MOTOR), "-56.465")
    times = np.linspace(0, 0.02, 20_001)
    currents = current_at(times)
    agrees(currents.max(), "20.0338")
    agrees(times[currents.argmax()] * 1e3, 5.31, abs=0.02)  # the top is flat


def test_start_equals_the_matrix_exponential() -> None:
    k, r, b = MOTOR["torque_constant"], MOTOR["resistance"], MOTOR["drag"]
    inductance, inertia = MOTOR["inductance"], MOTOR["inertia"]
    system = np.zeros((3, 3))  # current, speed, and a one that carries the volts
    system[0] = -r / inductance, -k / inductance, VOLTS / inductance
    system[1] = k / inertia, -b / inertia, 0
    for time in (0.0, 1e-4, 5e-3, 0.02, 0.3):
        current, speed, _ = expm(system * time) @ [0, 0, 1]
        assert current_at(time) == pytest.approx(current, rel=1e-9, abs=1e-9)
        assert speed_at(time) == pytest.approx(speed, rel=1e-9, abs=1e-9)


@needs_ngspice
@outside("E7", quantity="start of a motor as a circuit", source="computed independently (ngspice)", mark="C")
def test_start_equals_a_circuit() -> None:
    elements = """
        vs supply 0 dc 12
        rw supply inside 0.5
        lw inside wound 1m ic=0
        vi wound emf dc 0
        be emf 0 v=0.05*v(speed)
        bt 0 speed i=0.05*i(vi)
        cj speed 0 1e-4 ic=0
        rb speed 0 1e5
    """
    control = """
        tran 5u 60m 0 5u uic
        meas tran speed20 find v(speed) at=20m
        meas tran speed50 find v(speed) at=50m
        meas tran current20 find i(vi) at=20m
    """
    found = run(elements, control)
    agrees(speed_at(0.020), found["speed20"], rel=1e-4)
    agrees(speed_at(0.050), found["speed50"], rel=1e-4)
    agrees(current_at(0.020), found["current20"], rel=1e-4)


def test_without_inductance_the_mechanical_constant_is_left() -> None:
    almost = MOTOR | {"inductance": 1e-12, "drag": 0.0}
    expected = mechanical_time_constant(1e-4, 0.5, **CONSTANTS)
    assert expected == pytest.approx(0.02)  # by hand: 1e-4 * 0.5 / 0.0025
    assert slow_time_constant(**almost) == pytest.approx(expected, rel=1e-6)


def test_impossible_inputs_are_refused_by_name() -> None:
    with pytest.raises(DomainError, match="inductance must be so small"):
        slow_time_constant(**MOTOR | {"inductance": 1.0})
    with pytest.raises(DomainError, match="slow must be above"):
        speed_after_step(0.1, 100, slow=0.01, fast=0.02)
    with pytest.raises(DomainError, match="time must be >= 0 s"):
        speed_after_step(-0.1, 100, slow=0.02, fast=0.01)
