"""A change to a file changes what was asked for, and neither a comment nor a line more."""

import difflib
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from mulewright.design.edits import toml
from mulewright.design.merging import put
from mulewright.design.paths import parse_path
from mulewright.design.reading import parse, read_text
from mulewright.design.starters import KINDS, starter
from mulewright.design.writing import save, set_values
from mulewright.errors import DesignError, FileProblem, MulewrightError, NotFound
from tests.design.carrier import CARRIER


def lines_changed(text: str, fresh: str) -> list[str]:
    """The lines that went and the lines that came."""
    diff = difflib.ndiff(text.splitlines(), fresh.splitlines())
    return [line for line in diff if line[0] in "+-"]


@pytest.mark.parametrize(
    ("path", "value", "change"),
    [
        (
            "question",
            "Does it lift?",
            ['- question = "Can one person bring a tray down the aisle?"', '+ question = "Does it lift?"'],
        ),
        (
            "body.wheelbase",
            "0.4 m",
            [
                '- wheelbase = "0.30 m"              # front to rear',
                '+ wheelbase = "0.4 m"               # front to rear',
            ],
        ),
        ("body.center_height", "0.1 m", ['+ center_height = "0.1 m"']),
        ("body.note", "x", ['+ note      = "x"']),
        ("deadline", "Friday", ['+ deadline = "Friday"']),
        ("motor.lift.gears.1.ratio", 4, ["ratio = 1.5", "ratio = 4 }"]),
        ("motor.lift.gears.0.efficiency", 0.9, ["ratio = 2 }", "ratio = 2, efficiency = 0.9 }"]),
        ("controller.front_left.regulator.voltage", "6 V", ['"5 V"', '+ regulator.voltage = "6 V"']),
        ("controller.front_left.regulator.current", "1 A", ['+ regulator.current = "1 A"']),
        ("drive.wheel.friction.value", 0.7, ["value = 0.6", "value = 0.7"]),
        ("radio.mix.1.active", False, ["- active = true", "+ active = false"]),
        ("radio.mix.0.rate_before", True, ["+ rate_before = true"]),
        ("radio.memory", "3", ['+ memory = "3"']),
        ("receiver.fail_safe.5", "hold", ['tested = "?"', 'tested = "?", 5 = "hold" }']),
        ("radio.control.KN.rate", "50 %", ['+ KN = { rate = "50 %" }']),
        ('radio.control."SW 2".rate', "50 %", ['+ "SW 2" = { rate = "50 %" }']),
        ("wire.main.path", ["battery.main", "controller.*"], ['+ path   = ["battery.main", "controller.*"]']),
        ("fuse.second", {"rating": "5 A"}, ["+ ", "+ [fuse.second]", '+ rating = "5 A"']),
        ("servo.tilt.part", "sv-ht", ["+ ", "+ [servo.tilt]", '+ part = "sv-ht"']),
        ("room.free", "4 m", ["+ ", "+ [room]", '+ free = "4 m"']),
        ("room", {"free": "4 m", "people": True}, ["+ ", "+ [room]", '+ free = "4 m"', "+ people = true"]),
        ("limits.P21", {"limit": "6 %"}, ['+ P21 = { limit = "6 %" }']),
        ("fuse.main.note", 'a "quoted"\nnote \\', ['+ note   = "a \\"quoted\\"\\nnote \\\\"']),
        ("body.mass", "12 kg", ['"luggage scale"', '+ mass      = "12 kg"']),
        ("body.track.value", "0.3 m", ['"?"', '+ track     = { value = "0.3 m" }']),
    ],
)
def test_one_value_changes_its_own_line(path: str, value: Any, change: list[str]) -> None:
    fresh = set_values(CARRIER, {path: value})
    done = lines_changed(CARRIER, fresh)
    done = [line for line in done if not line.startswith("?")]
    assert parse(fresh, "") == put(parse(CARRIER, ""), parse_path(path), value)
    if not path.endswith(".path"):
        assert len(done) == len(change)
    assert all(any(piece in line for line in done) for piece in change)


