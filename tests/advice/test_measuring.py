"""What to measure next: the lines of a worksheet, what they settle, what is typed afterwards, what stays open."""

from __future__ import annotations

import re
from collections.abc import Sequence

import pytest

from mulewright.advice.at_hand import AtHand, at_hand, spread, usual, ways
from mulewright.advice.entering import TO_FILL, number_at, part_at, to_enter, unit_for
from mulewright.advice.measuring import Worksheet, worksheet
from mulewright.checks import CHECKS
from mulewright.checks.engine import Outcome, run
from mulewright.design.mule import Mule, link
from mulewright.design.resolve import load_text, rebuild
from mulewright.errors import NotFound, UnitError
from mulewright.facts.graph import Evaluation
from mulewright.shelf.measuring import Way, instruments
from mulewright.units.kinds import KINDS
from mulewright.units.parse import CELSIUS
from mulewright.units.quantity import Origin, Quantity
from tests.designs import DESIGNS, evaluation, mule

EVERYTHING = AtHand({name: one.error for name, one in instruments().items()}, everything=True)


def sheet(
    design: str, *sets: str, minutes: float | None = None, named: Sequence[str] | None = None
) -> Worksheet:
    on = evaluation(design, sets)
    return worksheet(on, at_hand(on.mule, named), minutes)


def filled(on: Mule, line: str, near: float) -> str:
    """A line as somebody would type it who has found a number. [SI]."""
    path, value = line.partition(" = ")[0], re.sub(r"  #.*", "", line)
    number = number_at(on, path)
    if number is None:
        return value.replace(TO_FILL, "looked at")
    unit = unit_for(number.kind, near)
    shown = near - CELSIUS if unit == "degC" else near / KINDS[number.kind].factors.get(unit, 1.0)
    return value.replace(TO_FILL, f"{shown:.9g}")


# --- the worksheet ----------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("design", DESIGNS)
def test_every_open_verdict_is_settled_or_listed_with_a_reason(design: str) -> None:
    found = sheet(design)
    verdicts = {(one.verdict.check.id, one.verdict.entity): one.doubt for one in found.study.questions}
    gained = dict.fromkeys(verdicts, 0.0)
    for line in found.lines:
        assert line.settles
        for one in line.settles:
            gained[one.verdict.check.id, one.verdict.entity] += one.by
    left = {(one.verdict.check.id, one.verdict.entity): one.doubt for one in found.left}
    for key, doubt in verdicts.items():
        assert doubt - gained[key] == pytest.approx(left.get(key, 0.0), abs=0.02), key
    assert all(one.why for one in found.left)
    assert [line.rank for line in found.lines] == list(range(1, len(found.lines) + 1))
    assert found.undecided + found.doubtful == len(verdicts)


@pytest.mark.parametrize("design", DESIGNS)
def test_what_is_measured_settles_what_could_not_be_told(design: str) -> None:
    # entered as the worksheet says, at the middle of what is usual, no verdict it promised is left untold
    found = sheet(design)
    on = evaluation(design)
    drawn = found.study.drawn
    entered = [
        filled(on.mule, means.enter, drawn[means.path].value if means.path in drawn else 1.0)
        for line in found.lines
        for means in line.measurement.means
    ]
    again = link(rebuild(on.mule.loaded, entered))
    promised = {(one.verdict.check.id, one.verdict.entity) for line in found.lines for one in line.settles}
    told = {(one.check.id, one.entity): one for one in run(Evaluation(again), CHECKS.values())}
    for key in promised:
        assert told[key].outcome is not Outcome.CANNOT_TELL, told[key].what


def test_a_verdict_with_two_gaps_is_settled_only_by_both() -> None:
    found = sheet("hose-tug", minutes=4)  # mismatch 3 min and straight run 2 min do not both fit
    assert not any(one.verdict.check.id == "M37" for line in found.lines for one in line.settles)
    both = [line for line in sheet("hose-tug", minutes=5).lines if line.together]
    assert {line.measurement.path for line in both} == {"drive.side_mismatch", "room.straight_run"}
    assert {line.together for line in both} == {("drive.side_mismatch",), ("room.straight_run",)}


def test_equal_parts_are_measured_once() -> None:
    (line,) = [one for one in sheet("two-benches").lines if one.measurement.path.endswith("gearbox_limit")]
    assert line.measurement.also == tuple(
        f"motor.{name}.gearbox_limit" for name in ("front_right", "rear_left", "rear_right")
    )
    assert len(line.settles) == 4
    assert sum(one.by for one in line.settles) == pytest.approx(4)


