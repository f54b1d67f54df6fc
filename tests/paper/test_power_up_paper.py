"""The first power-up on paper: every step, every band, and room to write."""

from __future__ import annotations

import json

import pytest

from mulewright.advice.power_up.build import power_up
from mulewright.advice.power_up.words import band_words
from mulewright.facts.graph import Evaluation
from mulewright.paper.blocks import PAPERS, Grid, Ticks, Words
from mulewright.paper.power_up_paper import plan_paper, power_up_paper
from tests.designs import DESIGNS, evaluation
from tests.paper.oddities import BARE, HOSTILE, NAMES, TWO_RADIOS, UNKNOWN, evaluated
from tests.paper.pages import printed, squeezed


@pytest.mark.parametrize("design", DESIGNS)
def test_every_step_and_every_band_stands_on_the_paper(design: str) -> None:
    found, paper = power_up(evaluation(design)), power_up_paper(evaluation(design))
    assert paper.name in PAPERS
    headings = [one.text for one in paper.blocks if isinstance(one, Words) and one.looks == "heading"]
    for step in found.steps:
        assert sum(one.startswith(f"{step.number}. {step.title}") for one in headings) == 1
    rows = [
        row for one in paper.blocks if isinstance(one, Grid) and "seen" in one.columns for row in one.rows
    ]
    asked = [reading for step in found.steps for reading in step.readings]
    assert [row[1] for row in rows] == [band_words(reading.band) for reading in asked]
    assert {row[2] for row in rows} <= {""}
    json.dumps(paper.as_dict(), allow_nan=False)


@pytest.mark.parametrize("design", DESIGNS)
def test_every_letter_is_explained_once(design: str) -> None:
    blocks = power_up_paper(evaluation(design)).blocks
    rows = [row for one in blocks if isinstance(one, Grid) and "seen" in one.columns for row in one.rows]
    [explained] = [one for one in blocks if isinstance(one, Grid) and "what to do" in one.columns]
    letters = [row[0] for row in explained.rows]
    assert letters == sorted(set(letters))
    assert {row[3] for row in rows} - {""} == set(letters)
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
