"""Four-bar linkages between a servo horn and a jaw."""

from collections.abc import Callable
from typing import Any

import numpy as np
import pytest
from numpy.typing import NDArray
from scipy.optimize import root

from mulewright.errors import DomainError
from mulewright.models.linkage import (
    closes,
    horn_angle,
    largest_cosine,
    reached,
    smallest_cosine,
    smallest_transmission_angle,
)
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
        (horn_angle, BARS | {"lever_angle": 2.0, "side": 1}),
        (horn_angle, BARS | {"lever_angle": -2.2, "side": -1}),
        (closes, BARS | {"outward": 0.2, "inward": -0.5}),
        (closes, BARS | {"outward": 1.0, "inward": -0.5}),
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


@outside(
    "A36",
    quantity="horn of a four-bar linkage for a wanted angle of the lever, both branches",
    source="computed independently (scipy.optimize.root on the loop of vectors, 10 linkages)",
    mark="C",
)
@pytest.mark.parametrize("seed", range(10))
def test_horn_is_where_the_loop_of_vectors_closes(seed: int) -> None:
    draw = np.random.default_rng(seed)
    lever, base = draw.uniform([0.02, 0.05], [0.04, 0.1])
    wanted = draw.uniform(-np.pi, np.pi)
    distance = abs(base + lever * np.exp(1j * wanted))
    horn = draw.uniform(0.3, 0.7) * distance
    rod = draw.uniform(abs(distance - horn) * 1.05, (distance + horn) * 0.95)

    def gap(unknown: NDArray[np.float64]) -> list[float]:
        turned, leaning = unknown
        loop = horn * np.exp(1j * turned) + rod * np.exp(1j * leaning) - base - lever * np.exp(1j * wanted)
        return [1e3 * loop.real, 1e3 * loop.imag]

    starts = [(a, b) for a in np.linspace(-3, 3, 8) for b in np.linspace(-3, 3, 8)]
    solved = [found.x[0] for found in (root(gap, start) for start in starts) if found.success]
    bearing = np.angle(base + lever * np.exp(1j * wanted))
    for side in (1, -1):
        own = [angle for angle in solved if side * np.sin(angle - bearing) > 0]
        assert own
        found = float(horn_angle(wanted, horn, rod, lever, base, side))
        whole_turns = 2 * np.pi * np.round((found - own[0]) / (2 * np.pi))
        agrees(found, own[0] + whole_turns, abs=1e-6)


@outside(
    "A37",
    quantity="rocker of a four-bar linkage by the closed form, open and crossed",
    source="Norton, Design of Machinery, ex. 4-1 (bars 40, 120, 80, 100 mm, crank at 40 deg; to 0.1 deg), from memory",
    mark="M",
)
@pytest.mark.parametrize(("side", "printed"), [(1, "57.3"), (-1, "-98.0")])
def test_textbook_rocker(side: int, printed: str) -> None:
    # its crank is our lever and its rocker our horn: the line between the axes is read from the other end
    found = np.pi - horn_angle(np.pi - 40 * DEGREE, horn=80, rod=120, lever=40, base=100, side=side)
    agrees((found / DEGREE + 180) % 360 - 180, printed)


def test_parallelogram_turns_horn_and_lever_alike() -> None:
    angles = np.array([30, 60, 90, 150]) * DEGREE
    assert horn_angle(angles, 0.02, 0.06, 0.02, 0.06, 1) == pytest.approx(angles)


def test_bars_that_do_not_meet_have_no_horn_angle() -> None:
    assert np.isnan(horn_angle(0.0, 0.01, 0.02, 0.03, 0.06, 1))
    assert closes(0.01, 0.02, 0.03, 0.06, 1.0, 0.5) == 0
    assert closes(0.01, 0.09, 0.03, 0.06, 0.5, 0.0) == 0
    assert closes(0.03, 0.06, 0.03, 0.06, 0.5, -0.5) == 1
    assert closes(0.03, 0.06, 0.03, 0.06, 1.0, -0.5) == 1  # stretched into one line
    assert reached(1.2, 1) == 1.2
    assert np.isnan(reached(np.nan, 1))
    with pytest.raises(DomainError, match="closing"):
        reached(1.2, 0)


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
