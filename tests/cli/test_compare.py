"""Two mule files side by side on the command line."""

from __future__ import annotations

from itertools import pairwise
from pathlib import Path

import pytest

from tests.cli.conftest import Run, path_of
from tests.designs import DESIGNS, EXAMPLES

MULE, TARGET = path_of("two-benches"), EXAMPLES / "two-benches" / "target.toml"
CART, TUG = path_of("tray-cart"), path_of("hose-tug")


def test_what_trips_on_the_target_comes_first(mulewright: Run) -> None:
    ran = mulewright("compare", MULE, TARGET)
    assert (ran.code, ran.err) == (0, "")
    said = " ".join(ran.out.split())
    order = ["WORSE:", "STOP H01", "X02 tips-over-its-nose: drive (was warn)", "NEWLY UNKNOWN:", "BETTER:",
             "CHANGED INPUTS:", "WHAT MOVED MOST", "BY WHICH FACTOR:", "RATE INTO GEARS:"]  # fmt: skip
    places = [said.index(words) for words in order]
    assert places == sorted(places)


def test_the_numbers_of_two_benches_are_there(mulewright: Run) -> None:
    said = " ".join(mulewright("compare", MULE, TARGET).out.split())
    assert "k_u x1.27, k_V x1.16, k_G x1, k_m x1" in said
    for row in ("k_u k_V / k_G x1.47", "k_u^2 k_V x1.86", "k_u^2 k_V^2 x2.15", "(k_u k_V / k_G)^2 k_m x2.15"):
        assert row in said
    assert "First run: begin at 68.2 % of the output" in said
    assert (
        "at full signal needs a reduction of 4.66 in B, x2.56 the 1.82 of A, x2.78 with the motors' free"
        in said
    )
    assert "push, climbing, lifting: x2.78 the force (1 / rate^2)" in said


def test_a_target_that_does_less_needs_no_cap(mulewright: Run) -> None:
    said = mulewright("compare", MULE, TARGET, "--variant-b", "capped").out
    assert "First run: no cap, B does no more at full stick." in said
    assert "begin at" not in said


def test_the_same_for_programs(mulewright: Run) -> None:
    found = mulewright("compare", MULE, TARGET, "--json").json
    drive = next(one for one in found["factors"]["functions"] if one["moves"] == "drive")
    assert drive["k_u"] == pytest.approx(1.267, abs=5e-4)
    assert drive["k_V"] == pytest.approx(1.158, abs=5e-4)
    assert {"check", "entity", "before", "after"} <= set(found["verdicts"][0])
    stops = {one["check"] for one in found["verdicts"] if one["after"] == "trip-stop"}
    assert stops == set("H01 H02 H04 H05 H06 H07 H10 H15 X02".split())
    (tips,) = (one for one in found["verdicts"] if (one["check"], one["entity"]) == ("X02", "drive"))
    assert (tips["before"], tips["after"], tips["turn"]) == ("trip-warn", "trip-stop", "worse")
    assert found["factors"]["rate"]["gears"][0]["factor"] == pytest.approx(2.56, abs=5e-3)
    assert {"entity", "name", "unit", "before", "after"} <= set(found["facts"][0])


def test_changed_inputs_are_printed_as_typed(mulewright: Run) -> None:
    said = " ".join(mulewright("compare", MULE, TARGET).out.split())
    assert (
        "body.center_height: 0.10 m (estimate, 90 mm to 0.11 m) -> 0.16 m (estimate, 0.14 m to 0.18 m)"
        in said
    )
    assert "rear_right}.dead_band: 25 us (data-sheet) -> 5 us (typed)" in said
    assert "ONLY IN A regulator.servo, wire.servo ONLY IN B regulator.unit, wire.unit" in said
    assert "regulator.unit.voltage" not in said


def test_a_file_beside_one_of_its_variants(mulewright: Run) -> None:
    said = mulewright("compare", TUG, TUG, "--variant-b", "radio-mix-off").out
    assert "S20   mixed-twice, mixer.tug: stop -> pass" in said
    assert "radio.mix.0.active: true -> false" in said
    assert "No factors: both are states of one mule, Hose tug;" in said
    back = mulewright("compare", TUG, TUG, "--variant-a", "radio-mix-off").out
    assert "STOP  S20 mixed-twice: mixer.tug (was pass)" in back


def test_yesterday_and_today(mulewright: Run, tmp_path: Path) -> None:
    older = tmp_path / "yesterday.toml"
    older.write_text(CART.read_text("utf-8").replace('diameter = "100 mm"', 'diameter = "90 mm"'), "utf-8")
    said = mulewright("compare", older, CART).out
    assert "drive.wheel.diameter: 90 mm" in said
    assert "states of one mule, Tray cart" in said


@pytest.mark.parametrize("design", DESIGNS)
def test_no_difference(mulewright: Run, design: str) -> None:
    ran = mulewright("compare", path_of(design), path_of(design))
    assert ran.out.splitlines()[-1] == "No difference."
    found = mulewright("compare", path_of(design), path_of(design), "--json").json
    assert found["same"] is True
    assert found["verdicts"] == found["inputs"] == found["facts"] == []


def test_settings_go_to_the_side_that_they_name(mulewright: Run) -> None:
    both = mulewright("compare", CART, CART, "--set-a", "body.mass=7 kg", "--set-b", "body.mass=8 kg")
    assert "body.mass: 7 kg (typed) -> 8 kg (typed)" in both.out


def test_a_machine_without_a_common_motor_has_no_factors(mulewright: Run) -> None:
    ran = mulewright("compare", path_of("aisle-carrier"), TUG)
    assert "No motor is on both machines." in ran.out
    assert "GONE: tripped about things that B has not" in ran.out


@pytest.mark.parametrize(("first", "second"), list(pairwise([*DESIGNS, DESIGNS[0]])))
def test_any_two_machines_can_be_compared(mulewright: Run, first: str, second: str) -> None:
    ran = mulewright("compare", path_of(first), path_of(second))
    assert (ran.code, ran.err) == (0, "")
    assert max(map(len, ran.out.splitlines())) <= 80


@pytest.mark.parametrize(
    ("words", "says"),
    [
        ((CART,), "Missing argument 'B'"),
        ((CART, "nowhere.toml"), "nowhere.toml: there is no such file"),
        ((TUG, TUG, "--variant-b", "radio-mix-of"), "Closest: radio-mix-off"),
        ((CART, CART, "--set-b", "motor.lift.part=gm-fast"), "there is no motor called 'lift'"),
        ((CART, CART, "--set-a", "body.mass=heavy"), "body.mass"),
        ((CART, CART, "--set-a", "target:body.mass=9 kg"), "there is no table called"),
        ((CART, CART, "--set-b", "limits.S01.limit=3 kg"), "limits.S01.limit"),
    ],
)
def test_what_does_not_read_is_refused(mulewright: Run, words: tuple[str, ...], says: str) -> None:
    ran = mulewright("compare", *words)
    assert (ran.code, ran.out) == (2, "")
    assert says in ran.err
    assert "error" in mulewright("compare", *words, "--json").json
