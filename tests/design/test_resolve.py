"""A text becomes one description, or every problem of it is named where it stands."""

from pathlib import Path

import pytest

from mulewright.design.placing import Override
from mulewright.design.resolve import build, load, load_text, rebuild
from mulewright.errors import DesignError, FileProblem, MulewrightError, NotFound, Problems, ShelfError
from mulewright.units.quantity import Origin
from tests.design.carrier import CARRIER, SHELF, carrier


def refused(*changes: tuple[str, str]) -> str:
    with pytest.raises(MulewrightError) as caught:
        carrier(*changes)
    return str(caught.value)


# --- what a good file gives ---------------------------------------------------------------------------------


def test_a_part_brings_its_values_with_their_source() -> None:
    motor = carrier().file.motor["front_left"]
    assert motor.stall_torque is not None
    assert (motor.stall_torque.value, motor.stall_torque.part) == (2.4, "gm-drive")
    assert motor.stall_torque.origin is Origin.DATA_SHEET


def test_the_file_overrides_a_part_and_every_override_is_kept() -> None:
    loaded = carrier()
    current = loaded.file.motor["lift"].stall_current
    assert current is not None
    assert (current.value, current.part, current.origin) == (7.0, "", Origin.TYPED)
    assert loaded.overrides == (
        Override("motor.lift.stall_current", "gm-drive", "7.5 A", "7.0 A"),
        Override("motor.lift.free_current", "gm-drive", "0.4 A", "?"),
        Override("controller.front_left.regulator.voltage", "ctl-10l", "6.0 V", "5 V"),
    )


def test_a_table_inside_a_part_keeps_what_the_file_does_not_say() -> None:
    regulator = carrier().file.controller["front_left"].regulator
    assert regulator is not None
    assert regulator.kind == "linear"
    assert regulator.voltage is not None
    assert regulator.voltage.value == 5.0


def test_a_question_mark_hides_the_value_of_a_part() -> None:
    loaded = carrier()
    assert loaded.file.motor["lift"].free_current is None
    assert loaded.file.motor["front_left"].free_current is not None
    assert "free_current" not in loaded.raw["motor"]["lift"]


def test_a_file_may_say_more_about_the_number_of_a_part() -> None:
    loaded = carrier(("stall_current = ", "stall_current.plus_minus = "), ('"7.0 A"', '"0.5 A"'))
    current = loaded.file.motor["lift"].stall_current
    assert current is not None
    assert (current.value, current.low, current.high, current.part) == (7.5, 7.0, 8.0, "gm-drive")
    assert Override("motor.lift.stall_current", "gm-drive", "7.5 A", "plus_minus 0.5 A") in loaded.overrides


def test_others_reach_every_channel_that_does_not_say_itself() -> None:
    radio = carrier().file.radio
    assert radio is not None
    assert list(radio.channel) == ["1", "2", "3", "4", "5", "6", "7"]
    travels = [channel.travel.text for channel in radio.channel.values() if channel.travel]
    assert travels == ["100 %", *["120 %"] * 6]
    assert all(channel.reverse is False for channel in radio.channel.values())


def test_others_reach_every_control_of_the_part_and_of_the_file() -> None:
    radio = carrier(("LV = {", 'OWN = { commands = "turn" }\nLV = {')).file.radio
    assert radio is not None
    expos = {name: control.expo.text for name, control in radio.control.items() if control.expo}
    assert expos == dict.fromkeys(["RV", "RH", "LH", "KN", "SW2", "KN2", "OWN"], "30 %") | {"LV": "10 %"}
    assert radio.control["RV"].sprung is True


def test_others_without_a_part_reach_the_channels_in_use() -> None:
    text = """schema_version = 1
    [second_radio]
    control = { A = { channel = 3 }, B = { channel = "?" } }
    channel = { 1 = { trim = "5 us" }, others = { travel = "90 %" } }
    """
    radio = load_text(text, catalog=SHELF).file.second_radio
    assert radio is not None
    assert {name: channel.travel.text for name, channel in radio.channel.items() if channel.travel} == {
        "3": "90 %",
        "1": "90 %",
    }


def test_joints_and_second_receivers_take_parts_too(tmp_path: Path) -> None:
    folder = tmp_path / "shelf" / "connector"
    folder.mkdir(parents=True)
    (folder / "round-2.toml").write_text('family = "two round pins"\nrating = "30 A"\n')
    text = CARRIER.replace('family = "two round pins", rating = "30 A"', 'part = "round-2"')
    (tmp_path / "mule.toml").write_text(text + '\n[second_receiver]\npart = "rx8"\n')
    file = load(tmp_path / "mule.toml").file
    joints = file.wire["main"].joints
    assert joints is not None
    assert joints[0].rating is not None
    assert joints[0].rating.value == 30
    assert file.second_receiver is not None
    assert file.second_receiver.channels == 8


