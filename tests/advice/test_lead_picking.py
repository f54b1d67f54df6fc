"""Are leads given out as well as can be? Compared with trying everything, on small shelves."""

from __future__ import annotations

import time
from collections.abc import Iterator, Sequence
from decimal import Decimal
from itertools import permutations, product
from random import Random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from mulewright.advice.lead_picking.chains import LONGEST, Finder, Need
from mulewright.advice.lead_picking.leads import SCREW, Contacts, End, ShelfLead, mates
from mulewright.advice.lead_picking.solving import Solved, solve

SERVO = "3-pin servo plug"
PINS, SOCKETS = End(SERVO, "pins"), End(SERVO, "sockets")
BARE = End("bare wire", "open")
THICK, THIN = 2e-6, 1e-6  # [m2]
SECONDS = 5.0


def lead(
    id: str = "l",
    first: End = SOCKETS,
    second: End = PINS,
    length: float = 0.3,
    *,
    count: int | None = 1,
    area: float | None = THIN,
    flips: bool | None = False,
    red: bool | None = True,
    branches: int = 1,
    price: tuple[Decimal, str] | None = None,
) -> ShelfLead:
    return ShelfLead(
        id, "", first, second, length, area, flips, red, branches, None, count=count, price=price
    )


def need(start: End = SOCKETS, end: End = PINS, length: float = 0.2, **more: object) -> Need:
    return Need("n", "power", start, end, length, **more)  # type: ignore[arg-type]


def ids(solved: Solved) -> list[list[str]]:
    return [[one.id for one in served.leads] for served in solved.served]


# --- against trying everything

FAMILIES = ("a", "b")
CONTACTS: tuple[Contacts, ...] = ("pins", "sockets", "open")
ENDS = st.builds(End, st.sampled_from(FAMILIES), st.sampled_from(CONTACTS))
LEADS = st.builds(
    lead,
    first=ENDS,
    second=ENDS,
    length=st.sampled_from((0.1, 0.2, 0.3, 0.5)),
    count=st.sampled_from((1, 1, 2, None)),
    area=st.sampled_from((THIN, THICK, None)),
    flips=st.sampled_from((False, False, True, None)),
    red=st.sampled_from((True, True, False, None)),
    branches=st.sampled_from((1, 1, 1, 2)),
)
PLACES = st.sampled_from([End(family, way) for family in FAMILIES for way in CONTACTS] + [SCREW])
NEEDS = st.builds(
    Need,
    st.just("n"),
    st.sampled_from(("power", "servo lead")),
    PLACES,
    PLACES,
    st.sampled_from((0.0, 0.2, 0.4, 0.6)),
    st.sampled_from((None, THIN, THICK)),
    st.booleans(),
    st.sampled_from((1, 1, 1, 2)),
)


def every_way(need: Need, copies: Sequence[ShelfLead]) -> Iterator[tuple[int, ...]]:
    """Every row of leads, one by one in either direction, that joins the ends of a need."""
    for size in range(1, LONGEST + 1):
        for row in permutations(range(len(copies)), size):
            if any(joins(need, [copies[n] for n in row], ways) for ways in product((0, 1), repeat=size)):
                yield row


def joins(need: Need, row: Sequence[ShelfLead], turned: Sequence[int]) -> bool:
    here, swapped = need.start, False
    for place, (one, back) in enumerate(zip(row, turned, strict=True)):
        last = place == len(row) - 1
        near, far = (one.second, one.first) if back else (one.first, one.second)
        if need.area is not None and (one.area is None or one.area < need.area):
            return False
        if (need.red and one.red is not True) or (need.kind == "power" and one.flips is None):
            return False
        if one.branches > 1 and (back or not last or one.branches != need.branches):
            return False
        if (place and here.contacts == "open") or not mates(near, here):
            return False
        here, swapped = far, swapped != bool(one.flips)
    whole = sum(one.length for one in row) >= need.length - 1e-9
    return whole and not swapped and row[-1].branches == need.branches and mates(here, need.end)


def best_of_all(needs: Sequence[Need], leads: Sequence[ShelfLead]) -> tuple[int, int, int, int]:
    """Needs not served, adapters, leads and millimetres to spare, when everything is tried."""
    copies = [one for one in leads for _ in range(one.count or 0)]
    ways = [[(), *every_way(one, copies)] for one in needs]

    def tried(place: int, used: frozenset[int]) -> tuple[int, int, int, int]:
        if place == len(needs):
            return 0, 0, 0, 0
        found = []
        for row in ways[place]:
            if not used.intersection(row):
                rest = tried(place + 1, used.union(row))
                spare = round(1000 * (sum(copies[n].length for n in row) - needs[place].length)) if row else 0
                adapters = sum(copies[n].is_adapter for n in row)
                found.append((rest[0] + (not row), rest[1] + adapters, rest[2] + len(row), rest[3] + spare))
        return min(found)

    return tried(0, frozenset())


