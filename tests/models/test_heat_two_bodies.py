"""Winding and case, against a matrix exponential and a circuit simulator."""

from collections.abc import Callable
from typing import Any

import numpy as np
import pytest
from numpy.typing import NDArray
from scipy.linalg import expm

from mulewright.errors import DomainError
from mulewright.models.heat_two_bodies import (
    case_rise_after,
    fast_heating_constant,
    final_case_rise,
    final_winding_rise,
    slow_heating_constant,
    winding_rise_after,
)
from tests.models.agreement import assert_keeps_promises
from tests.ngspice import needs_ngspice, run
from tests.published import agrees, as_printed, outside

WINDING, CASE, INNER, OUTER, POWER = 20.0, 150.0, 3.0, 8.0, 25.0
BODIES = {
    "winding_capacity": WINDING,
    "case_capacity": CASE,
    "inner_resistance": INNER,
    "outer_resistance": OUTER,
}
AFTER = {
    "time": 60.0,
    "winding_start": 12.0,
    "case_start": 30.0,
    "winding_final": 275.0,
    "case_final": 200.0,
    "slow": 1367.34,
    "fast": 52.657,
    "exchange": WINDING * INNER,
}


@pytest.mark.parametrize(
    ("model", "arguments"),
    [
        (slow_heating_constant, BODIES),
        (fast_heating_constant, BODIES),
        (final_winding_rise, {"power": POWER, "inner_resistance": INNER, "outer_resistance": OUTER}),
        (final_case_rise, {"power": POWER, "outer_resistance": OUTER}),
        (winding_rise_after, AFTER),
        (case_rise_after, AFTER | {"case_exchange": CASE * INNER}),
    ],
)
def test_models_keep_their_promises(
    model: Callable[..., NDArray[np.float64]], arguments: dict[str, Any]
) -> None:
    assert_keeps_promises(model, arguments)


def rises(
    time: float | NDArray[np.float64], power: float = POWER, start: tuple[float, float] = (0.0, 0.0)
) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """[K] of winding and case."""
    shared = {
        "time": time,
        "winding_start": start[0],
        "case_start": start[1],
        "winding_final": final_winding_rise(power, INNER, OUTER),
        "case_final": final_case_rise(power, OUTER),
        "slow": slow_heating_constant(**BODIES),
        "fast": fast_heating_constant(**BODIES),
        "exchange": WINDING * INNER,
    }
    return winding_rise_after(**shared), case_rise_after(**shared, case_exchange=CASE * INNER)


@outside("M36", quantity="winding and case under 25 W", source="computed independently", mark="C")
def test_winding_and_case() -> None:
    agrees(fast_heating_constant(**BODIES), "52.657")
    agrees(slow_heating_constant(**BODIES), "1367.34")
    agrees(final_winding_rise(POWER, INNER, OUTER), 275)
    agrees(final_case_rise(POWER, OUTER), 200)
    winding, case = rises(np.array([10.0, 60.0, 300.0, 1200.0]))
    expected = [as_printed(text) for text in ("11.5209", "48.4016", "100.109", "184.545")]
    assert list(winding) == expected
    agrees(case[2], "32.995")


@pytest.mark.parametrize("power", [0.0, 25.0])
@pytest.mark.parametrize("start", [(0.0, 0.0), (80.0, 20.0), (5.0, 60.0)])
def test_any_start_equals_the_matrix_exponential(power: float, start: tuple[float, float]) -> None:
    system = np.zeros((3, 3))  # winding, case, and a one that carries the heat
    system[0] = -1 / (INNER * WINDING), 1 / (INNER * WINDING), power / WINDING
    system[1] = 1 / (INNER * CASE), -1 / (INNER * CASE) - 1 / (OUTER * CASE), 0
    for time in (0.0, 1.0, 60.0, 5000.0):
        winding, case, _ = expm(system * time) @ [*start, 1]
        assert np.stack(rises(time, power, start)) == pytest.approx([winding, case])


@needs_ngspice
@outside("E8", quantity="winding and case as a circuit", source="computed independently (ngspice)", mark="C")
def test_winding_and_case_equal_a_circuit() -> None:
    elements = """
        iheat 0 winding dc 25
        cw winding 0 20 ic=0
        ri winding casing 3
        cc casing 0 150 ic=0
        ro casing 0 8
    """
    control = """
        tran 0.05 301 0 0.05 uic
        meas tran winding10 find v(winding) at=10
        meas tran winding60 find v(winding) at=60
        meas tran winding300 find v(winding) at=300
        meas tran casing300 find v(casing) at=300
    """
    found = run(elements, control)
    winding, case = rises(np.array([10.0, 60.0, 300.0]))
    agrees(winding, [found["winding10"], found["winding60"], found["winding300"]], rel=1e-4)
    agrees(case[2], found["casing300"], rel=1e-4)


def test_the_winding_starts_as_if_alone() -> None:
    winding, case = rises(0.01)
    assert winding == pytest.approx(POWER * 0.01 / WINDING, rel=1e-3)
    assert case == pytest.approx(0, abs=1e-5)


def test_impossible_inputs_are_refused_by_name() -> None:
    with pytest.raises(DomainError, match="slow must be above"):
        winding_rise_after(**AFTER | {"slow": 50.0})
    with pytest.raises(DomainError, match="outer_resistance must be > 0 K/W"):
        slow_heating_constant(**BODIES | {"outer_resistance": 0.0})
