"""Variants and settings change what they name and nothing else."""

from copy import deepcopy
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from mulewright.design.merging import Raw, drop_unknown, expand, is_number, merge, put
from mulewright.design.overlay import apply_settings, apply_variant, parse_setting
from mulewright.errors import DesignError, MulewrightError, NotFound

RAW: Raw = {
    "body": {"mass": {"value": "11 kg", "from": "measured", "plus_minus": "0.2 kg"}, "track": "0.3 m"},
    "motor": {"lift": {"part": "gm-drive", "gears": [{"ratio": 2}, {"ratio": 3}]}},
    "controller": {"lift": {"red_wire": "in"}, "left": {}},
    "radio": {"control": {"SW 2": {"rate": "50 %"}}, "mix": [{"active": True}]},
    "variant": {
        "slow": {
            'radio.control."SW 2"': {"expo": "30 %"},
            "motor.lift.gears.1.ratio": 4,
            "body": {"track": "?"},
        },
        "pulled": {"controller.*.red_wire": "pulled"},
        "wrong": {"bdy.mass": "1 kg"},
        "flat": 3,
    },
}

tables = st.recursive(
    st.integers(),
    lambda inner: st.dictionaries(st.sampled_from("abcde"), inner, max_size=3),
    max_leaves=10,
)
roots = st.dictionaries(st.sampled_from("abcde"), tables, max_size=4)


def changed(*settings: str) -> Raw:
    before = deepcopy(RAW)
    after = apply_settings(RAW, settings)
    assert before == RAW
    return after


@pytest.mark.parametrize(
    ("setting", "path", "value"),
    [
        ("fuse.main.rating=40 A", ("fuse", "main", "rating"), "40 A"),
        (" fuse.main.rating = 40 A ", ("fuse", "main", "rating"), "40 A"),
        ("drive.immediate_reverse=true", ("drive", "immediate_reverse"), True),
        ("radio.channels=8", ("radio", "channels"), 8),
        ("limits.S01.limit=-3", ("limits", "S01", "limit"), -3),
        ("drive.wheel.friction=0.6", ("drive", "wheel", "friction"), "0.6"),
        ("name=007", ("name",), "007"),
        ('name="7"', ("name",), "7"),
        ("name=a = b", ("name",), "a = b"),
        ("room.surfaces=['tile', 'grass']", ("room", "surfaces"), ["tile", "grass"]),
        (
            'body.mass={ value = "3 kg", from = "estimate" }',
            ("body", "mass"),
            {"value": "3 kg", "from": "estimate"},
        ),
        ('radio.control."a=b".rate=1 %', ("radio", "control", "a=b", "rate"), "1 %"),
        ("body.mass=?", ("body", "mass"), "?"),
    ],
)
def test_settings_are_split_and_read(setting: str, path: tuple[str, ...], value: Any) -> None:
    assert parse_setting(setting) == (path, value)


@pytest.mark.parametrize(
    ("setting", "says"),
    [
        ("fuse.main.rating", "is not a setting"),
        ("=3", "is not a setting"),
        ("name=\udcff", "name=?: is not a setting"),
        ("fuse.main.rating=", "is not a setting"),
        ("fsue.main.rating=3 A", "no table called 'fsue'\n  Closest: fuse"),
        ("room.surfaces=['tile'", "the value does not read"),
        ("room.surfaces=" + "[" * 5000, "nested too deeply"),
        ("room.surfaces=[nan]", "not finite"),
        ("a..b=1", "is not a path"),
        ("motor.lfit.part=x", "there is no motor called 'lfit'"),
        ("motor.lfit.part=?", "Closest: lift"),
        ("motor.lift.gears.2.ratio=3", "the list has no item 2"),
        ("motor.lift.gears.first.ratio=3", "items count from 0"),
        ("body.track.wide=3", "body.track: has nothing inside it"),
        ("servo.*.part=x", "nothing here matches"),
        ("body.track.*.x=x", "nothing here matches"),
    ],
)
def test_bad_settings_are_refused(setting: str, says: str) -> None:
    with pytest.raises(MulewrightError) as caught:
        changed(setting)
    assert says in str(caught.value)


def test_a_setting_replaces_a_number_and_all_that_was_known_about_it() -> None:
    assert changed("body.mass=12 kg")["body"] == {"mass": "12 kg", "track": "0.3 m"}
    fresh = changed('body.mass={ value = "12 kg" }')
    assert fresh["body"]["mass"] == {"value": "12 kg"}


def test_a_setting_may_say_more_about_a_number() -> None:
    assert changed("body.mass.plus_minus=1 kg")["body"]["mass"] == RAW["body"]["mass"] | {
        "plus_minus": "1 kg"
    }
    assert changed("body.track.plus_minus=1 cm")["body"]["track"] == {"value": "0.3 m", "plus_minus": "1 cm"}


