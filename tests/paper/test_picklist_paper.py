"""Does the pick list hold every wire and every part, and say what is not known?"""

from __future__ import annotations

import json
import re
from pathlib import Path

import pytest

from mulewright.advice.lead_picking.listing import PickList, pick_leads
from mulewright.advice.lead_picking.needs import connections
from mulewright.advice.parts_list import PartsList, list_parts
from mulewright.design.harness import harness
from mulewright.design.mule import link
from mulewright.design.resolve import load_text
from mulewright.facts.graph import Evaluation
from mulewright.paper.blocks import TICK, Grid, Words
from mulewright.paper.picklist_paper import picklist_paper
from tests.designs import DESIGNS, evaluation, mule
from tests.paper.oddities import BARE, HOSTILE, NAMES, TWO_RADIOS, UNKNOWN, evaluated
from tests.paper.pages import printed, said, squeezed
from tests.paper.random_mules import random_mule

LEADS = {
    "tail-500": "count = 1\nbin = 'A3'",
    "patch-150": "count = 2\nprice = '1.20 crowns'",
    "ext-300": "count = 2\nbin = 'B1'\nprice = '2 crowns'",
    "y-150": "count = 1",
}
SHIPPED = Path(__file__).parents[2] / "src" / "mulewright" / "shelf" / "data" / "lead"


@pytest.fixture
def beside(tmp_path: Path) -> Path:
    """A folder of a mule with some of the shipped leads on its shelf, counted."""
    shelf = tmp_path / "shelf" / "lead"
    shelf.mkdir(parents=True)
    for id, more in LEADS.items():
        text = (SHIPPED / f"{id}.toml").read_text(encoding="utf-8")
        (shelf / f"{id}.toml").write_text(f"{text}{more}\n", encoding="utf-8")
    return tmp_path


def of(folder: Path, text: str, *settings: str) -> Evaluation:
    return Evaluation(link(load_text(text, folder=folder, settings=settings)))


def shipped(folder: Path, design: str, *settings: str) -> Evaluation:
    """A shipped design with that shelf beside it."""
    return of(folder, mule(design).loaded.text, *settings)


def both(on: Evaluation) -> tuple[PickList, PartsList]:
    picked = pick_leads(on)
    return picked, list_parts(on, picked)


def taken(picked: PickList) -> dict[str, list[str]]:
    return {one.id: [lead.id for lead in served.leads] for one, served in picked.taken}


@pytest.mark.parametrize("design", [*DESIGNS, "two-benches/target.toml"])
def test_every_wire_is_in_it_once_and_all_that_is_said_is_printed(design: str) -> None:
    on = evaluation(design)
    numbers = [number for one in connections(on.mule) for number in one.wires]
    assert sorted(numbers) == [wire.number for wire in harness(on.mule).conductors]
    picked = pick_leads(on)
    every = [*(one for one, _ in picked.taken), *(one.connection for one in picked.lacking)]
    assert len(every) + len(picked.unknown) + len(picked.reaching) == len(connections(on.mule))
    assert picked.proved
    paper = picklist_paper(on)
    text = printed(paper)
    for block in paper.blocks:
        said_by = [block.text] if isinstance(block, Words) else []
        said_by += (
            [cell for row in block.rows for cell in row if cell != TICK] if isinstance(block, Grid) else []
        )
        assert [words for words in said_by if squeezed(words) not in text] == []


def test_what_is_counted_on_the_shelf_is_taken_with_its_bin(beside: Path) -> None:
    picked, parts = both(shipped(beside, "aisle-carrier"))
    assert taken(picked)["wire.main>board.main"] == ["tail-500"]
    assert sum(leads == ["patch-150"] for leads in taken(picked).values()) == 2
    [missing] = [one for one in picked.lacking if one.connection.id.startswith("mixer.")]
    assert missing.why == "those that fit are taken for other wires"
    assert {lead.bin for lead, _ in picked.leads} == {"A3", ""}
    assert {row.part: (row.need, row.have) for row in parts.rows if row.kind == "lead"} == {
        "patch-150": (2, 2),
        "tail-500": (1, 1),
        "": (1, 0),  # the one that is missing
    }
    assert parts.cost == ["2.40 crowns"]


