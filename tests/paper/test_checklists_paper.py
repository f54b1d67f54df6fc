"""Whether the checklists hold what is on the mule, and nothing that is not."""

from __future__ import annotations

import re

import pytest

from mulewright.advice.checklists import SUBJECTS, Item, checklists_of
from mulewright.checks.engine import Outcome, Severity
from mulewright.design.schema.people import Checklist
from mulewright.facts.graph import Evaluation
from mulewright.paper.checklists_paper import checklists_paper
from mulewright.shelf.checklists import checklists
from tests.designs import DESIGNS, evaluation
from tests.paper.oddities import BARE, HOSTILE, NAMES, TWO_RADIOS, UNKNOWN, evaluated


def items(on: Evaluation) -> dict[str, list[Item]]:
    """The items of a mule by what they are about."""
    found: dict[str, list[Item]] = {}
    for one in checklists_of(on).lists:
        for item in one.items:
            found.setdefault(item.id, []).append(item)
    return found


def texts(on: Evaluation, id: str) -> list[str]:
    return [item.text for item in items(on).get(id, [])]


def test_the_table_is_sound() -> None:
    ids = [item.id for listed in checklists() for item in listed.items]
    assert [listed.id for listed in checklists()] == ["F1", "F2", "F3", "F4"]
    assert len(ids) == len(set(ids))
    for listed in checklists():
        for item in listed.items:
            assert item.each in SUBJECTS, item.id
            assert not item.tick or item.tick in Checklist.model_fields, item.id
    used = {item.each for listed in checklists() for item in listed.items}
    assert used == SUBJECTS.keys()


@pytest.mark.parametrize("design", DESIGNS)
def test_nothing_in_braces_is_left_and_every_item_fits_on_paper(design: str) -> None:
    for found in items(evaluation(design)).values():
        for item in found:
            assert not re.search(r"[{}]", item.text + item.known), item
            assert item.text[0] == item.text[0].upper()
            assert len(item.text) < 240


@pytest.mark.parametrize("design", DESIGNS)
def test_items_stand_for_what_is_on_the_mule(design: str) -> None:
    on = evaluation(design)
    file, found = on.mule.file, items(on)
    counts = {id: len(some) for id, some in found.items()}
    packs = [pack for pack in file.battery.values() if pack.in_use is not False]
    lithium = [pack for pack in packs if (pack.chemistry or "").startswith(("lithium", "iron"))]
    ropes = [one for one in file.mechanism.values() if one.kind in ("lift", "winch")]
    assert counts.get("strapped", 0) == counts.get("unplug", 0) == len(packs)
    assert counts.get("fuse", 0) == len(file.fuse)
    assert counts.get("storage", 0) == counts.get("fire", 0) == len(lithium)
    assert counts.get("line", 0) == len(ropes)
    assert counts.get("disc", 0) == sum(one.kind == "flywheel" for one in file.mechanism.values())
    assert counts.get("horns", 0) == len(file.servo)
    assert counts.get("memory", 0) == (file.radio is not None)
    assert ("wheels-up" in counts) == (file.drive is not None)
    assert ("on-tester" in counts) == bool(file.tester)
    commanded = [name for names in on.mule.commands_of.values() for name in names]
    assert counts.get("function", 0) == len(commanded)


@pytest.mark.parametrize("design", DESIGNS)
def test_what_the_file_ticks_is_shown(design: str) -> None:
    on = evaluation(design)
    walked = on.mule.file.checklist.range_walk
    for item in items(on).get("range-walk", []):
        assert item.known == f"in the file: {walked}"
    for item in items(on).get("sleeves", []):
        assert (
            item.known == f"in the file: {'done' if on.mule.file.checklist.hair_and_sleeves else 'not done'}"
        )


