"""The commands that print a table of facts: envelope, matrix, endpoints, offset, mixing."""

from __future__ import annotations

from pathlib import Path

import pytest
from rich.cells import cell_len

from tests.cli.conftest import Run, path_of
from tests.designs import DESIGNS

PRUNER, CARRIER, CART = (path_of(name) for name in ("long-reach-pruner", "aisle-carrier", "tray-cart"))
RUN = ("--distance", "3 m", "--sideways", "0.39 m")
TABLES = (
    ("envelope", PRUNER, "arm"),
    ("envelope", CARRIER, "lift"),
    ("matrix", CARRIER),
    ("matrix", CART),
    ("endpoints", CARRIER, "tilt"),
    ("endpoints", path_of("soft-fruit-gripper"), "gripper"),
    ("offset", CART, *RUN),
    ("offset", CARRIER, *RUN, "--to", "left"),
    ("mixing", CART),
    ("mixing", CARRIER),
)
FACT_KEYS = {"name", "entity", "value", "unit", "origin", "missing", "says"}


@pytest.mark.parametrize("words", TABLES, ids=lambda words: f"{words[0]}-{words[1].parent.name}")
def test_a_table_fits_a_screen_and_has_a_twin_for_programs(mulewright: Run, words: tuple[str, ...]) -> None:
    text = mulewright(*words)
    assert (text.code, text.err) == (0, "")
    assert max(cell_len(line.rstrip()) for line in text.out.splitlines()) <= 80
    ran = mulewright(*words, "--json")
    assert ran.code == 0
    tables = ran.json["tables"]
    assert tables
    for table in tables:
        assert table["title"] in " ".join(text.out.split())
        assert all(list(row) == table["columns"] for row in table["rows"])
        facts = [cell for row in table["rows"] for cell in row.values() if isinstance(cell, dict)]
        assert facts
        assert all(set(fact) >= FACT_KEYS for fact in facts)


@pytest.mark.parametrize("words", TABLES, ids=lambda words: f"{words[0]}-{words[1].parent.name}")
def test_each_number_of_a_table_can_be_explained(mulewright: Run, words: tuple[str, ...]) -> None:
    path = words[1]
    measured = (
        ["--set", "drive.drift_run=3 m", "--set", "drive.drift_seen=0.39 m"] if words[0] == "offset" else []
    )
    table = mulewright(*words, "--json").json["tables"][0]
    for fact in (cell for cell in table["rows"][0].values() if isinstance(cell, dict)):
        name = f"{fact['entity']}.{fact['name']}"
        opened = mulewright("explain", path, name, *measured, "--json")
        assert opened.code == 0, name
        assert opened.json["value"] == fact["value"]


def test_pruner_may_stop_with_so_much(mulewright: Run) -> None:
    first = mulewright("envelope", PRUNER, "arm", "--json").json["tables"][0]["rows"][0]
    assert first["stop at most"]["value"] == pytest.approx(1.09, abs=0.005)
    assert "0 deg" in mulewright("envelope", PRUNER, "arm").out


def test_what_lacks_is_named(mulewright: Run) -> None:
    said = " ".join(mulewright("envelope", CARRIER, "lift").out.split())
    assert "? cannot be told: needs mechanism.lift.load_ahead, mechanism.lift.lowest_height" in said


def test_the_slow_switch_misses_the_lift(mulewright: Run) -> None:
    said = " ".join(mulewright("matrix", CARRIER).out.split())
    assert "lift LV misses" in said
    assert "A slow mode is wanted and does not come: lift." in said
    assert "It does not change forward, strafe, turn, lift, tilt." in said


def test_a_lost_link_is_followed_to_the_machine(mulewright: Run) -> None:
    found = mulewright("matrix", CARRIER, "--lost-link", "--json").json
    wheel = found["outputs"][0]
    assert (wheel["device"], wheel["runs_on"], wheel["way"]) == ("controller.front_left", True, "without end")
    said = " ".join(mulewright("matrix", CARRIER, "--lost-link").out.split())
    assert "lift: does not stay, moves by itself at 14 mm/s." in said
    unsaid = mulewright("matrix", CARRIER, "--lost-link", "--set", "receiver.protects=?").out
    assert "? is not known: needs receiver.protects." in " ".join(unsaid.split())
    assert "No output is plugged" in mulewright("matrix", path_of("soft-fruit-gripper"), "--lost-link").out