def test_a_servo_lead_that_is_too_short_is_extended(beside: Path) -> None:
    way = "servo.tilt.way_to_socket=0.85 m"
    picked, _ = both(shipped(beside, "aisle-carrier", way))
    assert taken(picked)["servo.tilt"] == ["ext-300", "ext-300"]
    picked, _ = both(shipped(beside, "aisle-carrier", way, "servo.tilt.lead_length=0.9 m"))
    assert "servo.tilt" in [one.id for one in picked.reaching]
    picked, _ = both(shipped(beside, "aisle-carrier", way, "servo.tilt.lead_gauge=22 AWG"))
    [lacking] = [one for one in picked.lacking if one.connection.id == "servo.tilt"]
    assert lacking.why == "those that fit are too thin, or their gauge is not noted"
    picked, _ = both(shipped(beside, "aisle-carrier", "servo.tilt.way_to_socket=1.2 m"))
    [lacking] = [one for one in picked.lacking if one.connection.id == "servo.tilt"]
    assert lacking.why == "those that fit are too short, even plugged together"
    assert lacking.need.length == pytest.approx(0.9)
    assert [lead.id for lead in lacking.get] == ["ext-300", "ext-600"]


def test_halves_of_different_families_need_an_adapter(beside: Path) -> None:
    other = "wire.main.joints.0.mates_with=round pins, 4 mm"
    picked, _ = both(shipped(beside, "tray-cart", other))
    [adapter] = [one for one in picked.lacking if one.connection.id.endswith(".adapter")]
    assert adapter.need.start.words == "two-pin shell, 3.5 mm bullets, sockets"
    assert adapter.need.end.words == "round pins, 4 mm, pins"
    [wire] = [one for one in picked.lacking if one.connection.id == "wire.main>board.main"]
    assert wire.need.start.words == "round pins, 4 mm, sockets"


def test_a_single_swap_is_a_fault_and_two_are_noted(beside: Path) -> None:
    swapped = ("wire.main.polarity_metered=?", "wire.main.joints.0.flips=true")
    picked, _ = both(shipped(beside, "tray-cart", *swapped))
    assert [(one.is_wrong, one.devices) for one in picked.polarity] == [
        (True, ("controller.left", "controller.right"))
    ]
    text = said(picklist_paper(shipped(beside, "tray-cart", *swapped)))
    assert "theyarrivethewrongwayround" in text


def test_a_lead_that_swaps_once_is_named_and_not_taken(beside: Path) -> None:
    path = beside / "shelf" / "lead" / "tail-500.toml"
    path.write_text(path.read_text().replace("flips = false", "flips = true"))
    picked, _ = both(shipped(beside, "tray-cart"))
    [lacking] = [one for one in picked.lacking if one.connection.id == "wire.main>board.main"]
    assert lacking.why == "tail-500 would fit, but plus and minus come out swapped: not taken"


def test_an_end_that_is_not_noted_is_listed_with_what_would_say_it(beside: Path) -> None:
    picked, _ = both(shipped(beside, "tray-cart", "wire.main.joints=?", "controller.left.motor_lead=?"))
    assert {one.id: one.unknown for one in picked.unknown} == {
        "wire.main>board.main": ("wire.main.joints",),
        "controller.left>motor.left": ("controller.left.motor_lead",),
    }


def test_a_wire_of_which_the_length_is_not_noted_is_needed_all_the_same(beside: Path) -> None:
    picked, _ = both(shipped(beside, "tray-cart", "wire.branches.length=?"))
    lacking = [one for one in picked.lacking if one.connection.id.startswith("wire.branches")]
    assert [one.connection.notes for one in lacking] == [("length not noted",)] * 2


def test_leads_plugged_together_are_named_once_each(beside: Path) -> None:
    paper = picklist_paper(shipped(beside, "aisle-carrier", "servo.tilt.way_to_socket=0.85 m"))
    assert "2×ext-300:Servoextension,0.3m" in said(paper)


