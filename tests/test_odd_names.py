"""Do names make no difference, whatever stands in them? Facts, verdicts, papers, sets of changes."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest
import tomlkit

from mulewright.checks import CHECKS
from mulewright.checks.engine import run
from mulewright.facts.catalog import every_fact
from mulewright.facts.graph import Evaluation
from mulewright.tasks.fixing import fix_file
from mulewright.tasks.printing import MAKERS
from tests.designs import DESIGNS
from tests.paper.test_every_paper import set_and_read
from tests.renamed import ODD_NAME, renamed, renamed_raw

PLAIN = "_x"


def usual(text: str) -> str:
    return text.replace(ODD_NAME, PLAIN)


@pytest.mark.parametrize("design", DESIGNS)
def test_every_fact_and_verdict_is_the_same(design: str) -> None:
    plain, odd = Evaluation(renamed(design, PLAIN)), Evaluation(renamed(design))
    numbers = {usual(node.id): node.value for node in every_fact(odd)}
    assert numbers.keys() == {node.id for node in every_fact(plain)}
    for node in every_fact(plain):
        np.testing.assert_allclose(numbers[node.id], node.value, rtol=1e-6, err_msg=node.id)
    said, meant = (run(on, CHECKS.values()) for on in (odd, plain))
    assert {(one.check.id, usual(one.entity), one.outcome) for one in said} == {
        (one.check.id, one.entity, one.outcome) for one in meant
    }


@pytest.mark.parametrize("name", MAKERS)
def test_every_paper_can_be_set(name: str) -> None:
    assert set_and_read(MAKERS[name](Evaluation(renamed("aisle-carrier"))))


@pytest.mark.parametrize("design", ["leaf-sweeper", "soft-fruit-gripper"])
def test_sets_of_changes_are_found(design: str, tmp_path: Path) -> None:
    file = tmp_path / "mule.toml"
    file.write_text(tomlkit.dumps(renamed_raw(design)), "utf-8")
    report = fix_file(file)
    assert report.cheapest.done
