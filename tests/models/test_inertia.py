"""Moments of inertia of plain shapes, against a physics engine."""

from collections.abc import Callable
from typing import Any

import mujoco
import numpy as np
import pytest
from numpy.typing import NDArray

from mulewright.errors import DomainError
from mulewright.models.inertia import (
    ball_inertia,
    box_inertia,
    cylinder_inertia_across,
    disc_inertia,
    flywheel_energy,
    point_inertia,
    shifted_inertia,
)
from mulewright.models.moving import kinetic_energy
from tests.models.agreement import assert_keeps_promises
from tests.published import agrees, as_printed, outside


@pytest.mark.parametrize(
    ("model", "arguments"),
    [
        (disc_inertia, {"mass": 2.0, "radius": 0.05}),
        (cylinder_inertia_across, {"mass": 2.0, "radius": 0.05, "length": 0.2}),
        (box_inertia, {"mass": 3.0, "side": 0.2, "other_side": 0.4}),
        (ball_inertia, {"mass": 1.0, "radius": 0.1}),
        (point_inertia, {"mass": 1.0, "radius": 0.6}),
        (shifted_inertia, {"inertia": 0.01, "mass": 1.2, "distance": 0.3}),
        (flywheel_energy, {"inertia": 6.25e-4, "speed": -424.0}),
    ],
)
def test_models_keep_their_promises(
    model: Callable[..., NDArray[np.float64]], arguments: dict[str, Any]
) -> None:
    assert_keeps_promises(model, arguments)


CYLINDER = [
    cylinder_inertia_across(2, 0.05, 0.2),
    cylinder_inertia_across(2, 0.05, 0.2),
    disc_inertia(2, 0.05),
]
BOX = [box_inertia(3, 0.4, 0.1), box_inertia(3, 0.2, 0.1), box_inertia(3, 0.2, 0.4)]
BALL = [ball_inertia(1, 0.1)] * 3


@outside(
    "A20", quantity="inertias of cylinder, box, ball", source="computed independently (MuJoCo)", mark="C"
)
@pytest.mark.parametrize(
    ("shape", "ours", "printed"),
    [
        ('type="cylinder" size="0.05 0.1" mass="2"', CYLINDER, ["0.00791667", "0.00791667", "0.0025"]),
        ('type="box" size="0.1 0.2 0.05" mass="3"', BOX, ["0.0425", "0.0125", "0.05"]),
        ('type="sphere" size="0.1" mass="1"', BALL, ["0.004", "0.004", "0.004"]),
    ],
)
def test_shapes_equal_a_physics_engine(
    shape: str, ours: list[NDArray[np.float64]], printed: list[str]
) -> None:
    assert ours == [as_printed(text) for text in printed]
    model = mujoco.MjModel.from_xml_string(
        f"<mujoco><worldbody><body><freejoint/><geom {shape}/></body></worldbody></mujoco>"
    )
    agrees(sorted(map(float, ours)), sorted(model.body_inertia[1]), rel=1e-9)


def test_a_rod_about_its_end_by_hand() -> None:
    # m L^2 / 3
    rod = box_inertia(0.6, 0.5, 0)
    assert shifted_inertia(rod, 0.6, 0.25) == pytest.approx(0.6 * 0.25 / 3)


def test_a_point_on_a_rim_has_the_energy_of_its_speed() -> None:
    assert flywheel_energy(point_inertia(0.2, 0.3), 10) == pytest.approx(kinetic_energy(0.2, 3))


def test_impossible_inputs_are_refused_by_name() -> None:
    with pytest.raises(DomainError, match="mass must be >= 0 kg"):
        disc_inertia(-1, 0.1)
