"""What is told apart that is neither a plug nor a lead: mixed twice, dead, joined, mis-seen, wrong roller wheels."""

from __future__ import annotations

from itertools import combinations, permutations, product

import numpy as np
import pytest

from mulewright.decode.answer import Answer, Evidence, decode
from mulewright.decode.bench import CONTROLLERS
from mulewright.decode.explaining import Probe
from mulewright.decode.faults import Fault, faults, mis_seen
from mulewright.decode.floor import fitting_floor, hands_on_floor, motions
from mulewright.decode.speeds import expected, read_speeds
from mulewright.decode.states import UNSEEN, as_rows, states, with_sign
from mulewright.decode.wiring import Code, Rows
from mulewright.errors import MulewrightError
from tests.decode.rig import ROLLERS, SIDES, SKID, STICKS, Rig, bench, rigs, rolling, two_sided
from tests.published import agrees, outside

PAIR = np.array([[1, 1], [1, -1]])


def signs(matrix: object) -> Rows:
    return tuple(tuple(int(sign) for sign in row) for row in np.sign(np.array(matrix)))


def kinds(drive: Code, seen: Rows) -> list[str]:
    return [fault.kind for fault in faults(drive, seen)]


def radio_mix(first: int, second: int) -> object:
    """A two-sided mix in the radio on two of three controls."""
    mix = np.eye(3)
    mix[np.ix_([first, second], [first, second])] = PAIR
    return mix


@pytest.mark.parametrize(
    ("pair", "seen"),
    [
        ((0, 1), [[2, 0, 1], [0, 2, -1], [0, 2, 1], [2, 0, -1]]),
        ((0, 2), [[2, 1, 0], [0, -1, 2], [2, -1, 0], [0, 1, 2]]),
        ((1, 2), [[1, 2, 0], [1, -2, 0], [1, 0, -2], [1, 0, 2]]),
    ],
)
def test_mixed_twice_on_rollers(pair: tuple[int, int], seen: list[list[int]]) -> None:
    """Closed form: the box's signs times the radio's mix on one pair of controls."""
    product_ = np.sign(rolling()) @ radio_mix(*pair)
    np.testing.assert_array_equal(product_, seen)
    found = decode([bench(ROLLERS)], Evidence(signs(seen)))
    assert found.faults == (Fault("double-mixing", commands=pair),)
    assert found.after == ROLLERS.rows
    assert not found.complete


def test_mixed_twice_on_rollers_in_every_state() -> None:
    for pair in combinations(range(3), 2):
        for state in states(ROLLERS)[::5]:
            seen = signs(state @ radio_mix(*pair))
            found = decode([bench(ROLLERS)], Evidence(seen))
            assert [fault.commands for fault in found.faults] == [pair]
            assert found.after == as_rows(state)


def test_mixed_twice_looks_like_not_mixed_on_two_sides() -> None:
    np.testing.assert_array_equal(two_sided((1, -1)) @ PAIR, 2 * np.eye(2))
    for order, senses in product(permutations(range(2)), product((1, -1), repeat=2)):
        seen = signs(np.diag(senses) @ np.eye(2)[list(order)])
        found = decode([bench(SIDES)], Evidence(seen))
        assert [fault.kind for fault in found.faults] == ["double-mixing", "no-mixing"]
        assert found.after == signs(np.array(seen) @ PAIR)
        first = decode([bench(SIDES, CONTROLLERS)], Evidence(seen)).faults[0]
        assert first.kind == "no-mixing"


def test_mixed_although_each_stick_has_its_side() -> None:
    assert kinds(STICKS, ((1, 1), (1, -1))) == ["mixed"]


@pytest.mark.parametrize("wheel", range(4))
def test_a_dead_wheel_in_every_state(wheel: int) -> None:
    for state in states(ROLLERS)[::11]:
        rows = state.copy()
        rows[wheel] = 0
        found = decode([bench(ROLLERS)], Evidence(as_rows(rows)))
        assert found.faults == (Fault("dead-wheel", wheels=(wheel,)),)
        assert found.candidates == 2  # its port follows from the others, its sign does not


@pytest.mark.parametrize("command", range(3))
def test_a_dead_control_in_every_state(command: int) -> None:
    for state in states(ROLLERS)[::11]:
        rows = state.copy()
        rows[:, command] = 0
        found = decode([bench(ROLLERS)], Evidence(as_rows(rows)))
        assert found.faults == (Fault("dead-control", commands=(command,)),)
        assert found.candidates == 4
        assert found.look is not None
        assert found.look.command == command


