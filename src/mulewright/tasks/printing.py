"""Print the papers of a mule: which there are, how they are made, and into which files they go."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from pathlib import Path
from typing import Any, Literal

from mulewright.advice.cautions import ALWAYS
from mulewright.design.resolve import Loaded
from mulewright.design.typed import Typed
from mulewright.errors import FileProblem, NotFound, UnitError, closest
from mulewright.facts.graph import Evaluation
from mulewright.paper.blocks import PAPERS, Drawing, Paper
from mulewright.paper.checklists_paper import checklists_paper
from mulewright.paper.failsafe_paper import failsafe_paper
from mulewright.paper.labels_paper import USUAL, labels_paper
from mulewright.paper.parts_table import PARTS, parts_sheet
from mulewright.paper.picklist_paper import picklist_paper
from mulewright.paper.plug_paper import plug_paper
from mulewright.paper.power_up_paper import power_up_paper
from mulewright.paper.radio_paper import radio_paper
from mulewright.paper.spreadsheet import csv_file, xlsx_file
from mulewright.paper.strips import no_tape, tape_of
from mulewright.paper.typeset import OURS, LettersLacking, Sheet, pdf, pictures, require_letters
from mulewright.paper.wiring_paper import wiring_paper
from mulewright.tasks.opening import Opened, open_mule
from mulewright.units.parse import to_si

MAKERS: Mapping[str, Callable[[Evaluation], Paper]] = {
    "plugs": plug_paper,
    "wiring": wiring_paper,
    "labels": labels_paper,
    "radio": radio_paper,
    "failsafe": failsafe_paper,
    "power-up": power_up_paper,
    "checklists": checklists_paper,
    "picklist": picklist_paper,
}
WITH_PARTS = "picklist"
NAMES = tuple(name for name in PAPERS if name in MAKERS)  # in the order in which they are printed
PICTURES: Mapping[str, Literal["png", "svg"]] = {".svg": "svg", ".png": "png"}
SHEETS = (".csv", ".xlsx")  # of the one paper that has a list of parts
ENDINGS = (".pdf", *PICTURES, *SHEETS)
TAPE = "--tape"
LONGEST = 40  # letters of a file's name


@dataclass(frozen=True)
class Printed:
    """The papers of one mule, and the files into which they were written."""

    opened: Opened
    papers: tuple[Paper, ...]
    files: Mapping[Path, bytes]

    def as_dict(self) -> dict[str, Any]:
        """The papers for programs."""
        return {
            "mule": self.opened.name,
            "papers": [paper.as_dict() for paper in self.papers],
            "written": [str(path) for path in self.files],
        }


def print_papers(
    file: str | Path,
    what: Sequence[str] = (),
    settings: Sequence[str] = (),
    variant: str | None = None,
    *,
    out: Path | None = None,
    day: date,
    write: bool = True,
) -> Printed:
    """Read a mule file, make its papers and write them; beside the file where nothing else is said.

    Raises
    ------
    MulewrightError
        If the file cannot be read, a paper is asked for that does not exist, its names are written in letters that
        no font here has, or there is something else where the papers would go.
    """
    wanted = chosen(what)
    opened = open_mule(file, settings, variant)
    path = out or Path(file).parent / f"{file_name(opened.name)}-papers.pdf"
    _kind(path, wanted)
    papers = tuple(MAKERS[name](opened.evaluation) for name in wanted)
    return Printed(opened, papers, put_down(opened, papers, path, day) if write else {})


def put_down(opened: Opened, papers: Sequence[Paper], path: Path, day: date) -> Mapping[Path, bytes]:
    """Set papers of a mule and write them, as one PDF or as the pictures of one paper.

    Raises
    ------
    MulewrightError
        If they cannot be set or written, or there is something else where they would go.
    """
    kind = _kind(path, [paper.name for paper in papers])
    try:
        files = _set(papers, path, kind, _sheet(opened, day))
    except LettersLacking as no:
        _place_it(no, opened.mule.loaded)
        raise
    for place in files:
        _require_free(place)
    for place, content in files.items():
        _write(place, content)
    return files


def chosen(what: Sequence[str]) -> list[str]:
    """The papers of a choice such as ``plugs,labels``, in their usual order; all of them where nothing is chosen.

    Raises
    ------
    NotFound
        If there is no such paper.
    """
    words = [word.strip() for text in what for word in text.split(",") if word.strip()]
    rule = f"one or several of {', '.join(NAMES)}"
    if what and not words:
        raise NotFound("names no paper", "--what", rule)
    for word in words:
        if word not in NAMES:
            raise NotFound(f"no paper is called {word!r}", "--what", rule, word, closest(word, NAMES))
    return [name for name in NAMES if not words or name in words]


def tape_said(text: str) -> str:
    """A width of tape as it was typed.

    Raises
    ------
    DesignError
        If there is no such tape; a number that is no length is taken for millimetres, to name the nearest.
    """
    try:
        tape_of(to_si(text, "length"), text, TAPE)
    except UnitError as no:
        number = re.search(r"\d+", text)
        raise no_tape(int(number[0]) * 1e-3 if number else USUAL, text, TAPE) from no
    return text


def file_name(name: str) -> str:
    """What a mule's name becomes in the name of a file.

    >>> file_name("Aisle carrier, no. 2!"), file_name("../..")
    ('aisle-carrier-no-2', 'mule')
    """
    words = "".join(letter if letter.isalnum() else " " for letter in name.lower()).split()
    return "-".join(words)[:LONGEST].rstrip("-") or "mule"


def _kind(path: Path, wanted: Sequence[str]) -> str:
    kind = path.suffix.lower()
    if kind not in ENDINGS:
        raise FileProblem(
            "papers of this kind cannot be printed", str(path), f"a name that ends in {', '.join(ENDINGS)}"
        )
    if kind in PICTURES and len(wanted) > 1:
        rule = f"one paper with --what for a {kind[1:]}, or a name that ends in .pdf for all"
        raise FileProblem("a picture holds one paper", str(path), rule, ", ".join(wanted))
    if kind in SHEETS and wanted != [WITH_PARTS]:
        rule = f"--what {WITH_PARTS}, or a name that ends in .pdf"
        raise FileProblem("only the list of parts goes into a sheet", str(path), rule, ", ".join(wanted))
    return kind


def _sheet(opened: Opened, day: date) -> Sheet:
    return Sheet(opened.name, day, ALWAYS[0], opened.mule.file.print.page or "a4")


def _place_it(no: LettersLacking, loaded: Loaded) -> None:
    """Say where in the file the first text with such letters stands."""
    typed = Typed(loaded.where, loaded.text, loaded.base, loaded.said)
    for path, text in _texts(loaded.said):
        if no.lacking & set(text):
            no.where, no.found = typed.place(path), text
            return


def _texts(raw: Any, path: tuple[str, ...] = ()) -> Iterator[tuple[tuple[str, ...], str]]:
    """Every name and every text of a file, by its place."""
    if isinstance(raw, str):
        yield path, raw
    elif isinstance(raw, dict):
        for key, inner in raw.items():
            yield (*path, key), key
            yield from _texts(inner, (*path, key))
    elif isinstance(raw, list):
        for number, inner in enumerate(raw):
            yield from _texts(inner, (*path, str(number)))


def _set(papers: Sequence[Paper], path: Path, kind: str, sheet: Sheet) -> dict[Path, bytes]:
    """The files that papers become: one PDF, or a picture for each page."""
    if kind == ".pdf":
        return {path: pdf(papers, sheet)}
    [paper] = papers
    if kind in SHEETS:
        columns, rows = parts_sheet(paper.data["parts"])
        return {path: csv_file(columns, rows) if kind == ".csv" else xlsx_file(PARTS, columns, rows)}
    drawn = [(block.alone or block.svg).encode() for block in paper.blocks if isinstance(block, Drawing)]
    if kind == ".svg" and len(drawn) == 1:
        require_letters(papers, sheet)
        return {path: drawn[0]}
    pages = pictures(paper, sheet, PICTURES[kind])
    if len(pages) == 1:
        return {path: pages[0]}
    return {path.with_stem(f"{path.stem}-{number}"): page for number, page in enumerate(pages, start=1)}


def _require_free(path: Path) -> None:
    """Refuse to write over what is none of our papers, or a sheet into which somebody may have written.

    Pictures carry no mark, so that they count as ours.
    """
    if path.suffix.lower() in SHEETS and path.exists():
        rule = "another name with -o, or move it"
        raise FileProblem("is there already, and somebody may have written into it", str(path), rule)
    if path.suffix.lower() == ".pdf" and path.is_file() and OURS not in path.read_bytes():
        raise FileProblem(
            "is there already, and none of our papers", str(path), "another name with -o, or move it"
        )


def _write(path: Path, content: bytes) -> None:
    try:
        path.write_bytes(content)
    except (OSError, ValueError) as no:
        why = getattr(no, "strerror", None) or no
        raise FileProblem(f"cannot be written: {why}", str(path)) from no
