"""Does the pick list hold every wire and every part, and say what is not known?"""

from __future__ import annotations

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
    }
    assert parts.cost == ["2.40 crowns"]


def test_a_servo_lead_that_is_too_short_is_extended(beside: Path) -> None:
    way = "servo.tilt.way_to_socket=0.85 m"
    picked, _ = both(shipped(beside, "aisle-carrier", way))
    assert taken(picked)["servo.tilt"] == ["ext-300", "ext-300"]
    picked, _ = both(shipped(beside, "aisle-carrier", way, "servo.tilt.lead_length=0.9 m"))
    assert "servo.tilt" in [one.id for one in picked.reaching]
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
    assert [one.is_wrong for one in picked.polarity] == [True, True]
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
    _, parts = both(evaluation("aisle-carrier"))
    motors = [row for row in parts.rows if row.kind == "motor"]
    assert [(row.part, row.need) for row in motors] == [("gm-drive", 5), ("mo-raw", 1)]
    assert parts.weighed("motor") == pytest.approx(5 * 0.33 + 0.19)
    assert {row.part for row in parts.unweighed()} == {"", "box-4", "rx7", "sv-ht"}
    text = said(picklist_paper(evaluation("aisle-carrier")))
    assert "withoutbox-4,sv-ht,fusemain,boardmainandrx7,ofwhichitisnotknown" in text


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


def test_rows_are_marked_that_somebody_has_to_look_at(beside: Path) -> None:
    path = beside / "shelf" / "lead" / "tail-500.toml"
    path.write_text(path.read_text().replace("count = 1", "count = 0"))
    for block in picklist_paper(shipped(beside, "tray-cart")).blocks:
        if isinstance(block, Grid):
            assert all(place < len(block.rows) for place in block.marked)
