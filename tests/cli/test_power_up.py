"""What `power-up` prints and asks: the plan, one reading at a time, and what was entered even when it is cut short."""

from __future__ import annotations

import io
import json
import sys
from pathlib import Path

import pytest
from pypdf import PdfReader

from mulewright.cli.power_up_text import walk_through
from mulewright.tasks.powering_up import Walk, plan_power_up
from tests.cli.conftest import Run, path_of
from tests.designs import DESIGNS

CART = path_of("tray-cart")


@pytest.mark.parametrize("design", DESIGNS)
@pytest.mark.parametrize("how", [(), ("--supply",), ("--tester",)], ids=["battery", "supply", "tester"])
def test_it_fits_80_columns_and_is_the_same_every_time(
    mulewright: Run, design: str, how: tuple[str, ...]
) -> None:
    first, second = (mulewright("power-up", path_of(design), *how) for _ in range(2))
    assert (first.code, first.err) == (0, "")
    assert max(map(len, first.out.splitlines())) <= 80
    assert first.out == second.out
    assert "BEFORE ANYTHING IS CONNECTED" in first.out


def test_programs_get_every_step_with_bands_in_si(mulewright: Run) -> None:
    found = mulewright("power-up", CART, "--json", "--supply").json
    assert found["mode"] == "bench supply"
    readings = {one["id"]: one for step in found["steps"] for one in step["readings"]}
    full = readings["full:forward:motor.left"]
    assert full["unit"] == "V"
    assert full["low"] < full["nominal"] < full["high"]
    assert full["nominal"] == pytest.approx(0.958 * 12.5, rel=0.01)
    assert {one["path"] for one in full["rests_on"]} >= {"controller.left.dead_band", "radio.half_range"}
    limit = next(step["limit"] for step in found["steps"] if step["id"] == "function:forward")
    assert limit["volts"] == 12.6
    assert 1 < limit["amps"] < 15
    assert found["cautions"]


# --- a walk

GOOD = ["y", "y", "15 A", "12.6 V", "5 kohm", "0.3", "ol", "300 mohm", "2 kohm"]


