"""Facts that rest on none of the inputs that change are taken over, and the others are worked out anew."""

from __future__ import annotations

import pytest

from mulewright.facts.catalog import every_fact
from mulewright.facts.graph import Evaluation
from tests.designs import DESIGNS, evaluation

CHANGED = {"body.mass": 20.0, "battery.main.rested": 11.1}


@pytest.mark.parametrize("design", DESIGNS)
def test_a_further_evaluation_gives_what_one_from_scratch_gives(design: str) -> None:
    on = evaluation(design)
    first = {node.id: node for node in every_fact(on)}
    values = {path: value for path, value in CHANGED.items() if path in on.given}
    again = {node.id: node for node in every_fact(on.again(values))}
    for node in every_fact(Evaluation(on.mule, values)):
        assert again[node.id].gaps == node.gaps
        assert again[node.id].value == pytest.approx(node.value, nan_ok=True), node.id
    taken = [id for id, node in again.items() if node is first[id]]
    assert taken
    assert not {id for id in taken if id in ("body.mass", "body.weight", "battery.main.rested")} or not values


def test_an_input_that_was_missing_opens_every_way_again() -> None:
    on = evaluation("tray-cart", ("controller.left.dead_band=?",))
    list(every_fact(on))
    filled = on.again({"controller.left.dead_band": 25e-6})
    assert filled.settled is None
    assert {node.id: node for node in every_fact(filled)}["controller.left.full_duty"].known
