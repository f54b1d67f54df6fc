"""Whatever is put before it, reading ends in tables or in one clear message."""

from contextlib import suppress
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from mulewright.design.reading import DEEPEST, LARGEST, decode, parse, read_text
from mulewright.errors import FileProblem


def refusal(text: str) -> str:
    with pytest.raises(FileProblem) as caught:
        parse(text, "mule.toml")
    return str(caught.value)


def test_text_is_read_as_it_stands(tmp_path: Path) -> None:
    path = tmp_path / "mule.toml"
    path.write_bytes(b'\xef\xbb\xbfname = "\xc3\xa9"\r\n')
    assert read_text(path) == 'name = "é"\r\n'
    assert parse(read_text(path), "") == {"name": "é"}


def test_a_missing_file_is_named_with_its_neighbours(tmp_path: Path) -> None:
    (tmp_path / "cart.toml").touch()
    with pytest.raises(FileProblem, match="there is no such file") as caught:
        read_text(tmp_path / "mule.toml")
    assert caught.value.nearest == (str(tmp_path / "cart.toml"),)
    with pytest.raises(FileProblem, match="there is no such file"):
        read_text(tmp_path / "nowhere" / "mule.toml")


def test_a_folder_is_no_file(tmp_path: Path) -> None:
    with pytest.raises(FileProblem, match="is a folder, not a file"):
        read_text(tmp_path)


def test_a_device_is_no_file() -> None:
    with pytest.raises(FileProblem, match="is not a plain file"):
        read_text(Path("/dev/null"))


@pytest.mark.parametrize("name", ["x" * 5000, "a\0b"])
def test_impossible_names_are_refused(name: str) -> None:
    with pytest.raises(FileProblem):
        read_text(Path(name))


@pytest.mark.parametrize(
    ("content", "says"),
    [
        (b"", "is empty"),
        (b" \n\t\n", "is empty"),
        (b"a = 1\n\xff\xfe", "line 2"),
        (b"\x89PNG\r\n", "is not a text file"),
        (b"a = 1\0", "zero bytes"),
        ("name = 1".encode("utf-16"), "is not a text file"),
    ],
)
def test_what_is_no_text_is_refused(content: bytes, says: str) -> None:
    with pytest.raises(FileProblem) as caught:
        decode(content, "mule.toml")
    assert says in str(caught.value)


def test_a_huge_file_is_refused_by_its_size(tmp_path: Path) -> None:
    path = tmp_path / "mule.toml"
    with path.open("wb") as file:
        file.truncate(LARGEST + 1_000_000)
    with pytest.raises(FileProblem) as caught:
        read_text(path)
    assert (caught.value.rule, caught.value.found) == ("at most 5 MB", "6.0 MB")


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("a = 1\nb = \n", "mule.toml, line 2, column 5: not valid TOML: invalid value\n  Found: b ="),
        ("[a]\nx = 1\n[b]\n[a]\n", "mule.toml, line 4, column 3: [a] is there twice"),
        ("[motor.lift]\n[motor.lift]\n", "[motor.lift] is there twice"),
        ("[a]\nrating = 1\nrating = 2\n", "line 3, column 11: rating is there twice"),
        ("a = {b = 1}\na.c = 2\n", "line 2, column 8: a.c is there twice"),
        ('[a.b] # one\n["a".b] # two', 'line 2, column 7: ["a".b] is there twice'),
        ("a = 1\n[a.b]\n", "line 2, column 5: [a.b] is there twice"),
        ("a = { b = 1, b = 2 }", "line 1, column 19: b is there twice"),
        ('a = "', "the text ends in the middle"),
        ("a = " + "9" * 5000, "a number that is too large"),
        ("b.a = " + "9" * 20, "b.a (mule.toml): the number is too large"),
        ("a = [nan]", "a.0 (mule.toml): the number is not finite"),
        ("a = 1e999", "not finite"),
        ('a = "\udcff"', "is not a text file"),
        ("a = " + "[" * 5000, "nested too deeply"),
        ("a = " + "[" * (DEEPEST + 1) + "]" * (DEEPEST + 1), "nested too deeply"),
        (".".join("a" * 40) + " = 1", "nested too deeply"),
        (".".join("a" * 100_000) + " = 1", "nested too deeply"),
    ],
)
def test_bad_toml_is_told_in_one_message(text: str, says: str) -> None:
    assert says in refusal(text)


@settings(deadline=None)
@given(st.text())
def test_any_text_is_read_or_refused(text: str) -> None:
    with suppress(FileProblem):
        assert isinstance(parse(text, "mule.toml"), dict)
