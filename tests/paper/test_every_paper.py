"""Can every paper of every mule be set: the shipped ones, odd ones, and such as nobody would build?"""

from __future__ import annotations

import pytest

from mulewright.design.harness import harness
from mulewright.facts.graph import Evaluation
from mulewright.paper.blocks import PAPERS, Drawing, Paper
from mulewright.tasks.printing import MAKERS
from tests.designs import DESIGNS, evaluation
from tests.paper.oddities import BARE, UNKNOWN, evaluated
from tests.paper.pages import letter_sizes, pages, sheet, squeezed
from tests.paper.random_mules import random_mule
from tests.paper.test_plug_paper import wire_numbers

SEEDS = range(3)


def set_and_read(paper: Paper, page: str = "a4") -> str:
    """Set a paper, and see that each of its pages can be read; all its text without heads and feet."""
    made = pages(paper, of=sheet(page=page))
    if not any(
        isinstance(block, Drawing) for block in paper.blocks
    ):  # a drawing is as large as there is room
        assert min(min(letter_sizes(one)) for one in made) >= 8
    texts = (squeezed(one.extract_text()) for one in made)
    return "".join(text.split(f"of{len(made)}", 1)[1].rsplit("Onelineofcaution", 1)[0] for text in texts)


@pytest.mark.parametrize("name", MAKERS)
def test_it_is_what_its_name_says(name: str) -> None:
    paper = MAKERS[name](evaluation("aisle-carrier"))
    assert paper.name == name in PAPERS
    assert paper.title
    assert paper.what_for.endswith(".")


@pytest.mark.parametrize("design", DESIGNS)
def test_papers_of_shipped_mules(design: str) -> None:
    on = evaluation(design)
    for place, maker in enumerate(MAKERS.values()):
        assert set_and_read(maker(on), ("a4", "letter")[place % 2])


@pytest.mark.parametrize("text", [BARE, UNKNOWN], ids=["bare", "unknown"])
@pytest.mark.parametrize("name", MAKERS)
def test_papers_of_odd_mules(text: str, name: str) -> None:
    assert set_and_read(MAKERS[name](evaluated(text)))


@pytest.mark.parametrize("seed", SEEDS)
def test_papers_of_mules_that_nobody_would_build(seed: int) -> None:
    mule = random_mule(seed)
    on = Evaluation(mule)
    papers = {name: maker(on) for name, maker in MAKERS.items()}
    for paper in papers.values():
        assert set_and_read(paper)
    numbers = {wire.number for wire in harness(mule).conductors}
    counted = wire_numbers(papers["plugs"])
    assert counted.keys() == numbers
    assert set(counted.values()) <= {1}
