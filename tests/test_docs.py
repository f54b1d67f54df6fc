"""Do the pages tell the truth? What they show is run, what they list is compared with the code."""

from __future__ import annotations

import doctest
import importlib
import inspect
import re
import shutil
from pathlib import Path

import pytest

from docs._ext import cli_pages, comparisons, model_pages, schema_tables
from docs._ext.filling import FILLINGS, MARK, filled
from docs._ext.markdown import plain
from mulewright.checks import CHECKS, FAMILIES
from mulewright.design.schema.file import MuleFile
from mulewright.shelf.parts import PART_KINDS
from tests.consoles import follow, lay_over, pattern, steps
from tests.test_house_rules import ROOT

PAGES = sorted(
    [
        *ROOT.glob("*.md"),
        *(ROOT / "examples").rglob("*.md"),
        *(path for path in (ROOT / "docs").rglob("*.md") if "modules" not in path.parts),
    ]
)


def text_of(page: Path) -> str:
    return page.read_text(encoding="utf-8")


each_page = pytest.mark.parametrize("page", PAGES, ids=lambda path: str(path.relative_to(ROOT)))


@pytest.mark.parametrize(
    "page",
    [page for page in PAGES if any(steps(text_of(page)))],
    ids=lambda path: str(path.relative_to(ROOT)),
)
def test_what_a_page_shows_is_what_happens(
    page: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    shutil.copytree(ROOT / "examples", tmp_path / "examples")
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("MULEWRIGHT_SHELF", str(tmp_path / "own"))
    follow(text_of(page), capsys)


def test_dots_stand_for_what_is_left_out() -> None:
    assert pattern("a\n...\nd ... f\n").fullmatch("a\nb\nc\nd e f\n")
    assert not pattern("a\n...\n").fullmatch("b\na\n")
    assert not pattern("a\nc\n").fullmatch("a\nb\nc\n")


def test_values_are_laid_over_a_file(tmp_path: Path) -> None:
    path = tmp_path / "new" / "mule.toml"
    lay_over(path, 'name = "a"\n\n[body]\nmass = "?"  # weigh it\ntrack = "1 m"\n')
    lay_over(path, '[body]\nmass = "2 kg"\n')
    assert path.read_text() == 'name = "a"\n\n[body]\nmass = "2 kg"  # weigh it\ntrack = "1 m"\n'


def test_what_python_shows_on_a_page_is_what_it_prints() -> None:
    blocks = re.findall(r"^```python\n(>>> .*?)^```$", "\n".join(map(text_of, PAGES)), re.M | re.S)
    assert blocks
    for block in blocks:
        example = doctest.DocTestParser().get_doctest(block, {}, "page", None, None)
        assert doctest.DocTestRunner(verbose=False).run(example).failed == 0


@each_page
def test_links_lead_somewhere(page: Path) -> None:
    links = re.findall(r"\]\((?!https?:|#)([^)#\s]+)", text_of(page))
    built = {name: f"modules/{name}.md" for name in model_pages.modules()}
    assert [to for to in links if to not in built.values() and not (page.parent / to).exists()] == []


@each_page
def test_every_mark_names_a_filling_that_fills(page: Path) -> None:
    text = text_of(page)
    assert {mark[0] for mark in MARK.findall(text)} <= set(FILLINGS)
    assert not MARK.search(filled(text))


def test_every_filling_stands_on_a_page() -> None:
    marks = {mark[0] for page in PAGES for mark in MARK.findall(text_of(page))}
    assert marks == set(FILLINGS)


def test_every_check_stands_on_the_page_of_its_family() -> None:
    assert {id[0] for id in CHECKS} <= set(FAMILIES)
    for id, rule in CHECKS.items():
        name = FAMILIES[id[0]]
        page = filled(text_of(ROOT / "docs" / "checks" / f"{name}.md"))
        assert f"## {id} {rule.name}\n" in page
        assert plain(rule.why) in page


def test_every_check_is_listed_by_what_one_sees() -> None:
    page = filled(text_of(ROOT / "docs" / "checks" / "by-symptom.md"))
    for id, rule in CHECKS.items():
        heading, lines = next(
            piece for piece in page.split("\n## ")[1:] if f"(#check-{id.lower()})" in piece
        ).split("\n", 1)
        assert heading == rule.symptom
        assert f"- {plain(rule.seen)}: [{id}]" in lines


def test_every_key_of_a_mule_file_and_of_a_part_is_listed() -> None:
    file, parts = schema_tables.mule_file(), schema_tables.part_kinds()
    for name in MuleFile.model_fields:
        assert re.search(rf"`(\[+{name}[.\]]|{name}`)", file), name
    for kind, form in PART_KINDS.items():
        assert f"(part-{kind})=" in parts
        assert [key for key in form.model_fields if f"`{key}`" not in parts and f"[{key}" not in parts] == []


def test_every_command_says_what_it_does() -> None:
    page = cli_pages.command_line()
    for words in cli_pages.commands():
        assert f"Usage: {' '.join((cli_pages.PROGRAM, *words))} " in page
    assert "Traceback" not in page


def test_no_comparison_with_the_outside_is_listed_twice() -> None:
    listed = [(one.id, one.test) for one in comparisons.registered()]
    assert len(set(listed)) == len(listed) > 50


def test_names_in_the_glossary_are_names_in_the_models() -> None:
    page = text_of(ROOT / "docs/glossary.md")
    rows = re.findall(r"^\| [^|]+ \| (`[^|]+) \|", page, re.M)
    names = {name for row in rows for name in re.findall(r"`(\w+)`", row)}
    known = {name for module in model_pages.modules() for name in words_of(f"mulewright.models.{module}")}
    assert len(names) > 20
    assert names <= known


def words_of(module: str) -> set[str]:
    """Constants of a module of models, and the parameters of its models."""
    inside = vars(importlib.import_module(module))
    models = (thing for thing in inside.values() if hasattr(thing, "formula_text"))
    parameters = {name for model in models for name in inspect.signature(model).parameters}
    return parameters | {name for name in inside if name.isupper()}
