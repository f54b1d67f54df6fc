"""How a mule file of an older form becomes one of today's."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from mulewright.design.schema.file import SCHEMA_VERSION
from mulewright.errors import DesignError

Raw = dict[str, Any]
Step = Callable[[Raw], Raw]

STEPS: dict[int, Step] = {}  # version -> what makes the next version of it
_RULE = f"write schema_version = {SCHEMA_VERSION} at the top"


def migrate(raw: Raw, steps: Mapping[int, Step] = STEPS, newest: int = SCHEMA_VERSION) -> Raw:
    """Bring a file to the newest form, one version at a time.

    Raises
    ------
    DesignError
        If the file does not say its version, or is newer than this program.
    """
    if "schema_version" not in raw:
        raise DesignError(what="is missing", where="schema_version", rule=_RULE)
    version = raw["schema_version"]
    if isinstance(version, bool) or not isinstance(version, int) or version < 1:
        raise DesignError(what="is not a version", where="schema_version", rule=_RULE, found=repr(version))
    if version > newest:
        raise DesignError(
            what="the file is newer than this program",
            where="schema_version",
            rule=f"this program reads versions up to {newest}; install a newer one",
            found=str(version),
        )
    for step in range(version, newest):
        raw = steps[step](raw) | {"schema_version": step + 1}
    return raw
