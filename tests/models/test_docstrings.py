"""Every public model states its formula, and a unit for each parameter and return value."""

import ast
import importlib
import inspect
import pkgutil
import re
from types import FunctionType

import pytest

import mulewright.models as package
from mulewright.models.formula import FUNCTIONS, constants_of

NO_MODELS = {"formula", "bounds"}  # how models are written down, not models
NAMES = [m.name for m in pkgutil.walk_packages(package.__path__) if m.name not in NO_MODELS]
MODULES = [importlib.import_module(f"{package.__name__}.{name}") for name in NAMES]
MODELS = [
    function
    for module in MODULES
    for name, function in vars(module).items()
    if isinstance(function, FunctionType)
    and function.__module__ == module.__name__
    and not name.startswith("_")
]
ENTRY = re.compile(r"^(\w+) : .*\n((?:    .*\n?|\n)+)", re.M)
UNIT_AT_END = re.compile(r"\[[^\]]+\]\s*$")

each_model = pytest.mark.parametrize("model", MODELS, ids=lambda f: f"{f.__module__}.{f.__qualname__}")


def entries(model: FunctionType, title: str) -> dict[str, str]:
    """Name -> text of each entry in one section of a docstring."""
    doc = inspect.getdoc(model) or ""
    section = re.search(rf"^{title}\n-+\n(.*?)(?=^\S[^\n]*\n---|\Z)", doc, re.S | re.M)
    return {name: text.strip() for name, text in ENTRY.findall(section[1] if section else "")}


@each_model
def test_parameters_match_and_carry_units(model: FunctionType) -> None:
    parameters, returns = entries(model, "Parameters"), entries(model, "Returns")
    assert list(parameters) == list(inspect.signature(model).parameters)
    assert len(returns) == 1, "a model returns one quantity"
    for name, text in (parameters | returns).items():
        assert UNIT_AT_END.search(text), f"{name}: no [unit] at the end"


@each_model
def test_formula_uses_only_what_explain_can_show(model: FunctionType) -> None:
    text: str = getattr(model, "formula_text", "")
    assert text, "no formula"
    sides = [ast.parse(side.strip(), mode="eval") for side in text.split("==")]
    used = {node.id for side in sides for node in ast.walk(side) if isinstance(node, ast.Name)}
    parameters = set(inspect.signature(model).parameters)
    known = (
        parameters | set(constants_of(model)) | set(FUNCTIONS) | ({"result"} if len(sides) == 2 else set())
    )
    assert used <= known
    assert parameters <= used, "a parameter that the formula does not use"


@each_model
def test_range_names_are_parameters(model: FunctionType) -> None:
    ranges: dict[str, tuple[float, float]] = getattr(model, "valid_for", {})
    assert set(ranges) <= set(inspect.signature(model).parameters)
    assert all(low < high for low, high in ranges.values())
