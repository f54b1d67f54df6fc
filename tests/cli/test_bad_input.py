"""Whatever is wrong with what was typed: one clear message with its place, exit code 2, and no traceback."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path

import pytest

from mulewright.checks import CHECKS
from tests.cli.conftest import Ran, Run, path_of

CART = path_of("tray-cart").read_text("utf-8")
CARRIER = path_of("aisle-carrier").read_text("utf-8")
SERVO = """
[servo.jaw]
part   = "sv-std"
signal = "receiver.4"
power  = {power}
[regulator.five]
voltage = "5 V"
"""
Refused = Callable[..., Ran]


def line_of(text: str, piece: str) -> int:
    return text[: text.index(piece)].count("\n") + 1


def changed(old: str, new: str, text: str = CART) -> str:
    assert text.count(old) >= 1, old
    return text.replace(old, new, 1)


@pytest.fixture
def refused(mulewright: Run, tmp_path: Path) -> Refused:
    """Check a text that is no mule, and demand that it is refused as it should be, for people and for programs."""

    def run(content: str | bytes, *words: str) -> Ran:
        file = tmp_path / "mule.toml"
        file.write_bytes(content if isinstance(content, bytes) else content.encode())
        ran = mulewright("check", file, *words)
        assert (ran.code, ran.out) == (2, "")
        assert "Traceback" not in ran.err
        for_programs = mulewright("check", file, *words, "--json")
        assert for_programs.code == 2
        assert for_programs.err == ran.err
        assert set(for_programs.json) == {"error"}
        assert {"what", "where", "rule", "found", "nearest"} <= set(for_programs.json["error"])
        return ran

    return run


@pytest.mark.parametrize(
    ("old", "new", "place", "says"),
    [
        ("wheelbase", "wheelbas", "body.wheelbas", "there is no 'wheelbas' in [body]\n  Closest: wheelbase"),
        ("[switch.main]", "[swich.main]", "swich", "there is no 'swich' in a mule file\n  Closest: switch"),
        ('"0.22 m"', '"0.22 kg"', "body.wheelbase", "not a length\n  Rule: a number with one of these units: m, mm"),
        ('"0.22 m"', "0.22", "body.wheelbase", 'not a length\n  Rule: a number with one of these units: m, mm, cm, km, in, ft\n  Found: 0.22\n  Closest: "0.22 m"'),
        ('"0.22 m"', '"0,22 m"', "body.wheelbase", "Closest: 0.22 m"),
        ('"0.22 m"', '"1e999 m"', "body.wheelbase", "not a length"),
        ('"0.22 m"', '"-0.22 m"', "body.wheelbase", "an impossible value\n  Rule: must be > 0 m\n  Found: -0.22 m"),
        ('"0.22 m"', '"1e300 m"', "body.wheelbase", "a number beyond all sense\n  Rule: 0, or between 1e-15 and 1e+12 m"),
        ('"0.22 m"', "[1, 2]", "body.wheelbase", "not a length"),
        ('"6.0 kg", from = "measured"', '"6.0 kg", from = "mesured"', "body.mass", "Closest: measured"),
        ('kind   = "two-sides"', 'kind = "two-side"', "drive.kind", "is not among the choices"),
        ('"b-ni"', '"b-nii"', "battery.main.part", "no battery called 'b-nii'"),
        ('"b-ni"', '"gm-drive"', "battery.main.part", "'gm-drive' is a motor, not a battery"),
        ("mirrored = true", 'mirrored = "yes, it is"', "motor.right.mirrored", "Rule: true or false"),
        ("tested = 2026-11-02", 'tested = "last week"', "receiver.fail_safe.tested", "a day such as 2026-05-01"),
        ('others = "neutral"', 'others = "no pulse"', "receiver.fail_safe.others", "neutral, hold, no pulses, or a pulse such as 1100 us\n  Found: no pulse\n  Closest: no pulses"),
        ('others = "neutral"', 'others = "neutral", 3 = "Hold"', "receiver.fail_safe.3", "Closest: hold"),
        ('others = "neutral"', 'others = "1100 V"', "receiver.fail_safe.others", "is not what a channel can do"),
        ('others = "neutral"', 'others = "-5 us"', "receiver.fail_safe.others", "is not what a channel can do"),
    ],
)  # fmt: skip
def test_a_wrong_value_is_named_with_its_line(
    refused: Refused, old: str, new: str, place: str, says: str
) -> None:
    ran = refused(changed(old, new))
    assert ran.err.startswith(f"{place} (")
    assert f"mule.toml, line {line_of(CART, old)})" in ran.err
    assert says in ran.err


@pytest.mark.parametrize(
    ("old", "new", "place", "says"),
    [
        ('"motor.left"', '"motor.lefft"', "controller.left.feeds", "nothing here is called 'motor.lefft'"),
        ('"motor.left"', '"motor.lefft"', "controller.left.feeds", "Closest: motor.left"),
        ('"motor.left"', '"motor.*"', "controller.left.feeds", "nothing here is called 'motor.*'"),
        ('"motor.left"', '"left"', "controller.left.feeds", "the name of a motor, as kind.name"),
        ('"motor.left"', '"battery.main"', "controller.left.feeds", "the name of a motor, as kind.name"),
        ('"motor.right"', '"motor.left"', "controller.right.feeds", "motor.left is already fed by controller.left"),
        ('"motor.right"', '["motor.right", "motor.right"]', "controller.right.feeds", "motor.right is already fed"),
        ('"wheel.left"', '"wheel.front_left"', "motor.left.turns", "the name of a wheel or mechanism"),
        ('"receiver.1"', '"receiver.99"', "controller.right.signal", "nothing here is called 'receiver.99'"),
        ('"receiver.1"', '"receiver.9"', "controller.right.signal", "its 8 sockets are receiver.1 to receiver.8"),
        ('"receiver.1"', '"reciever.1"', "controller.right.signal", "Closest: receiver.1"),
        ('commands = "turn"', 'commands = "trun"', "radio.control.RH.commands", "no function is called 'trun'"),
        ('["RV", "RH"]', '["RV", "RX"]', "radio.mix.0.inputs", "no control is called 'RX'"),
        ('part = "tx8"', 'part = "tx8"\nrate = { covers = ["RVV"] }', "radio.rate.covers", "Closest: RV"),
        ("mirrored = true", 'used_with = ["forwards"]', "motor.right.used_with", "Closest: forward"),
        ('["board.main", "controller.*"]', '["board.main"]', "wire.branches.path", "a wire needs two ends"),
        ('["board.main", "controller.*"]', '["board.*", "controller.left"]', "wire.branches.path", "board.* is not one thing"),
        ('["board.main", "controller.*"]', '["board.main", "motor.left", "controller.left"]', "wire.branches.path", "motor.left cannot lie in the middle"),
        ("[motor.left]", '[motor."le.ft"]', 'motor."le.ft"', "'le.ft' cannot be a name"),
        ("[motor.left]", '[motor."left@1"]', 'motor."left@1"', "'left@1' cannot be a name"),
        ("[motor.left]", '[motor.""]', 'motor.""', "'' cannot be a name"),
        ("[motor.left]", '[mechanism.turn]\nkind = "arm"\n[motor.left]', "mechanism.turn", "'turn' is a command of the drive"),
        ("[motor.left]", '[mechanism.all]\nkind = "arm"\n[motor.left]', "mechanism.all", "'all' is every motor at once"),
    ],
)  # fmt: skip
def test_names_lead_somewhere(refused: Refused, old: str, new: str, place: str, says: str) -> None:
    ran = refused(changed(old, new))
    assert ran.err.startswith(f"{place} (")
    first = line_of(CART, old)
    assert any(f"mule.toml, line {first + more}): " in ran.err for more in range(new.count("\n") + 1))
    assert says in ran.err


@pytest.mark.parametrize(
    ("more", "says"),
    [
        ('[wire.again]\npath = ["battery.main", "board.main"]', "board.main is fed twice"),
        ('[board.two]\n[board.three]\n[wire.a]\npath = ["board.two", "board.three"]\n[wire.b]\npath = ["board.three", "board.two"]', "the supply runs in a ring"),
        ('[board.two]\n[wire.a]\npath = ["board.two", "board.two"]', "the supply runs in a ring"),
        ('[inline.a]\nsignal = "inline.b"\n[inline.b]\nsignal = "inline.a"', "these leads only lead to each other"),
        ('[inline.a]\nsignal = "inline.a"', "these leads only lead to each other"),
        ('[mixer.a]\npart = "box-2"\nforward = "mixer.a.out1"', "): a box feeds itself"),
    ],
)  # fmt: skip
def test_wiring_has_a_beginning(refused: Refused, more: str, says: str) -> None:
    assert says in refused(f"{CART}\n{more}\n").err


def test_a_servo_has_one_supply(refused: Refused) -> None:
    ran = refused(CART + SERVO.format(power='["regulator.five", "battery.main"]'))
    assert ran.err.startswith("servo.jaw.power (")
    assert "Rule: a text in quotes" in ran.err
    ran = refused(CART + SERVO.format(power='"regulator.fife"'))
    assert "Closest: regulator.five" in ran.err


# --- files that are no mule files


@pytest.mark.parametrize(
    ("content", "says"),
    [
        ("", "is empty"),
        (" \n\t\n", "is empty"),
        ("\ufeff", "is empty"),
        (b"\x89PNG\r\n\x1a\n\x00\x01\xff", "is not a text file"),
        (CART.encode("utf-16"), "is not a text file"),
        (b'schema_version = 1\nname = "B\xfchler"\n', "odd bytes in line 2"),
        ("schema_version = 1\n\0", "is not a text file"),
        ("# nothing but a remark\n", "schema_version: is missing"),
        ("schema_version = 7\n", "the file is newer than this program"),
        ("{}", "line 1, column 1"),
        ("<html></html>", "line 1, column 1"),
        ("schema_version = 1\n[body\n", "line 2, column 6: not valid TOML"),
        ('schema_version = 1\nname = "cart\n', "line 2, column 13: not valid TOML"),
        ("schema_version = 1\na = [" + "[" * 5000, "nested too deeply"),
        ("schema_version = 1\n" + "a." * 5000 + "a = 1", "nested too deeply"),
        ("schema_version = " + "9" * 5000, "holds a number that is too large"),
        ("schema_version = 1\n[body]\nmass = nan\n", "body.mass ("),
        (CART + '[motor.left]\npart = "gm-slow"\n', "[motor.left] is there twice"),
        (changed("mirrored = true", "mirrored = true\nmirrored = false"), "mirrored is there twice"),
    ],
    ids=range(19),
)
def test_a_file_that_is_none(refused: Refused, content: str | bytes, says: str) -> None:
    assert says in refused(content).err


def test_the_line_and_column_of_a_slip_are_told(refused: Refused) -> None:
    ran = refused(changed('track         = "0.30 m"', 'track         = "0.30 m'))
    at = line_of(CART, "track ")
    assert f"mule.toml, line {at}, column 24: not valid TOML: " in ran.err
    assert 'Found: track         = "0.30 m' in ran.err


def test_a_huge_file_is_not_even_read(refused: Refused) -> None:
    ran = refused(b"#" * 50_000_000)
    assert "is too large for a mule file\n  Rule: at most 5 MB\n  Found: 50.0 MB" in ran.err


@pytest.mark.parametrize(
    ("name", "says"),
    [
        ("nowhere.toml", "there is no such file"),
        ("", "is a folder"),
        (".", "is a folder"),
        ("x" * 5000, "cannot be read: File name too long"),
        ("/dev/zero", "is not a plain file"),
        ("mule.tml", "there is no such file\n  Closest: "),
    ],
)
@pytest.mark.parametrize("command", ["check", "facts"])
def test_a_file_that_is_not_there(
    mulewright: Run, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, command: str, name: str, says: str
) -> None:
    monkeypatch.chdir(tmp_path)
    (tmp_path / "mule.toml").write_text(CART)
    ran = mulewright(command, name)
    assert ran.code == 2
    assert says in ran.err


# --- what is typed beside the file


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (("--set", "motor.left.prt=gm-slow"), "there is no 'prt' in [motor.left]\n  Closest: part"),
        (("--set", "motor.lfet.part=gm-slow"), "there is no motor called 'lfet'"),
        (("--set", "motr.left.part=gm-slow"), "there is no table called 'motr'\n  Closest: motor"),
        (("--set", "motor.left.part=gm-slw"), "motor.left.part (laid over "),
        (("--set", "motor.left.part"), "is not a setting\n  Rule: PATH=VALUE"),
        (("--set", "=3"), "is not a setting"),
        (("--set", ""), "is not a setting"),
        (("--set", "fuse.main.rating=15 kg"), "not a current"),
        (("--set", "fuse.main.rating=fifteen"), "not a current"),
        (("--set", "fuse.main.rating={ value = "), "the value does not read"),
        (("--set", "body.mass=-1 kg"), "an impossible value"),
        (("--set", "wire.*.gauge=18 AGW"), "Closest: 18 AWG"),
        (("--set", "servo.*.part=sv-std"), "nothing here matches"),
        (("--set", "body.mass.x.y=1"), "body.mass"),
        (("--set", "controller.left.feeds=motor.lift"), "nothing here is called 'motor.lift'"),
        (("--set", "schema_version=2"), "schema_version"),
        (("--variant", "slow"), "there is no variant called 'slow'\n  Rule: the file has no variants"),
        (("--only", "S99"), "--only: no check is called 'S99'"),
        (("--only", "S01,Z"), "--only: no check is called 'Z'"),
        (("--only", "range-short"), "the id of a check, such as S01, or the letter of a family"),
        (("--fail-on", "panic"), "'panic' is not one of"),
        (("--fail-on-unknown", "nothing"), "'nothing' is not one of"),
        (("--sett", "a=b"), "No such option: --sett"),
        (("more.toml",), "more.toml"),
    ],
)
def test_options_that_lead_nowhere(refused: Refused, words: tuple[str, ...], says: str) -> None:
    assert says in refused(CART, *words).err


def test_an_unknown_variant_is_answered_with_the_known_ones(refused: Refused) -> None:
    ran = refused(CARRIER, "--variant", "own-servo-suply")
    assert "Rule: the file has as-found, own-servo-supply\n  Closest: own-servo-supply" in ran.err


@pytest.mark.parametrize(
    ("limits", "says"),
    [
        ("S99 = { limit = 3 }", "limits.S99: no check is called 'S99'\n  Rule: the id of a check"),
        ('S01 = { limit = "3 kg" }', "limits.S01.limit: not a ratio"),
        ('S01 = { warn = "short" }', "limits.S01.warn: not a ratio"),
        ("S01 = { block = 0.5 }", "limits.S01.block: the check has no such limit\n  Rule: it has a limit for warn"),
        (
            "S31 = { also = { rates = '2 %' } }",
            "limits.S31.also.rates: the check has no such limit\n  Rule: it has a limit for rate",
        ),
        ("S31 = { also = { rate = '2 V' } }", "limits.S31.also.rate: "),
        ("S01 = { limits = 3 }", "there is no 'limits' in [limits.S01]\n  Closest: limit"),
        ("S01 = 3", "limits.S01"),
        ("s01 = { limit = 3 }", "Closest: S01"),
    ],
)  # fmt: skip
def test_limits_fit_their_checks(refused: Refused, limits: str, says: str) -> None:
    assert says in refused(f"{CART}\n[limits]\n{limits}\n").err


def test_a_check_without_a_limit_takes_none(refused: Refused) -> None:
    without = next(id for id, rule in CHECKS.items() if not rule.limits)
    ran = refused(f"{CART}\n[limits]\n{without} = {{ limit = 3 }}\n")
    assert "Rule: it has no limit that could be set" in ran.err


def test_all_that_is_wrong_is_told_at_once(refused: Refused) -> None:
    text = changed("wheelbase", "wheelbas", changed('"0.30 m"', '"0.30 V"'))
    assert len(refused(text).err.split("\nbody.")) == 2
    text = changed('"motor.left"', '"motor.x"', changed('"wheel.right"', '"wheel.y"'))
    assert {line.split(" (")[0] for line in refused(text).err.splitlines() if line[0] != " "} == {
        "controller.left.feeds",
        "motor.right.turns",
    }


@pytest.mark.parametrize(
    "words",
    [
        ("chek", "mule.toml"),
        ("check",),
        ("facts", "--json"),
        ("shelf",),
        ("shelf", "show"),
        ("shelf", "show", "gm-driv"),
        ("shelf", "list", "--kind", "moter"),
        ("shelf", "import", "nowhere.csv", "--kind", "motor"),
        ("new", "mule.toml", "--drive"),
        ("--verson",),
    ],
    ids=" ".join,
)
def test_a_command_that_cannot_run_says_so_in_both_forms(
    mulewright: Run, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, words: tuple[str, ...]
) -> None:
    monkeypatch.chdir(tmp_path)
    ran = mulewright(*words)
    assert (ran.code, bool(ran.err)) == (2, True)
    ran = mulewright(*words, "--json")
    assert ran.code == 2
    assert set(json.loads(ran.out)["error"]) >= {"what", "rule"}


def test_a_mistake_of_the_program_shows_where_it_was_made(tmp_path: Path) -> None:
    from mulewright.cli import main
    from mulewright.errors import FileProblem

    with pytest.raises(FileProblem):
        main(["--debug", "check", str(tmp_path / "nowhere.toml")])


# --- a thousand motors


def thousand_motors() -> str:
    """The cart with a thousand more motors, each on a controller of its own."""
    one = (
        '[motor.m{n}]\npart = "gm-drive"\nruns = "one-way"\n'
        '[controller.c{n}]\npart = "ctl-6l"\nfeeds = "motor.m{n}"\nred_wire = "pulled"\nstopping = "coast"\n'
    )
    return CART + "\n" + "".join(one.format(n=number) for number in range(1000))


def test_a_thousand_motors_are_checked(mulewright: Run, tmp_path: Path) -> None:
    file = tmp_path / "mule.toml"
    file.write_text(thousand_motors())
    ran = mulewright("check", file, "--json")
    assert ran.code in (0, 1), ran.err
    judged = {one["entity"] for one in ran.json["verdicts"]}
    assert {f"controller.c{number}" for number in range(1000)} <= judged
