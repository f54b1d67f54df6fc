"""Whether settings sheet, fail-safe matrix and checklists stand on their pages, whatever the mule is called."""

from __future__ import annotations

import pytest

from mulewright.facts.graph import Evaluation
from mulewright.paper.blocks import Grid, Paper, Ticks
from mulewright.paper.checklists_paper import checklists_paper
from mulewright.paper.failsafe_paper import failsafe_paper
from mulewright.paper.plug_paper import plug_paper
from mulewright.paper.radio_paper import radio_paper
from tests.designs import DESIGNS, evaluation
from tests.paper.oddities import BARE, HOSTILE, NAMES, TWO_RADIOS, UNKNOWN, evaluated
from tests.paper.pages import pages, printed, sheet, squeezed

PAPERS = (radio_paper, failsafe_paper, checklists_paper)
ODD = {"bare": BARE, "unknown": UNKNOWN, "two radios": TWO_RADIOS}


def texts(paper: Paper) -> list[str]:
    """Every text that a person looks for on a paper: of cells the words, for columns stand beside each other."""
    found: list[str] = []
    for block in paper.blocks:
        if isinstance(block, Grid):
            found += [word for row in block.rows for cell in row for word in cell.split()]
        elif isinstance(block, Ticks):
            found += [text for item in block.items for text in item]
    return found


def assert_printed(on: Evaluation) -> None:
    for make in PAPERS:
        paper = make(on)
        seen = printed(paper)
        assert squeezed(paper.title) in seen
        for text in texts(paper):
            if len(text) < 18:  # longer words are broken
                assert squeezed(text) in seen, (paper.name, text)


@pytest.mark.parametrize("design", DESIGNS)
def test_of_every_shipped_mule(design: str) -> None:
    assert_printed(evaluation(design))


@pytest.mark.parametrize("text", ODD.values(), ids=ODD)
def test_of_odd_mules(text: str) -> None:
    assert_printed(evaluated(text))


@pytest.mark.parametrize("name", NAMES)
def test_of_things_with_odd_names(name: str) -> None:
    named = TWO_RADIOS.replace('"motor.left"', f'"motor.{name}"')
    for kind in ("motor", "controller"):
        named = named.replace(f"[{kind}.left]", f'[{kind}."{name}"]')
    assert_printed(evaluated(named))


@pytest.mark.parametrize("name", [*NAMES, *HOSTILE])
def test_of_mules_with_odd_names(name: str) -> None:
    quotes = "'''"
    assert_printed(
        evaluated(TWO_RADIOS, *(f"{path}={quotes}{name}{quotes}" for path in ("name", "radio.memory")))
    )


@pytest.mark.parametrize("page", ["a4", "letter"])
@pytest.mark.parametrize("design", DESIGNS)
def test_what_is_held_beside_the_machine_is_one_page(design: str, page: str) -> None:
    for make in (radio_paper, plug_paper):
        assert len(pages(make(evaluation(design)), of=sheet(page=page))) == 1, make


def test_each_of_two_radios_has_a_page() -> None:
    assert len(pages(radio_paper(evaluated(TWO_RADIOS)))) == 2
