"""What is printed without wrapping or colour: strict JSON for programs, single lines for people."""

from __future__ import annotations

import json
from dataclasses import fields, is_dataclass
from pathlib import Path
from typing import Any

import typer

from mulewright.errors import MulewrightError, visible


def say(text: str) -> None:
    """Print one line as it is, so that a path or a command in it can be copied."""
    typer.echo(visible(text))


def print_json(result: object) -> None:
    """Print a result as JSON; numbers that are none of JSON's are an error of the program."""
    typer.echo(json.dumps(result, indent=2, allow_nan=False, default=_plain))


def _plain(value: object) -> Any:
    if isinstance(value, MulewrightError):
        return value.as_dict()
    if is_dataclass(value):
        return {field.name: getattr(value, field.name) for field in fields(value)}
    if isinstance(value, Path):
        return str(value)
    raise TypeError(f"no JSON is made of a {type(value).__name__}")
