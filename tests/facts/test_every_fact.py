"""Every fact of every shipped design: explained, evaluated by hand from its formula, and the same on arrays."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import numpy as np
import pytest

from mulewright.facts.catalog import every_fact
from mulewright.facts.graph import Evaluation, Found, Given, Node
from mulewright.models.formula import FUNCTIONS
from mulewright.tasks.explaining import Explained, explain_node
from tests.designs import DESIGNS, evaluation

SAMPLES = np.array([0.985, 1.0, 0.993])
each_design = pytest.mark.parametrize("design", DESIGNS)


def by_id(on: Evaluation) -> dict[str, Node]:
    return {node.id: node for node in every_fact(on)}


@each_design
def test_each_fact_says_where_it_comes_from(design: str) -> None:
    for node in every_fact(evaluation(design)):
        assert node.says, node.id
        assert node.unit, node.id
        assert node.step is not None or node.gaps, node.id
        if isinstance(node.step, Found):
            assert node.step.because, node.id
        if not node.gaps:
            assert not np.isnan(node.value), node.id


def as_shown(one: Explained) -> Iterator[tuple[str, dict[str, Any], float]]:
    """Formula, the numbers shown with it, and the number shown for the fact, down the tree."""
    if one.formula:
        shown = {name: argument.value for name, argument in one.arguments.items()} | dict(one.constants)
        yield one.formula, shown, one.fact["value"]
    for below in one.below:
        yield from as_shown(below)


@each_design
def test_the_formula_shown_gives_the_number_shown(design: str) -> None:
    seen = set()
    for node in every_fact(evaluation(design)):
        explained = explain_node(node)
        for formula, shown, result in as_shown(explained):
            key = (formula, str(shown))
            if key in seen or result is None:
                continue
            seen.add(key)
            names = FUNCTIONS | {name: np.inf if value is None else value for name, value in shown.items()}
            left, equals, right = formula.partition("==")
            names["result"] = result
            got = eval(left, {"__builtins__": {}}, names)
            wanted = eval(right, {"__builtins__": {}}, names) if equals else result
            assert float(got) == pytest.approx(wanted, rel=1e-9, abs=1e-15), (node.id, formula, shown)
    assert len(seen) > 40


@each_design
def test_each_given_fact_is_what_was_typed(design: str) -> None:
    for node in every_fact(evaluation(design)):
        if isinstance(node.step, Given) and node.step.quantity is not None:
            assert float(node.value) == node.step.quantity.value
            assert node.origin is node.step.quantity.origin


@each_design
def test_facts_on_arrays_equal_a_loop(design: str) -> None:
    plain = by_id(evaluation(design))
    inputs = {
        read.step.path: float(read.value)
        for node in plain.values()
        for read in node.inputs()
        if isinstance(read.step, Given) and read.step.quantity is not None
    }
    assert len(inputs) > 30
    turns = np.random.default_rng(5).permuted(np.tile(SAMPLES, (len(inputs), 1)), axis=1)
    draws = {path: value * turn for (path, value), turn in zip(inputs.items(), turns, strict=True)}
    arrays = by_id(evaluation(design, values=draws))
    for place in range(len(SAMPLES)):
        single = by_id(evaluation(design, values={path: draw[place] for path, draw in draws.items()}))
        assert single.keys() == arrays.keys()
        for name, node in single.items():
            assert node.gaps == arrays[name].gaps
            one = np.broadcast_to(arrays[name].value, SAMPLES.shape)[place]
            assert one == pytest.approx(float(node.value), rel=1e-9, abs=1e-15, nan_ok=True), name
