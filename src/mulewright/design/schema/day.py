"""A day in a mule file: written as a day, never as a number that a calendar would accept by accident."""

from datetime import date
from typing import Annotated

from pydantic import BeforeValidator


def _written_as_a_day(raw: object) -> object:
    if isinstance(raw, int | float):
        raise ValueError("not a day")
    return raw


Day = Annotated[date, BeforeValidator(_written_as_a_day)]
