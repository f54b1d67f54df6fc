"""Open a mule file and evaluate it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from mulewright.design.mule import Mule, link
from mulewright.design.resolve import load
from mulewright.errors import FileProblem
from mulewright.facts.graph import Evaluation

DEMO = "aisle-carrier"


@dataclass(frozen=True)
class Opened:
    """A linked mule with one evaluation of it."""

    mule: Mule
    evaluation: Evaluation

    @property
    def name(self) -> str:
        """What people call it."""
        return self.mule.file.name


def open_mule(path: str | Path, settings: Sequence[str] = (), variant: str | None = None) -> Opened:
    """Read, resolve and link a mule file.

    Raises
    ------
    MulewrightError
        If the file cannot be read or does not describe a mule.
    """
    mule = link(load(path, settings=settings, variant=variant))
    return Opened(mule, Evaluation(mule))


def shipped_design(name: str = DEMO) -> Path:
    """Where a shipped example lies: in the installed package, or beside the sources.

    Raises
    ------
    FileProblem
        If it is in neither place.
    """
    package = Path(__file__).parents[1]
    for folder in (package / "examples", package.parents[1] / "examples"):
        found = folder / name / "mule.toml"
        if found.is_file():
            return found
    raise FileProblem(what=f"the shipped design {name!r} is not installed", where=str(package))
