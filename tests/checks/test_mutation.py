"""A small mutation run: each check, with its comparison turned or taken out, must fail one of its own examples."""

from __future__ import annotations

import ast
import dataclasses
import inspect
import sys
import textwrap
from collections.abc import Callable, Iterator
from typing import Any

import pytest

from mulewright.checks import CHECKS, engine
from mulewright.checks.engine import Check, Outcome, judge, limits_of
from tests.designs import evaluation

SWAPS = {"above": "below", "below": "above", "flagged": "lacking", "lacking": "flagged"}
COMPARES: dict[type[ast.cmpop], type[ast.cmpop]] = {
    ast.Gt: ast.LtE, ast.Lt: ast.GtE, ast.GtE: ast.Lt, ast.LtE: ast.Gt, ast.Eq: ast.NotEq, ast.NotEq: ast.Eq,
    ast.In: ast.NotIn, ast.NotIn: ast.In, ast.Is: ast.IsNot, ast.IsNot: ast.Is,
}  # fmt: skip
NEVER = ast.parse("NotApplicable('comparison taken out')", mode="eval").body


def mutants(tree: ast.FunctionDef) -> Iterator[tuple[str, ast.FunctionDef]]:
    """Copies of a check's function with one thing changed in each."""
    for place, node in enumerate(ast.walk(tree)):
        for name, change in changes(node):
            copy = ast.parse(ast.unparse(tree)).body[0]
            assert isinstance(copy, ast.FunctionDef)
            change(list(ast.walk(copy))[place])
            yield f"{name} in line {getattr(node, 'lineno', 0)}", copy


def changes(node: ast.AST) -> Iterator[tuple[str, Callable[[Any], None]]]:
    if isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id in SWAPS:
        yield f"{node.func.id} turned round", turn_call
    if (
        isinstance(node, ast.Call)
        and isinstance(node.func, ast.Name)
        and node.func.id in ("together", "either")
        and node.args[1:]
    ):
        yield "further conditions dropped", drop_others
    if isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id == "either":
        yield "first condition dropped", drop_first
    if isinstance(node, ast.Compare) and type(node.ops[0]) in COMPARES:
        yield "comparison turned round", turn_compare
    if isinstance(node, ast.Return) and not is_not_applicable(node.value):
        yield "answer taken out", take_out


def is_not_applicable(node: ast.AST | None) -> bool:
    """Whether an answer is a not-applicable already, so that taking it out changes nothing."""
    return isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id == "NotApplicable"


def turn_call(node: Any) -> None:
    node.func.id = SWAPS[node.func.id]


def drop_others(node: Any) -> None:
    del node.args[1:]


def drop_first(node: Any) -> None:
    del node.args[:1]


def turn_compare(node: Any) -> None:
    node.ops[0] = COMPARES[type(node.ops[0])]()


def take_out(node: Any) -> None:
    node.value = NEVER


def compiled(rule: Check, tree: ast.FunctionDef) -> Check:
    module = sys.modules[rule.judge.__module__]
    names = {**vars(engine), **vars(module)}
    code = compile(ast.fix_missing_locations(ast.Module([tree], [])), "<mutant>", "exec")
    exec(code, names)
    return dataclasses.replace(rule, judge=names[tree.name])


def caught(rule: Check) -> bool:
    """Whether one of the check's own examples no longer comes out."""
    for example in rule.examples:
        on = evaluation(example.design, example.sets, example.variant, target=example.target)
        entity = next(entity for entity in rule.on.all(on) if entity.id == example.entity)
        try:
            verdict = judge(rule, entity, limits_of(rule, on.mule.file.limits.get(rule.id)))
        except (AttributeError, KeyError, TypeError, ValueError, IndexError, StopIteration, AssertionError):
            return True
        if verdict.outcome is not example.outcome:
            return True
        if example.outcome is Outcome.TRIP and example.severity not in (None, verdict.severity):
            return True
    return False


@pytest.mark.parametrize("rule", CHECKS.values(), ids=lambda rule: rule.id)
def test_no_mutant_survives(rule: Check) -> None:
    source = ast.parse(textwrap.dedent(inspect.getsource(rule.judge))).body[0]
    assert isinstance(source, ast.FunctionDef)
    source.decorator_list, source.returns = [], None
    for argument in source.args.args:
        argument.annotation = None
    assert not caught(rule)
    survivors = [name for name, tree in mutants(source) if not caught(compiled(rule, tree))]
    assert not survivors
