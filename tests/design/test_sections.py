"""The lines of a file are found whatever stands in them."""

import pytest

from mulewright.design.paths import Path
from mulewright.design.sections import line_of, lines, sections, statements
from tests.design.carrier import CARRIER

AWKWARD = '''\
a = """
[not.a.header] = 1
"""
b = [
    # ]
    ["x"],
    "]",
]
'c = d' = 1
"e.f".g = { h = "}" }   # [no]
  [ table . "with dot.s" ]  # note
k = "\\"]"
q = """"quoted""""
z = 1
[[list]]
x = 1
[list.inner]
[[list]]
x = 2
[list.inner]
y = 3'''


def test_statements_add_up_to_the_text() -> None:
    for text in (AWKWARD, CARRIER, "", "\n", "a = 1"):
        assert "".join(text[statement.start : statement.end] for statement in statements(text)) == text
        assert "".join(text[section.start : section.end] for section in sections(text)) == text


@pytest.mark.parametrize(
    ("path", "line"),
    [
        (("a",), 1),
        (("b", "0"), 4),
        (("c = d",), 9),
        (("e.f", "g", "h"), 10),
        (("table", "with dot.s"), 11),
        (("table", "with dot.s", "k"), 12),
        (("table", "with dot.s", "z"), 14),
        (("list", "0", "x"), 16),
        (("list", "0", "inner"), 17),
        (("list", "1", "x"), 19),
        (("list", "1", "inner", "y"), 21),
        (("list", "1", "inner", "nothing"), 20),
        (("nothing",), None),
    ],
)
def test_awkward_text_has_its_lines(path: Path, line: int | None) -> None:
    assert line_of(lines(AWKWARD), path) == line