def test_a_lead_that_says_too_little_is_left_out_and_named(beside: Path) -> None:
    (beside / "shelf" / "lead" / "odd.toml").write_text("count = 3\nfirst = { family = 'x' }\n")
    picked, _ = both(shipped(beside, "tray-cart"))
    assert picked.unusable == {"odd": ["first", "second", "length"]}
    assert "Leadoddontheshelfwasleftout" in said(picklist_paper(shipped(beside, "tray-cart")))


def test_a_controller_may_have_a_plug_of_its_own(beside: Path) -> None:
    own = "controller.winch.supply_lead={ family = 'two-pin shell, 3.5 mm bullets', contacts = 'pins', length = '2 m' }"
    picked, _ = both(shipped(beside, "log-winch", own))
    assert "wire.main>controller.winch" in [one.id for one in picked.reaching]


def test_masses_add_up_and_what_is_not_known_is_named() -> None:
    on = evaluation("aisle-carrier", ("y_lead.spare={}", "mixer.drive.input_lead.contacts=sockets"))
    _, parts = both(on)
    motors = [row for row in parts.rows if row.kind == "motor"]
    assert [(row.part, row.need) for row in motors] == [("gm-drive", 5), ("mo-raw", 1)]
    assert parts.weighed("motor") == pytest.approx(5 * 0.33 + 0.19)
    assert [row.part or row.title for row in parts.unweighed()][:5] == [
        "box-4", "sv-ht", "fuse main", "board main", "rx7",
    ]  # fmt: skip
    text = said(picklist_paper(on))
    assert "without box-4, sv-ht, fuse main, board main, rx7 and".replace(" ", "") in text
    none = said(picklist_paper(evaluation("soft-fruit-gripper")))
    assert "Mass:itisknownofnopartthatridesalong." in none


@pytest.mark.parametrize("text", [BARE, UNKNOWN, TWO_RADIOS])
def test_little_that_is_said_is_enough_for_a_list(text: str) -> None:
    paper = picklist_paper(evaluated(text))
    assert printed(paper)


@pytest.mark.parametrize("name", [*NAMES, *HOSTILE])
def test_names_are_printed_as_they_were_typed(name: str, beside: Path) -> None:
    if not re.search(r"[>*]", name):
        text = f'schema_version = 1\n[servo."{name.replace(chr(92), chr(92) * 2)}"]\nsignal = "receiver.1"\n[receiver]\n'
        assert "".join(name.split()) in printed(picklist_paper(of(beside, text)))
    lead = beside / "shelf" / "lead" / "odd.toml"
    escaped = name.replace("\\", "\\\\").replace('"', '\\"')
    end = f'{{ family = "{escaped}", contacts = "pins" }}'
    lead.write_text(
        f'title = "{escaped}"\nbin = "{escaped}"\nfirst = {end}\nsecond = {end}\nlength = "1 m"\ncount = 1\n'
        "red_wire = 'in'\n",
        encoding="utf-8",
    )
    box = f'input_lead = {{ family = "{escaped}", contacts = "sockets" }}\nforward = "mixer.b.x"\n'
    mixers = f'schema_version = 1\n[mixer.a]\n{box}[mixer.b]\noutputs = ["x"]\n'
    on = of(beside, mixers)
    assert "".join(name.split()) in printed(picklist_paper(on))


PACKS = """
schema_version = 1
[battery.left]
[battery.right]
[y_lead.packs]
carries = "power"
kind = "series"
joins = ["battery.left", "battery.right"]
[controller.drive]
[wire.main]
path = ["battery.left", "y_lead.packs", "controller.drive"]
length = "0.4 m"
gauge = "14 AWG"
joints = [
    { family = "flat blades", battery_side = "sockets" },
    { family = "two-pin shell, 3.5 mm bullets", battery_side = "sockets" },
]
"""


