"""Roller wheels against a textbook and its project, least squares and numbers worked by hand."""

from collections.abc import Callable, Sequence
from typing import Any

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from numpy.typing import NDArray

from mulewright.errors import DomainError
from mulewright.models.kinematics import displacement_x, displacement_y
from mulewright.models.mixing import ROLLER, clipped, mixed
from mulewright.models.rollers import (
    HANDS,
    contact_lever,
    crossed_turning_lever,
    floor_motion,
    roller_force_ahead,
    roller_force_left,
    roller_forward_speed,
    roller_left_speed,
    roller_turning_moment,
    roller_wheel_rate,
    roller_yaw_rate,
    turning_lever,
)
from tests.models.agreement import assert_keeps_promises
from tests.published import agrees, noted, outside

Matrix = NDArray[np.float64]

RADIUS, HALF_BASE, HALF_TRACK = 0.0475, 0.235, 0.15  # [m] the cart of the textbook's project
LEVER = HALF_BASE + HALF_TRACK
X = HALF_BASE * np.array([1, 1, -1, -1])
Y = HALF_TRACK * np.array([1, -1, 1, -1])
BOOK_ORDER = [0, 1, 3, 2]  # the textbook goes round: front left, front right, rear right, rear left

FORWARD, STRAFE_RIGHT, TURN_RIGHT = ROLLER.T
FOUR = [6.5, 6.2, -1.9, 14.6]
ANY_WHEEL = {
    "yaw_rate": 0.5,
    "forward": 0.3,
    "left": -0.2,
    "x": 0.235,
    "y": -0.15,
    "drive_angle": 0.4,
    "roller_angle": 0.7,
    "wheel_radius": 0.05,
}


def wheel_rates(yaw_rate: float, forward: float, left: float) -> Matrix:
    """Rates of the four wheels, in our order."""
    slants = np.array(HANDS) * np.pi / 4
    return np.array(
        [
            roller_wheel_rate(yaw_rate, forward, left, x, y, 0, slant, RADIUS)
            for x, y, slant in zip(X, Y, slants, strict=True)
        ]
    )


def wheel_matrix() -> Matrix:
    """Wheel rates from yaw rate, forward and left, in our order."""
    return np.transpose([wheel_rates(*motion) for motion in np.eye(3)])


def contact_rows(hands: Sequence[int], x: Matrix = X, y: Matrix = Y) -> Matrix:
    return np.column_stack([np.ones(4), hands, contact_lever(hands, x, y)])


@pytest.mark.parametrize(
    ("model", "arguments", "fixed"),
    [
        (roller_wheel_rate, ANY_WHEEL, ()),
        (turning_lever, {"half_wheelbase": 0.235, "half_track": 0.15}, ()),
        (crossed_turning_lever, {"half_wheelbase": 0.15, "half_track": 0.235}, ()),
        (contact_lever, {"hand": -1.0, "x": 0.235, "y": 0.15}, ()),
        (floor_motion, {"rows": contact_rows(HANDS), "rim_speeds": FOUR}, ("rows",)),
        (floor_motion, {"rows": contact_rows([1, 1, 1, -1]), "rim_speeds": FOUR}, ("rows",)),
        (roller_forward_speed, {"rates": FOUR, "wheel_radius": 0.05}, ()),
        (roller_left_speed, {"rates": FOUR, "wheel_radius": 0.05}, ()),
        (roller_yaw_rate, {"rates": FOUR, "wheel_radius": 0.05, "lever": 0.385}, ()),
        (roller_force_ahead, {"torques": FOUR, "wheel_radius": 0.05}, ()),
        (roller_force_left, {"torques": FOUR, "wheel_radius": 0.05}, ()),
        (roller_turning_moment, {"torques": FOUR, "wheel_radius": 0.05, "lever": 0.385}, ()),
    ],
)
def test_models_keep_their_promises(
    model: Callable[..., Matrix], arguments: dict[str, Any], fixed: tuple[str, ...]
) -> None:
    assert_keeps_promises(model, arguments, fixed)


# ---------------------------------------------------------------- textbook


@outside(
    "K1",
    quantity="one wheel with rollers: an all-way wheel and a 45 degree roller wheel",
    source="Lynch and Park, Modern Robotics, section 13.2 (from memory)",
    mark="M",
)
@given(speed=st.floats(-2, 2), drive=st.floats(-3, 3), slant=st.floats(-1.5, 1.5), place=st.floats(-1, 1))
def test_roller_wheel_from_the_velocity_of_its_contact(
    speed: float, drive: float, slant: float, place: float
) -> None:
    """The book derives its row from the contact: drive and free sliding together are its velocity."""
    yaw_rate, left, x, y = 0.7, -0.4, place, 0.3
    contact = np.array([speed - yaw_rate * y, left + yaw_rate * x])
    driving = [np.cos(drive), np.sin(drive)]
    sliding = [-np.sin(drive + slant), np.cos(drive + slant)]
    driven, _ = np.linalg.solve(np.transpose([driving, sliding]), contact)
    rate = roller_wheel_rate(yaw_rate, speed, left, x, y, drive, slant, RADIUS)
    assert rate == pytest.approx(driven / RADIUS, rel=1e-6, abs=1e-6)
    noted("rate of the wheel at any place, drive and slant", "velocity of its contact", "0.0001 %")


