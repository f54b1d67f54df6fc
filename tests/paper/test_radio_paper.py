"""Whether a lost model memory can be entered again from the settings sheet, and nothing else."""

from __future__ import annotations

import re
from typing import Any

import pytest

from mulewright.design.schema.radio import Radio, Receiver
from mulewright.facts.graph import Evaluation
from mulewright.paper.radio_paper import radio_paper
from mulewright.units.quantity import Quantity
from tests.designs import DESIGNS, evaluation
from tests.paper.oddities import BARE, HOSTILE, NAMES, TWO_RADIOS, UNKNOWN, evaluated

Grid = dict[str, Any]
SET_BY_HAND = ("commands", "positions", "start", "rate", "expo", "pushes_to", "channel")
WITH_RADIO = [design for design in DESIGNS if design != "soft-fruit-gripper"]


def grids(on: Evaluation) -> list[Grid]:
    blocks: list[Grid] = radio_paper(on).as_dict()["blocks"]
    return [block for block in blocks if block["block"] == "grid"]


def rows(grid: Grid) -> list[dict[str, str]]:
    return [dict(zip(grid["columns"], row, strict=True)) for row in grid["rows"]]


def entered(tables: list[Grid]) -> dict[str, Any]:
    """The settings that a person would enter who has nothing but one radio's part of the sheet."""
    named = {grid["columns"][0]: rows(grid) for grid in tables}
    whole, channels, controls, mixes = (
        named.get(one, []) for one in ("setting", "channel", "control", "mix")
    )
    says = {row["setting"]: row["is"] for row in whole} | {row["setting "]: row["is "] for row in whole}
    switch, _, slow = (
        says["rate switch"].rpartition("slow: ")
        if "slow" in says["rate switch"]
        else (says["rate switch"], "", "")
    )
    return {
        "memory": says["memory in use"] or None,
        "planned_memory": says["memory of the plan"] or None,
        "neutral": says["neutral"] or None,
        "half_range": says["100 % of a channel"] or None,
        "rate": {
            "switch": switch.removesuffix(", ") or None,
            "slow": slow or None,
            "covers": says["it reaches"].split(", "),
        },
        "channel": {row["channel"]: channel_entered(row) for row in channels},
        "fail_safe": {row["channel"]: said(row["without a link"].split(",")[0]) for row in channels},
        "control": {row["control"]: control_entered(row) for row in controls},
        "mix": [mix_entered(row) for row in mixes],
    }


def said(cell: str) -> str | None:
    """What a cell says without the microseconds and duty beside it."""
    text = cell.split(" = ")[0].split(" (")[0].strip()
    return text if text not in ("", "-") else None


def channel_entered(row: dict[str, str]) -> dict[str, Any]:
    measured = re.search(r"measured (\S+ us)", row["without a link"])
    return {
        "travel_plus": said(row["above neutral"]),
        "travel_minus": said(row["below neutral"]),
        "reverse": {"reversed": True, "normal": False, "": None}[row["reverse"]],
        "sub_trim": said(row["sub-trim"]),
        "trim": said(row["trim"]),
        "slow": said(row["slowed to"]),
        "failsafe_pulse": measured[1] if measured else None,
    }


def control_entered(row: dict[str, str]) -> dict[str, Any]:
    positions = [said(one.partition(": ")[2]) for one in row["positions"].split("; ")]
    commands = said(row["commands"])
    return {
        "commands": commands,
        "positions": None if positions == [None] else positions,
        "start": None if row["at switch-on"].endswith(")") else said(row["at switch-on"]),
        "rate": said(row["rate"]),
        "expo": said(row["expo"]),
        "pushes_to": said(row["up or right"]),
        "channel": int(row["channel"]) if row["channel"] else None,
    }


def mix_entered(row: dict[str, str]) -> dict[str, Any]:
    names = {"forward": "forward_weight", "turn": "turn_weight", "slave": "weight"}
    shares = dict(one.split(" ", 1) for one in row["shares"].split(", ") if one)
    return {
        "kind": row["kind"] or None,
        "active": {"on": True, "off": False, "": None}[row["is"]],
        "inputs": row["takes"].split(", ") if row["takes"] else None,
        "channels": [int(one) for one in row["drives channels"].split(", ")]
        if row["drives channels"]
        else None,
        "rate_before": {"before it": True, "after it": False, "": None}[row["rates act"]],
        **{name: shares.get(side) for side, name in names.items()},
    }


def plain(value: Any) -> Any:
    """A setting without where it comes from."""
    if isinstance(value, Quantity):
        return pytest.approx(value.value, rel=1e-6, abs=1e-9)
    if hasattr(type(value), "model_fields"):
        return {name: plain(getattr(value, name)) for name in type(value).model_fields}
    if isinstance(value, dict):
        return {name: plain(one) for name, one in value.items()}
    return [plain(one) for one in value] if isinstance(value, list) else value


