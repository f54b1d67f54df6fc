"""Mixes against their algebra, every wiring state counted, and numbers worked by hand."""

from collections.abc import Callable
from itertools import permutations, product
from typing import Any

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from numpy.typing import NDArray

from mulewright.errors import DomainError
from mulewright.models import mixing
from mulewright.models.mixing import (
    HADAMARD,
    MIX_FORWARD_STRAFE,
    MIX_FORWARD_TURN,
    MIX_STRAFE_TURN,
    ROLLER,
    SKID_STEER,
    TWO_SIDE,
    WHEELS,
    clipped,
    largest_command,
    left_command,
    mixed,
    ratio_kept,
    right_command,
    roller_motion,
    turn_reserve,
)
from tests.models.agreement import assert_keeps_promises
from tests.published import agrees, as_printed, outside

Matrix = NDArray[np.float64]

COMMANDS = {"forward": 0.7, "turn": -0.4, "forward_weight": 0.9, "turn_weight": 0.6}
FORWARD_PUSH, STRAFE_PUSH, TURN_PUSH = np.eye(3)
CORNERS = np.array(list(product((-1, 1), repeat=3)), dtype=float)

commands = st.floats(-1, 1)


@pytest.mark.parametrize(
    ("model", "arguments", "fixed"),
    [
        (mixed, {"matrix": ROLLER, "commands": [0.3, -0.5, 0.2]}, ("matrix",)),
        (left_command, COMMANDS, ()),
        (right_command, COMMANDS, ()),
        (clipped, {"command": -1.4, "limit": 1.0}, ()),
        (ratio_kept, {"command": 0.5, "commands": [0.5, -1.6, 1.2], "limit": 1.0}, ()),
        (ratio_kept, {"command": 0.5, "commands": [0.5, 0.6], "limit": 1.0}, ()),
        (turn_reserve, {"forward_weight": 0.9, "turn_weight": 0.6}, ()),
        (largest_command, {"weights": [0.6, 0.2, 0.4]}, ()),
        (roller_motion, {"wheels": [0.3, -0.5, 0.2, 1.0]}, ()),
    ],
)
def test_models_keep_their_promises(
    model: Callable[..., Matrix], arguments: dict[str, Any], fixed: tuple[str, ...]
) -> None:
    assert_keeps_promises(model, arguments, fixed)


def test_matrices_cannot_be_changed_by_accident() -> None:
    matrices = [value for value in vars(mixing).values() if isinstance(value, np.ndarray)]
    assert len(matrices) == 7
    assert not any(matrix.flags.writeable for matrix in matrices)


# ---------------------------------------------------------------- two sides


@outside("S19", quantity="forward 1, turn 0.5: ratio kept", source="from memory", mark="M")
def test_single_stick_mix_scaled_back() -> None:
    sides = mixed(TWO_SIDE, [1, 0.5])
    agrees(sides, [1.5, 0.5], rel=1e-7)
    agrees(ratio_kept(sides, sides, 1), [1, 1 / 3], rel=1e-7)
    agrees(clipped(sides, 1), [1, 0.5], rel=1e-7)


@given(forward=commands, turn=commands)
def test_sides_are_the_rows_of_the_mix(forward: float, turn: float) -> None:
    sides = [left_command(forward, turn, 1, 1), right_command(forward, turn, 1, 1)]
    np.testing.assert_array_equal(sides, mixed(TWO_SIDE, [forward, turn]))
    np.testing.assert_array_equal([*sides, *sides], mixed(SKID_STEER, [forward, turn]))


def test_weights_scale_each_control() -> None:
    # by hand: 0.9 * 0.7 - 0.6 * 0.4 = 0.39, and 0.63 + 0.24 = 0.87
    assert left_command(**COMMANDS) == pytest.approx(0.39)
    assert right_command(**COMMANDS) == pytest.approx(0.87)


def test_mixed_twice_each_control_moves_one_side() -> None:
    np.testing.assert_array_equal(mixed(TWO_SIDE, mixed(TWO_SIDE, np.eye(2))), 2 * np.eye(2))


def test_mixed_twice_with_the_right_motor_reversed() -> None:
    right_reversed = np.diag([1, -1])
    twice = right_reversed @ mixed(TWO_SIDE, TWO_SIDE)
    np.testing.assert_array_equal(twice.T, [[2, 0], [0, -2]])  # forward: left only; turn: right, backwards
    once = right_reversed @ TWO_SIDE
    np.testing.assert_array_equal(once.T, [[1, -1], [1, 1]])  # forward spins, turn drives