@outside(
    "K2",
    quantity="wheel matrix of four 45 degree roller wheels and its pseudo-inverse",
    source="Lynch and Park, Modern Robotics, section 13.2 (from memory); computed independently (numpy)",
    mark="M",
)
def test_wheel_matrix() -> None:
    matrix = wheel_matrix()
    book = np.array([[-LEVER, 1, -1], [LEVER, 1, 1], [LEVER, 1, -1], [-LEVER, 1, 1]]) / RADIUS
    agrees(matrix[BOOK_ORDER], book, abs=1e-12)
    assert np.linalg.matrix_rank(matrix) == 3
    agrees(matrix[BOOK_ORDER].T @ [1, 1, -1, -1], 0, abs=1e-9)

    motion = np.linalg.pinv(matrix)
    columns = np.eye(4)  # each wheel alone
    agrees(roller_yaw_rate(columns, RADIUS, LEVER), motion[0], abs=1e-15)
    agrees(roller_forward_speed(columns, RADIUS), motion[1], abs=1e-15)
    agrees(roller_left_speed(columns, RADIUS), motion[2], abs=1e-15)


def place_after_a_second(book_rates: Sequence[float]) -> list[Matrix]:
    rates = np.array(book_rates)[BOOK_ORDER]  # the order is its own opposite
    motion = (
        roller_forward_speed(rates, RADIUS),
        roller_left_speed(rates, RADIUS),
        roller_yaw_rate(rates, RADIUS, LEVER),
    )
    return [displacement_x(*motion, 1, 0), displacement_y(*motion, 1, 0)]


PROJECT = "Lynch and Park, Modern Robotics, tests that students wrote for the project on mobile manipulation"


@outside("K3", quantity="all wheels at 10 rad/s for a second", source=PROJECT, mark="R")
def test_all_wheels_ahead() -> None:
    agrees(place_after_a_second([10, 10, 10, 10]), [0.475, 0], abs=1e-12)


@outside("K4", quantity="wheels at -10, 10, -10, 10 rad/s for a second", source=PROJECT, mark="R")
def test_diagonal_pairs_against_each_other() -> None:
    agrees(place_after_a_second([-10, 10, -10, 10]), [0, 0.475], abs=1e-12)


@outside("K6", quantity="wheel speed limited to 5 rad/s", source=PROJECT, mark="R")
def test_limited_wheels_go_half_as_far() -> None:
    limited = clipped([10, 10, 10, 10], 5)
    agrees(place_after_a_second(list(limited)), [0.2375, 0], abs=1e-12)


@outside(
    "K8",
    quantity="wheel rates for one motion",
    source="computed independently (numpy)",
    mark="C",
)
def test_wheel_rates_for_a_motion() -> None:
    rates = wheel_rates(yaw_rate=0.5, forward=0.3, left=-0.2)[BOOK_ORDER]
    for rate, printed in zip(rates, ("6.47368", "6.15789", "14.57895", "-1.94737"), strict=True):
        agrees(rate, printed)


@outside(
    "K10",
    quantity="push and moment from 1 N m at each wheel",
    source="computed independently (numpy: power in equals power out)",
    mark="C",
)
def test_torque_is_not_lost_in_the_rollers() -> None:
    strafe, turn = [-1, 1, 1, -1], [-1, 1, -1, 1]
    agrees(roller_force_ahead([1, 1, 1, 1], RADIUS), "84.2105")
    agrees(roller_force_left(strafe, RADIUS), "84.2105")
    agrees(roller_turning_moment(turn, RADIUS, LEVER), "32.4211")
    for torques in ([1, 1, 1, 1], strafe, turn, [0.3, -0.1, 0.7, 0.2]):
        wrench = wheel_matrix().T @ torques
        agrees(roller_turning_moment(torques, RADIUS, LEVER), wrench[0], abs=1e-12)
        agrees(roller_force_ahead(torques, RADIUS), wrench[1], abs=1e-12)
        agrees(roller_force_left(torques, RADIUS), wrench[2], abs=1e-12)


