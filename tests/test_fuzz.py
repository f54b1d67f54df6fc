"""Whatever happens to a mule file, `check` answers with verdicts or with one clear refusal.

MULEWRIGHT_FUZZ sets how many broken files are tried; without it there are few, and always the same.
"""

from __future__ import annotations

import io
import json
import os
import re
from collections.abc import Callable
from contextlib import redirect_stderr, redirect_stdout
from typing import Any

import pytest
from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st

from mulewright.cli import main
from mulewright.design.mule import link
from mulewright.design.paths import look_up
from mulewright.design.resolve import load_text
from mulewright.design.sections import Section, sections
from mulewright.design.starters import KINDS, starter
from mulewright.errors import MulewrightError
from mulewright.facts.catalog import entities
from mulewright.facts.descriptors import facts_of
from mulewright.facts.graph import Evaluation
from mulewright.facts.nodes import Given
from mulewright.units.kinds import KINDS as QUANTITIES
from mulewright.units.parse import to_si
from tests.designs import DESIGNS, EXAMPLES

TEXTS = [
    *((EXAMPLES / design / "mule.toml").read_text("utf-8") for design in DESIGNS),
    *(starter(kind) for kind in KINDS),
]
ASKED = int(os.environ.get("MULEWRIGHT_FUZZ", "0"))
tried = settings(
    deadline=None,
    derandomize=not ASKED,
    database=None,
    suppress_health_check=[
        HealthCheck.too_slow,
        HealthCheck.function_scoped_fixture,
        HealthCheck.filter_too_much,
    ],
)

VALUE = re.compile(
    r'"(?:\\.|[^"\\\n])*"|\b\d{4}-\d\d-\d\d\b|\btrue\b|\bfalse\b|(?<=[=\[, ])-?\d+(?:\.\d+)?\b'
)
KEY = re.compile(r"^[ \t]*[\w.]+(?=[ \t]*=)|(?<=[{,] )\w+(?= =)", re.MULTILINE)
AMOUNT = re.compile(r'"([\d.]+)( ?[^\s"]*)"')
REFERENCE = re.compile(r'"([a-z_]+)\.[\w.]+"')
KEYS = sorted({match[0].strip() for text in TEXTS for match in KEY.finditer(text)})
WORDS = sorted({match[0] for text in TEXTS for match in VALUE.finditer(text)})
ODD = [
    '"?"', "true", "false", "0", "-1", "1", "2.5", "1e300", "-0.0", "2026-02-30", "2026-05-01", "[]", "{}", '""', '"x"',
    '["?"]', '"*"', '"motor.*"', '"receiver.0"', '"receiver.1"', '"battery.main"', '"board.main"', '"0 V"', '"0 A"',
    '"0 kg"', '"0 m"', '"0 mm"', '"0 N m"', '"0 rpm"', '"0 us"', '"0 %"', '"0 ohm"', '"0 s"', '"-5 %"', '"100 %"',
    '"1000 %"', '"1e9 m"', '"1e-9 m"', '"1e-300 kg"', '"1e300 A"', '"30 AWG"', '"-3 AWG"', '"180 deg"', '"-90 deg"',
    '"1e6 us"', '"500 us"', '{ value = "?" }', '{ min = "1 V", max = "2 V" }', '{ value = 1, from = "measured" }',
    '{ value = "1 kg", plus_minus = "200 %" }', '{ value = "5 A", min = "6 A" }', '{ part = "gm-drive" }', "1979-05-27T07:32:00Z",
]  # fmt: skip


def anything() -> st.SearchStrategy[str]:
    """The text of a value: one of another place, an odd one, or a random one."""
    texts = st.text(max_size=12).map(lambda text: json.dumps(text).replace("\x7f", "\\u007f"))
    numbers = st.floats(allow_nan=False, allow_infinity=False).map(repr)
    amounts = st.tuples(
        st.floats(-1e4, 1e4), st.sampled_from(sorted({u for k in QUANTITIES.values() for u in k.factors}))
    )
    return st.one_of(
        st.sampled_from(WORDS),
        st.sampled_from(ODD),
        amounts.map(lambda one: f'"{one[0]:.3g} {one[1]}"'),
        texts,
        numbers,
        st.integers().map(str),
    )