@pytest.mark.parametrize(
    ("forward_weight", "turn_weight", "reserve"),
    [
        (1.0, 1.0, 0.5),  # by hand: sides 1 and 0 instead of 1 and -1
        (0.6, 0.4, 1.0),  # nothing clips
        (1.0, 0.4, 0.5),  # sides 1 and 0.6, without clipping 0.8 apart
        (0.8, 0.5, 0.7),  # sides 1 and 0.3, without clipping 1.0 apart
        (1.5, 0.4, 0.0),  # both sides beyond full
        (0.2, 1.5, 2 / 3),  # sides 1 and -1, without clipping 3.0 apart
    ],
)
def test_turn_left_at_full_forward(forward_weight: float, turn_weight: float, reserve: float) -> None:
    assert turn_reserve(forward_weight, turn_weight) == pytest.approx(reserve, abs=1e-12)


@given(forward_weight=st.floats(0, 2), turn_weight=st.floats(0.01, 2))
def test_turn_reserve_is_what_clipping_leaves(forward_weight: float, turn_weight: float) -> None:
    left = clipped(left_command(1, 1, forward_weight, turn_weight), 1)
    right = clipped(right_command(1, 1, forward_weight, turn_weight), 1)
    assert turn_reserve(forward_weight, turn_weight) == pytest.approx((left - right) / (2 * turn_weight))


@given(outputs=st.lists(st.floats(-3, 3), min_size=2, max_size=4), limit=st.floats(0.5, 2))
def test_ratio_kept_fills_the_limit_and_no_more(outputs: list[float], limit: float) -> None:
    kept = ratio_kept(outputs, outputs, limit)
    largest = max(map(abs, outputs))
    assert np.abs(kept).max() == pytest.approx(min(limit, largest))
    np.testing.assert_allclose(kept * largest, np.multiply(outputs, np.abs(kept).max()), atol=1e-12)


def signed_permutations(size: int) -> list[Matrix]:
    """Every way to exchange things and to reverse some."""
    return [
        np.diag(signs) @ np.eye(size)[list(order)]
        for order in permutations(range(size))
        for signs in product((1.0, -1.0), repeat=size)
    ]


def looks(outputs: Matrix) -> tuple[float, ...]:
    return tuple(outputs.ravel())


@pytest.mark.parametrize(
    ("wheel_side", "control_side", "forward", "turn"),
    [
        ([[1, 0], [0, 1]], [[1, 0], [0, 1]], (1, 1), (1, -1)),  # correct
        ([[0, -1], [-1, 0]], [[-1, 0], [0, 1]], (-1, -1), (1, -1)),  # forward inverted
        ([[0, 1], [1, 0]], [[1, 0], [0, -1]], (1, 1), (-1, 1)),  # plugs exchanged = turn inverted
        ([[-1, 0], [0, -1]], [[-1, 0], [0, -1]], (-1, -1), (-1, 1)),  # both motors reversed
        ([[1, 0], [0, -1]], [[0, 1], [1, 0]], (1, -1), (1, 1)),  # right reversed = controls exchanged
        ([[-1, 0], [0, 1]], [[0, -1], [-1, 0]], (-1, 1), (-1, -1)),  # left motor reversed
        ([[0, 1], [-1, 0]], [[0, -1], [1, 0]], (1, -1), (-1, -1)),  # exchanged, right reversed
        ([[0, -1], [1, 0]], [[0, 1], [-1, 0]], (-1, 1), (1, 1)),  # exchanged, left reversed
    ],
)
def test_eight_states_of_two_motors(
    wheel_side: list[list[int]], control_side: list[list[int]], forward: tuple[int], turn: tuple[int]
) -> None:
    """Worked by hand: each state has a cause at the wheels and one at the controls, alike on the floor."""
    outputs = wheel_side @ TWO_SIDE
    np.testing.assert_array_equal(outputs.T, [forward, turn])
    np.testing.assert_array_equal(TWO_SIDE @ control_side, outputs)


