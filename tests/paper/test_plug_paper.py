"""Does the plug map show every socket, every plug and every wire once, as the file says it?"""

from __future__ import annotations

import re
from collections import Counter

import pytest

from mulewright.design.harness import harness
from mulewright.design.mule import link
from mulewright.design.resolve import load_text
from mulewright.facts.graph import Evaluation
from mulewright.paper.blocks import Grid, Paper, Words
from mulewright.paper.plug_paper import EMPTY, plug_paper
from tests.designs import DESIGNS, evaluation, mule
from tests.paper.pages import pages, printed, said, sheet


def grids(paper: Paper) -> dict[str, Grid]:
    """The tables of a paper by their headings."""
    found, heading = {}, ""
    for block in paper.blocks:
        if isinstance(block, Words) and block.looks == "heading":
            heading = block.text
        if isinstance(block, Grid):
            found[heading] = block
    return found


def column(grid: Grid, name: str) -> list[str]:
    at = list(grid.columns).index(name)
    return [row[at] for row in grid.rows]


def wire_numbers(paper: Paper) -> Counter[int]:
    """How often each number stands in a column of wires."""
    cells = [
        cell
        for grid in grids(paper).values()
        for name in grid.columns
        if "wire" in name and name != "red wire"
        for cell in column(grid, name)
    ]
    return Counter(int(found[0]) for cell in cells if (found := re.search(r"(?<![\w])\d+(?= to|$)", cell)))


def of(text: str) -> Paper:
    return plug_paper(Evaluation(link(load_text(f'schema_version = 1\nname = "x"\n{text}'))))


@pytest.mark.parametrize("design", [*DESIGNS, "two-benches/target.toml"])
def test_every_wire_stands_on_it_once_and_on_one_page(design: str) -> None:
    paper = plug_paper(evaluation(design))
    assert wire_numbers(paper) == Counter(wire.number for wire in harness(mule(design)).conductors)
    for size in ("a4", "letter"):
        made = pages(paper, of=sheet(page=size))
        assert len(made) == 1
    assert printed(paper).count(said(paper)) == 1


@pytest.mark.parametrize("design", DESIGNS)
def test_every_plug_is_in_the_socket_that_the_file_names(design: str) -> None:
    file, found = mule(design).file, grids(plug_paper(evaluation(design)))
    rows = {row[2]: row[0] for grid in found.values() if "plug of" in grid.columns for row in grid.rows}
    for kind in ("controller", "servo"):
        for name, lead in getattr(file, kind).items():
            if isinstance(lead.signal, str):
                where = lead.signal.removeprefix("receiver.").replace("y_lead", "Y-lead").replace(".", " ")
                assert f"{rows[f'{kind} {name}']} ".startswith(f"{where} "), (kind, name)


def test_the_map_of_the_aisle_carrier() -> None:
    found = grids(plug_paper(evaluation("aisle-carrier")))
    assert list(found) == ["Receiver rx7", "Boxes, testers and Y-leads", "Motor leads", "Power terminals"]
    receiver, boxes, motors, power = found.values()
    assert [row[:-1] for row in receiver.rows] == [
        ("1", "36", "mixer drive strafe", "in", "as marked", "RH: strafe"),
        ("2", "35", "mixer drive forward", "in", "as marked", "RV: forward"),
        ("3", "32", "controller lift", "in", "as marked", "LV: lift"),
        ("4", "37", "mixer drive turn", "in", "as marked", "LH: turn"),
        ("5", "34", "servo tilt", "in", "as marked", "KN: tilt"),
        ("6", "33", "controller pump", "in", "as marked", "SW2: pump"),
        ("7", "", EMPTY, "", "", "KN2"),
    ]
    assert column(boxes, "socket") == [f"mixer drive out{n}" for n in (1, 2, 3, 4)]
    assert set(column(boxes, "commanded by")) == {"RV, RH, LH: forward, strafe, turn"}
    assert column(motors, "leads") == ["straight", "swapped"] * 2 + ["straight"] * 2
    assert column(motors, "wire at A")[:2] == ["16 to +", "18 to −"]
    assert power.rows[0][:4] == ("battery main", "fuse main in", "1", "–")
    assert power.rows[-1][:4] == ("board main 6", "controller pump", "14", "15")


