"""How does a model show its formula? As one expression that can be printed and evaluated."""

from __future__ import annotations

import sys
from collections.abc import Callable, Mapping, Sequence
from typing import Any, TypeVar

import numpy as np
from numpy.typing import NDArray

Model = TypeVar("Model", bound=Callable[..., NDArray[np.float64]])


def _stacked(function: Callable[..., Any], empty: float = 0.0) -> Callable[[Sequence[Any]], Any]:
    def over(values: Sequence[Any]) -> Any:
        return function(np.stack(np.broadcast_arrays(*values)), axis=0) if len(values) else np.float64(empty)

    return over


def _dot(first: Sequence[Any], second: Sequence[Any]) -> Any:
    return _stacked(np.sum)([np.multiply(a, b) for a, b in zip(first, second, strict=True)])


FUNCTIONS: dict[str, Any] = {
    name: getattr(np, name)
    for name in (
        "sqrt exp log sin cos tan arcsin arccos arctan arctan2 minimum maximum where sign clip abs hypot cbrt"
    ).split()
} | {
    "sum": _stacked(np.sum),
    "prod": _stacked(np.prod, empty=1.0),
    "dot": _dot,
    "max": _stacked(np.max),
    "min": _stacked(np.min),
    "len": len,
    "interp": np.interp,
    "pi": np.pi,
    "inf": np.inf,
}


def formula(text: str) -> Callable[[Model], Model]:
    """Attach the expression that a model computes.

    ``text`` uses the model's parameters, upper-case constants of its module and the names in
    :data:`FUNCTIONS`. An implicit model writes a balance with ``==`` and calls its own value ``result``.
    """

    def attach(model: Model) -> Model:
        model.formula_text = text  # type: ignore[attr-defined]
        return model

    return attach


def valid_for(**ranges: tuple[float, float]) -> Callable[[Model], Model]:
    """Attach the range of each parameter, in SI, within which the source of a model holds."""

    def attach(model: Model) -> Model:
        model.valid_for = ranges  # type: ignore[attr-defined]
        return model

    return attach


def formula_of(model: Callable[..., Any]) -> str:
    """Return the expression attached to a model."""
    text: str = getattr(model, "formula_text")  # noqa: B009  (mypy: plain functions have no such attribute)
    return text


def constants_of(model: Callable[..., Any]) -> dict[str, Any]:
    """Return the upper-case constants of the module in which a model lives."""
    return {name: value for name, value in vars(sys.modules[model.__module__]).items() if name.isupper()}


def sides(model: Callable[..., Any], arguments: Mapping[str, Any], result: Any) -> tuple[Any, Any]:
    """Evaluate the formula of a model with the given numbers: left and right side of its equality."""
    text = formula_of(model)
    left, equals, right = text.partition("==")
    names = FUNCTIONS | constants_of(model) | dict(arguments) | {"result": result, "__builtins__": {}}
    if not equals:
        return result, eval(text, names)  # noqa: S307  (text comes from our own models, never from a user)
    return eval(left.strip(), names), eval(right.strip(), names)  # noqa: S307