def test_variant_first_then_settings() -> None:
    assert carrier().file.radio == carrier(variant=None).file.radio
    slow = carrier(variant="slow", settings=["motor.lift.gears.1.ratio=7"]).file
    assert slow.radio is not None
    assert slow.radio.control["RV"].rate is not None
    gears = slow.motor["lift"].gears
    assert gears is not None
    assert [gear.ratio and gear.ratio.value for gear in gears] == [3, 7]
    heavy = carrier(variant="heavy", settings=["body.track=0.4 m"]).file.body
    assert heavy.mass is not None
    assert (heavy.mass.value, heavy.mass.low) == (15, None)
    assert heavy.track is not None


def test_the_same_file_is_resolved_again_with_other_settings() -> None:
    loaded = carrier(variant="heavy")
    again = rebuild(loaded, ["fuse.main.rating=?"])
    assert again.catalog is loaded.catalog
    assert again.file.fuse["main"].rating is None
    assert again.file.body.mass is not None
    assert again.file.body.mass.value == 11
    assert (again.base, again.text, again.where) == (loaded.base, loaded.text, loaded.where)
    assert rebuild(again, variant="heavy") == loaded


def test_tables_alone_are_enough() -> None:
    loaded = build({"schema_version": 1, "fuse": {"main": {"rating": "20 A"}}}, catalog=SHELF)
    assert loaded.file.fuse["main"].rating is not None
    assert (loaded.text, loaded.folder, loaded.overrides) == ("", None, ())


def test_resolving_leaves_what_it_was_given_alone() -> None:
    loaded = carrier()
    assert loaded.base["radio"]["channel"]["others"] == {"travel": "120 %", "reverse": False}
    assert loaded.base["body"]["track"] == "?"
    assert "others" not in loaded.raw["radio"]["channel"]
    assert loaded.raw["variant"] == loaded.base["variant"]


# --- what is wrong, where, and what to try ------------------------------------------------------------------


@pytest.mark.parametrize(
    ("old", "new", "says"),
    [
        (
            'part  = "gm-drive"',
            'part  = "gm-driv"',
            "motor.front_left.part (mule.toml, line LINE): no motor called 'gm-driv'",
        ),
        ('part   = "b-ni"', 'part = "b-nx"', "Closest: b-ni"),
        ('part  = "gm-drive"', 'part  = "sv-ht"', "'sv-ht' is a servo, not a motor"),
        (
            'wheelbase = "0.30 m"',
            'wheelbase = "0.30 kg"',
            "body.wheelbase (mule.toml, line LINE): not a length\n"
            "  Rule: a number with one of these units: m, mm, cm, km, in, ft\n  Found: 0.30 kg",
        ),
        ('wheelbase = "0.30 m"', "wheelbase = 0.3", 'Closest: "0.3 m"'),
        ('wheelbase = "0.30 m"', 'wheelbase = "-1 m"', "an impossible value\n  Rule: must be > 0 m"),
        ("wheelbase", "wheelbas", "there is no 'wheelbas' in [body]\n  Closest: wheelbase"),
        ("wheelbase", "zzz", "Rule: it knows mass, center_height"),
        ('from = "measured"', 'from = "measurd"', "body.mass (mule.toml, line LINE): not a source"),
        ("rigging", "riging", "lift.riging (mule.toml, line LINE): there is no 'riging' in [mechanism.lift]"),
        (
            'rigging = "single"',
            'rigging = "singel"',
            "mechanism.lift.rigging (mule.toml, line LINE): is not among the choices\n"
            "  Rule: it is one of single, cascade, continuous\n  Found: singel\n  Closest: single",
        ),
        ('kind    = "lift"', 'kind    = "lfit"', "Rule: kind is one of arm, lift, winch"),
        ('kind    = "lift"', "", "mechanism.lift (mule.toml, line 28): does not say its kind"),
        ('kind    = "lift"', 'kind    = "?"', "does not say its kind"),
        ('kind = "chain"', 'kind = "chian"', "motor.lift.gears.1.kind (mule.toml, line LINE): is not among"),
        (
            "active = true",
            "activ = true",
            "mix.1.activ (mule.toml, line LINE): there is no 'activ' in [radio.mix.1]",
        ),
        ("active = true", "active = 5", "Rule: true or false\n  Found: 5"),
        ("active = true", 'active = "maybe"', "Found: 'maybe'"),
        ('feeds  = "motor.front_left"', "feeds  = 3", "Rule: a text in quotes or a list in [ ]\n  Found: 3"),
        ('feeds  = "motor.front_left"', "feeds  = [3]", "front_left.feeds.0 (mule.toml, line LINE)"),
        ('tested = "?"', 'tested = "soon"', "receiver.fail_safe.tested (mule.toml, line LINE)"),
        ('3 = "neutral"', "3 = 4", "receiver.fail_safe.3 (mule.toml, line LINE): is not what belongs here"),
        ('3 = "neutral"', "thre = 4", "there is no 'thre' in [receiver.fail_safe]"),
        ("eyes = 2026-05-01", 'eyes = "x"', "Rule: true or false or a day such as 2026-05-01"),
        ("1 = { travel", "1 = { revers = true, travel", "'revers' in [radio.channel.1]\n  Closest: reverse"),
        (
            "reverse = false }",
            "revers = false }",
            "others.revers (mule.toml, line LINE): there is no 'revers'",
        ),
        ('part = "tx7"', "part = 7", "radio.part (mule.toml, line LINE): is not what belongs here"),
        (
            'part = "tx7"',
            'part = "tx7"\nchannels = 900',
            "channels: no radio has so many\n  Rule: at most 64",
        ),
        (
            "[body]",
            "[lift]\n[body]",
            "lift (mule.toml, line LINE): there is no 'lift' in a mule file\n  Closest: mech",
        ),
        ("[fuse.main]", "[fuse]", "rating (mule.toml, line 49): is not what belongs here\n  Rule: a table"),
        ("[variant.heavy.body]", "[variant]\nlate = 3\n[variant.heavy.body]", "variant.late (mule.toml"),
        ("schema_version = 1", "", "schema_version: is missing"),
        ("schema_version = 1", "schema_version = 2", "newer than this program"),
    ],
)
def test_a_problem_is_named_where_it_stands(old: str, new: str, says: str) -> None:
    line = CARRIER[: CARRIER.index(old)].count("\n") + 1
    assert says.replace("LINE", str(line)) in refused((old, new))