def test_more_time_never_gains_less_and_is_kept_to() -> None:
    gains = []
    for minutes in (1, 3, 6, 12, 24, 100):
        found = sheet("two-benches", minutes=minutes)
        assert found.minutes <= minutes
        gains.append(sum(one.by for line in found.lines for one in line.settles))
    assert gains == sorted(gains)
    everything = sum(one.by for line in sheet("two-benches").lines for one in line.settles)
    assert gains[-1] == pytest.approx(everything, abs=0.05)


def test_equal_sets_are_shown() -> None:
    found = sheet("hose-tug", "controller.left.dead_band=?", "controller.right.dead_band=?", minutes=4)
    (line,) = found.lines
    assert {(line.measurement.path,), *found.ties} == {
        (f"controller.{side}.dead_band",) for side in ("left", "right")
    }


def test_a_gain_that_is_none_is_no_line() -> None:
    gaps = (
        "body.track", "controller.roller.max_voltage", "motor.right.nominal_voltage", "radio.channel.2.trim",
        "wire.branches.temperature", "receiver.min_voltage", "body.mass", "motor.left.stall_current",
        "controller.left.dead_band", "receiver.antenna_clear",
    )  # fmt: skip
    assert all(line.settles for line in sheet("leaf-sweeper", *(f"{path}=?" for path in gaps)).lines)


def test_a_number_that_contradicts_itself_is_not_measured_away() -> None:
    found = sheet("tray-cart", "controller.left.half_range=10 us")
    broken = [one for one in found.left if "cannot be worked out" in one.why]
    assert all(one.doubt == 1 for one in broken)
    assert all("half_range" not in line.measurement.path for line in found.lines)


def test_nothing_open_means_nothing_to_measure() -> None:
    on = evaluation("tray-cart")
    open_ids = {one.verdict.check.id for one in worksheet(on, EVERYTHING).study.questions}
    found = sheet("tray-cart", *(f'limits.{id}={{ deliberate = true, because = "so" }}' for id in open_ids))
    assert (found.lines, found.left, found.undecided, found.doubtful, found.minutes) == ((), (), 0, 0, 0)


# --- instruments ------------------------------------------------------------------------------------------------------


def test_without_the_instrument_the_verdict_stays_open_and_says_what_is_lacking() -> None:
    found = sheet("hose-tug", named=["tape"])
    (x01,) = [one for one in found.left if one.verdict.check.id == "X01"]
    assert x01.why == "not at hand: what measures drive.wheel.friction (inclinometer or luggage scale)"
    assert {line.measurement.means[0].way.instrument for line in found.lines} <= {
        "tape",
        "decision",
        "data sheet",
        "eyes",
    }


def test_instruments_of_the_file_count_with_their_own_error() -> None:
    on = mule(
        "hose-tug",
        ('instrument.scale={ kind = "luggage scale", error = "1 % + 20 g" }', "instrument.tape={}"),
    )
    found = at_hand(on)
    assert not found.everything
    assert found.errors["luggage scale"] == "1 % + 20 g"
    assert found.errors["tape"] == "2 mm"
    assert "inclinometer" not in found.errors
    assert at_hand(on, ["luggage scale"]).errors["luggage scale"] == "1 % + 20 g"
    (means,) = [one for one in found.means(on, "body.mass", 5.0) if one.way.instrument == "luggage scale"]
    assert means.off == pytest.approx(0.07)
    assert means.enter.endswith('with = "luggage scale", plus_minus = "0.07 kg" }')


def test_an_unknown_instrument_is_answered_with_the_nearest() -> None:
    with pytest.raises(NotFound, match="Closest: luggage scale"):
        at_hand(mule("hose-tug"), ["lugage scale"])
    with pytest.raises(NotFound, match=r"instrument\.scale\.kind: no instrument is called 'kitchn scale'"):
        at_hand(mule("hose-tug", ('instrument.scale={ kind = "kitchn scale" }',)))


def test_an_error_that_does_not_fit_is_refused() -> None:
    on = mule("hose-tug", ('instrument.scale={ kind = "luggage scale", error = "a bit" }',))
    with pytest.raises(UnitError, match="how far off it may be does not fit a mass"):
        at_hand(on).means(on, "body.mass", 5.0)


def test_a_scale_is_not_loaded_beyond_what_it_bears() -> None:
    on = mule("hose-tug")
    light, heavy = (
        {one.way.instrument for one in EVERYTHING.means(on, "mechanism.x.load", kg)} for kg in (1.0, 9.0)
    )
    assert light == heavy  # no such mechanism here: nothing is known about what belongs there
    with_lift = mule("vine-lift")
    instruments_of = [
        {one.way.instrument for one in EVERYTHING.means(with_lift, "mechanism.lift.load", kg)}
        for kg in (1.0, 9.0)
    ]
    assert instruments_of == [{"kitchen scale", "luggage scale"}, {"luggage scale"}]