@pytest.mark.parametrize("design", DESIGNS)
def test_a_lost_link_fits_a_screen(mulewright: Run, design: str) -> None:
    ran = mulewright("matrix", path_of(design), "--lost-link")
    assert (ran.code, ran.err) == (0, "")
    assert max(cell_len(line.rstrip()) for line in ran.out.splitlines()) <= 80


def test_the_side_is_the_other_one(mulewright: Run) -> None:
    (row,) = mulewright("offset", CART, *RUN, "--to", "left", "--json").json["tables"][0]["rows"]
    assert row["so the faster side is"] == "right"
    assert row["channel"] == "1"
    assert row["set it to"]["value"] == pytest.approx(1.17, abs=0.001)
    assert len(mulewright("offset", CART, *RUN, "--json").json["tables"][0]["rows"]) == 2


def test_a_drift_that_is_no_drift_is_told_apart_from_a_gap(mulewright: Run) -> None:
    said = " ".join(mulewright("offset", CART, "--distance", "3 m", "--sideways", "30 m").out.split())
    assert "cannot be worked out: mismatch must be 0 to 1" in said


def test_a_box_has_no_endpoint_for_a_wheel(mulewright: Run) -> None:
    said = " ".join(mulewright("offset", CARRIER, *RUN).out.split())
    assert "none of them has an endpoint of its own" in said


def test_mixed_twice_is_said(mulewright: Run) -> None:
    assert "mixed twice as it stands" in mulewright("mixing", path_of("hose-tug")).out


JAW = """
schema_version = 1
name = "Jaw on a bench"

[mechanism.jaw]
kind    = "gripper"
linkage = { needed = "60 deg" }

[servo.jaw]
gain    = "0.09 deg/us"
neutral = "1520 us"
moves   = "mechanism.jaw"
"""


def test_a_typed_angle_that_the_lengths_contradict_is_said(mulewright: Run) -> None:
    gripper = path_of("soft-fruit-gripper")
    bars = "horn='30 mm', rod='60 mm', lever='30 mm', base='60 mm', horn_angle='90 deg', rod_side='ahead'"

    def said(closed: str) -> str:
        linkage = f"{{ needed='60 deg', {bars}, lever_open='60 deg', lever_closed='{closed}' }}"
        return " ".join(
            mulewright(
                "endpoints", gripper, "gripper", "--set", f"mechanism.gripper.linkage={linkage}"
            ).out.split()
        )

    assert "60 deg from open to closed are typed, the lengths give 50 deg: measure both again." in said(
        "110 deg"
    )
    assert "measure both again" not in said("118 deg")


def test_a_radio_of_full_range_is_told_without_any_radio(mulewright: Run, tmp_path: Path) -> None:
    file = tmp_path / "mule.toml"
    file.write_text(JAW)
    (table,) = mulewright("endpoints", file, "jaw", "--json").json["tables"]
    needed = [row for row in table["rows"] if row["end"].startswith("needed")]
    assert [row["500 us radio"]["value"] for row in needed] == pytest.approx([2 / 3, 2 / 3])
    assert all(row["this radio"]["missing"] == ["radio"] for row in needed)


@pytest.mark.parametrize("design", DESIGNS)
@pytest.mark.parametrize("command", ["matrix", "mixing"])
def test_every_mule_gets_an_answer(mulewright: Run, design: str, command: str) -> None:
    ran = mulewright(command, path_of(design))
    assert ran.code == 0 or "there is no drive" in ran.err


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (("envelope", PRUNER, "amr"), "'amr' is no arm and no lift"),
        (("envelope", PRUNER, "amr"), "Closest: arm"),
        (("envelope", path_of("log-winch"), "winch"), "an arm or a lift on a mule that drives"),
        (("endpoints", CARRIER, "tlit"), "Closest: tilt"),
        (("endpoints", CART, "forward"), "this mule has no servo"),
        (("offset", path_of("log-winch"), *RUN), "nothing drives this mule"),
        (("offset", CART, "--distance", "3 kg", "--sideways", "1 m"), "drive.drift_run"),
        (("offset", CART, "--distance", "3 m"), "Missing option '--sideways'"),
        (("offset", CART, *RUN, "--to", "ahead"), "'ahead' is not one of"),
        (("mixing", path_of("log-winch")), "there is no drive to mix for"),
    ],
)
def test_what_cannot_be_answered_is_refused_in_both_forms(
    mulewright: Run, words: tuple[str, ...], says: str
) -> None:
    ran = mulewright(*words)
    assert ran.code == 2
    assert says in ran.err
    ran = mulewright(*words, "--json")
    assert ran.code == 2
    assert set(ran.json["error"]) >= {"what", "rule"}
