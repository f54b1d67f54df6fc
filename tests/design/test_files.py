"""Beginning a mule file, and the form that an editor checks it with."""

import json
from pathlib import Path

import jsonschema
import pytest

from mulewright.design.reading import parse
from mulewright.design.starters import KINDS, starter
from mulewright.errors import FileProblem, NotFound
from mulewright.tasks.files import json_schema, new_file
from tests.design.carrier import CARRIER

EXAMPLES = sorted((Path(__file__).parents[2] / "examples").rglob("*.toml"))
TEXTS = [CARRIER, *map(starter, KINDS)]


def complaints(text: str) -> list[str]:
    validator = jsonschema.Draft202012Validator(json_schema())
    raw = json.loads(json.dumps(parse(text, ""), default=str))
    return [f"{error.json_path}: {error.message}" for error in validator.iter_errors(raw)]


def test_a_new_file_is_the_starter_and_never_overwrites(tmp_path: Path) -> None:
    path = new_file("two-sticks", tmp_path / "mule.toml")
    assert path.read_text(encoding="utf-8") == starter("two-sticks")
    with pytest.raises(FileProblem, match="is there already"):
        new_file("two-sides", path)
    assert path.read_text(encoding="utf-8") == starter("two-sticks")


@pytest.mark.parametrize("name", ["nowhere/mule.toml", "x" * 300, "a\0b"])
def test_a_place_that_cannot_be_written_is_refused(tmp_path: Path, name: str) -> None:
    with pytest.raises(FileProblem, match="cannot be written"):
        new_file("two-sides", tmp_path / name)


def test_an_unknown_kind_writes_nothing(tmp_path: Path) -> None:
    with pytest.raises(NotFound):
        new_file("hover", tmp_path / "mule.toml")
    assert list(tmp_path.iterdir()) == []


def test_the_form_is_itself_sound() -> None:
    schema = json_schema()
    jsonschema.Draft202012Validator.check_schema(schema)
    assert schema["title"] == "Mule file, version 1"
    assert "null" not in json.dumps(schema)


@pytest.mark.parametrize("text", TEXTS)
def test_the_form_accepts_what_loads(text: str) -> None:
    assert complaints(text) == []


def test_the_form_accepts_every_example() -> None:
    found = {
        path.name: complaints(path.read_text(encoding="utf-8"))
        for path in EXAMPLES
        if "shelf" not in path.parts
    }
    assert {name: told for name, told in found.items() if told} == {}


@pytest.mark.parametrize(
    ("old", "new", "where"),
    [
        ("wheelbase", "wheelbas", "$.body"),
        ('kind  = "four-roller-wheels"', 'kind = "six"', "$.drive"),
        ('kind    = "lift"', 'kind = "crane"', "$.mechanism.lift"),
        ('from = "measured"', 'from = "guess"', "$.body.mass"),
        ("schema_version = 1", "schema_version = 2", "$.schema_version"),
        ('3 = "neutral"', "3 = 3", "$.receiver"),
    ],
)
def test_the_form_refuses_what_is_wrong(old: str, new: str, where: str) -> None:
    assert old in CARRIER
    told = complaints(CARRIER.replace(old, new, 1))
    assert len(told) == 1
    assert told[0].startswith(where)