def test_a_star_changes_every_match_and_an_unknown_path_none() -> None:
    fresh = set_values(CARRIER, {"controller.*.red_wire": "pulled"})
    assert fresh.count('= "pulled"') == 2
    with pytest.raises(NotFound):
        set_values(CARRIER, {"servo.*.red_wire": "pulled"})


def test_changing_nothing_gives_the_same_text() -> None:
    assert set_values(CARRIER, {}) == CARRIER
    assert set_values(CARRIER, {"fuse.main.rating": "20 A"}) == CARRIER


def test_values_may_be_laid_over_a_whole_thing() -> None:
    fresh = set_values(CARRIER, {"fuse.main": {"rating": "10 A", "from_battery": "0.1 m"}})
    assert lines_changed(CARRIER, fresh) == [
        '- rating = "20 A"',
        '+ rating = "10 A"',
        '+ from_battery = "0.1 m"',
    ]


def test_a_table_that_has_a_section_can_become_one_number() -> None:
    text = (
        'name = "x"\n[body]\ntrack = "1 m"\n[body.mass]\nvalue = "3 kg"\n\n# a room\n[room]\nfree = "4 m"\n'
    )
    fresh = set_values(text, {"body.mass": "4 kg"})
    assert parse(fresh, "")["body"] == {"track": "1 m", "mass": "4 kg"}
    assert "# a room\n[room]" in fresh
    fresh = set_values(CARRIER, {"radio.mix": [{"kind": "slave"}]})
    assert parse(fresh, "")["radio"]["mix"] == [{"kind": "slave"}]


def test_windows_line_ends_stay() -> None:
    fresh = set_values(CARRIER.replace("\n", "\r\n"), {"servo.tilt.part": "sv-ht", "body.wheelbase": "1 m"})
    assert fresh.count("\r\n") == fresh.count("\n")
    assert fresh.replace("\r\n", "\n") == set_values(
        CARRIER, {"servo.tilt.part": "sv-ht", "body.wheelbase": "1 m"}
    )


def test_a_file_without_a_last_line_end_can_be_added_to() -> None:
    fresh = set_values("schema_version = 1", {"name": "cart", "fuse.main.rating": "5 A"})
    assert fresh == 'schema_version = 1\nname = "cart"\n\n[fuse.main]\nrating = "5 A"\n'
    fresh = set_values("schema_version = 1\n[body] # heavy", {"body.mass": "5 kg"})
    assert fresh == 'schema_version = 1\n[body] # heavy\nmass = "5 kg"\n'


@pytest.mark.parametrize(
    ("text", "path", "says"),
    [
        ("schema_version = 1\nbody = 3\n", "body.mass", "has nothing inside it"),
        ("schema_version = 1\nbody.track = 3\n", "body.track.mass", "has nothing inside it"),
        ("radio.mix = []", "radio.mix.0.active", "the list has no item 0"),
        ("a = [", "a", "the text ends in the middle of something"),
        ("a = 1", "a..b", "is not a path"),
    ],
)
def test_what_cannot_be_changed_is_refused(text: str, path: str, says: str) -> None:
    with pytest.raises(MulewrightError) as caught:
        set_values(text, {path: "x"})
    assert says in str(caught.value)


def test_a_value_that_no_file_can_hold_is_refused() -> None:
    with pytest.raises(DesignError, match="change it by hand"):
        set_values(CARRIER, {"limits.P26.limit": float("nan")})


@pytest.mark.parametrize(
    ("text", "path"),
    [
        ('motor.lift.part = "x"\n', "motor.winch.part"),
        ('[motor]\nlift.part = "x"\n', "motor.winch.part"),
        ('motor = { lift = { part = "x" } }\n', "motor.winch.part"),
        ('motor = { lift = { part = "x" } }\n', "motor.lift.turns"),
        ('[motor.lift]\npart = "x"\n[fuse.a]\n[motor.left]\npart = "y"\n', "motor.lift.turns"),
        ('[motor]\n[motor.lift]\npart = "x"\n', "motor.left.part"),
        ("[radio.control]\n", "radio.part"),
        ('[radio.control.RV]\nrate = "1 %"\n[[radio.mix]]\n[radio.rate]\n', "radio.mix.0.active"),
        ('a = 1\n[limits]\n"P 26" = {}\n', 'limits."P 26".because'),
    ],
)
def test_every_way_to_write_a_table_can_be_added_to(text: str, path: str) -> None:
    fresh = set_values(text, {path: "new"})
    assert parse(fresh, "") == put(parse(text, ""), parse_path(path), "new")
    assert all(line.rstrip(" }") in fresh for line in text.splitlines())


