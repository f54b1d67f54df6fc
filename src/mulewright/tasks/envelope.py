"""How fast may a mule drive, and how hard may it stop, with an arm at this angle or a lift at this height?"""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from mulewright.facts.driving import DrivingFacts
from mulewright.facts.envelope import POSES, ArmPoseFacts, PoseFacts, poses_of
from mulewright.tasks.opening import open_mule
from mulewright.tasks.sheets import Cell, Sheet, Sheets, figure, refuse
from mulewright.units.shown import people

LIMITS = ("stop at most", "start at most", "drive at most", "of top speed")


def envelope(
    path: str | Path, function: str, settings: Sequence[str] = (), variant: str | None = None
) -> Sheets:
    """Work out the envelope of an arm or a lift, from one end of its way to the other.

    Raises
    ------
    NotFound
        If no arm and no lift is called so, or nothing drives the mule.
    """
    opened = open_mule(path, settings, variant)
    mule = opened.mule
    poses = poses_of(opened.evaluation, f"mechanism.{function}")
    if not poses:
        reaching = [name for name, one in mule.file.mechanism.items() if type(one) in POSES]
        known = reaching if mule.file.drive is not None else []
        otherwise = "an arm or a lift on a mule that drives"
        refuse(
            f"{function!r} is no arm and no lift of a mule that drives", str(path), function, known, otherwise
        )
    by_angle = isinstance(poses[0], ArmPoseFacts)
    place = ("angle", "angle") if by_angle else ("up", "raised_by")
    rows = tuple(_row(pose, place[1]) for pose in poses)
    driving = opened.evaluation.entity(DrivingFacts, "drive")
    braking = driving.node("braking")
    grip = people(float(braking.value), braking.unit) if braking.known else "an unknown deceleration"
    above = (
        f"The wheels can brake with {grip}; what tips it is worked out anew at each place of its way.",
        "Stop and start with at most 60 % of what tips it; drive so that it stands within a third of the free "
        "way, and so that its worst turn stays below 60 % too.",
    )
    columns = (place[0], "CG to front", "tips at", *LIMITS)
    return Sheets(opened, (Sheet(f"{function}: envelope", columns, rows, above),), {"function": function})


def _row(pose: PoseFacts, place: str) -> tuple[Cell, ...]:
    return (
        figure(pose, place),
        figure(pose, "margin"),
        figure(pose, "tips_forward_at"),
        figure(pose, "stop_allowed"),
        figure(pose, "start_allowed"),
        figure(pose, "drive_allowed"),
        figure(pose, "speed_share", as_percent=True),
    )
