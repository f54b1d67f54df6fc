"""Paths are read as they are written."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from mulewright.design.paths import look_up, parse_path, written
from mulewright.errors import DesignError


@pytest.mark.parametrize(
    ("text", "path"),
    [
        ("name", ("name",)),
        ("motor.lift.gears.0.ratio", ("motor", "lift", "gears", "0", "ratio")),
        ('radio.control."SW 2".rate', ("radio", "control", "SW 2", "rate")),
        ("radio.control.'a.b'.rate", ("radio", "control", "a.b", "rate")),
        (" fuse . main ", ("fuse", "main")),
        ("controller.*.red_wire", ("controller", "*", "red_wire")),
    ],
)
def test_paths_are_split_at_dots_outside_quotes(text: str, path: tuple[str, ...]) -> None:
    assert parse_path(text) == path


@pytest.mark.parametrize("text", ["", ".", "a.", "a..b", "a b", 'a."b', "a[0]", "a=b", ".".join("a" * 40)])
def test_what_is_no_path_is_refused(text: str) -> None:
    with pytest.raises(DesignError, match="path"):
        parse_path(text)


@given(st.lists(st.text().filter(lambda part: '"' not in part), min_size=1, max_size=6))
def test_written_paths_read_back(parts: list[str]) -> None:
    assert parse_path(written(tuple(parts))) == tuple(parts)


def test_looking_up_goes_through_tables_and_lists() -> None:
    raw = {"motor": {"lift": {"gears": [{"ratio": 2}]}}}
    assert look_up(raw, ("motor", "lift", "gears", "0", "ratio")) == 2
    assert look_up(raw, ("motor", "lift", "gears", "1")) is None
    assert look_up(raw, ("motor", "lift", "gears", "x"), 7) == 7
    assert look_up(raw, ("motor", "lift", "gears", "0", "ratio", "more")) is None