def span(draw: st.DrawFn, text: str, pattern: re.Pattern[str]) -> tuple[int, int]:
    spans = [match.span() for match in pattern.finditer(text)]
    assume(spans)
    return draw(st.sampled_from(spans))


def line_span(draw: st.DrawFn, text: str) -> tuple[int, int]:
    return span(draw, text, re.compile(r"[^\n]*\n"))


def replaced(text: str, place: tuple[int, int], by: str) -> str:
    return text[: place[0]] + by + text[place[1] :]


def change_value(draw: st.DrawFn, text: str) -> str:
    return replaced(text, span(draw, text, VALUE), draw(anything()))


def vary_value(draw: st.DrawFn, text: str) -> str:
    """Put something of the same kind there: as a slip of the hand would, or as nobody measures."""
    place = span(draw, text, VALUE)
    old = text[slice(*place)]
    if amount := AMOUNT.fullmatch(old):
        number = draw(
            st.sampled_from(
                ["0", "1", "-1", "1e-9", "1e9", "1e-300", "1e300", f"{amount[1]}0", f"0.0{amount[1]}"]
            )
        )
        new = f'"{number}{amount[2]}"'
    elif kind := REFERENCE.fullmatch(old):
        new = draw(st.sampled_from(sorted({word for word in WORDS if word.startswith(f'"{kind[1]}.')})))
    else:
        new = {"true": "false", "false": "true"}.get(old, '"?"')
    return replaced(text, place, draw(st.sampled_from([new, new, new, '"?"'])))


def rename_key(draw: st.DrawFn, text: str) -> str:
    other = st.one_of(st.sampled_from(KEYS), st.text(max_size=6).map(json.dumps))
    return replaced(text, span(draw, text, KEY), draw(other))


def rename_table(draw: st.DrawFn, text: str) -> str:
    names = st.one_of(
        st.sampled_from(
            ["motor", "fuse", "left", "lift", "main", "all", "drive", "x y", "0", "a<b", "a#b", "a:b=[c]"]
        ),
        st.text(max_size=4),
    )
    return replaced(text, span(draw, text, re.compile(r"(?<=[\[.])[\w-]+(?=[\].])")), json.dumps(draw(names)))


def delete_line(draw: st.DrawFn, text: str) -> str:
    return replaced(text, line_span(draw, text), "")


def delete_table(draw: st.DrawFn, text: str) -> str:
    return replaced(
        text, span(draw, text, re.compile(r"^\[[^\n]*\n(?:[^\[\n][^\n]*\n|\n)*", re.MULTILINE)), ""
    )


def duplicate_line(draw: st.DrawFn, text: str) -> str:
    start, end = line_span(draw, text)
    return replaced(text, (end, end), text[start:end])


def move_line(draw: st.DrawFn, text: str) -> str:
    start, end = line_span(draw, text)
    rest = replaced(text, (start, end), "")
    place, _ = line_span(draw, rest)
    return replaced(rest, (place, place), text[start:end])


def swap_values(draw: st.DrawFn, text: str) -> str:
    first, second = sorted((span(draw, text, VALUE), span(draw, text, VALUE)))
    assume(first != second)
    return replaced(replaced(text, second, text[slice(*first)]), first, text[slice(*second)])


def truncate(draw: st.DrawFn, text: str) -> str:
    return text[: draw(st.integers(0, len(text)))]


def insert_text(draw: st.DrawFn, text: str) -> str:
    place = draw(st.integers(0, len(text)))
    return replaced(text, (place, place), draw(st.text(max_size=8)))


