"""Ropes: lifts by virtual work, drums, hoists and tackles."""

from collections.abc import Callable
from typing import Any

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from numpy.typing import NDArray

from mulewright.errors import DomainError
from mulewright.models.constants import GRAVITY
from mulewright.models.moving import falling_energy
from mulewright.models.rope import (
    carried_force,
    drum_torque,
    hoist_acceleration,
    layer_radius,
    lift_rope_force,
    lift_speed,
    rope_energy,
    rope_pull,
    tackle_pull,
    tackle_travel,
)
from tests.models.agreement import assert_keeps_promises
from tests.published import agrees, noted, outside

MERIAM = "Meriam and Kraige, Engineering Mechanics: Dynamics, sample problem 3/1"


@pytest.mark.parametrize(
    ("model", "arguments"),
    [
        (lift_rope_force, {"masses": [0.5, 1.3], "travel_ratios": [1.0, 2.0], "efficiency": 0.8}),
        (drum_torque, {"force": 37.3, "radius": 0.015}),
        (layer_radius, {"drum_radius": 0.015, "layer": 3.0, "rope_diameter": 0.004}),
        (rope_pull, {"torque": 7.4, "ratio": 2.0, "efficiency": 0.9, "radius": 0.017}),
        (lift_speed, {"travel_ratio": 2.0, "speed": 10.2, "radius": 0.015}),
        (rope_energy, {"force": 436.0, "stiffness": 8000.0}),
        (hoist_acceleration, {"force": 8300.0, "mass": 750.0}),
        (carried_force, {"mass": 75.0, "acceleration": -1.2}),
        (tackle_pull, {"force": 100.0, "falls": 2.0, "efficiency": 0.9}),
        (tackle_travel, {"travel": 0.5, "falls": 2.0}),
    ],
)
def test_models_keep_their_promises(
    model: Callable[..., NDArray[np.float64]], arguments: dict[str, Any]
) -> None:
    assert_keeps_promises(model, arguments)


@outside("A8", quantity="a cage on a cable, and its rider", source=MERIAM, mark="R")
def test_hoist() -> None:
    acceleration = hoist_acceleration(8300, 750)
    agrees(acceleration, "1.25667")
    agrees(carried_force(75, acceleration), "830.0")
    agrees(3 * acceleration, "3.77")


masses = st.lists(st.floats(0, 20), min_size=1, max_size=4)


@outside(
    "A18", quantity="rope force of lifts, by work", source="computed independently (virtual work)", mark="C"
)
@given(stages=masses, turn=st.floats(0.01, 1), radius=st.floats(0.005, 0.1))
def test_work_in_is_work_out(stages: list[float], turn: float, radius: float) -> None:
    cascade = [1.0 + n for n in range(len(stages))]  # each stage is driven by the one below
    for ratios in (cascade, [1.0] * len(stages)):
        lifted = sum(
            float(falling_energy(mass, lift_speed(ratio, turn, radius)))  # height for one turn
            for mass, ratio in zip(stages, ratios, strict=True)
        )
        torque = drum_torque(lift_rope_force(stages, ratios, 1), radius)
        assert torque * turn == pytest.approx(lifted)
    noted("work in at the drum is work out, cascade and one rope", "work out", "rounding")


def test_a_cascade_counts_its_top_twice() -> None:
    # by hand: (0.5 + 2 * (0.3 + 1.0)) kg, against 0.5 + 0.3 + 1.0 kg on one rope through all
    assert lift_rope_force([0.5, 0.3 + 1.0], [1, 2], 1) == pytest.approx(3.1 * GRAVITY)
    assert lift_rope_force([0.5, 0.3 + 1.0], [1, 1], 1) == pytest.approx(1.8 * GRAVITY)
    assert lift_rope_force([0.5, 0.3 + 1.0], [1, 1], 0.8) == pytest.approx(2.25 * GRAVITY)
    assert lift_rope_force([], [], 1) == 0


@outside("A19", quantity="block and tackle", source="common practice, no source", mark="T")
def test_two_falls_halve_the_pull() -> None:
    agrees(tackle_pull(100, 2, 1), 50)  # printed in pounds
    work = tackle_pull(100, [1, 2, 5], 1) * tackle_travel(0.3, [1, 2, 5])
    assert work == pytest.approx([30, 30, 30])
    assert tackle_pull(100, 2, 0.8) == pytest.approx(62.5)  # by hand


def test_layers_weaken_a_winch() -> None:
    # by hand: bare 15 mm, rope 4 mm: 17, 21, 25 mm
    radii = layer_radius(0.015, [1, 2, 3], 0.004)
    assert radii == pytest.approx([0.017, 0.021, 0.025])
    pulls = rope_pull(7.4, 1, 1, radii)
    assert pulls * radii == pytest.approx([7.4] * 3)
    assert rope_energy(400, 8000) == pytest.approx(10)  # by hand: 160000 / 16000


@pytest.mark.parametrize(
    ("call", "says"),
    [
        (lambda: lift_rope_force([1, 2], [1], 1), "travel_ratios must be one for each of the 2 masses"),
        (lambda: layer_radius(0.015, 0, 0.004), "layer must be >= 1"),
        (lambda: drum_torque(10, 0), "radius must be > 0 m"),
        (lambda: rope_pull(1, 1, 0, 0.1), "efficiency must be > 0 and <= 1"),
    ],
)
def test_impossible_inputs_are_refused_by_name(call: Callable[[], object], says: str) -> None:
    with pytest.raises(DomainError, match=says):
        call()