def assert_enters(tables: list[Grid], radio: Radio, receiver: Receiver | None) -> None:
    got = entered(tables)
    fail_safe = got.pop("fail_safe")
    made = Radio.model_validate(got)
    for name in ("memory", "planned_memory", "neutral", "half_range"):
        assert plain(getattr(radio, name)) == _si(getattr(made, name)), name
    covers = radio.rate.covers if radio.rate.covers is not None else radio.rate_covers
    assert (made.rate.switch, made.rate.covers) == (radio.rate.switch, covers)
    assert plain(radio.rate.slow) == _si(made.rate.slow)
    assert made.control.keys() == radio.control.keys()
    for name, control in radio.control.items():
        for field in SET_BY_HAND:
            assert plain(getattr(control, field)) == _si(getattr(made.control[name], field)), (name, field)
    for number, channel in radio.channel.items():
        wanted = channel.model_copy(update={
            "travel": None,
            "travel_plus": channel.travel_plus or channel.travel,
            "travel_minus": channel.travel_minus or channel.travel,
        })  # fmt: skip
        assert plain(wanted) == _si(made.channel[number]), number
    assert [plain(mix) for mix in radio.mix] == [_si(mix) for mix in made.mix]
    if receiver is not None:
        for number, setting in fail_safe.items():
            assert setting == receiver.fail_safe.channels.get(int(number), receiver.fail_safe.others), number


def _si(value: Any) -> Any:
    if isinstance(value, Quantity):
        return value.value
    if hasattr(type(value), "model_fields"):
        return {name: _si(getattr(value, name)) for name in type(value).model_fields}
    return [_si(one) for one in value] if isinstance(value, list) else value


@pytest.mark.parametrize("design", WITH_RADIO)
def test_a_lost_memory_is_entered_again(design: str) -> None:
    on = evaluation(design)
    assert on.mule.file.radio is not None
    assert_enters(grids(on), on.mule.file.radio, on.mule.file.receiver)


def test_so_are_two_radios_with_everything_set() -> None:
    on = evaluated(TWO_RADIOS)
    file, found = on.mule.file, grids(on)
    assert file.radio is not None
    assert file.second_radio is not None
    first, second = found[:4], found[4:]
    assert_enters(first, file.radio, file.receiver)
    assert second[0]["rows"][2][1] == "2 brush"
    assert "mule" not in second[0]["rows"][0][1]
    got = entered(second)
    assert (got["rate"], got["control"]["SW2"]["start"]) == (
        {"switch": "SW1", "slow": "33.3 %", "covers": ["LV"]}, "up, away from you",
    )  # fmt: skip
    headings = [
        block["text"] for block in radio_paper(on).as_dict()["blocks"] if block.get("looks") == "section"
    ]
    assert headings == ["Radio", "Second radio"]


def test_percent_stands_beside_microseconds_and_duty() -> None:
    sheet = rows(grids(evaluation("aisle-carrier"))[1])
    assert sheet[2]["above neutral"] == "100 % = 400 us = duty 79 %"
    assert sheet[0]["above neutral"] == "100 % = 400 us"
    controls = {row["control"]: row for row in rows(grids(evaluation("aisle-carrier"))[-1])}
    assert controls["RV"]["slow rate"] == "50 % = 200 us = duty 37 %"
    assert controls["LV"]["slow rate"] == "not slowed"
    assert controls["SW2"]["positions"] == "1: 0 % = +0 us; 2: 100 % = +400 us"


def test_each_control_has_its_place_at_switch_on() -> None:
    controls = {row["control"]: row["at switch-on"] for row in rows(grids(evaluation("aisle-carrier"))[-1])}
    assert controls["RV"] == "middle (by its spring)"
    assert controls["LV"] == "middle (lift is still)"
    assert controls["SW2"] == "position 1 (pump is still)"
    assert controls["KN"] == ""
    sweeper = {row["control"]: row["at switch-on"] for row in rows(grids(evaluation("leaf-sweeper"))[-1])}
    assert sweeper["SW2"] == ""  # neither position stops the roller


def test_what_the_receiver_cannot_store_is_said() -> None:
    sheet = {row["channel"]: row["without a link"] for row in rows(grids(evaluation("aisle-carrier"))[1])}
    assert (sheet["1"], sheet["3"]) == ("hold, cannot be set", "neutral")
    moved = evaluation("aisle-carrier", ("receiver.fail_safe.1=neutral",))
    assert rows(grids(moved)[1])[0]["without a link"] == "neutral, it can only hold"


def test_what_is_unknown_is_an_empty_cell() -> None:
    whole, channels, controls = grids(evaluated(UNKNOWN))
    assert [row[1] for row in whole["rows"]] == [""] * 4
    for row in channels["rows"]:
        assert set(row[2:]) == {""}
    assert [row[0] for row in channels["rows"]] == ["1", "2", "3", "4", "5", "6"]
    assert controls["rows"] == [("RV", "", "", "forward", *[""] * 6), *[("",) * 10] * 5]
    nothing = grids(evaluated(BARE, "radio={}"))
    assert len(nothing[1]["rows"]) == len(nothing[2]["rows"]) == 6


def test_without_a_radio_the_testers_stand_there() -> None:
    blocks = radio_paper(evaluation("soft-fruit-gripper")).as_dict()["blocks"]
    assert "No radio is described" in blocks[0]["text"]
    assert blocks[-1]["rows"] == [("bench", "knob", "800 us", "2200 us", "Y-lead jaws")]


@pytest.mark.parametrize("name", [*NAMES, *HOSTILE])
def test_odd_names_stand_as_they_are(name: str) -> None:
    settings = (f"radio.memory={name!r}" if "'" not in name else f'radio.memory="{name}"',)
    if "\\" in name:
        settings = (f"radio.memory='{name}'",)
    on = evaluation("tray-cart", settings)
    assert on.mule.file.radio is not None
    assert grids(on)[0]["rows"][2][1] == on.mule.file.radio.memory == name