def test_one_mistaken_look_names_its_cell() -> None:
    for state in states(ROLLERS)[::3]:
        rows = as_rows(state)
        for wheel, command in product(range(4), range(3)):
            still = with_sign(rows, wheel, command, 0)
            assert mis_seen(ROLLERS, still) == ((wheel, command),)
            other = with_sign(rows, wheel, command, -rows[wheel][command])
            cells = mis_seen(ROLLERS, other)
            assert (wheel, command) in cells
            assert len(cells) == 2  # the wheel that was seen wrongly, or the one whose signs it seems to have
            assert kinds(ROLLERS, other) == ["mis-seen", "same-port"]


def test_two_wheels_on_one_output() -> None:
    found = faults(SIDES, ((1, 1), (1, 1)))
    assert found[-1] == Fault("same-port", wheels=(0, 1))
    three_left = faults(SKID, ((1, 1), (1, 1), (1, 1), (1, -1)))
    assert three_left[-1] == Fault("same-port", wheels=(0, 1, 2))


def test_a_mix_on_another_pair_of_channels() -> None:
    assert kinds(SIDES, ((1, 1), (0, 1))) == ["mis-seen", "mix-on-wrong-pair"]


def test_what_fits_nothing_is_said_to_fit_nothing() -> None:
    assert kinds(ROLLERS, ((1, 1, 1),) * 4) == ["same-port"]
    assert kinds(ROLLERS, ((1, 0, 1), (0, 0, 1), (1, 1, 0), (0, 1, 0))) == ["unclear"]


def test_two_wheels_of_one_side_that_fight() -> None:
    found = decode([bench(SKID)], Evidence(((1, 1), (1, -1), (-1, -1), (1, -1))))
    assert found.complete
    assert found.cheapest is not None
    assert [(action.kind, action.of) for action in found.cheapest.actions] == [("swap-motor-leads", (2,))]


# --- the floor


def test_floor_shows_less_than_the_blocks() -> None:
    basis = np.sign(rolling())
    shown = motions(ROLLERS, states(ROLLERS))
    for state, signs_ in zip(states(ROLLERS)[::17], shown[::17], strict=True):
        np.testing.assert_array_equal(np.sign(basis.T @ state), signs_)
    alike = np.unique(shown, axis=0, return_counts=True)[1]
    assert (len(alike), alike.max()) == (312, 2)
    two = motions(SIDES, states(SIDES))
    assert len(np.unique(two, axis=0)) == 8  # two wheels are told by the floor alone


def test_one_wheel_reversed_drifts_to_the_left_and_turns_right() -> None:
    rows = Rig(ROLLERS, [1, 1, 1, -1], [0, 1, 2, 3]).pushed()
    left = np.array([rows], dtype=np.int8)
    assert motions(ROLLERS, left)[0][:, 0].tolist() == [1, -1, 1]


def test_floor_alone_settles_or_asks_for_the_blocks() -> None:
    for state in states(ROLLERS)[::13]:
        floor = dict(enumerate(map(tuple, motions(ROLLERS, state[None])[0].T.tolist())))
        unseen = ((UNSEEN,) * 3,) * 4
        found = decode([bench(ROLLERS)], Evidence(unseen, floor))
        assert found.candidates == len(fitting_floor(ROLLERS, states(ROLLERS), floor)) in (1, 2)
        assert found.complete == (found.candidates == 1)
        assert (found.look is None) == found.complete


@pytest.mark.parametrize(
    ("wrong", "strafe", "turn"),
    [
        ((0, 1, 2, 3), (0, -1, 0), (0, 0, 0)),  # strafes left, and in a square it does not turn
        ((0, 1), (0, -1, -1), (0, -1, 0)),  # nose swings left; turn strafes left
        ((2, 3), (0, -1, 1), (0, 1, 0)),  # tail swings left; turn strafes right
        ((0, 2), (0, 0, 0), (1, 0, 1)),  # scrubs; turns and creeps forward
    ],
)
def test_roller_wheels_of_the_wrong_hand(
    wrong: tuple[int, ...], strafe: tuple[int, ...], turn: tuple[int, ...]
) -> None:
    marked = tuple(wheel in wrong for wheel in range(4))
    shown = hands_on_floor(ROLLERS, marked, 0.3, 0.3)
    assert shown == {0: (1, 0, 0), 1: strafe, 2: turn}
    found = decode([bench(ROLLERS)], Evidence(ROLLERS.rows, shown, size=(0.3, 0.3)))
    assert Fault("roller-hands", wheels=wrong) in found.faults


def test_one_roller_wheel_of_the_wrong_hand_creeps_and_scrubs() -> None:
    shown = hands_on_floor(ROLLERS, (True, False, False, False), 0.3, 0.3)
    assert shown[1][:2] == (1, 1)
    assert shown[2][2] == 1


