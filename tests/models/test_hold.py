"""Hold band and sinking, against power balances written another way."""

from collections.abc import Callable
from typing import Any

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from numpy.typing import NDArray

from mulewright.errors import DomainError
from mulewright.models.heat import winding_heat
from mulewright.models.hold import (
    coasting_sink_speed,
    friction_volts,
    gravity_volts,
    hold_duty_lower,
    hold_duty_upper,
    hold_power,
    holding_volts,
    sink_speed,
)
from mulewright.models.motor import current_for_torque, stall_current
from tests.models.agreement import assert_keeps_promises

LOAD = {"torque": 9.42, "resistance": 2.18, "ratio": 1.5}


@pytest.mark.parametrize(
    ("model", "arguments"),
    [
        (hold_duty_upper, LOAD | {"efficiency": 0.85, "torque_constant": 2.31, "voltage": 12.0}),
        (hold_duty_lower, LOAD | {"back_efficiency": 0.36, "back_emf_constant": 3.61, "voltage": 12.0}),
        (sink_speed, LOAD | {"back_efficiency": 0.36, "back_emf_constant": 3.61}),
        (coasting_sink_speed, {"torque": 9.42, "back_efficiency": 0.36}),
        (coasting_sink_speed, {"torque": 9.42, "back_efficiency": 0.0}),
        (hold_power, {"duty": 0.35, "voltage": 12.0, "resistance": 2.18}),
        (gravity_volts, {"rising_duty": 0.58, "sinking_duty": 0.11, "voltage": 12.0}),
        (friction_volts, {"rising_duty": 0.58, "sinking_duty": 0.11, "voltage": 12.0}),
        (holding_volts, {"rising_duty": 0.58, "sinking_duty": 0.11, "voltage": 12.0}),
        (holding_volts, {"rising_duty": 0.58, "sinking_duty": 0.0, "voltage": 12.0}),
    ],
)
def test_models_keep_their_promises(
    model: Callable[..., NDArray[np.float64]], arguments: dict[str, Any]
) -> None:
    assert_keeps_promises(model, arguments)


torques, resistances, ratios = st.floats(0.1, 20), st.floats(0.1, 5), st.floats(0.5, 10)
shares, constants = st.floats(0.05, 1), st.floats(0.05, 5)


@given(torque=torques, resistance=resistances, ratio=ratios, efficiency=shares, constant=constants)
def test_at_the_upper_end_the_motor_just_carries_the_load(
    torque: float, resistance: float, ratio: float, efficiency: float, constant: float
) -> None:
    duty = hold_duty_upper(torque, resistance, ratio, efficiency, constant, voltage=12)
    current = duty * 12 / resistance
    assert current == pytest.approx(current_for_torque(torque / ratio / efficiency, constant, 0))


@given(torque=torques, resistance=resistances, ratio=ratios, back=shares, constant=constants)
def test_while_it_sinks_the_winding_burns_what_the_gears_leave(
    torque: float, resistance: float, ratio: float, back: float, constant: float
) -> None:
    speed = sink_speed(torque, back, resistance, ratio, constant)
    current = constant * ratio * speed / resistance  # leads joined: back emf drives it
    assert winding_heat(current, resistance) == pytest.approx(torque * speed * back)
    duty = hold_duty_lower(torque, back, resistance, ratio, constant, voltage=12)
    assert duty * 12 == pytest.approx(constant * ratio * speed)  # the volts that stop the sinking


def test_a_self_locking_train_holds_at_zero() -> None:
    assert sink_speed(9.4, 0, 2.18, 1.5, 3.61) == 0
    assert hold_duty_lower(9.4, 0, 2.18, 1.5, 3.61, 12) == 0
    assert coasting_sink_speed(9.4, [0, 0.4]).tolist() == [0, np.inf]


def test_holding_heats_like_a_stall_at_that_duty() -> None:
    assert hold_power(0.35, 12, 2.18) == pytest.approx(winding_heat(stall_current(0.35, 12, 2.18), 2.18))


def test_band_by_hand() -> None:
    # rises at 60 %, sinks at 20 % of 10 V: 4 V carry the load, 2 V the friction
    assert gravity_volts(0.6, 0.2, 10) == pytest.approx(4)
    assert friction_volts(0.6, 0.2, 10) == pytest.approx(2)


def test_impossible_inputs_are_refused_by_name() -> None:
    with pytest.raises(DomainError, match="back_efficiency must be 0 to 1"):
        sink_speed(9, 1.1, 2, 1, 3)
    with pytest.raises(DomainError, match="voltage must be > 0 V"):
        hold_duty_upper(9, 2, 1, 0.8, 2, 0)


def test_what_stays_by_itself_needs_no_volts() -> None:
    assert holding_volts([0.58, 0.58], [0.11, 0.0], 12.0).tolist() == pytest.approx([4.14, 0.0])
