"""Places of an arm and speeds from which one may stop, against circles and stops worked by hand."""

import numpy as np
import pytest

from mulewright.errors import DomainError
from mulewright.models.moving import stopping_distance
from mulewright.models.pose import part_way, reach_ahead, reach_up, slowed_for_turns, speed_for_stop
from tests.published import agrees, outside

DEGREE = np.pi / 180


@outside("X03", quantity="place of a mass on an arm at 30 deg", source="right triangle, by hand", mark="C")
def test_an_arm_at_thirty_degrees() -> None:
    agrees(reach_ahead(0.18, 0.60, 30 * DEGREE), "0.6996", case="ahead")  # 0.18 + 0.60 * 0.866
    agrees(reach_up(0.30, 0.60, 30 * DEGREE), 0.60, case="up")  # 0.30 + 0.60 / 2


def test_level_and_upright() -> None:
    assert reach_ahead(0.1, 0.5, [0, 90 * DEGREE]) == pytest.approx([0.6, 0.1])
    assert reach_up(0.1, 0.5, [0, 90 * DEGREE]) == pytest.approx([0.1, 0.6])


def test_part_of_the_way() -> None:
    assert part_way(10.0, 30.0, [0.0, 0.5, 1.0]) == pytest.approx([10.0, 20.0, 30.0])
    with pytest.raises(DomainError, match="share"):
        part_way(0.0, 1.0, 1.1)


@outside(
    "X17",
    quantity="speed from which a car stands in 53 m",
    source="distances of the Highway Code of the United Kingdom, typical stopping distance at 50 mph; from memory",
    mark="M",
)
def test_speed_of_a_printed_stopping_distance() -> None:
    # 50 mph is 22.35 m/s: 15 m thinking and 38 m braking; 15 m are 0.671 s, 38 m are 6.573 m/s2
    agrees(speed_for_stop(53.0, 15 / 22.352, 22.352**2 / 76), 22.352, rel=1e-3)


@pytest.mark.parametrize("deceleration", [0.5, 1.1, 6.0])
def test_it_undoes_the_stopping_distance(deceleration: float) -> None:
    speed = speed_for_stop(1.67, 0.3, deceleration)
    assert stopping_distance(speed, 0.3, deceleration) == pytest.approx(1.67)


def test_where_it_may_not_brake_at_all_it_may_not_drive() -> None:
    assert speed_for_stop(1.0, 0.3, [0.0, -1.0]) == pytest.approx([0.0, 0.0])
    assert np.isnan(speed_for_stop(np.nan, 0.3, 1.0))


def test_half_the_speed_turns_a_quarter_as_hard() -> None:
    assert slowed_for_turns(2.0, 8.0, [2.0, 8.0, -1.0]) == pytest.approx([1.0, 2.0, 0.0])
