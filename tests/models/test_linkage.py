"""Four-bar linkages between a servo horn and a jaw."""

from collections.abc import Callable
from typing import Any

import numpy as np
import pytest
from numpy.typing import NDArray

from mulewright.errors import DomainError
from mulewright.models.linkage import largest_cosine, smallest_cosine, smallest_transmission_angle
from tests.models.agreement import assert_keeps_promises
from tests.published import agrees, outside

DEGREE = np.pi / 180
BARS = {"horn": 0.015, "rod": 0.050, "lever": 0.030, "base": 0.060}  # [m]


@pytest.mark.parametrize(
    ("model", "arguments"),
    [
        (largest_cosine, {"first": -0.4, "last": 1.0}),
        (largest_cosine, {"first": 1.0, "last": 0.4}),
        (smallest_cosine, {"first": 2.0, "last": 4.0}),
        (smallest_cosine, {"first": -0.4, "last": -4.0}),
        (smallest_transmission_angle, BARS | {"nearest": 0.9, "farthest": -0.2}),
    ],
)
def test_models_keep_their_promises(
    model: Callable[..., NDArray[np.float64]], arguments: dict[str, Any]
) -> None:
    assert_keeps_promises(model, arguments)


def drawn(horn: float, rod: float, lever: float, base: float, angle: float) -> float:
    """The angle between the lines of rod and lever, from the places of the joints: two circles that meet."""
    end, pivot = horn * np.exp(1j * angle), complex(base)
    gap = abs(pivot - end)
    along = (rod**2 - lever**2 + gap**2) / (2 * gap)
    aside = rod**2 - along**2
    if aside < 0:
        return 0.0
    joint = end + (pivot - end) / gap * complex(along, np.sqrt(aside))
    turn = abs(np.angle((joint - end) / (joint - pivot)))
    return float(min(turn, np.pi - turn))


@outside(
    "A33",
    quantity="smallest transmission angle of a four-bar linkage over a swing",
    source="computed independently (numpy, joints placed by two circles, 2001 angles of 25 linkages)",
    mark="C",
)
@pytest.mark.parametrize("seed", range(25))
def test_smallest_angle_is_that_of_the_drawing(seed: int) -> None:
    draw = np.random.default_rng(seed)
    horn, rod, lever, base = draw.uniform([0.01, 0.03, 0.03, 0.05], [0.04, 0.1, 0.1, 0.1])
    first, last = draw.uniform(-1.5 * np.pi, 1.5 * np.pi, 2)
    wanted = min(drawn(horn, rod, lever, base, angle) for angle in np.linspace(first, last, 2001))
    cosines = largest_cosine(first, last), smallest_cosine(first, last)
    found = smallest_transmission_angle(horn, rod, lever, base, *cosines)
    assert found <= wanted + 1e-9
    if found > 0.05:  # near its dead point the angle falls too fast for the steps of the drawing
        agrees(found, wanted, abs=0.01)


def test_right_triangle_by_hand() -> None:
    # rod 3, lever 4 and a distance of 5 between them: the horn of 1 points at a pivot 6 away
    assert smallest_transmission_angle(1, 3, 4, 6, 1, 1) == pytest.approx(np.pi / 2)


def test_rod_too_short_to_meet_the_lever_locks() -> None:
    assert smallest_transmission_angle(1, 2, 2, 6, 1, 1) == 0
    assert smallest_transmission_angle(1, 9, 2, 6, 1, 1) == 0


def test_swing_across_the_line_counts_the_line() -> None:
    assert largest_cosine(-20 * DEGREE, 50 * DEGREE) == 1
    assert largest_cosine(20 * DEGREE, 50 * DEGREE) == pytest.approx(np.cos(20 * DEGREE))
    assert smallest_cosine(150 * DEGREE, 200 * DEGREE) == -1
    assert smallest_cosine(-200 * DEGREE, 0) == -1
    assert smallest_cosine(20 * DEGREE, 50 * DEGREE) == pytest.approx(np.cos(50 * DEGREE))


def test_impossible_linkages_are_refused() -> None:
    with pytest.raises(DomainError, match="rod"):
        smallest_transmission_angle(**BARS | {"rod": 0.0}, nearest=1, farthest=0)
    with pytest.raises(DomainError, match="270"):
        largest_cosine(0, 300 * DEGREE)