def test_all_problems_are_told_at_once() -> None:
    with pytest.raises(Problems) as caught:
        carrier(("gm-drive", "gm-driv"), ("wheelbase", "wheelbas"), ('"20 A"', '"20 V"'))
    assert [problem.where.split(" ")[0] for problem in caught.value.problems] == [
        "motor.front_left.part",
        "body.wheelbas",
        "fuse.main.rating",
    ]
    assert [type(problem) for problem in caught.value.problems] == [NotFound, DesignError, DesignError]


def test_of_very_many_problems_twenty_are_told() -> None:
    text = "schema_version = 1\n" + "".join(f'[fuse.f{number}]\nrating = "20 V"\n' for number in range(50))
    with pytest.raises(Problems) as caught:
        load_text(text, catalog=SHELF)
    assert len(caught.value.problems) == 21
    assert str(caught.value).endswith("and 30 more problems")


def test_a_problem_of_a_setting_is_not_blamed_on_a_line() -> None:
    with pytest.raises(DesignError, match=r"body\.wheelbase \(laid over mule\.toml\): not a length"):
        carrier(settings=["body.wheelbase=3 kg"])
    with pytest.raises(NotFound, match=r"motor\.lift\.part \(laid over mule\.toml\)"):
        carrier(settings=["motor.lift.part=gm-drvie"])


def test_a_file_is_named_by_its_path(tmp_path: Path) -> None:
    path = tmp_path / "mule.toml"
    path.write_text("schema_version = 1\nnaem = 3\n")
    with pytest.raises(DesignError) as caught:
        load(path)
    assert caught.value.where == f"naem ({path}, line 2)"
    assert caught.value.nearest == ("name", "note")
    with pytest.raises(FileProblem):
        load(str(tmp_path / "other.toml"))


def test_a_broken_part_is_named_by_its_own_file(tmp_path: Path) -> None:
    folder = tmp_path / "shelf" / "fuse"
    folder.mkdir(parents=True)
    (folder / "own.toml").write_text('rating = "20 V"\n')
    (tmp_path / "mule.toml").write_text('schema_version = 1\n[fuse.main]\npart = "own"\n')
    with pytest.raises(ShelfError, match=r"own\.toml.*rating"):
        load(tmp_path / "mule.toml")
