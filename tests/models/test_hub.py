"""Hubs on round shafts."""

import numpy as np
import pytest

from mulewright.errors import DomainError
from mulewright.models.hub import set_screw_torque
from tests.models.agreement import assert_keeps_promises
from tests.published import agrees, outside

POUND, INCH = 4.4482216, 0.0254


def test_keeps_its_promises() -> None:
    assert_keeps_promises(set_screw_torque, {"friction": 0.3, "force": 1000.0, "diameter": 0.006})


@outside(
    "A34",
    quantity="torque held by a No. 8 cup-point set screw on a shaft of half an inch",
    source="Machinery's Handbook, holding power of set screws; from memory",
    mark="M",
)
def test_holding_power_of_the_handbook() -> None:
    # 385 lbf along or around the shaft: friction and force in one, on a radius of a quarter of an inch
    agrees(set_screw_torque(1, 385 * POUND, 0.5 * INCH), 96 * POUND * INCH, rel=0.01)


def test_impossible_shafts_are_refused() -> None:
    with pytest.raises(DomainError, match="diameter"):
        set_screw_torque(0.3, 1000, 0)
    assert np.isnan(set_screw_torque(np.nan, 1000, 0.006))
