"""The ways in which one value can be written into the text of a mule file."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any, get_origin

import tomlkit
from tomlkit.exceptions import TOMLKitError
from tomlkit.items import InlineTable

from mulewright.design.paths import Path, step_into
from mulewright.design.schema.file import MuleFile
from mulewright.design.sections import Section, sections

_ABSENT = object()


def toml(value: Any) -> str:
    """Write a value on one line, as a person would.

    >>> toml({"value": "3 V", "from": "measured"})
    '{ value = "3 V", from = "measured" }'
    """
    if isinstance(value, Mapping):
        inner = ", ".join(f"{_key((str(key),))} = {toml(inner)}" for key, inner in value.items())
        return f"{{ {inner} }}" if inner else "{}"
    if isinstance(value, list | tuple):
        return f"[{', '.join(toml(inner) for inner in value)}]"
    return str(tomlkit.item(value).as_string())


def attempts(text: str, path: Path, value: Any) -> Iterator[str]:
    """Texts with the change made in one way or another, the least intrusive first."""
    every = sections(text)
    around = sorted(
        (
            (section, path[len(section.path) :])
            for section in every
            if section.path == path[: len(section.path)]
        ),
        key=lambda pair: len(pair[1]),
    )
    for section, rest in around:
        yield from _inside(text, section, rest, value)
    home = _home(path, value)
    for section, rest in around:
        if rest and len(section.path) >= len(home):
            yield _added(text, section, rest, value)
        elif section.head and section.path == home[:1]:  # its things stand one to a line
            yield _added(text, section, home[1:], _nested(path[len(home) :], value))
    if home:
        yield _with_section(text, every, home, path[len(home) :], value)
    yield from (_added(text, section, rest, value) for section, rest in around if rest)
    if inner := [section for section in every if section.path[: len(path)] == path]:
        for section in reversed(inner):
            text = text[: section.start] + text[section.core[1] :]
        yield from attempts(text, path, value)


def _inside(text: str, section: Section, path: Path, value: Any) -> Iterator[str]:
    """Change a value that the section gives already, or add to a table that stands in one of its lines."""
    begin, end = section.core
    try:
        node: Any = tomlkit.parse(text[begin:end])
    except TOMLKitError:  # pickier than the reader; the other ways need no such parser
        return
    document = node
    while len(path) > 1 and isinstance(inner := step_into(node, path[0]), dict | list):
        node, path = inner, path[1:]
    old = step_into(node, path[0], _ABSENT) if path else _ABSENT
    if old is _ABSENT and not isinstance(node, InlineTable):
        return
    rest = {} if old is _ABSENT else {"value": old}
    new = tomlkit.value(toml(rest | _nested(path[1:], value) if len(path) > 1 else value))
    node[int(path[0]) if isinstance(node, list) else path[0]] = new
    if old is _ABSENT:
        node.value.body[-1][1].trivia.trail = " "
    elif new.trivia.comment:
        spare = len(new.trivia.comment_ws) + len(tomlkit.item(old).as_string()) - len(new.as_string())
        new.trivia.comment_ws = " " * max(1, spare)
    yield text[:begin] + tomlkit.dumps(document) + text[end:]


def _nested(path: Path, value: Any) -> Any:
    for part in reversed(path):
        value = {part: value}
    return value


def _added(text: str, section: Section, path: Path, value: Any) -> str:
    """Add a line to a section, its equals sign below the one above."""
    _, end = section.core
    widths = [statement.key_width for statement in section.body if statement.key]
    width = max(widths, key=widths.count) - 1 if len(widths) > len(set(widths)) else 0
    if any(
        statement.text[statement.key_width :].startswith("= {") for statement in section.body if statement.key
    ):
        path, value = path[:1], _nested(path[1:], value)
    gap = "" if not text[:end] or text[:end].endswith("\n") else "\n"
    return f"{text[:end]}{gap}{_key(path):{width}} = {toml(value)}\n{text[end:]}"


def _with_section(text: str, every: list[Section], home: Path, path: Path, value: Any) -> str:
    """Add a section below the last one of its like, or below what comes before it in the form."""
    values = {path: value} if path else {(str(key),): inner for key, inner in value.items()}
    body = "".join(f"{_key(key)} = {toml(inner)}\n" for key, inner in values.items())
    order = list(MuleFile.model_fields)
    above = order[: order.index(home[0])]
    alike = [section for section in every if section.path[:1] == home[:1]]
    before = alike or [section for section in every if not section.path or section.path[0] in above]
    at = max(section.core[1] for section in before)
    gap = "" if not text[:at] or text[:at].endswith("\n") else "\n"
    return f"{text[:at]}{gap}\n[{_key(home)}]\n{body}{text[at:]}"


def _home(path: Path, value: Any) -> Path:
    """The section in which a value belongs: one for each thing, one for each table of the file."""
    field = MuleFile.model_fields.get(path[0])
    if field is None or (len(path) == 1 and not isinstance(value, Mapping)):
        return ()
    home = path[:2] if get_origin(field.annotation) is dict else path[:1]
    return home if isinstance(value, Mapping) else home[: len(path) - 1]


def _key(path: Path) -> str:
    return ".".join(tomlkit.key(part).as_string() for part in path)