@given(yaw_rate=st.floats(-5, 5), forward=st.floats(-2, 2), left=st.floats(-2, 2))
def test_wheel_rates_give_the_motion_back(yaw_rate: float, forward: float, left: float) -> None:
    rates = wheel_rates(yaw_rate, forward, left)
    assert roller_yaw_rate(rates, RADIUS, LEVER) == pytest.approx(yaw_rate, abs=1e-12)
    assert roller_forward_speed(rates, RADIUS) == pytest.approx(forward, abs=1e-12)
    assert roller_left_speed(rates, RADIUS) == pytest.approx(left, abs=1e-12)


@given(controls=st.tuples(*3 * [st.floats(-1, 1)]))
def test_mix_drives_the_cart_where_the_sticks_point(controls: tuple[float, float, float]) -> None:
    rates = mixed(ROLLER, controls)
    assert roller_forward_speed(rates, 1) == pytest.approx(controls[0], abs=1e-12)
    assert roller_left_speed(rates, 1) == pytest.approx(-controls[1], abs=1e-12)
    assert roller_yaw_rate(rates, 1, 1) == pytest.approx(-controls[2], abs=1e-12)


# ---------------------------------------------------------------- hands


def test_levers_by_hand() -> None:
    assert turning_lever(HALF_BASE, HALF_TRACK) == pytest.approx(0.385)
    assert crossed_turning_lever(HALF_BASE, HALF_TRACK) == pytest.approx(0.085)
    assert crossed_turning_lever(0.15, 0.15) == 0


def test_right_hands_turn_on_the_sum_and_wrong_hands_on_the_difference() -> None:
    right = contact_lever(HANDS, X, Y)
    np.testing.assert_allclose(right, np.array([-1, 1, -1, 1]) * turning_lever(HALF_BASE, HALF_TRACK))
    wrong = contact_lever(np.negative(HANDS), X, Y)
    np.testing.assert_allclose(np.abs(wrong), crossed_turning_lever(HALF_BASE, HALF_TRACK))


def test_all_hands_right() -> None:
    rows = contact_rows(HANDS)
    np.testing.assert_allclose(floor_motion(rows, FORWARD), [1, 0, 0], atol=1e-12)
    np.testing.assert_allclose(floor_motion(rows, STRAFE_RIGHT), [0, -1, 0], atol=1e-12)
    np.testing.assert_allclose(floor_motion(rows, TURN_RIGHT), [0, 0, -1 / LEVER], atol=1e-12)


ALL_SWAPPED = [1, -1, -1, 1]
FRONT_SWAPPED = [1, -1, 1, -1]
REAR_SWAPPED = [-1, 1, -1, 1]
LEFT_SWAPPED = [1, 1, -1, -1]  # front for rear
ONE_WRONG = [1, 1, 1, -1]  # front left


def scrub(rows: Matrix, speeds: Matrix) -> float:
    """Speed at which the contacts slide, all four together."""
    return float(np.linalg.norm(rows @ floor_motion(rows, speeds) - speeds))


@pytest.mark.parametrize("hands", [ALL_SWAPPED, FRONT_SWAPPED, REAR_SWAPPED, LEFT_SWAPPED, ONE_WRONG])
def test_wrong_hands_do_not_show_straight_ahead(hands: list[int]) -> None:
    rows = contact_rows(hands)
    np.testing.assert_allclose(floor_motion(rows, FORWARD), [1, 0, 0], atol=1e-12)
    assert scrub(rows, FORWARD) == pytest.approx(0, abs=1e-12)


@pytest.mark.parametrize(
    ("hands", "strafe_right", "turn_right"),  # worked by hand from the four contact equations
    [
        (ALL_SWAPPED, [0, 1, 0], [0, 0, 0]),  # strafes left; nothing left to turn with
        (FRONT_SWAPPED, [0, 1, 1 / HALF_TRACK], [0, 1, 0]),
        (REAR_SWAPPED, [0, 1, -1 / HALF_TRACK], [0, -1, 0]),
        (LEFT_SWAPPED, [0, 0, 0], [1, 0, -1 / HALF_TRACK]),  # turns, with forward creep
    ],
)
def test_wrong_hands_of_a_square_cart(
    hands: list[int], strafe_right: list[float], turn_right: list[float]
) -> None:
    rows = contact_rows(hands, HALF_TRACK * np.sign(X), Y)
    np.testing.assert_allclose(floor_motion(rows, STRAFE_RIGHT), strafe_right, atol=1e-12)
    np.testing.assert_allclose(floor_motion(rows, TURN_RIGHT), turn_right, atol=1e-12)