def test_floor_that_fits_no_wiring_is_said_so() -> None:
    floor = {0: (-1, -1, -1)}
    found = decode([bench(SIDES)], Evidence(SIDES.rows, {0: (-1, -1)}))
    assert [fault.kind for fault in found.faults] == ["floor"]
    assert [fault.kind for fault in decode([bench(ROLLERS)], Evidence(ROLLERS.rows, floor)).faults] == [
        "floor"
    ]


# --- a tester


def answer_with(*tests: Probe) -> Answer:
    rows = Rig(ROLLERS, [1, 1, 1, 1], [0, 1, 2, 3], [2, 1, 0]).pushed()
    return decode([bench(ROLLERS)], Evidence(rows, tests=tests))


def test_a_tester_in_an_input_tells_control_from_wheel() -> None:
    assert answer_with().explanations == 6
    found = answer_with(Probe("input", 0, (1, 1, 1, 1)))
    assert found.explanations == 2  # exchanged before the box; forward is all right behind it
    assert found.state is not None
    assert found.state.inputs == (2, 1, 0)
    assert answer_with(Probe("output", 1, (0, 1, 0, 0)), Probe("output", 2, (0, 0, 1, 0))).explanations == 1


def test_a_tester_in_a_lead_tells_its_polarity() -> None:
    rig = Rig(ROLLERS, [1, -1, 1, -1], [0, 1, 2, 3])
    lead = Probe("lead", 1, (0, -1, 0, 0))
    found = decode([bench(ROLLERS)], Evidence(rig.pushed(), tests=(lead,)))
    assert found.state is not None
    assert found.state.leads[1] == -1


def test_a_tester_that_contradicts_the_pushes_is_refused() -> None:
    with pytest.raises(MulewrightError, match="no wiring shows both"):
        answer_with(Probe("lead", 0, (1, 0, 0, 0)), Probe("lead", 0, (-1, 0, 0, 0)))


def test_every_rig_is_found_with_all_leads_tested() -> None:
    for rig in [*rigs(ROLLERS, inputs=True)][::101]:
        tests = [
            Probe("lead", wheel, tuple(sign * (place == wheel) for place in range(4)))
            for wheel, sign in enumerate(rig.leads)
        ]
        outputs = [
            Probe(
                "output",
                socket,
                tuple(sign * (at == socket) for sign, at in zip(rig.leads, rig.socket_of, strict=True)),
            )
            for socket in range(4)
        ]
        found = decode([bench(ROLLERS)], Evidence(rig.pushed(), tests=(*tests, *outputs)))
        assert found.state is not None
        assert found.explanations == 1
        assert found.state.leads == tuple(rig.leads)
        assert found.state.inputs == tuple(rig.input_of)


# --- all at once


@outside(
    "W-8",
    quantity="speeds of four roller wheels with all controls pushed at once",
    source="computed independently (numpy)",
    mark="C",
)
def test_speeds_of_one_push_are_all_different() -> None:
    by_wheel = dict(zip(ROLLERS.wheels, expected(ROLLERS), strict=True))
    ours = [by_wheel[wheel] for wheel in ("front_left", "rear_right", "rear_left", "front_right")]
    agrees(ours, np.sort(np.sign(rolling()) @ [0.55, 0.25, 0.12])[::-1])
    agrees(np.round(ours, 2), [0.92, 0.68, 0.42, 0.18])


@pytest.mark.parametrize(
    ("drive", "shares"), [(ROLLERS, (0.55, 0.25, 0.12)), (SIDES, (0.6, 0.3)), (STICKS, (0.6, 0.3))]
)
def test_one_push_of_everything_names_every_state(drive: Code, shares: tuple[float, ...]) -> None:
    for state in states(drive):
        speeds = 140 * (state @ np.array(shares))
        text = " ".join(f"{wheel}:{speed:.1f}" for wheel, speed in zip(drive.wheels, speeds, strict=True))
        assert read_speeds(text, drive) == as_rows(state)


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("L:1", "these speeds name no signals"),
        ("L:1 R:-1", "these speeds name no signals"),
        ("L:1 R:0", "dead band"),
        ("L:1 R:fast", "is no speed"),
        ("L:1 R:nan", "is no speed"),
    ],
)
def test_speeds_that_name_nothing_are_refused(text: str, says: str) -> None:
    with pytest.raises(MulewrightError, match=says):
        read_speeds(text, SIDES)


def test_wheels_of_one_side_have_no_speed_of_their_own() -> None:
    with pytest.raises(MulewrightError, match="does not tell these wheels apart"):
        read_speeds("FL:1 FR:2 RL:3 RR:4", SKID)
