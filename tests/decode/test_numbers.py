"""The counts behind the decode, each by an enumeration of its own."""

from __future__ import annotations

from collections import Counter
from itertools import permutations, product

import numpy as np
import pytest

from mulewright.decode.answer import Evidence, decode
from mulewright.decode.explaining import equivalent
from mulewright.decode.fixing import LEADS, fixes
from mulewright.decode.looking import next_look
from mulewright.decode.states import UNSEEN, as_rows, fitting, states
from mulewright.decode.wiring import Code, Wiring, behaviour, exchanges, right
from mulewright.models.rollers import roller_wheel_rate
from tests.decode.rig import ROLLERS, SIDES, SKID, STICKS, UNIT, Rig, bench, rigs, rolling
from tests.published import agrees, outside


def wiring_of(rig: Rig) -> Wiring:
    return Wiring(
        tuple(rig.socket_of), tuple(rig.input_of), tuple(rig.sticks), tuple(rig.channels), tuple(rig.leads)
    )


@pytest.mark.parametrize("drive", [ROLLERS, SIDES, SKID, STICKS], ids=["rollers", "sides", "skid", "sticks"])
def test_model_and_rig_show_the_same(drive: Code) -> None:
    assert all(behaviour(drive, wiring_of(rig)) == rig.pushed() for rig in rigs(drive, inputs=True))


@outside(
    "W-1",
    quantity="signs of four roller wheels",
    source="Lynch and Park, Modern Robotics, section 13.2",
    mark="M",
)
def test_roller_wheels_turn_as_their_rims_slide() -> None:
    closed = rolling(0.15, 0.16, 0.06)
    agrees(np.sign(closed), [[1, 1, 1], [1, -1, -1], [1, -1, 1], [1, 1, -1]])
    places = ((1, 1, -1), (1, -1, 1), (-1, 1, 1), (-1, -1, -1))
    ours = [
        [
            float(
                roller_wheel_rate(yaw, forward, left, 0.15 * x, 0.16 * y, 0.0, slant * np.pi / 4, 0.06)
            )
            for yaw, forward, left in ((0, 1, 0), (0, 0, -1), (-1, 0, 0))
        ]
        for x, y, slant in places
    ]  # fmt: skip
    np.testing.assert_allclose(ours, closed)


@outside("W-5", quantity="answers of the wheels", source="computed independently (numpy)", mark="C")
def test_few_of_all_answers_are_a_state() -> None:
    every = set(product(product((1, -1), repeat=3), repeat=4))
    shown = {rig.pushed() for rig in rigs(ROLLERS)}
    assert shown <= every
    assert shown == {as_rows(state) for state in states(ROLLERS)}
    agrees([len(every), len(shown)], [4096, 384])
    assert len({rig.pushed() for rig in rigs(SIDES)}) == len(states(SIDES)) == 8
    assert len({rig.pushed() for rig in rigs(SKID)}) == len(states(SKID)) == 96
    assert len({rig.pushed() for rig in rigs(STICKS)}) == len(states(STICKS)) == 8


@outside(
    "W-6",
    quantity="explanations of one state, four roller wheels and two sides",
    source="computed independently",
    mark="C",
)
def test_every_state_has_as_many_explanations() -> None:
    for drive, count in ((ROLLERS, 48), (SIDES, 8), (SKID, 8), (STICKS, 8)):
        found = {equivalent(drive, as_rows(state)) for state in states(drive)[::7]}
        agrees([*found], [count])
    seen = Counter(
        Rig(ROLLERS, [*leads], [*sockets], [*order], [*flags]).pushed()
        for order, flags in product(permutations(range(3)), product((1, -1), repeat=3))
        for sockets, leads in product(permutations(range(4)), product((1, -1), repeat=4))
    )
    assert {*seen.values()} == {48}


@outside(
    "W-7",
    quantity="changes that put any of 384 states right",
    source="computed independently (enumeration)",
    mark="C",
)
def test_so_many_changes_are_enough() -> None:
    plain, wheel_side, both, leads = right(ROLLERS), [], [], []
    for rig in rigs(ROLLERS):
        now = wiring_of(rig)
        wheel_side.append(len([*exchanges(now.sockets, plain.sockets)]) + now.leads.count(-1))
        every = fixes(ROLLERS, now, UNIT)
        both.append(every[0].cost)
        leads.append(min(fix.count(LEADS) for fix in every))
    agrees([max(wheel_side), round(float(np.mean(wheel_side)), 1)], [7, 3.9])
    agrees([max(both), round(float(np.mean(both)), 1)], [4, 2.9])
    agrees(np.bincount(leads) / len(leads), [0.375, 0.5, 0.125])


def test_two_pushes_leave_four_and_two_looks_settle_them() -> None:
    for state in states(ROLLERS):
        seen = tuple((*row[:2], UNSEEN) for row in as_rows(state))
        left = fitting(ROLLERS, seen)
        assert len(left) == 4
        look = next_look(left, seen)
        assert look is not None
        assert (look.command, look.leaves, len(look.wheels)) == (2, 1, 2)
        diagonals = {state[wheel][0] * state[wheel][1] for wheel in look.wheels}
        assert len(diagonals) == 2  # one wheel of each pair that the first two pushes leave alike


def test_both_right_motors_mirrored() -> None:
    """Without a tool: exchange forward and turn, and two plugs. Cleanest: two pairs of leads."""
    rows = Rig(ROLLERS, [1, -1, 1, -1], [0, 1, 2, 3]).pushed()
    found = decode([bench(ROLLERS)], Evidence(rows))
    assert found.cheapest is not None
    assert found.cleanest is not None
    assert [(action.kind, action.of) for action in found.cheapest.actions] == [
        ("swap-plugs", (1, 3)),
        ("swap-inputs", (0, 2)),
    ]
    assert [(action.kind, action.of) for action in found.cleanest.actions] == [
        ("swap-motor-leads", (1,)),
        ("swap-motor-leads", (3,)),
    ]
