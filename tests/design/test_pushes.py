"""The signs of the pushes name plug and polarity of every wheel, in every state of the wiring."""

from __future__ import annotations

from itertools import permutations, product

import numpy as np
import pytest

from mulewright.design.mule import Mule, link
from mulewright.design.pushes import Part, code, decoded, place_of, plugged_place, seen
from mulewright.design.resolve import load_text
from mulewright.models.mixing import HADAMARD, TWO_SIDE
from tests.designs import mule
from tests.published import agrees, outside

FOUR = ("front_left", "front_right", "rear_left", "rear_right")
SIGN = {"+": 1, "-": -1, "0": 0}


def of_kind(kind: str, *lines: str) -> Mule:
    return link(load_text("\n".join(["schema_version = 1", "[drive]", f'kind = "{kind}"', *lines])))


def word(signs: str) -> tuple[int, ...]:
    return tuple(SIGN[sign] for sign in signs)


@pytest.mark.parametrize(
    ("signs", "place", "sense"),
    [
        ("+++", "front_left", 1),
        ("++-", "rear_right", 1),
        ("+-+", "rear_left", 1),
        ("+--", "front_right", 1),
        ("-++", "front_right", -1),
        ("-+-", "rear_left", -1),
        ("--+", "rear_right", -1),
        ("---", "front_left", -1),
    ],
)
def test_each_triple_of_signs_is_one_wheel(signs: str, place: str, sense: int) -> None:
    assert decoded(mule("aisle-carrier"), word(signs)) == Part((place,), sense)


def test_code_is_three_columns_of_a_hadamard_matrix() -> None:
    np.testing.assert_array_equal(list(code(mule("aisle-carrier")).values()), HADAMARD[:, :3])
    np.testing.assert_array_equal(list(code(mule("tray-cart")).values()), TWO_SIDE)


@outside(
    "W-4", quantity="wiring states of four roller wheels", source="computed independently (numpy)", mark="C"
)
def test_three_pushes_name_each_of_384_wiring_states() -> None:
    carrier, found = mule("aisle-carrier"), set()
    for order, signs in product(permutations(range(4)), product((1, -1), repeat=4)):
        rows = np.diag(signs) @ np.eye(4)[list(order)] @ HADAMARD[:, :3]
        parts = [decoded(carrier, tuple(int(sign) for sign in row)) for row in rows]
        assert parts == [Part((FOUR[place],), sign) for place, sign in zip(order, signs, strict=True)]
        found.add(tuple(rows.ravel()))
    agrees(len(found), 384)


@outside("W-2", quantity="wiring states of two sides", source="computed independently (numpy)", mark="C")
def test_two_pushes_name_each_of_8_wiring_states() -> None:
    cart, sides, found = mule("tray-cart"), ("left", "right"), set()
    for order, signs in product(permutations(range(2)), product((1, -1), repeat=2)):
        rows = np.diag(signs) @ np.eye(2)[list(order)] @ TWO_SIDE
        for row, place, sign in zip(rows, order, signs, strict=True):
            assert decoded(cart, (int(row[0]), int(row[1]))) == Part((sides[place],), sign)
        found.add(tuple(rows.ravel()))
    agrees(len(found), 8)


@pytest.mark.parametrize("signs", ["+0", "0-", "00"])
def test_signs_with_a_zero_are_no_wheel_of_a_mixed_drive(signs: str) -> None:
    assert decoded(mule("tray-cart"), word(signs)) is None


def test_wheels_of_one_side_cannot_be_told_apart() -> None:
    skid = of_kind("skid-steer")
    assert decoded(skid, (1, -1)) == Part(("right",), 1)
    assert place_of(skid, "rear_right") == "right"
    assert place_of(mule("aisle-carrier"), "rear_right") == "rear_right"


def test_a_drive_of_two_sticks_has_a_command_for_each_side() -> None:
    sticks = of_kind("two-sticks")
    assert code(sticks) == {"left": (1, 0), "right": (0, 1)}
    assert decoded(sticks, (0, -1)) == Part(("right",), -1)


def test_two_commands_leave_two_roller_wheels_alike() -> None:
    rollers = of_kind("four-roller-wheels", 'commands = ["forward", "turn"]')
    assert decoded(rollers, (1, 1)) == Part(("front_left", "rear_left"), 1)


def test_signs_that_fit_forwards_and_backwards_name_nothing() -> None:
    rollers = of_kind("four-roller-wheels", 'commands = ["strafe", "turn"]')
    assert decoded(rollers, (1, 1)) is None  # front left, or front right backwards


def test_newer_pushes_count_and_their_order_is_theirs() -> None:
    sets = (
        'as_found={ order = ["forward", "turn"], wheels = { left = "+-" } }',
        'as_left={ order = ["turn", "forward"], wheels = { left = "-+" } }',
    )
    assert seen(mule("tray-cart", sets[:1]), "left") == Part(("right",), 1)
    assert seen(mule("tray-cart", sets), "left") == Part(("right",), 1)
    assert seen(mule("tray-cart", sets), "right") is None


@pytest.mark.parametrize(
    ("design", "device", "place"),
    [
        ("aisle-carrier", "controller.rear_left", "rear_left"),
        ("aisle-carrier", "controller.lift", None),
        ("tray-cart", "controller.right", "right"),
        ("hose-tug", "controller.right", "right"),
    ],
)
def test_an_output_of_a_mix_is_meant_for_one_place(design: str, device: str, place: str | None) -> None:
    assert plugged_place(mule(design), device) == place


def test_nothing_is_meant_for_a_place_where_no_mix_is_on() -> None:
    assert plugged_place(mule("tray-cart", ("radio.mix.0.active=false",)), "controller.left") is None
    assert plugged_place(mule("tray-cart", ("controller.left.signal=?",)), "controller.left") is None