paths = st.sampled_from(
    """
    name note body.mass body.mass.plus_minus drive.wheel.friction drive.wheel.diameter.from
    motor.lift.part motor.left.stall_current mechanism.lift.load fuse.main.rating fuse.x.rating
    radio.control.RV.rate radio.control.others.expo radio.channel.3.travel radio.rate.slow
    radio.mix.0.active receiver.fail_safe.others wire.branches.gauge wire.main.joints limits.P26.because
    variant.slow.body.mass checklist.own.tidy second_radio.part
    """.split()
)
values = st.one_of(
    st.sampled_from(["?", "3 A", "0.2 kg", ""]),
    st.text(st.characters(exclude_categories=["Cs"]), max_size=8),
    st.booleans(),
    st.integers(-10, 10**6),
    st.lists(st.sampled_from(["battery.main", "fuse.main"]), max_size=3),
    st.fixed_dictionaries(
        {"value": st.just("3 A")}, optional={"from": st.just("measured"), "ref": st.text(max_size=3)}
    ),
)


@settings(deadline=None, max_examples=800)
@given(
    st.sampled_from([CARRIER, *map(starter, KINDS)]), st.dictionaries(paths, values, min_size=1, max_size=4)
)
def test_reading_what_was_written_gives_the_wanted_change_and_nothing_else(
    text: str, wanted: dict[str, Any]
) -> None:
    raw = parse(text, "")
    try:
        for path, value in wanted.items():
            raw = put(raw, parse_path(path), value)
    except MulewrightError:
        with pytest.raises((DesignError, NotFound)):
            set_values(text, wanted)
        return
    fresh = set_values(text, wanted)
    assert parse(fresh, "") == raw
    comments = [
        line.partition("#")[2] for line in text.splitlines() if "#" in line and "wire.main" not in str(wanted)
    ]
    assert all(comment in fresh for comment in comments)


def test_values_are_written_as_a_person_would() -> None:
    assert toml({"a": [1, True, "x"], "b c": {}}) == '{ a = [1, true, "x"], "b c" = {} }'


def test_saving_keeps_the_state_before_beside_it(tmp_path: Path) -> None:
    path = tmp_path / "mule.toml"
    save(path, "a = 1\n")
    assert [file.name for file in tmp_path.iterdir()] == ["mule.toml"]
    path.chmod(0o640)
    save(path, "a = 2\r\n")
    assert read_text(path) == "a = 2\r\n"
    assert path.stat().st_mode & 0o777 == 0o640
    assert (tmp_path / "mule.toml.before").read_text() == "a = 1\n"
    assert sorted(file.name for file in tmp_path.iterdir()) == ["mule.toml", "mule.toml.before"]


def test_saving_follows_a_link(tmp_path: Path) -> None:
    (tmp_path / "real.toml").write_text("a = 1\n")
    (tmp_path / "mule.toml").symlink_to(tmp_path / "real.toml")
    save(tmp_path / "mule.toml", "a = 2\n")
    assert (tmp_path / "mule.toml").is_symlink()
    assert (tmp_path / "real.toml").read_text() == "a = 2\n"


def test_a_failed_save_leaves_the_file_as_it_was(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    path = tmp_path / "mule.toml"
    path.write_text("a = 1\n")

    def full(*_: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr("os.fsync", full)
    with pytest.raises(FileProblem, match="No space left on device"):
        save(path, "a = 2\n")
    assert path.read_text() == "a = 1\n"
    assert [file.name for file in tmp_path.iterdir()] == ["mule.toml"]
    with pytest.raises(FileProblem, match="cannot be written"):
        save(tmp_path / "nowhere" / "mule.toml", "a = 2\n")
