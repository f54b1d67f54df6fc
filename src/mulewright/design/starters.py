"""The file that a new mule begins with: one short, commented description for each kind of drive."""

from __future__ import annotations

import pathlib
from typing import get_args

from mulewright.design.schema.machine import DriveKind
from mulewright.errors import NotFound, closest

KINDS: tuple[str, ...] = get_args(DriveKind)
_FOLDER = pathlib.Path(__file__).with_name("starters")


def starter(drive_kind: str) -> str:
    """Return the text of the starter file for a kind of drive.

    Raises
    ------
    NotFound
        If there is no such kind of drive.
    """
    if drive_kind not in KINDS:
        raise NotFound(
            what=f"no kind of drive called {drive_kind!r}",
            rule=f"one of {', '.join(KINDS)}",
            nearest=closest(drive_kind, KINDS),
        )
    return (_FOLDER / f"{drive_kind}.toml").read_text(encoding="utf-8")
