"""Mix in the radio, in a box, or not at all before the controllers? What each takes, leaves and loses."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from mulewright.design.mule import Mule
from mulewright.errors import NotFound
from mulewright.facts.mixing_choices import IN_BOX, IN_NONE, IN_RADIO, PLACES, MixingChoiceFacts
from mulewright.tasks.opening import open_mule
from mulewright.tasks.sheets import Cell, Sheet, Sheets, figure

FIGURES = (
    ("channels for the drive", "drive_channels", False),
    ("channels left free", "free_channels", False),
    ("mixes of the radio", "radio_mixes", False),
    ("of those that it has", "mix_share", True),
    ("pure forward gives", "forward_duty", True),
    ("left of a turn, full ahead", "turn_left", True),
)
WORDS = (
    (
        "reverse a wheel",
        "channel reverse, or its leads",
        "its motor leads only",
        "channel reverse, or its leads",
    ),
    ("reverse a control", "sign of its mix weight", "channel reverse", "channel reverse"),
    ("exchange controls", "assign them anew", "move two input plugs", "assign them anew"),
    ("exchange two wheels", "move two receiver plugs", "move two output plugs", "move two receiver plugs"),
    ("endpoint of one side", "yes", "no: a channel is a control", "yes"),
)
LOST = {
    IN_RADIO: "In the radio: the mix of the radio is taken, and a model memory that is lost loses the drive.",
    IN_BOX: "In a box: one wheel can neither be reversed nor trimmed by a channel, and the box needs the rail too.",
    IN_NONE: "In the controllers: nobody mixes, so the driver does, with a sprung vertical stick for each side.",
}
ROLLERS_LOST = {
    IN_RADIO: "In the radio: three mixes in a row and a channel for each wheel; few radios have them.",
    IN_NONE: "In the controllers: four wheels on four sticks, which nobody can drive.",
}


def compare_mixing(path: str | Path, settings: Sequence[str] = (), variant: str | None = None) -> Sheets:
    """Compare the places where the drive of a mule could be mixed.

    Raises
    ------
    NotFound
        If nothing drives the mule, or its kind of drive is not noted.
    """
    opened = open_mule(path, settings, variant)
    choices = MixingChoiceFacts.all(opened.evaluation)
    if not choices:
        rule = "a mule with a [drive] of a kind that is noted"
        raise NotFound("there is no drive to mix for", str(path), rule, "no kind of drive")
    now = mixed_now(opened.mule)
    columns = ("", *(f"{place} (now)" if place in now else place for place in PLACES))
    rows: list[tuple[Cell, ...]] = [
        (words, *(figure(one, name, as_percent=shown) for one in choices)) for words, name, shown in FIGURES
    ]
    rows += WORDS
    lost = LOST | (ROLLERS_LOST if choices[0].rollers else {})
    twice = ("It is mixed twice as it stands: switch one of them off.",) if len(now) > 1 else ()
    below = (*twice, "What is lost:", *lost.values())
    return Sheets(opened, (Sheet("where to mix", columns, tuple(rows), (), below),), {"now": list(now)})


def mixed_now(mule: Mule) -> tuple[str, ...]:
    """Where the drive is mixed as it stands; both where it is mixed twice."""
    file = mule.file
    wheels = [
        mule.controller_of[motor]
        for motor in mule.motors_serving.get("drive", [])
        if motor in mule.controller_of
    ]
    boxed = any(mule.signals.trace(controller).mixer is not None for controller in wheels)
    radios = [radio for radio in (file.radio, file.second_radio) if radio is not None]
    mixed = any(mix.kind == "two-sides" and mix.active is not False for radio in radios for mix in radio.mix)
    places = ((IN_RADIO, mixed), (IN_BOX, boxed))
    return tuple(place for place, there in places if there) or (IN_NONE,)