@settings(max_examples=300, deadline=None)
@given(st.lists(NEEDS, min_size=1, max_size=3), st.lists(LEADS, max_size=4))
def test_nothing_better_is_found_by_trying_everything(needs: list[Need], leads: list[ShelfLead]) -> None:
    named = [ShelfLead(**{**vars(one), "id": f"l{number}"}) for number, one in enumerate(map(plain, leads))]
    solved = solve(needs, named)
    found = (
        len(solved.unserved),
        sum(one.adapters for one in solved.served),
        sum(len(one.leads) for one in solved.served),
        sum(round(1000 * one.surplus) for one in solved.served),
    )
    assert solved.proved
    assert found == best_of_all(needs, named)
    assert all(solved.taken[one.id] <= (one.count or 0) for one in named)
    for one in solved.served:
        assert joins(one.need, one.leads, [int(back) for back in one.chain.turned])
        assert one.chain.flips % 2 == 0


def plain(one: ShelfLead) -> ShelfLead:
    """A lead without what it worked out about itself."""
    return ShelfLead(**{name: getattr(one, name) for name in ShelfLead.__dataclass_fields__})


# --- one thing at a time


def test_an_extension_is_taken_only_where_it_is_long_enough() -> None:
    assert ids(solve([need(length=0.3)], [lead("short", length=0.2), lead("long", length=0.35)])) == [
        ["long"]
    ]
    assert ids(solve([need(length=0.5)], [lead("a", length=0.2), lead("b", length=0.35)])) == [["a", "b"]]
    assert solve([need(length=0.6)], [lead("a", length=0.2), lead("b", length=0.35)]).unserved


def test_what_nobody_counted_is_not_there() -> None:
    assert solve([need()], [lead(count=None)]).unserved
    assert solve([need()], [lead(count=0)]).unserved


def test_fewer_adapters_count_for_more_than_fewer_leads() -> None:
    other = End("other", "pins")
    stock = [
        lead("adapter", SOCKETS, other, 0.4), lead("back", other.other, PINS, 0.4),
        lead("a", length=0.1), lead("b", length=0.1), lead("c", length=0.1),
    ]  # fmt: skip
    assert ids(solve([need(length=0.3)], stock)) == [["a", "b", "c"]]


def test_one_swap_of_plus_and_minus_never_serves_and_two_do() -> None:
    swapping = [lead("a", flips=True, length=0.1), lead("b", flips=True, length=0.1)]
    assert solve([need(length=0.1)], swapping[:1]).unserved
    [served] = solve([need(length=0.1)], swapping).served
    assert [one.id for one in served.leads] == ["a", "b"]
    assert served.chain.flips == 2


def test_the_cheaper_one_is_taken_where_all_else_is_equal() -> None:
    dear, cheap = lead("a", price=(Decimal(3), "crowns")), lead("b", price=(Decimal(2), "crowns"))
    assert ids(solve([need()], [dear, cheap])) == [["b"]]
    assert ids(solve([need()], [lead("0", price=None), dear, cheap])) == [["b"]]


def test_open_ends_go_under_screws_and_are_not_plugged_together() -> None:
    assert mates(BARE, SCREW)
    assert not mates(PINS, SCREW)
    assert not mates(BARE, End("ring, 4 mm", "open"))
    assert mates(End("ring,  4 MM", "open"), End("ring, 4 mm", "open"))
    halves = [lead("a", SOCKETS, BARE), lead("b", BARE, SOCKETS)]
    assert solve([need(PINS, PINS)], halves).unserved


def test_a_chain_holds_no_lead_that_one_could_leave_out() -> None:
    stock = [lead(f"l{number}", length=0.1 * number) for number in range(1, 6)]
    for size in (2, 3):
        for chain in Finder(need(length=0.55), stock).chains(size, 10_000):
            lengths = [stock[place].length for place in chain.places]
            assert sum(lengths) - min(lengths) < 0.55 <= sum(lengths) + 1e-9


@pytest.mark.parametrize("seed", [1, 2])
def test_many_leads_for_many_wires_are_given_out_in_a_few_seconds(seed: int) -> None:
    dice = Random(seed)
    families = [f"family {number}" for number in range(6)]

    def ends() -> tuple[str, str]:
        first = dice.choice(families)
        return first, first if dice.random() < 0.8 else dice.choice(families)

    def length(most: float) -> float:
        return round(dice.uniform(0.05, most), 2)

    stock = [
        lead(f"l{n:03}", End(a, "sockets"), End(b, "pins"), length(1.0), count=1 + n % 2, flips=n % 9 == 0)
        for n in range(300)
        for a, b in [ends()]
    ]
    needs = [need(End(a, "pins"), End(b, "sockets"), length(0.6)) for _ in range(300) for a, b in [ends()]]
    began = time.process_time()
    solved = solve(needs, stock)
    assert time.process_time() - began < SECONDS
    assert len(solved.served) > 200
    assert all(solved.taken[one.id] <= (one.count or 0) for one in stock)
