"""Fill the pages while they are built: a line such as ``<!-- filled: units -->`` becomes what it names."""

from __future__ import annotations

import re
from collections.abc import Callable

from sphinx.application import Sphinx

from docs._ext import (
    check_pages,
    cli_pages,
    comparisons,
    fault_figures,
    measuring_pages,
    model_pages,
    paper_pictures,
    schema_tables,
)

MARK = re.compile(r"^<!-- filled: (\S+)(?: (\S+))? -->$", re.M)
FILLINGS: dict[str, Callable[..., str]] = {
    "assumptions": schema_tables.assumptions,
    "checks": check_pages.overview,
    "command-line": cli_pages.command_line,
    "comparisons": comparisons.comparisons,
    "faults": fault_figures.faults,
    "families": check_pages.families,
    "family": check_pages.family,
    "instruments": measuring_pages.instruments_at_hand,
    "models": model_pages.index,
    "mule-file": schema_tables.mule_file,
    "paper": paper_pictures.picture,
    "ranges": measuring_pages.usual_ranges,
    "parts": schema_tables.part_kinds,
    "spreads": measuring_pages.usual_spreads,
    "symptoms": check_pages.symptoms,
    "units": schema_tables.units,
    "ways": measuring_pages.ways_to_measure,
}


def filled(text: str) -> str:
    """Return the text of a page with every mark replaced."""
    return MARK.sub(lambda mark: FILLINGS[mark[1]](*filter(None, [mark[2]])), text)


def _fill(app: Sphinx, docname: str, source: list[str]) -> None:
    source[0] = filled(source[0])


def _always_outdated(app: Sphinx, *_: object) -> list[str]:
    """Pages that are filled follow the code, not only their own file."""
    texts = {name: app.env.doc2path(name).read_text(encoding="utf-8") for name in app.project.docnames}
    return [name for name, text in texts.items() if MARK.search(text)]


def setup(app: Sphinx) -> dict[str, bool]:
    """Hook into the build."""
    model_pages.write_pages()
    app.connect("source-read", _fill)
    app.connect("env-get-outdated", _always_outdated)
    app.connect("autodoc-process-docstring", model_pages.add_formula, priority=900)
    return {"parallel_read_safe": True}
