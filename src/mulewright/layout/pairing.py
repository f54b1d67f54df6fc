"""What does it cost that two functions sit where they do, beside each other or apart?"""

from __future__ import annotations

from collections.abc import Hashable

from mulewright.layout.problem import Channel, Control, Pair
from mulewright.layout.suiting import Costs, Line

OF_CHANNELS = ("box order", "same lead")  # pairs to which the channels matter, to the others the sticks


def hand(control: Control) -> tuple[str, str]:
    """What of a control matters to another one: the transmitter and the stick."""
    return control.radio, control.stick


def between(pair: Pair, first: Hashable, second: Hashable, costs: Costs) -> Line | None:
    """What two places cost together, each the hand of a control or a channel; None where they do not matter."""
    if pair.why in OF_CHANNELS:
        assert isinstance(first, Channel)
        assert isinstance(second, Channel)
        return _of_plugs(pair, first, second, costs)
    assert isinstance(first, tuple)
    assert isinstance(second, tuple)
    return _of_sticks(pair, first, second, costs)


def _of_sticks(pair: Pair, first: tuple[str, str], second: tuple[str, str], costs: Costs) -> Line | None:
    both = f"{pair.first} and {pair.second}"
    same = bool(first[1]) and first == second
    if pair.why == "apart":
        cost = costs["forward_and_strafe_apart"]
        return None if same else Line(cost, f"{both} are not on one stick", "handling")
    if pair.why == "together":
        if first[0] != second[0]:
            return None  # each has a driver
        if same:
            return Line(costs["together_on_one_stick"], f"{both} are used together on one stick", "handling")
        if first[1] and second[1]:
            return None
        why = f"{both} are used together, and a thumb has to leave its stick"
        return Line(costs["together_off_the_sticks"], why, "handling")
    key = "arm_with_turn" if pair.why == "arm with turn" else "arm_with_forward"
    return Line(costs[key], f"{both} are on one stick", "handling") if same else None


def _of_plugs(pair: Pair, first: Channel, second: Channel, costs: Costs) -> Line | None:
    apart = first.radio != second.radio or abs(first.number - second.number) != 1
    wrong_way = pair.why == "box order" and second < first
    cost = costs["ports_apart"] * apart + costs["box_order"] * wrong_way
    how = " and ".join([*["in the other order than at the box"] * wrong_way, *["not side by side"] * apart])
    where = f"channels {first.number} and {second.number}"
    return Line(cost, f"{pair.first} and {pair.second}, {where}: {how}", "handling") if how else None