def test_wrong_hands_of_any_cart_pivot_half_a_track_off_the_middle() -> None:
    for hands, side in ((FRONT_SWAPPED, -1), (REAR_SWAPPED, 1)):
        _, left, yaw_rate = floor_motion(contact_rows(hands), STRAFE_RIGHT)
        assert side * yaw_rate < 0  # front pair: nose to the left; rear pair: tail to the left
        assert -left / yaw_rate == pytest.approx(side * HALF_TRACK)  # where the floor stands still
        assert scrub(contact_rows(hands), STRAFE_RIGHT) == pytest.approx(0, abs=1e-12)


def test_wheels_of_the_wrong_hand_scrub() -> None:
    square = {"x": HALF_TRACK * np.sign(X), "y": Y}
    assert scrub(contact_rows(ALL_SWAPPED, **square), TURN_RIGHT) == pytest.approx(2)  # all four, at full
    assert scrub(contact_rows(LEFT_SWAPPED, **square), STRAFE_RIGHT) == pytest.approx(2)
    assert scrub(contact_rows(HANDS, **square), STRAFE_RIGHT) == pytest.approx(0, abs=1e-12)


def test_one_wheel_of_the_wrong_hand() -> None:
    rows = contact_rows(ONE_WRONG, HALF_TRACK * np.sign(X), Y)
    # worked by hand: two thirds of the speed, a third of it as creep ahead, and no turn
    np.testing.assert_allclose(floor_motion(rows, STRAFE_RIGHT), [1 / 3, -2 / 3, 0], atol=1e-12)
    assert scrub(rows, STRAFE_RIGHT) > 1.6
    # turns as it should, crabs a sixth ahead and a sixth to the left
    turning = floor_motion(rows, TURN_RIGHT)
    np.testing.assert_allclose(turning, [1 / 6, 1 / 6, -1 / (2 * HALF_TRACK)], atol=1e-12)
    assert 0.8 < scrub(rows, TURN_RIGHT) < 0.83


def test_floor_motion_is_the_least_squares_of_numpy() -> None:
    rows, speeds = contact_rows(ONE_WRONG), np.array([[0.3, 1], [-0.8, 2], [0.1, 3], [0.9, 5]])
    expected, *_ = np.linalg.lstsq(rows, speeds, rcond=None)
    np.testing.assert_allclose(floor_motion(rows, speeds), expected, atol=1e-12)


def test_a_lever_of_rounding_errors_turns_nothing() -> None:
    hardly_square = contact_rows(ALL_SWAPPED, HALF_TRACK * np.sign(X) * (1 + 1e-12), Y)
    np.testing.assert_allclose(floor_motion(hardly_square, TURN_RIGHT), 0, atol=1e-9)


@pytest.mark.parametrize(
    ("call", "says"),
    [
        (
            lambda: roller_wheel_rate(**ANY_WHEEL | {"roller_angle": np.pi / 2}),
            "roller_angle must be less",
        ),
        (
            lambda: roller_wheel_rate(**ANY_WHEEL | {"roller_angle": -np.pi / 2}),
            "roller_angle must be less",
        ),
        (lambda: roller_wheel_rate(**ANY_WHEEL | {"wheel_radius": 0}), "wheel_radius must be > 0 m"),
        (lambda: turning_lever(0, 1), "half_wheelbase must be > 0 m"),
        (lambda: turning_lever(1, 0), "half_track must be > 0 m"),
        (lambda: crossed_turning_lever(0, 1), "half_wheelbase must be > 0 m"),
        (lambda: crossed_turning_lever(1, 0), "half_track must be > 0 m"),
        (lambda: floor_motion(contact_rows(HANDS), [1, 1, 1]), "rim_speeds must be 4, one per row"),
        (lambda: roller_forward_speed([1, 1, 1], 1), "rates must be one for each of 4 wheels"),
        (lambda: roller_forward_speed(FOUR, 0), "wheel_radius must be > 0 m"),
        (lambda: roller_left_speed(FOUR, 0), "wheel_radius must be > 0 m"),
        (lambda: roller_yaw_rate(FOUR, 0, 1), "wheel_radius must be > 0 m"),
        (lambda: roller_yaw_rate(FOUR, 1, 0), "lever must be > 0 m"),
        (lambda: roller_force_ahead([1, 1, 1], 1), "torques must be one for each of 4 wheels"),
        (lambda: roller_force_ahead(FOUR, 0), "wheel_radius must be > 0 m"),
        (lambda: roller_force_left(FOUR, 0), "wheel_radius must be > 0 m"),
        (lambda: roller_turning_moment(FOUR, 0, 1), "wheel_radius must be > 0 m"),
        (lambda: roller_turning_moment(FOUR, 1, -1), "lever must be >= 0 m"),
    ],
)
def test_impossible_inputs_are_refused_by_name(call: Callable[[], object], says: str) -> None:
    with pytest.raises(DomainError, match=says):
        call()
