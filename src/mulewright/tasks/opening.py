"""Open a mule file and evaluate it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from mulewright.design.mule import Mule, link
from mulewright.design.overlay import by_design
from mulewright.design.resolve import load
from mulewright.errors import FileProblem, NotFound
from mulewright.facts.graph import Evaluation

DEMO = "aisle-carrier"


@dataclass(frozen=True)
class TargetFile:
    """The file of the machine that a mule stands for, if one is given, with one of its variants."""

    path: str | Path | None = None
    variant: str | None = None


NO_TARGET = TargetFile()


@dataclass(frozen=True)
class Opened:
    """A linked mule with one evaluation of it."""

    mule: Mule
    evaluation: Evaluation

    @property
    def name(self) -> str:
        """What people call it."""
        return self.mule.file.name


def open_mule(
    path: str | Path,
    settings: Sequence[str] = (),
    variant: str | None = None,
    target: TargetFile = NO_TARGET,
) -> Opened:
    """Read, resolve and link a mule file, and that of its target if one is given.

    Raises
    ------
    MulewrightError
        If a file cannot be read or does not describe a mule, or something is said of a target that is not given.
    """
    own, of_target = by_design(settings)
    mule = link(load(path, settings=own, variant=variant))
    if target.path is None:
        if of_target or target.variant:
            raise NotFound("no target is given", "--target", "the mule file of the target")
        return Opened(mule, Evaluation(mule))
    to_come = link(load(target.path, settings=of_target, variant=target.variant))
    return Opened(mule, Evaluation(mule, target=to_come))


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
