"""Does every shipped mule, as it is and with each of its variants, read, link and get a verdict?"""

from __future__ import annotations

import tomllib
from pathlib import Path

import pytest

from mulewright.checks import CHECKS
from mulewright.checks.engine import Outcome, run
from mulewright.design.mule import link
from mulewright.design.resolve import load
from mulewright.facts.catalog import every_fact
from mulewright.facts.graph import Evaluation
from tests.designs import DESIGNS, EXAMPLES

FILES = sorted(EXAMPLES.glob("*/*.toml"))


def variants(path: Path) -> list[str | None]:
    found: dict[str, object] = tomllib.loads(path.read_text(encoding="utf-8")).get("variant", {})
    return [None, *found]


EACH = [
    pytest.param(path, variant, id=f"{path.parent.name}-{path.stem}-{variant or 'as it is'}")
    for path in FILES
    for variant in variants(path)
]


@pytest.mark.parametrize(("path", "variant"), EACH)
def test_it_gets_a_verdict(path: Path, variant: str | None) -> None:
    on = Evaluation(link(load(path, variant=variant)))
    verdicts = run(on, CHECKS.values())
    assert {verdict.check.id for verdict in verdicts} == set(CHECKS)
    assert all(node.step is not None or node.gaps for node in every_fact(on))


@pytest.mark.parametrize(("path", "variant"), [each for each in EACH if str(each.id).endswith("-mended")])
def test_mended_is_better(path: Path, variant: str) -> None:
    def worst(name: str | None) -> int:
        verdicts = run(Evaluation(link(load(path, variant=name))), CHECKS.values())
        return max((verdict.severity for verdict in verdicts if verdict.outcome is Outcome.TRIP), default=0)

    assert worst(variant) < worst(None)


@pytest.mark.parametrize("design", DESIGNS)
def test_it_says_what_to_look_for(design: str) -> None:
    page = (EXAMPLES / design / "README.md").read_text(encoding="utf-8")
    assert f"mulewright check examples/{design}/mule.toml" in page