def test_each_state_of_two_motors_has_eight_explanations() -> None:
    """Counted over all wheel-side and control-side faults together."""
    seen = [
        looks(wheel_side @ TWO_SIDE @ control_side)
        for wheel_side in signed_permutations(2)
        for control_side in signed_permutations(2)
    ]
    assert sorted({seen.count(state) for state in seen}) == [8]
    assert len(set(seen)) == 8


# ---------------------------------------------------------------- four roller wheels


def test_roller_mix_is_three_columns_of_a_hadamard_matrix() -> None:
    np.testing.assert_array_equal(HADAMARD @ HADAMARD.T, 4 * np.eye(4))
    np.testing.assert_array_equal(HADAMARD[:, :3], ROLLER)
    np.testing.assert_array_equal(HADAMARD[:, 3], [1, 1, -1, -1])


@pytest.mark.parametrize(
    ("pushes", "wheel", "polarity"),  # worked by hand: the rows of the mix and their opposites
    [
        ((1, 1, 1), "front left", 1),
        ((1, 1, -1), "rear right", 1),
        ((1, -1, 1), "rear left", 1),
        ((1, -1, -1), "front right", 1),
        ((-1, 1, 1), "front right", -1),
        ((-1, 1, -1), "rear left", -1),
        ((-1, -1, 1), "rear right", -1),
        ((-1, -1, -1), "front left", -1),
    ],
)
def test_what_a_wheel_did_names_its_port(pushes: tuple[int, ...], wheel: str, polarity: int) -> None:
    pushed = [mixed(ROLLER, push)[WHEELS.index(wheel)] for push in np.eye(3)]
    np.testing.assert_array_equal(polarity * np.array(pushed), pushes)


def test_three_pushes_tell_384_states_apart_and_two_leave_four() -> None:
    """Counted: 4! plug orders times 2^4 polarities."""
    states = [wheel_side @ ROLLER for wheel_side in signed_permutations(4)]
    assert len({looks(state) for state in states}) == len(states) == 384
    for two_pushes in ([0, 1], [0, 2], [1, 2]):
        seen = [looks(state[:, two_pushes]) for state in states]
        assert {seen.count(state) for state in set(seen)} == {4}


def test_every_exchange_of_controls_can_be_undone_at_the_wheels() -> None:
    """Counted: so each of the 384 states has 3! times 2^3 = 48 explanations."""
    wheel_side = {looks(exchange @ ROLLER) for exchange in signed_permutations(4)}
    control_side = {looks(ROLLER @ exchange) for exchange in signed_permutations(3)}
    assert len(control_side) == 48
    assert control_side <= wheel_side


def test_both_right_hand_motors_mirrored_are_curable_without_tools() -> None:
    """Worked by hand: forward and turn inputs exchanged, then the two right-hand plugs."""
    mirrored = np.diag([1, -1, 1, -1]) @ ROLLER
    moved_plugs = np.eye(4)[[0, 3, 2, 1]]
    np.testing.assert_array_equal(moved_plugs @ mirrored[:, [2, 1, 0]], ROLLER)


def test_exchanged_plugs_and_a_reversed_motor_as_found() -> None:
    # as seen on blocks for forward, strafe and turn: front right and rear left exchanged, rear right reversed
    seen = [[1, 1, 1], [1, -1, 1], [1, -1, -1], [-1, -1, 1]]
    np.testing.assert_array_equal(np.diag([1, 1, 1, -1]) @ np.eye(4)[[0, 2, 1, 3]] @ ROLLER, seen)


def test_one_push_of_three_unequal_controls_names_the_ports() -> None:
    # by hand: 0.55 + 0.25 + 0.12 and so on
    np.testing.assert_allclose(mixed(ROLLER, [0.55, 0.25, 0.12]), [0.92, 0.18, 0.42, 0.68])


@pytest.mark.parametrize(
    ("wheels", "motion"),  # worked by hand: quarter sums of the wheels
    [
        ([1, 1, 1, 1], [1, 0, 0, 0]),
        ([1, -1, -1, 1], [0, 1, 0, 0]),
        ([1, -1, 1, -1], [0, 0, 1, 0]),
        ([1, 1, -1, -1], [0, 0, 0, 1]),
        ([1, 1, 1, -1], [0.5, -0.5, 0.5, 0.5]),  # rear right reversed, pushed forward
        ([1, 1, 1, 0], [0.75, -0.25, 0.25, 0.25]),  # rear right dead, pushed forward
    ],
)
def test_motion_from_wheels(wheels: list[float], motion: list[float]) -> None:
    np.testing.assert_allclose(roller_motion(wheels), motion)


