"""However a valid file is mangled, it loads or is refused with a message; nothing is quietly lost."""

import random
import re
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from mulewright.design.merging import is_number
from mulewright.design.paths import look_up
from mulewright.design.resolve import Loaded, load_text
from mulewright.design.starters import KINDS, starter
from mulewright.errors import MulewrightError
from tests.design.carrier import CARRIER, SHELF

TEXTS = [CARRIER, *map(starter, KINDS)]
SCALAR = re.compile(r'(?<== )(?:"[^"\n]*"|true|false|\d[\d.-]*)')
KEY = re.compile(r"^(\w+)(?= *=)", re.MULTILINE)

texts = st.sampled_from(TEXTS)
seeds = st.randoms(use_true_random=False)
words = st.one_of(
    st.sampled_from(
        [
            '"?"',
            '"3 kg"',
            '"12 V"',
            "3",
            "-1",
            "true",
            "[]",
            "{}",
            '["?"]',
            "2026-05-01",
            '""',
            "nan",
            "1e400",
        ]
    ),
    st.integers().map(str),
    st.floats(allow_nan=False, allow_infinity=False).map(repr),
    st.text(
        st.characters(min_codepoint=32, max_codepoint=300, exclude_characters='"\\\x7f'), max_size=12
    ).map(lambda text: f'"{text}"'),
)
plain = settings(deadline=None, max_examples=150)


def outcome(text: str) -> Loaded | MulewrightError:
    """Load a text; anything raised that is no error of ours fails the test."""
    try:
        return load_text(text, catalog=SHELF)
    except MulewrightError as no:
        return no


def told(text: str) -> Loaded | None:
    """Load a text, or see to it that its refusal can be read."""
    found = outcome(text)
    if isinstance(found, Loaded):
        return found
    assert str(found)
    assert found.as_dict()["what"]
    return None


def pick(chance: random.Random, pattern: re.Pattern[str], text: str) -> re.Match[str]:
    return chance.choice(list(pattern.finditer(text)))


@plain
@given(texts, seeds)
def test_a_line_less(text: str, chance: random.Random) -> None:
    lines = text.splitlines(keepends=True)
    del lines[chance.randrange(len(lines))]
    told("".join(lines))


@plain
@given(texts, seeds)
def test_a_line_twice(text: str, chance: random.Random) -> None:
    lines = text.splitlines(keepends=True)
    line = chance.choice(lines)
    lines.insert(chance.randrange(len(lines)), line)
    told("".join(lines))


@plain
@given(texts, st.integers(0, 3000))
def test_the_end_is_missing(text: str, length: int) -> None:
    told(text[:length])


@plain
@given(texts, seeds, st.characters())
def test_one_character_is_another(text: str, chance: random.Random, character: str) -> None:
    at = chance.randrange(len(text))
    told(text[:at] + character + text[at + 1 :])


@plain
@given(texts, seeds)
def test_another_key(text: str, chance: random.Random) -> None:
    key = pick(chance, KEY, text)
    other = pick(chance, KEY, text)
    told(text[: key.start()] + other[1] + text[key.end() :])


@plain
@given(texts, seeds)
def test_two_lines_exchanged(text: str, chance: random.Random) -> None:
    lines = text.splitlines(keepends=True)
    one, two = chance.randrange(len(lines)), chance.randrange(len(lines))
    lines[one], lines[two] = lines[two], lines[one]
    told("".join(lines))


@plain
@given(texts, seeds, words)
def test_another_value_is_refused_or_visible(text: str, chance: random.Random, word: str) -> None:
    value = pick(chance, SCALAR, text)
    loaded = told(text[: value.start()] + word + text[value.end() :])
    if loaded is None:
        return
    for path, said in leaves(loaded.base):
        if said != "?" and "others" not in path and path[0] != "variant":
            assert look_up(loaded.raw, path) == said


def leaves(raw: Any, path: tuple[str, ...] = ()) -> list[tuple[tuple[str, ...], Any]]:
    """Every value that was typed, with its path; what is unknown is none."""
    if is_number(raw) and raw.get("value") == "?":
        return []
    if isinstance(raw, dict):
        return [leaf for key, inner in raw.items() for leaf in leaves(inner, (*path, key))]
    if isinstance(raw, list):
        inner = [leaf for index, item in enumerate(raw) for leaf in leaves(item, (*path, str(index)))]
        return [] if "?" in raw else inner
    return [(path, raw)]


@pytest.mark.parametrize("text", TEXTS)
def test_the_files_that_are_mangled_are_sound(text: str) -> None:
    assert isinstance(outcome(text), Loaded)
