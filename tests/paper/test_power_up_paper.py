"""The first power-up on paper: every step, every band, and room to write."""

from __future__ import annotations

import json
import re
from collections.abc import Sequence
from dataclasses import replace

import pytest

from mulewright.advice.power_up.build import power_up
from mulewright.advice.power_up.words import band_words
from mulewright.facts.graph import Evaluation
from mulewright.paper.blocks import PAPERS, Grid, Ticks, Words
from mulewright.paper.power_up_paper import plan_paper, power_up_paper
from tests.designs import DESIGNS, evaluation
from tests.paper.oddities import BARE, HOSTILE, NAMES, TWO_RADIOS, UNKNOWN, evaluated
from tests.paper.pages import pages, printed, squeezed


@pytest.mark.parametrize("design", DESIGNS)
def test_every_step_and_every_band_stands_on_the_paper(design: str) -> None:
    found, paper = power_up(evaluation(design)), power_up_paper(evaluation(design))
    assert paper.name in PAPERS
    headings = [one.text for one in paper.blocks if isinstance(one, Words) and one.looks == "heading"]
    grids = [one for one in paper.blocks if isinstance(one, Grid)]
    labels = [row[0] for grid in grids for row in grid.rows]
    cells = {text for grid in grids for text in [*grid.columns, *(cell for row in grid.rows for cell in row)]}
    for step in found.steps:
        own = sum(one.startswith(f"{step.number}. {step.title}") for one in headings)
        assert own + sum(one.startswith(f"{step.number}. ") for one in labels) == 1
        for reading in step.readings:
            words = band_words(replace(reading.band, bearer=""))
            assert any(words in cell for cell in cells), reading.id
    asked = sum(len(step.readings) for step in found.steps)
    tables = [grid for grid in grids if grid.columns[0] in ("read", "at", "step")]
    assert (
        sum(not cell for grid in tables for row in grid.rows for cell in [*row[1:-1], *_last(row, grid)])
        >= asked
    )
    json.dumps(paper.as_dict(), allow_nan=False)


def _last(row: Sequence[str], grid: Grid) -> list[str]:
    """The last cell of a row, but for the letter that says what to do."""
    return [] if grid.columns[-1] == "if not" else [row[-1]]


@pytest.mark.parametrize("design", DESIGNS)
def test_every_letter_is_explained_once(design: str) -> None:
    blocks = power_up_paper(evaluation(design)).blocks
    grids = [one for one in blocks if isinstance(one, Grid)]
    used = {row[3] for one in grids if one.columns[-1] == "if not" for row in one.rows} - {""}
    heads = [name for one in grids if one.columns[0] in ("at", "step") for name in one.columns]
    used |= {found for name in heads for found in re.findall(r" \(([a-z])\)", name)}
    [explained] = [one for one in blocks if isinstance(one, Grid) and "what to do" in one.columns]
    letters = [row[0] for row in explained.rows]
    assert letters == sorted(set(letters))
    assert used == set(letters)
    assert all(row[1] for row in explained.rows)


def all_printed(on: Evaluation) -> str:
    """What stands on the pages; every paragraph of the paper stands there."""
    paper = power_up_paper(on)
    shown = printed(paper)
    for block in paper.blocks:
        if isinstance(block, Words):
            assert squeezed(block.text)[:60] in shown
    return shown


@pytest.mark.parametrize("text", [BARE, TWO_RADIOS, UNKNOWN], ids=["bare", "two radios", "unknown"])
def test_all_of_it_is_printed_of_an_odd_mule(text: str) -> None:
    assert "1.Nothingthatmovescanhurt" in all_printed(evaluated(text))


@pytest.mark.parametrize("name", [*NAMES, *HOSTILE])
def test_odd_names_stand_as_they_are(name: str) -> None:
    quote = '"' if "'" in name else "'"
    shown = all_printed(evaluation("tray-cart", (f"radio.planned_memory={quote}{name}{quote}",)))
    assert squeezed(name) in shown


def test_controllers_and_branches_are_one_table_each_and_no_step_is_torn() -> None:
    paper = power_up_paper(evaluation("aisle-carrier"))
    grids = [one for one in paper.blocks if isinstance(one, Grid)]
    [steps] = [one for one in grids if one.columns[0] == "step"]
    assert [row[0].split(".")[0] for row in steps.rows] == ["9", "10", "11", "12", "13", "14"]
    branches = next(one for one in grids if one.columns[0] == "at")
    assert len(branches.rows) == 6
    assert [name.split(":")[0] for name in branches.columns[1:]] == ["plus to plus (d)", "plus to minus (e)"]
    wholes = [one for one in paper.blocks if isinstance(one, Words) and one.whole]
    assert all(one.text[0].isdigit() for one in wholes)
    texts = [squeezed(page.extract_text()) for page in pages(paper)]
    assert len(texts) <= 8
    of_a_step = [text for text in texts if "14.controllerlift" in text]
    assert len(of_a_step) == 1
    assert "9to14.Eachcontrolleronitsown" in of_a_step[0]


def test_what_a_check_says_of_several_things_is_listed_once() -> None:
    found = power_up(evaluation("leaf-sweeper"))
    ids = [one.verdict.check.id for one in found.open_checks]
    assert sorted(ids) == sorted(set(ids))
    for step in found.steps:
        minded = [one.split()[0] for one in step.minds]
        assert sorted(minded) == sorted(set(minded))


def test_open_checks_come_before_the_steps() -> None:
    blocks = power_up_paper(evaluation("aisle-carrier")).blocks
    first_open = next(n for n, one in enumerate(blocks) if isinstance(one, Grid) and "check" in one.columns)
    first_tick = next(n for n, one in enumerate(blocks) if isinstance(one, Ticks))
    assert first_open < first_tick


def test_the_tester_paper_ends_with_what_it_cannot_prove() -> None:
    on = evaluation("aisle-carrier")
    paper = plan_paper(power_up(on, tester=True), on.mule)
    ticks = [one for one in paper.blocks if isinstance(one, Ticks)][-1]
    assert any("fail-safe" in text for text, _ in ticks.items)
