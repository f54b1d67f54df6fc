"""Does the advice put every drive right? Carried out on a simulated rig, whichever explanation is the true one."""

from __future__ import annotations

import pytest

from mulewright.decode.answer import Evidence, decode
from mulewright.decode.bench import BOX, CONTROLLERS, RADIO
from mulewright.decode.fixing import LEADS, MOVES, Fix
from mulewright.decode.wiring import Code, Rows
from tests.decode.rig import ROLLERS, SIDES, SKID, STICKS, Rig, bench, rigs

DRIVES = [(ROLLERS, BOX), (SIDES, BOX), (SIDES, RADIO), (SKID, RADIO), (SKID, BOX), (STICKS, CONTROLLERS)]


def carried_out(rig: Rig, fix: Fix, *, to_the_end: bool) -> tuple[Rows, bool]:
    """Do what a fix says up to the last plug move, push again, and go on where that shows what was expected."""
    moves = sum(action.kind in MOVES for action in fix.actions)
    for number, action in enumerate(fix.actions):
        rig.do(fix, number)
        if number == moves - 1 and rig.pushed() != action.then and not to_the_end:
            return rig.pushed(), True
    return rig.pushed(), False


@pytest.mark.parametrize(("drive", "mixing"), DRIVES)
@pytest.mark.parametrize("which", ["cheapest", "cleanest"])
def test_advice_leads_to_a_drive_that_is_right(drive: Code, mixing: str, which: str) -> None:
    on = bench(drive, mixing)
    known: dict[tuple[Rows, bool], Fix] = {}

    def advise(seen: Rows, *, moved: bool = False) -> Fix:
        if (seen, moved) not in known:
            fix = getattr(decode([on], Evidence(seen, moved=moved)), which)
            assert isinstance(fix, Fix)
            known[seen, moved] = fix
        return known[seen, moved]

    for rig in rigs(drive, inputs=True):
        seen, surprised = carried_out(rig, advise(rig.pushed()), to_the_end=False)
        if surprised:
            seen, _ = carried_out(rig, advise(seen, moved=True), to_the_end=True)
        assert seen == drive.rows
    assert len(known) > 1


@pytest.mark.parametrize(("drive", "mixing"), DRIVES)
def test_what_is_expected_comes_about_where_the_likeliest_is_true(drive: Code, mixing: str) -> None:
    for rows in {rig.pushed() for rig in rigs(drive)}:
        found = decode([bench(drive, mixing)], Evidence(rows))
        assert found.complete
        assert found.state is not None
        for fix in (found.cheapest, found.cleanest, *found.ranked[:3]):
            assert fix is not None
            state = found.state
            rig = Rig(
                drive, [*state.leads], [*state.sockets], [*state.inputs], [*state.controls], [*state.channels]
            )
            assert rig.pushed() == rows
            for number, action in enumerate(fix.actions):
                rig.do(fix, number)
                assert rig.pushed() == action.then
            assert rig.pushed() == drive.rows


def test_never_more_than_four_things_to_do_nor_two_pairs_of_leads() -> None:
    for rows in {rig.pushed() for rig in rigs(ROLLERS)}:
        found = decode([bench(ROLLERS)], Evidence(rows)).cheapest
        assert found is not None
        assert len(found.actions) <= 4
        assert found.count(LEADS) <= 2
        kinds = [action.kind in MOVES for action in found.actions]
        assert kinds == sorted(kinds, reverse=True)  # plugs first, reversals last


def test_cleanest_leaves_nothing_reversed() -> None:
    for rows in {rig.pushed() for rig in rigs(ROLLERS)}:
        found = decode([bench(ROLLERS)], Evidence(rows)).cleanest
        assert found is not None
        assert {*found.to.leads, *found.to.controls, *found.to.channels} == {1}
        assert found.to.sockets == (0, 1, 2, 3)