def test_readings_are_judged_as_they_come(mulewright: Run, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(sys, "stdin", io.StringIO("\n".join([*GOOD, "y", "9 V"]) + "\n"))
    ran = mulewright("power-up", CART, "--ask")
    assert ran.code == 1
    assert ran.out.count("Inside:") == 7
    said = " ".join(ran.out.split())
    assert "OUTSIDE (above): 5.7 V to 6.3 V. Disconnect at once." in said
    assert "STOP at step 8: put it right, then back." in said
    assert "11 of " in ran.out


def test_the_volts_of_the_pack_set_the_bands_that_follow() -> None:
    walk = Walk(plan_power_up(CART))
    for word in ("y", "y", "15 A", "14.3 V"):
        walk = walk.told(word)
    planned, followed = (
        one.plan.readings["full:forward:motor.left"].band for one in (plan_power_up(CART), walk.found)
    )
    assert planned.nominal == pytest.approx(0.958 * 12.5, rel=0.01)
    assert followed.nominal == pytest.approx(0.958 * 14.2, rel=0.01)
    assert walk.question is not None
    assert walk.question[0].id == "short:battery.main"
    assert [one.reading.id for one in walk.entries if one.reading] == ["fuse:fuse.main", "pack:battery.main"]


def test_a_stop_holds_until_somebody_goes_on_all_the_same(
    mulewright: Run, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(sys, "stdin", io.StringIO("n\ny\nback\ny\ny\n30 A\n12.6\ngo on\n12.6\n"))
    ran = mulewright("power-up", CART, "--ask", "--json")
    assert [one["answer"] for one in ran.json["entries"]] == ["yes", "yes", "above", "inside"]
    assert ran.json["went_on_before"] == [4]
    assert ran.code == 1
    assert ran.err.count("it stops here") == 2


def test_open_checks_come_first_and_a_step_that_waits_for_them_stops() -> None:
    walk = Walk(plan_power_up(path_of("aisle-carrier")))
    first = next(place for place, (step, _) in enumerate(walk.questions) if step.waits)
    out = io.StringIO()
    done = walk_through(walk, io.StringIO("?\n" * (first + 2)), out)
    assert out.getvalue().index("R02 runs-on-without-a-link") < out.getvalue().index("1. Nothing that moves")
    assert len(done.entries) == first
    assert "STOP before step 8" in out.getvalue()
    assert len(done.told("go on").told("?").entries) == first + 1


def test_units_answers_and_steps_back(mulewright: Run, monkeypatch: pytest.MonkeyPatch) -> None:
    lines = ["maybe", "y", "back", "y", "y", "15 V", "15", "?", "stop"]
    monkeypatch.setattr(sys, "stdin", io.StringIO("\n".join(lines) + "\n"))
    ran = mulewright("power-up", CART, "--ask", "--json")
    found = ran.json
    assert [one["answer"] for one in found["entries"]] == ["yes", "yes", "inside", "not seen"]
    assert found["entries"][2]["value"] == 15.0
    assert "y, n, ? or back" in ran.err


def test_what_was_entered_is_kept_when_it_is_cut_short(
    mulewright: Run, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    class Interrupted(io.StringIO):
        def readline(self, *_: object) -> str:  # type: ignore[override]
            line = super().readline()
            if not line:
                raise KeyboardInterrupt
            return line

    trail = tmp_path / "trail.jsonl"
    for _ in range(2):
        monkeypatch.setattr(sys, "stdin", Interrupted("y\ny\n30 A\n"))
        ran = mulewright("power-up", CART, "--ask", "--trail", trail)
        assert ran.code == 1
        assert "Step 3, above" in ran.out
    kept = [json.loads(line) for line in trail.read_text("utf-8").splitlines()]
    assert [[one["answer"] for one in walk["entries"]] for walk in kept] == [["yes", "yes", "above"]] * 2
    assert kept[0]["entries"][2]["advice"].startswith("Do not plug the battery in")


def test_the_nominal_reading_of_every_step_comes_through() -> None:
    walk = Walk(plan_power_up(CART))
    answers = []
    for _, reading in walk.questions:
        if reading is None:
            answers.append("y")
        else:
            band = reading.band
            value = band.nominal if band.nominal is not None else band.high if band.low is None else band.low
            assert value is not None
            unit = {"rad": "rad", "1": ""}.get(band.unit, band.unit)
            answers.append(f"{value!r} {unit}")
    out = io.StringIO()
    done = walk_through(walk, io.StringIO("\n".join(answers) + "\n"), out)
    assert done.question is None
    assert done.outside == []
    assert "OUTSIDE" not in out.getvalue()


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (("--trail", "trail.jsonl"), "nothing is entered without --ask"),
        (("--ask", "--trail", "no/such/folder/trail.jsonl"), "the trail cannot be written"),
        (("--ask", "--out", "plan.pdf"), "one of --out and --ask"),
        (("--out", "plan.doc"), "cannot be printed"),
        (("--set", "fuse.main.rating=much"), "much"),
    ],
)
def test_one_clear_message(
    mulewright: Run, words: tuple[str, ...], says: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(sys, "stdin", io.StringIO("y\n"))
    ran = mulewright("power-up", CART, *words)
    assert ran.code == 2
    assert says in ran.err
    assert "Traceback" not in ran.err


def test_names_in_other_scripts_are_printed_as_they_are(mulewright: Run, tmp_path: Path) -> None:
    path = tmp_path / "mule.toml"
    text = (
        CART.read_text("utf-8")
        .replace("motor.left]", 'motor."αριστερά"]')
        .replace('"motor.left"', '"motor.αριστερά"')
    )
    path.write_text(text.replace('name     = "Tray cart"', 'name     = "Тележка {x} <b>[i]"'), "utf-8")
    ran = mulewright("power-up", path)
    assert ran.code == 0
    assert "Тележка {x} <b>[i]" in ran.out
    assert "motor αριστερά" in ran.out


def test_the_plan_for_today_is_put_on_paper(mulewright: Run, tmp_path: Path) -> None:
    path = tmp_path / "plan.pdf"
    ran = mulewright("power-up", CART, "--supply", "-o", path)
    assert (ran.code, ran.out) == (0, f"Wrote {path}: First power-up\n")
    text = "".join(page.extract_text() for page in PdfReader(path).pages)
    assert "bench supply 12.6 V" in text
