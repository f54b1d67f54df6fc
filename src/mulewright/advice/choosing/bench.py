"""On what are parts tried? A mule file, a function of it, and options that are edits of the file."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from mulewright.design.edits import toml
from mulewright.design.merging import Raw, put
from mulewright.design.mule import Mule, link
from mulewright.design.paths import Path, written
from mulewright.design.resolve import Loaded, build, overlaid
from mulewright.facts.graph import Evaluation
from mulewright.facts.serving import ServiceFacts, service_of

AS_IT_IS = "as it is"
Edit = tuple[Path, Any]


@dataclass(frozen=True)
class Option:
    """One choice in one slot."""

    label: str
    edits: tuple[Edit, ...] = ()
    value: float = float("nan")  # ratio, size or cross-section [SI]
    passes: float = 1.0  # of the gear stages

    @property
    def settings(self) -> list[str]:
        """The same as settings for ``--set``."""
        return [f"{written(place)}={_typed(value)}" for place, value in self.edits]


@dataclass(frozen=True)
class Wanted:
    """What shall be tried."""

    ratio: tuple[float, float]
    stages: int
    teeth: tuple[int, ...]
    sizes: tuple[float, ...]  # [m]; empty where the function has none
    gauges: tuple[tuple[str, float], ...]  # as typed, and [m2]
    keep: frozenset[str] = frozenset()  # slots that stay as they are


@dataclass(frozen=True)
class Bench:
    """A mule file on which other parts are tried."""

    loaded: Loaded
    raw: Raw  # with variant and settings, before parts are filled in
    function: str

    def mule(self, *options: Option) -> Mule:
        """The mule with some options in place.

        Raises
        ------
        MulewrightError
            If that is no mule.
        """
        raw = self.raw
        for place, value in (edit for option in options for edit in option.edits):
            raw = put(raw, place, value)
        one = self.loaded
        return link(build(raw, one.where, one.folder, text=one.text, base=one.base, catalog=one.catalog))

    def service(self, *options: Option) -> ServiceFacts:
        """How the function is then served."""
        return service_of(Evaluation(self.mule(*options)), self.function)


def bench(loaded: Loaded, function: str, settings: Sequence[str] = (), variant: str | None = None) -> Bench:
    """Lay out a mule file for trying parts."""
    return Bench(loaded, overlaid(loaded.base, settings, variant), function)


def _typed(value: Any) -> str:
    return value if isinstance(value, str) else toml(value)