MUTATIONS: list[Callable[[st.DrawFn, str], str]] = [
    *[vary_value] * 12, *[delete_line] * 4, *[delete_table] * 2, change_value, swap_values, rename_key, rename_table,
    duplicate_line, move_line, truncate, insert_text,
]  # fmt: skip


@st.composite
def broken(draw: st.DrawFn) -> str:
    """The text of a mule file after one to three accidents."""
    text = draw(st.sampled_from(TEXTS))
    for mutation in draw(st.lists(st.sampled_from(MUTATIONS), min_size=1, max_size=3)):
        text = mutation(draw, text)
    return text


def run(*words: str) -> tuple[object, str, str]:
    out, err = io.StringIO(), io.StringIO()
    with redirect_stdout(out), redirect_stderr(err), pytest.raises(SystemExit) as ended:
        main(list(words))
    return ended.value.code, out.getvalue(), err.getvalue()


def refuse(constant: str) -> None:
    raise AssertionError(f"{constant} is no JSON")


@settings(tried, max_examples=ASKED or 300)
@given(text=broken(), as_json=st.booleans())
def test_a_broken_file_is_judged_or_refused(
    text: str, as_json: bool, tmp_path_factory: pytest.TempPathFactory
) -> None:
    file = tmp_path_factory.getbasetemp() / "broken.toml"
    file.write_text(text, "utf-8", errors="surrogatepass")
    code, out, err = run("check", str(file), "--json" if as_json else "--all")
    assert code in (0, 1, 2)
    assert bool(err) == (code == 2)
    assert "Traceback" not in err
    if as_json:
        answer = json.loads(out, parse_constant=refuse)
        assert set(answer) == {"error"} if code == 2 else answer["verdicts"]
    else:
        assert bool(out) == (code != 2)


@st.composite
def changed_number(draw: st.DrawFn) -> tuple[str, tuple[str, ...], str]:
    """A file in which one quantity says something else; the path of the quantity, and its new text."""
    text = draw(st.sampled_from(TEXTS))
    found = [
        (section, statement)
        for section in sections(text)
        for statement in section.body
        if statement.key and GIVEN.fullmatch(statement.text)
    ]
    assume(found)
    section, statement = draw(st.sampled_from(found))
    match = GIVEN.fullmatch(statement.text)
    assert match is not None
    new = f"{draw(st.floats(0.5, 2.0)) * float(match[2]):.6g}{match[3]}"
    line = f'{match[1]}"{new}"{match[4]}'
    return (
        replaced(text, (statement.start, statement.start + len(statement.text)), line),
        path_in(section, statement.key),
        new,
    )


GIVEN = re.compile(r'([\w\s]+=\s*)"([\d.]+)( ?[^\s"]*)"(\s*(?:#.*)?)')


def path_in(section: Section, key: tuple[str, ...]) -> tuple[str, ...]:
    return (*section.path, *key)


def given_node(evaluation: Evaluation, path: str) -> Any:
    """The node of the fact that is the input at a path, if some entity has it."""
    for entity in entities(evaluation):
        if path.startswith(f"{entity.id}."):
            for name in facts_of(type(entity)):
                node = entity.node(name)
                if isinstance(node.step, Given) and node.step.path == path:
                    return node
    return None


@settings(tried, max_examples=ASKED or 120)
@given(changed_number())
def test_a_changed_number_is_the_number_used(changed: tuple[str, tuple[str, ...], str]) -> None:
    text, path, new = changed
    try:
        loaded = load_text(text)
    except MulewrightError:
        return
    assert look_up(loaded.base, path) == new
    assert look_up(loaded.raw, path) == new
    node = given_node(Evaluation(link(loaded)), ".".join(path))
    if node is not None:
        quantity = node.step.quantity
        assert quantity.text == new
        assert float(node.value) == quantity.value == to_si(new, quantity.kind)
