"""What `fix` prints, writes and refuses."""

from __future__ import annotations

import shutil
from contextlib import nullcontext
from pathlib import Path

import pytest

from tests.cli.conftest import Run, path_of

TUG, WINCH, CART, PRUNER = (
    path_of(name) for name in ("hose-tug", "log-winch", "tray-cart", "long-reach-pruner")
)
STEP_KEYS = set("what path from to also cost kind clears keeps with then".split())


def test_two_sets_are_printed_with_what_each_step_clears(mulewright: Run) -> None:
    ran = mulewright("fix", PRUNER)
    assert (ran.code, ran.err) == (0, "")
    said = " ".join(ran.out.split())
    assert said.index("CHEAPEST: ") < said.index("CLEANEST: ")
    assert "body.wheelbase is 0.38 m instead of 0.26 m (geometry, 8) clears X02 (drive); X03 (body)" in said
    assert "gives 8.2 N m against gravity" in said
    assert max(map(len, ran.out.splitlines())) <= 80


def test_one_list_where_the_cheapest_is_the_cleanest(mulewright: Run) -> None:
    said = mulewright("fix", TUG).out
    assert "CHEAPEST AND CLEANEST: 7 steps, cost 8.5; clears 11 of 11 findings" in said
    assert "Set radio.mix.0.active to false" in said


def test_a_mule_without_findings_has_nothing_to_clear(mulewright: Run) -> None:
    assert "Nothing trips at WARN or above" in mulewright("fix", CART).out


def test_the_sets_for_programs(mulewright: Run) -> None:
    found = mulewright("fix", TUG, "--json").json
    assert set(found) >= {"cheapest", "cleanest", "uncured", "bounded", "costs"}
    cheapest = found["cheapest"]
    assert cheapest["cost"] == pytest.approx(sum(step["cost"] for step in cheapest["steps"]))
    assert all(set(step) == STEP_KEYS for step in cheapest["steps"])
    assert {"P16 switch.main", "P15 controller.left"} <= set(cheapest["steps"][0]["clears"])
    before, after = (cheapest["verdicts"][when] for when in ("before", "after"))
    assert {one["check"] for one in before} >= {"P16", "S06"}
    assert {one["outcome"] for one in after if one["check"] == "P16"} == {"pass"}
    assert found["uncured"] == []
    assert found["bounded"] is False


def test_the_same_twice_is_the_same(mulewright: Run) -> None:
    assert mulewright("fix", TUG, "--json").out == mulewright("fix", TUG, "--json").out


def test_costs_of_the_file_count(mulewright: Run) -> None:
    found = mulewright("fix", TUG, "--set", "fix.cost.alarm=30", "--set", "fix.cost.leads=0.1", "--json").json
    assert found["costs"]["alarm"] == 30
    kinds = {step["kind"] for step in found["cheapest"]["steps"]}
    assert "alarm" not in kinds
    assert "leads" in kinds


def test_only_what_is_allowed(mulewright: Run) -> None:
    found = mulewright("fix", TUG, "--allow", "wiring", "--json").json
    assert {step["kind"] for step in found["cheapest"]["steps"]} <= {
        "red-wire",
        "plug",
        "leads",
        "fuse",
        "wire",
    }
    assert "P31 battery.main" in found["cheapest"]["left"]


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (("--allow", "wirring"), "Closest: wiring"),
        (("--level", "bad"), "Invalid value for '--level'"),
        (("--sets", "0"), "--sets"),
        (("--seconds", "nan"), "--seconds"),
        (("--set", "fix.cost.bribe=1"), "there is no 'bribe'"),
        (("--apply", "--set", "body.mass=5 kg"), "without --set and --variant"),
    ],
)
def test_what_cannot_be_is_refused(mulewright: Run, words: tuple[str, ...], says: str) -> None:
    ran = mulewright("fix", TUG, *words)
    assert ran.code == 2
    assert says in ran.err
    assert "Traceback" not in ran.err


def test_a_search_with_little_leave_says_that_it_was_ended(mulewright: Run) -> None:
    assert "ended by its limit" in " ".join(
        mulewright("fix", path_of("vine-lift"), "--sets", "5").out.split()
    )


def test_a_broken_part_on_the_shelf_is_left_out_and_named(
    mulewright: Run, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    folder = tmp_path / "controller"
    folder.mkdir()
    (folder / "broken.toml").write_text('max_voltage = "12 apples"\n')
    monkeypatch.setenv("MULEWRIGHT_SHELF", str(tmp_path))
    ran = mulewright("fix", WINCH, "--allow", "parts,records,wiring", "--sets", "60")
    assert ran.code == 0
    assert "cannot be read: controller broken" in ran.out


def test_what_no_part_does_names_what_one_would_have_to_do(mulewright: Run) -> None:
    said = " ".join(mulewright("fix", path_of("soft-fruit-gripper")).out.split())
    assert "servo.left: a servo with gain at most 0.048 deg/us (it has 0.135 deg/us)" in said


def test_apply_writes_the_rest_and_leaves_records_to_a_person(mulewright: Run, tmp_path: Path) -> None:
    path = tmp_path / "mule.toml"
    shutil.copy(WINCH, path)
    ran = mulewright("fix", path, "--apply", "--take", "cleanest")
    said = " ".join(ran.out.split())
    assert "the old file lies beside it" in said
    assert "do it first, then tick it yourself: checklist.eyes" in said
    assert "ratchet       = true" in path.read_text()
    assert (tmp_path / "mule.toml.before").read_text() == WINCH.read_text()


def tripping(verdicts: list[dict[str, str]]) -> set[tuple[str, str]]:
    """What trips at a level that counts."""
    return {
        (one["check"], one["entity"])
        for one in verdicts
        if one["outcome"] == "trip" and one["severity"] != "note"
    }


@pytest.mark.parametrize(("what", "at"), [("Weighing single steps", 2), ("Trying sets of changes", 3)])
def test_an_interrupt_gives_the_best_so_far(
    what: str, at: int, mulewright: Run, monkeypatch: pytest.MonkeyPatch
) -> None:
    def stop(doing: str, done: int, of: int) -> None:
        if (doing, done) == (what, at):
            raise KeyboardInterrupt

    monkeypatch.setattr("mulewright.cli.fix.bars", lambda: nullcontext(stop))
    ran = mulewright("fix", PRUNER, "--json")
    assert (ran.code, ran.err) == (0, "")
    assert ran.json["stopped"]
    assert ran.json["bounded"]
    for one in (ran.json["cheapest"], ran.json["cleanest"]):
        assert not one["proven"]
        before, after = (tripping(one["verdicts"][when]) for when in ("before", "after"))
        assert after <= before
    assert "Stopped by hand" in " ".join(mulewright("fix", PRUNER).out.split())