def test_a_pulled_red_wire_an_odd_plug_and_a_shared_socket_are_seen() -> None:
    sets = ("controller.lift.red_wire=pulled", "controller.pump.signal=receiver.3", "servo.tilt.plug=turned")
    paper = plug_paper(evaluation("aisle-carrier", sets))
    receiver = grids(paper)["Receiver rx7"]
    assert [row[:5] for row in receiver.rows[2:6]] == [
        ("3", "32", "controller lift", "pulled", "as marked"),
        ("3", "33", "controller pump", "in", "as marked"),
        ("4", "37", "mixer drive turn", "in", "as marked"),
        ("5", "34", "servo tilt", "in", "is turned"),
    ]
    assert receiver.marked == [2, 3, 5]
    assert any(isinstance(block, Words) and block.looks == "warning" for block in paper.blocks)


def test_plugs_that_two_things_drive_at_once_are_seen() -> None:
    paper = plug_paper(evaluation("soft-fruit-gripper", variant="receiver-left-plugged"))
    receiver = grids(paper)["Receiver rx8"]
    assert receiver.rows[4][:3] == ("5", "2", "servo left lead 2")
    assert receiver.rows[4][5] == "receiver socket 5 and tester bench at once"
    assert receiver.marked == [4]
    assert grids(paper)["Boxes, testers and Y-leads"].marked == [0, 1, 2]
    assert not any(grid.marked for grid in grids(plug_paper(evaluation("soft-fruit-gripper"))).values())


def test_a_plug_that_gets_another_control_than_planned_is_seen() -> None:
    receiver = next(iter(grids(plug_paper(evaluation("leaf-sweeper"))).values()))
    assert receiver.rows[6][5] == "KN2, but should be SW2"
    assert receiver.marked == [6]


def test_what_nobody_noted_is_asked_for() -> None:
    sets = (
        "controller.lift.signal=?",
        "controller.lift.red_wire=?",
        "controller.lift.polarity=?",
        "receiver.channels=?",
    )
    found = grids(plug_paper(evaluation("aisle-carrier", sets)))
    assert found["Plugs of which nobody noted where they belong"].rows[0][:4] == (
        "",
        "32",
        "controller lift",
        "?",
    )
    assert ("controller lift", "motor lift", "24 to + or −", "25 to + or −", "?", "☐") in found[
        "Motor leads"
    ].rows
    assert column(found["Receiver rx7"], "socket") == ["1", "2", "4", "5", "6"]


def test_leads_on_a_y_lead_a_tester_and_supplies() -> None:
    found = grids(
        of(
            """
            [receiver]
            channels = 2
            [y_lead.both]
            signal = "receiver.1"
            [servo.a]
            signal = "y_lead.both"
            power = "regulator.five"
            [servo.b]
            signal = "tester.st"
            [tester.st]
            [regulator.five]
            """.replace("    ", "")
        )
    )
    assert column(found["Receiver"], "plug of") == ["Y-lead both", EMPTY]
    assert list(zip(*(column(found["Boxes, testers and Y-leads"], name) for name in ("socket", "plug of")), strict=True)) == [
        ("tester st out 1", "servo b"), ("Y-lead both leg 1", "servo a"), ("Y-lead both leg 2", EMPTY),
    ]  # fmt: skip
    assert column(found["Supplies of their own"], "socket") == ["servo a supply"]


def test_a_mule_with_nothing_on_it() -> None:
    paper = of("")
    assert [block.text for block in paper.blocks if isinstance(block, Words)] == [
        "No socket, no motor lead and no power terminal is described."
    ]
    assert said(paper) in printed(paper)


def test_a_variant_is_laid_over() -> None:
    paper = plug_paper(Evaluation(mule("aisle-carrier", (), "own-servo-supply")))
    assert wire_numbers(paper).total() == len(
        harness(mule("aisle-carrier", (), "own-servo-supply")).conductors
    )
    assert column(grids(paper)["Supplies of their own"], "plug of") == ["regulator servo out 1"]