@given(controls=st.tuples(commands, commands, commands))
def test_wheels_give_the_controls_back_without_scrub(controls: tuple[float, float, float]) -> None:
    np.testing.assert_allclose(roller_motion(mixed(ROLLER, controls)), [*controls, 0], atol=1e-12)


@given(st.lists(st.tuples(commands, commands, commands), min_size=1, max_size=4))
def test_mix_of_arrays_equals_a_loop(pushes: list[tuple[float, float, float]]) -> None:
    together = mixed(ROLLER, np.transpose(pushes))
    np.testing.assert_allclose(together, np.transpose([mixed(ROLLER, push) for push in pushes]), atol=1e-12)


@pytest.mark.parametrize(
    ("radio", "pushes", "first", "second"),  # worked by hand: sums and differences of two columns
    [
        (MIX_FORWARD_STRAFE, (FORWARD_PUSH, STRAFE_PUSH), [2, 0, 0, 2], [0, 2, 2, 0]),
        (MIX_FORWARD_TURN, (FORWARD_PUSH, TURN_PUSH), [2, 0, 2, 0], [0, 2, 0, 2]),
        (MIX_STRAFE_TURN, (STRAFE_PUSH, TURN_PUSH), [2, -2, 0, 0], [0, 0, -2, 2]),
    ],
)
def test_a_radio_mix_in_front_of_a_box(
    radio: Matrix, pushes: tuple[Matrix, Matrix], first: list[int], second: list[int]
) -> None:
    seen = [mixed(ROLLER, mixed(radio, push)) for push in pushes]
    np.testing.assert_array_equal(seen, [first, second])
    (untouched,) = (push for push in np.eye(3) if not any(np.array_equal(push, one) for one in pushes))
    np.testing.assert_array_equal(mixed(ROLLER, mixed(radio, untouched)), ROLLER @ untouched)


@given(weights=st.tuples(*3 * [st.floats(0, 1)]))
def test_largest_command_is_met_in_a_corner_by_every_wheel(weights: tuple[float, float, float]) -> None:
    outputs = mixed(ROLLER, (CORNERS * weights).T)
    np.testing.assert_allclose(np.abs(outputs).max(axis=1), largest_command(weights), atol=1e-12)


def test_corners_of_a_full_roller_mix() -> None:
    """Worked by hand: one wheel asks for three times what it can, the others for one."""
    outputs = mixed(ROLLER, CORNERS.T)
    np.testing.assert_array_equal(np.sort(np.abs(outputs), axis=0)[:, 0], [1, 1, 1, 3])
    cut = roller_motion(clipped(outputs, 1))
    np.testing.assert_allclose(cut[:3], CORNERS.T / 2)  # half of each control is left
    np.testing.assert_allclose(np.abs(cut[3]), 0.5)  # and the wheels fight
    kept = roller_motion(ratio_kept(outputs, outputs, 1))
    np.testing.assert_allclose(kept[:3], CORNERS.T / 3)  # a third is left
    np.testing.assert_allclose(kept[3], 0, atol=1e-12)  # and nothing fights


def test_weights_that_halve_the_mix() -> None:
    assert largest_command([0.5, 0.5]) == as_printed("1.0")  # never clips
    assert left_command(1, 0, 0.5, 0.5) == as_printed("0.5")  # but full forward is half


@pytest.mark.parametrize(
    ("call", "says"),
    [
        (lambda: mixed(ROLLER, [1, 1]), "commands must be one for each of 3 columns"),
        (lambda: roller_motion([1, 1, 1]), "commands must be one for each of 4 columns"),
        (lambda: clipped(1, -1), "limit must be >= 0"),
        (lambda: ratio_kept(1, [1, 2], 0), "limit must be > 0"),
        (lambda: turn_reserve(-0.1, 1), "forward_weight must be >= 0"),
        (lambda: turn_reserve(1, 0), "turn_weight must be > 0"),
        (lambda: largest_command([1, -1]), "weights must be >= 0"),
    ],
)
def test_impossible_inputs_are_refused_by_name(call: Callable[[], object], says: str) -> None:
    with pytest.raises(DomainError, match=says):
        call()
