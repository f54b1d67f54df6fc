"""The table of ways to measure: every row names known instruments, and says its errors in units that fit."""

from __future__ import annotations

from collections.abc import Iterator
from fnmatch import fnmatchcase
from typing import get_args

import pytest

from mulewright.design.schema.file import MuleFile
from mulewright.shelf.measuring import (
    CHOICE,
    Instrument,
    Range,
    Row,
    Spread,
    closest_fit,
    error_in_si,
    fit,
    instruments,
    ranges,
    rows,
    spreads,
)  # fmt: skip
from mulewright.shelf.tables import Mark
from mulewright.units.fields import Of
from mulewright.units.kinds import KINDS
from mulewright.units.quantity import read_quantity
from mulewright.units.table import Table, kinds_of


def numbers(table: type[Table], above: str = "") -> Iterator[tuple[str, Of]]:
    """Every number that a mule file may hold, by a path with ``x`` for names and places in lists."""
    for name, info in table.model_fields.items():
        path = f"{above}{name}"
        for inner, steps in _tables(info.annotation, path):
            yield from numbers(inner, f"{steps}.")
        if name in kinds_of(table):
            yield path, kinds_of(table)[name]


def _tables(annotation: object, path: str) -> Iterator[tuple[type[Table], str]]:
    if isinstance(annotation, type) and issubclass(annotation, Table):
        yield annotation, path
    many = getattr(annotation, "__origin__", None) in (dict, list)
    for inside in get_args(annotation):
        yield from _tables(inside, f"{path}.x" if many else path)


NUMBERS = dict(numbers(MuleFile))
each_number = pytest.mark.parametrize("path", NUMBERS)


def test_the_schema_is_walked_through() -> None:
    assert {
        "body.mass",
        "mechanism.x.lumps.x.at",
        "wire.x.joints.x.rating",
        "radio.channel.travel",
    } <= NUMBERS.keys()


@each_number
def test_every_number_of_a_mule_file_can_be_measured_somehow(path: str) -> None:
    number = NUMBERS[path]
    row = fit(path, number.kind, rows())
    if row is None:
        assert number.kind in UNMEASURED, path
        return
    for way in row.by:
        error = way.error or instruments()[way.instrument].error
        assert error_in_si(error, number.kind, 1.0) >= 0
        if way.most:
            assert read_quantity(way.most, number.kind).value > 0


UNMEASURED = {
    "ratio",
    "percent",
    "power",
    "energy",
    "c_rate",
    "speed",
    "acceleration",
    "rotation",
}  # without a row


@each_number
def test_usual_ranges_and_spreads_fit_what_they_are_for(path: str) -> None:
    number = NUMBERS[path]
    usual = closest_fit(path, ranges())
    if usual is not None:
        low, high = (number.read(text).value for text in (usual.low, usual.high))
        assert low < high
    spread = fit(path, number.kind, spreads())
    assert spread is not None
    for text in (spread.estimate, spread.assumed):
        assert error_in_si(text, number.kind, 1.0) >= 0
    assert error_in_si(spread.estimate, number.kind, 1.0) <= error_in_si(spread.assumed, number.kind, 1.0)


def test_every_row_is_marked_and_sourced_and_names_known_instruments() -> None:
    tables: list[Row | Range | Spread | Instrument] = [
        *rows(),
        *ranges(),
        *spreads(),
        *instruments().values(),
    ]
    assert all(one.mark in get_args(Mark) and one.source for one in tables)
    for row in rows():
        assert row.by
        assert {way.instrument for way in row.by} <= instruments().keys()
        assert set(row.kinds) <= {*KINDS, CHOICE}
        assert all(way.minutes > 0 and way.how[-1] in ".?" for way in row.by)


def test_every_pattern_of_a_range_or_a_way_fits_something() -> None:
    found: list[Row | Range] = [*rows(), *ranges()]
    patterns = {pattern for row in found for pattern in row.paths}
    paths = [*NUMBERS, *CHOICES]
    assert {one for one in patterns if not any(fnmatchcase(path, one) for path in paths)} == set()


CHOICES = ("radio.permission", "receiver.fail_safe", "receiver.rebound_since_test", "checklist.range_walk")


@pytest.mark.parametrize(
    ("text", "kind", "value", "si"),
    [
        ("5 g", "mass", 2.0, 0.005),
        ("2 % + 50 g", "mass", 2.0, 0.09),
        ("1 %", "percent", 0.5, 0.01),
        ("1 %", "voltage", 12.0, 0.12),
        ("5 %", "ratio", 0.8, 0.04),
        ("0.01", "ratio", 0.8, 0.01),
        ("2 K", "temperature", 300.0, 2.0),
        ("0.5 deg", "angle", 1.0, 0.00872665),
    ],
)
def test_an_error_is_a_share_an_amount_or_both(text: str, kind: str, value: float, si: float) -> None:
    assert error_in_si(text, kind, value) == pytest.approx(si)


def test_the_pattern_that_leaves_least_open_holds() -> None:
    def row(path: str, kind: str) -> str:
        found = fit(path, kind, rows())
        assert found is not None
        return found.name

    assert row("body.mass", "mass") == "whole_machine"
    assert row("motor.lift.mass", "mass") == "part_on_a_scale"
    assert row("mechanism.arm.lumps.0.mass", "mass") == "thing_on_a_scale"
    assert row("body.track", "length") == "lengths"
    assert row("receiver.fail_safe_delay", "time") == "when_the_link_dies"
    assert row("battery.main.chemistry", CHOICE) == "looking"