def test_a_lead_that_joins_packs_is_between_their_plugs_and_the_wire(beside: Path) -> None:
    picked, _ = both(of(beside, PACKS))
    [lacking] = picked.lacking
    need = lacking.need
    assert (need.id, need.branches, need.joins) == ("y_lead.packs", 2, "series")
    assert (need.start.words, need.end.words) == (
        "two-pin shell, 3.5 mm bullets, pins", "flat blades, sockets",
    )  # fmt: skip
    assert taken(picked) == {"wire.main>controller.drive": ["tail-500"]}
    join = """title = "Pack lead"
first = { family = "two-pin shell, 3.5 mm bullets", contacts = "sockets" }
second = { family = "flat blades", contacts = "pins" }
branches = 2
joins = "%s"
length = "0.1 m"
flips = false
count = 1
"""
    lead = beside / "shelf" / "lead" / "join.toml"
    lead.write_text(join % "parallel")
    assert both(of(beside, PACKS))[0].lacking
    lead.write_text(join % "series")
    assert taken(both(of(beside, PACKS))[0])["y_lead.packs"] == ["join"]


def test_without_its_second_plug_a_lead_that_joins_packs_is_unknown(beside: Path) -> None:
    picked, parts = both(of(beside, PACKS, 'wire.main.joints=[{ family = "flat blades" }]'))
    assert [one.id for one in picked.unknown][:2] == ["wire.main>controller.drive", "y_lead.packs"]
    assert "y_lead.packs" in [id for row in parts.rows for id in row.things]


def test_connectors_that_are_counted_are_offered_for_crimping(beside: Path) -> None:
    shelf = beside / "shelf" / "connector"
    shelf.mkdir()
    (shelf / "shells.toml").write_text('family = "Two-pin shell,  3.5 mm bullets"\ncount = 4\nbin = "C2"\n')
    (beside / "shelf" / "lead" / "tail-500.toml").unlink()
    picked, _ = both(shipped(beside, "tray-cart"))
    [lacking] = [one for one in picked.lacking if not one.is_plain_wire]
    assert lacking.plugs == ("4 × shells in C2",)


def test_prices_of_different_currencies_are_not_added(beside: Path) -> None:
    path = beside / "shelf" / "lead" / "tail-500.toml"
    path.write_text(path.read_text() + 'price = "5 marks"\n')
    _, parts = both(shipped(beside, "aisle-carrier"))
    assert parts.cost == ["2.40 crowns", "5.00 marks"]


def test_the_data_hold_what_is_taken_missing_and_not_known(beside: Path) -> None:
    data = json.loads(json.dumps(picklist_paper(shipped(beside, "aisle-carrier")).as_dict()))
    assert {key: len(data["leads"][key]) for key in ("taken", "missing", "unknown", "reaching")} == {
        "taken": 3, "missing": 7, "unknown": 1, "reaching": 12,
    }  # fmt: skip
    [one] = [one for one in data["leads"]["taken"] if one["id"] == "wire.main>board.main"]
    assert (one["leads"], one["wires"], one["length"]) == (["tail-500"], [1, 2, 3], 0.4)
    gm = next(row for row in data["parts"]["rows"] if row["part"] == "gm-drive")
    assert (gm["need"], gm["have"], gm["missing"]) == (5, None, None)


@pytest.mark.parametrize("seed", range(12))
def test_any_wiring_has_its_list_with_every_wire_once(seed: int) -> None:
    mule = random_mule(seed)
    numbers = [number for one in connections(mule) for number in one.wires]
    assert sorted(numbers) == [wire.number for wire in harness(mule).conductors]
    assert picklist_paper(Evaluation(mule)).blocks


def test_rows_are_marked_that_somebody_has_to_look_at(beside: Path) -> None:
    path = beside / "shelf" / "lead" / "tail-500.toml"
    path.write_text(path.read_text().replace("count = 1", "count = 0"))
    for block in picklist_paper(shipped(beside, "tray-cart")).blocks:
        if isinstance(block, Grid):
            assert all(place < len(block.rows) for place in block.marked)