def test_the_carrier_is_filled_in() -> None:
    on = evaluation("aisle-carrier")
    assert texts(on, "fuse") == [
        "Fuse main is in its holder: read the number on it aloud, it should say 20 A"
    ]
    assert texts(on, "function")[1] == (
        "Strafe (RH a little to the right): front left and rear right ahead, front right and rear left back; "
        "nothing else moves"
    )
    assert texts(on, "function")[2] == "Lift (LV a little up): up; nothing else moves"
    start, plugs = items(on)["start"], texts(on, "plugs")
    assert [(item.text, item.known) for item in start] == [(
        "Controls of the transmitter stand at: RV middle; RH middle; LV middle; LH middle; KN ?; SW2 position 1",
        "not in the file: KN",
    )]  # fmt: skip
    assert plugs[0].endswith("on all pins: 1: mixer drive strafe; 2: mixer drive forward; 3: controller lift; "
                             "4: mixer drive turn; 5: servo tilt; 6: controller pump")  # fmt: skip
    assert [text[:24] for text in plugs] == ["Plugs of the receiver re", "Plugs of the mixer drive"]
    assert "5 V to 6 V" in texts(on, "rail-volts")[0]
    assert texts(on, "rest-volts")[0].endswith("change it at 12 V (assumed)")
    assert texts(on, "rate")[0].startswith(
        "SW1 in its slow place: forward and strafe are slower (50 %); turn, lift"
    )
    assert "goes on without end" in texts(on, "room-by-eye")[0]
    assert texts(evaluation("tray-cart"), "room")[0].startswith("Free circle about it of at least 1.7 m")
    assert items(evaluation("vine-lift"))["room"][0].known.startswith("TOO LITTLE ROOM")
    assert texts(evaluation("tray-cart"), "pulled")[0].endswith("at the plug of controller right")
    assert texts(evaluation("soft-fruit-gripper"), "y-lead")[0].startswith(
        "Y-lead jaws joins servo left and servo right"
    )


@pytest.mark.parametrize("design", DESIGNS)
def test_open_findings_that_forbid_power_stand_on_top(design: str) -> None:
    on = evaluation(design)
    found = checklists_of(on)
    paper = checklists_paper(on).as_dict()
    first = next(block for block in paper["blocks"] if block["block"] == "ticks")
    above = paper["blocks"][: paper["blocks"].index(first)]
    listed = {row[0] for block in above if block["block"] == "grid" for row in block["rows"]}
    assert all(one.severity is Severity.BLOCK and one.outcome is Outcome.TRIP for one in found.forbidding)
    ids = {one.check.id for one in found.forbidding}
    assert listed == ids
    assert all(id in texts(on, "blocks")[0] for id in ids)


def test_cautions_stand_at_the_end() -> None:
    blocks = checklists_paper(evaluation("log-winch")).as_dict()["blocks"]
    assert "snaps back" in blocks[-1]["text"]


def test_own_items_and_second_radio() -> None:
    on = evaluated(TWO_RADIOS)
    own = checklists_of(on).lists[-1]
    assert [(item.text, item.known) for item in own.items] == [
        ("Thumb screws of the lid", "in the file: done"), ("Water off", "in the file: 2026-11-21"),
    ]  # fmt: skip
    assert texts(on, "radio-first")[1] == "The second transmitter is switched on first"
    assert texts(on, "start")[1].endswith("the second transmitter stand at: LV middle")
    assert items(on)["fail-safe"][0].known.endswith("2026-11-20, but bound or re-plugged since")


def test_what_is_unknown_is_a_question_mark() -> None:
    on = evaluated(UNKNOWN)
    assert texts(on, "fuse") == ["Fuse main is in its holder: read the number on it aloud, it should say ?"]
    assert items(on)["fuse"][0].unknown
    assert texts(on, "memory") == ["The transmitter shows the model memory ?"]
    assert "nobody can tell" in texts(on, "blocks")[0]
    assert texts(on, "room-by-eye")[0].startswith(
        "Free room about it: after a lost link it is not known how far"
    )
    assert len(items(evaluated(BARE))["second-person"]) == 1


@pytest.mark.parametrize("name", [*NAMES, *HOSTILE])
def test_odd_names_stand_as_they_are(name: str) -> None:
    on = evaluation("tray-cart", (f"question='''{name}'''",))
    assert on.mule.file.question == name
    assert texts(on, "question") == [f"The question is written where all can read it: {name}"]


def test_each_transmitter_is_called_by_its_name_and_what_was_never_tried_says_so() -> None:
    on = evaluated(TWO_RADIOS)
    assert len(set(texts(on, "range-walk"))) == 2
    never = items(evaluated(TWO_RADIOS.replace("tested = 2026-11-20", 'tested = "?"')))["fail-safe"]
    known = {item.known for item in [*never, *items(on)["fail-safe"]]}
    assert "in the file: never tried" in known
    assert "in the file: tried 2026-11-20, but bound or re-plugged since" in known
