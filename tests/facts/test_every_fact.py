"""Every fact of every shipped design: explained, evaluated by hand from its formula, and the same on arrays."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np
import pytest

from mulewright.facts.catalog import every_fact, kinds
from mulewright.facts.descriptors import facts_of
from mulewright.facts.graph import Evaluation
from mulewright.facts.nodes import Found, Given, Node
from mulewright.models.formula import FUNCTIONS
from mulewright.tasks.explaining import explain_node
from tests.designs import DESIGNS, evaluation

SAMPLES = np.array([0.985, 1.0, 0.993])
HANDED_OVER = ("two-benches", "two-benches/target.toml")
each_design = pytest.mark.parametrize(
    ("design", "target"),
    [*((design, None) for design in DESIGNS), HANDED_OVER],
    ids=[*DESIGNS, "handed-over"],
)


def by_id(on: Evaluation) -> dict[str, Node]:
    return {node.id: node for node in every_fact(on)}


@each_design
def test_each_fact_says_where_it_comes_from(design: str, target: str | None) -> None:
    for node in every_fact(evaluation(design, target=target)):
        assert node.says, node.id
        assert node.unit, node.id
        assert node.step is not None or node.gaps, node.id
        if isinstance(node.step, Found):
            assert node.step.because, node.id
        if not node.gaps:
            assert not np.isnan(node.value), node.id


def everything(on: Evaluation) -> Iterator[Node]:
    """Every fact, and every fact that one of them read, each once."""
    seen: set[int] = set()
    queue = list(every_fact(on))
    while queue:
        node = queue.pop()
        if id(node) not in seen:
            seen.add(id(node))
            queue += node.reads
            yield node


@each_design
def test_the_formula_shown_gives_the_number_shown(design: str, target: str | None) -> None:
    evaluated = 0
    for node in everything(evaluation(design, target=target)):
        one = explain_node(node)
        result = one.fact["value"]
        if not one.formula or result is None:
            continue
        shown = {name: argument.value for name, argument in one.arguments.items()} | dict(one.constants)
        names = FUNCTIONS | {name: np.inf if value is None else value for name, value in shown.items()}
        left, equals, right = one.formula.partition("==")
        names["result"] = result
        got = eval(left, {"__builtins__": {}}, names)
        wanted = eval(right, {"__builtins__": {}}, names) if equals else result
        assert float(got) == pytest.approx(wanted, rel=1e-9, abs=1e-15), (node.id, one.formula, shown)
        evaluated += 1
    assert evaluated > 20


@each_design
def test_each_given_fact_is_what_was_typed(design: str, target: str | None) -> None:
    for node in every_fact(evaluation(design, target=target)):
        if isinstance(node.step, Given) and node.step.quantity is not None:
            assert float(node.value) == node.step.quantity.value
            assert node.origin is node.step.quantity.origin


@each_design
def test_facts_on_arrays_equal_a_loop(design: str, target: str | None) -> None:
    plain = by_id(evaluation(design, target=target))
    inputs = {
        read.step.path: float(read.value)
        for node in plain.values()
        for read in node.inputs()
        if isinstance(read.step, Given) and read.step.quantity is not None
    }
    assert len(inputs) > 20
    turns = np.random.default_rng(5).permuted(np.tile(SAMPLES, (len(inputs), 1)), axis=1)
    draws = {path: value * turn for (path, value), turn in zip(inputs.items(), turns, strict=True)}
    arrays = by_id(evaluation(design, values=draws, target=target))
    for place in range(len(SAMPLES)):
        single = by_id(
            evaluation(design, values={path: draw[place] for path, draw in draws.items()}, target=target)
        )
        assert single.keys() == arrays.keys()
        for name, node in single.items():
            assert node.gaps == arrays[name].gaps
            one = np.broadcast_to(arrays[name].value, SAMPLES.shape)[place]
            assert one == pytest.approx(float(node.value), rel=1e-9, abs=1e-15, nan_ok=True), name


def test_a_name_means_one_fact() -> None:
    meant: dict[tuple[str, str], tuple[object, str]] = {}
    for design in DESIGNS:
        on = evaluation(design)
        for kind in kinds():
            for entity in on.all(kind):
                for name in facts_of(type(entity)):
                    found = next(vars(cls)[name] for cls in type(entity).__mro__ if name in vars(cls))
                    body = found.body or found.key
                    first, owner = meant.setdefault((entity.id, name), (body, type(entity).__name__))
                    assert first == body, f"{entity.id}.{name} of {owner} and of {type(entity).__name__}"
