"""May a thing be called so? Its name stands in paths, in the ids of facts and in what controls command."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from typing import TYPE_CHECKING

from mulewright.design.paths import Path
from mulewright.design.references import outputs_of
from mulewright.errors import DesignError, MulewrightError

if TYPE_CHECKING:
    from mulewright.design.mule import Mule

KINDS_OF_THING = (
    "motor controller mixer servo tester inline y_lead battery bench_supply regulator fuse switch board wire "
    "mechanism"
).split()
_NAME = re.compile(r"""[^\x00-\x1f\x7f.@>*"]+""")
RULE = 'letters, digits, blanks, _ and - do; . @ > * " and an empty name do not'
TAKEN = {"all": "every motor at once", "drive": "all the wheels together"}


def misnamed(mule: Mule) -> Iterator[MulewrightError]:
    """Every name that would be mistaken for something else."""
    for path, name in _names(mule):
        if not _NAME.fullmatch(name):
            place = mule.loaded.typed.place(path)
            yield DesignError(f"{name!r} cannot be a name", place, RULE, name)
    for name in mule.file.mechanism:
        taken = "a command of the drive" if name in mule.drive_commands else TAKEN.get(name)
        if taken:
            rule = f"another name; {name!r} is {taken}"
            yield DesignError("is the name of something else", f"mechanism.{name}", rule, name)


def _names(mule: Mule) -> Iterable[tuple[Path, str]]:
    """Every name that a person chose for a thing that others refer to: its path, and the name."""
    for kind in KINDS_OF_THING:
        yield from (((kind, name), name) for name in getattr(mule.file, kind))
    for radio in ("radio", "second_radio"):
        table = getattr(mule.file, radio)
        controls = table.control if table is not None else ()
        yield from (((radio, "control", name), name) for name in controls)
    for box, mixer in mule.file.mixer.items():
        yield from ((("mixer", box, "outputs"), name) for name in outputs_of(mixer))