def test_settings_reach_into_lists_and_quoted_names() -> None:
    raw = changed("motor.lift.gears.0.ratio=5", 'radio.control."SW 2".rate=60 %', "radio.mix.0.active=false")
    assert raw["motor"]["lift"]["gears"] == [{"ratio": 5}, {"ratio": 3}]
    assert raw["radio"] == {"control": {"SW 2": {"rate": "60 %"}}, "mix": [{"active": False}]}


def test_a_star_means_everything_that_is_there() -> None:
    assert changed("controller.*.red_wire=pulled")["controller"] == {
        "lift": {"red_wire": "pulled"},
        "left": {"red_wire": "pulled"},
    }
    assert changed("controller.le*.red_wire=x")["controller"] == {
        "lift": {"red_wire": "in"},
        "left": {"red_wire": "x"},
    }
    assert [gear["ratio"] for gear in changed("motor.*.gears.*.ratio=9")["motor"]["lift"]["gears"]] == [9, 9]
    assert expand(RAW, ("motor", "lift", "part")) == [("motor", "lift", "part")]


def test_the_last_setting_wins() -> None:
    assert changed("body.track=1 m", "body.track=2 m")["body"]["track"] == "2 m"


def test_a_thing_is_added_whole_and_a_table_merged() -> None:
    raw = changed('fuse.main={ rating = "20 A" }', 'motor.lift={ turns = "x" }', "limits.P26.limit=6 %")
    assert raw["fuse"] == {"main": {"rating": "20 A"}}
    assert raw["motor"]["lift"] == RAW["motor"]["lift"] | {"turns": "x"}
    assert raw["limits"] == {"P26": {"limit": "6 %"}}


def test_a_variant_lays_its_changes_over_the_file() -> None:
    raw = apply_variant(RAW, "slow")
    assert raw["radio"]["control"]["SW 2"] == {"rate": "50 %", "expo": "30 %"}
    assert raw["motor"]["lift"]["gears"] == [{"ratio": 2}, {"ratio": 4}]
    assert raw["body"] == RAW["body"] | {"track": "?"}
    assert apply_variant(RAW, "pulled")["controller"]["left"] == {"red_wire": "pulled"}


@pytest.mark.parametrize(
    ("raw", "name", "says"),
    [
        (
            RAW,
            "slwo",
            "called 'slwo'\n  Rule: the file has slow, pulled, wrong, flat\n  Closest: slow",
        ),
        ({}, "slow", "the file has no variants"),
        ({"variant": 3}, "slow", "the file has no variants"),
        (RAW, "wrong", "no table called 'bdy'"),
        (RAW, "flat", "variant.flat: is not a table"),
    ],
)
def test_a_bad_variant_is_refused(raw: Raw, name: str, says: str) -> None:
    with pytest.raises((NotFound, DesignError)) as caught:
        apply_variant(raw, name)
    assert says in str(caught.value)


@given(roots, roots)
def test_merging_keeps_what_is_above_and_all_keys(beneath: Raw, above: Raw) -> None:
    merged = merge(beneath, above)
    assert merged.keys() == beneath.keys() | above.keys()
    assert merge(merged, above) == merged
    assert merge(beneath, {}) == beneath
    assert all(merged[key] == value for key, value in above.items() if not isinstance(value, dict))


@given(roots, st.lists(st.sampled_from("abcde"), min_size=1, max_size=3), st.integers())
def test_putting_a_value_changes_its_path_alone(raw: Raw, parts: list[str], value: int) -> None:
    path = tuple(parts)
    before = deepcopy(raw)
    try:
        after = put(raw, path, value)
    except DesignError:
        assert raw == before
        return
    assert raw == before
    for part in path[:-1]:
        assert {key: inner for key, inner in after.items() if key != part} == {
            key: inner for key, inner in raw.items() if key != part
        }
        after, raw = after[part], raw.get(part, {})
    assert after == raw | {path[-1]: value}


def test_a_number_is_told_from_a_table() -> None:
    assert is_number({"value": 3, "from": "measured"})
    assert is_number({"min": 3, "max": 4})
    assert not is_number({"min": 3})
    assert not is_number({"part": "x", "note": "y"})
    assert not is_number({"value": 3, "other": 4})


def test_unknowns_are_taken_out_wherever_they_stand() -> None:
    raw = {
        "a": "?",
        "b": {"c": "?", "d": ["x", "?"], "e": [{"f": "?", "g": "what?"}]},
        "mass": {"value": "?", "from": "measured"},
        "load": {"value": "?", "min": "1 kg", "max": "2 kg"},
    }
    assert drop_unknown(raw) == {"b": {"e": [{"g": "what?"}]}, "load": {"min": "1 kg", "max": "2 kg"}}