def test_the_mule_file_may_say_otherwise() -> None:
    own = '[measuring."battery.*.capacity"]\ninstrument = "in-line power meter"\nminutes = 70\nerror = "3 %"\nlowest = "2 Ah"\nhighest = "3 Ah"\n'
    text = mule("vine-lift").loaded.text
    on = link(load_text(f"{text}\n{own}"))
    ((way, shared),) = ways(on, "battery.main.capacity", number_at(on, "battery.main.capacity"))
    assert (way.instrument, way.minutes, way.error, shared) == ("in-line power meter", 70, "3 %", False)
    found = usual(on, "battery.main.capacity")
    assert found is not None
    assert (found.low, found.high) == (7200, 10800)
    with pytest.raises(NotFound, match="Closest: multimeter"):
        ways(
            link(load_text(f'{text}\n[measuring."*"]\ninstrument = "multimetre"\n')),
            "battery.main.rested",
            None,
        )


# --- ranges and spreads -----------------------------------------------------------------------------------------------


def test_a_spread_stays_within_what_its_field_allows() -> None:
    on = mule("vine-lift")
    high = Quantity(0.97, "ratio", "0.97", origin=Origin.ASSUMED)
    soft = spread(on, "mechanism.lift.efficiency", high)
    assert soft is not None
    assert soft.low == pytest.approx(0.97 * 0.85)
    assert soft.high == 1.0


def test_nothing_is_guessed_where_no_range_is_known() -> None:
    on = mule("vine-lift")
    assert usual(on, "battery.main.rested") is None
    assert usual(on, "battery.main.chemistry") is None
    assert usual(on, "no.such.place") is None


# --- what is typed ----------------------------------------------------------------------------------------------------


def test_a_line_is_typed_as_it_stands() -> None:
    on = mule("aisle-carrier")
    lift = Way("luggage scale", "Weigh it.", 2)
    assert to_enter(on, "mechanism.lift.load", lift, "0.05 kg", 3.0) == (
        'mechanism.lift.load = { value = "... kg", from = "measured", with = "luggage scale", plus_minus = "0.05 kg" }'
    )
    sheet_ = Way("data sheet", "Read it.", 2)
    assert (
        to_enter(on, "fuse.main.rating", sheet_, "0 %", 20.0)
        == 'fuse.main.rating = { value = "... A", from = "data-sheet" }'
    )
    agreed = Way("decision", "Agree.", 2)
    assert to_enter(on, "room.straight_run", agreed, "0 %", 5.0) == 'room.straight_run = "... m"'
    assert to_enter(on, "drive.working_share", agreed, "10 %", 0.5) == (
        'drive.working_share = { value = "... %", from = "estimate", plus_minus = "10 %" }'
    )
    looked = Way("eyes", "Look.", 1)
    assert to_enter(on, "controller.lift.stopping", looked, "0 %", 0.0).startswith(
        'controller.lift.stopping = "..."  # one of brake'
    )
    assert to_enter(on, "body.stiff_frame", looked, "0 %", 0.0) == "body.stiff_frame = ...  # true or false"


def _kinds_of_place(path: str) -> str:
    words = path.split(".")
    return ".".join([words[0], "*", *words[2:]] if len(words) > 2 else words)


@pytest.mark.parametrize("design", DESIGNS)
def test_every_input_of_a_design_can_be_entered_as_the_worksheet_would_say(design: str) -> None:
    on = evaluation(design)
    list(run(on, CHECKS.values()))
    seen: set[str] = set()
    entered: list[str] = []
    for path, quantity in on.given.items():
        if path.startswith("assumed.") or _kinds_of_place(path) in seen:
            continue
        seen.add(_kinds_of_place(path))
        number = number_at(on.mule, path)
        assert number is not None
        for means in EVERYTHING.means(on.mule, path, quantity.value)[:1]:
            line = filled(on.mule, means.enter, quantity.value)
            entered.append(
                re.sub(r", plus_minus = [^}]*", " ", line)
                if "% }" in line and number.kind == "percent"
                else line
            )
    assert len(entered) > 20 or design == "soft-fruit-gripper"
    again = link(rebuild(on.mule.loaded, entered))
    for path, quantity in on.given.items():
        if not path.startswith("assumed."):
            table = again.table(path.rpartition(".")[0])
            found = table.quantity(path.rpartition(".")[2])
            assert found is None or found.value == pytest.approx(quantity.value, rel=1e-6), path


def test_things_of_one_part_share_what_is_on_its_sheet() -> None:
    on = mule("two-benches")
    assert part_at(on, "motor.front_left.mass") == part_at(on, "motor.rear_right.mass")
    assert part_at(on, "motor.front_left.mass") != part_at(on, "motor.front_left.gearbox_limit")
    assert part_at(on, "body.mass") == ("body", "mass")
