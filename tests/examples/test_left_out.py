"""Does anything pass because it was left out? Every table and every key of every scenario, left out in turn."""

from __future__ import annotations

import copy
from collections.abc import Iterator
from typing import Any

import pytest

from mulewright.checks import CHECKS
from mulewright.checks.engine import Outcome, Verdict, run
from mulewright.design.mule import link
from mulewright.design.overlay import THINGS
from mulewright.design.paths import Path, written
from mulewright.design.resolve import Loaded, build, load
from mulewright.errors import MulewrightError
from mulewright.facts.graph import Evaluation
from tests.designs import DESIGNS, EXAMPLES

Verdicts = dict[tuple[str, str], Verdict]

NEVER_LEFT_OUT = ("schema_version", "variant")
RADIOS = ("radio", "second_radio")
WHOLE = (*RADIOS, "drive", "receiver", "second_receiver", "target")
OPEN = (Outcome.TRIP, Outcome.CANNOT_TELL)

# Findings that rightly go, everywhere: what the mule file then says is something else, and is complete.
SAYS_ANOTHER_THING = {
    "turns": "a motor that turns nothing named is a function of its own",
    "moves": "a servo that moves nothing named is a function of its own",
    "commands": "a control that commands nothing is not in the plan",
}
# Findings that rightly go, by design: something else in the file or on the shelf stands in.
STANDS_IN = {
    "aisle-carrier": {"receiver.fail_safe.3": "what the other channels do"},
    "hose-tug": {
        "radio.control.RV.rate": "the rate of the others",
        "radio.control.RV.expo": "the curve of the others",
        "radio.control.RH.rate": "the rate of the others",
        "radio.control.RH.expo": "the curve of the others",
    },
    "leaf-sweeper": {
        "radio.channel.1": "the travel of the others",
        "radio.channel.1.travel_minus": "the travel of the others",
    },
    "seed-ball-thrower": {
        "radio.control.LV.sprung": "the sheet of the radio says that it is sprung",
        "radio.control.LV.conversion": "the sheet of the radio says that one is fitted",
    },
}


def keys(raw: Any, path: Path = ()) -> Iterator[Path]:
    """Paths of all tables, items and keys; a quantity that is written as a table is one value."""
    for name, value in raw.items() if isinstance(raw, dict) else enumerate(raw):
        here = (*path, str(name))
        if here[0] in NEVER_LEFT_OUT:
            continue
        yield here
        is_table = isinstance(value, dict) and "value" not in value
        if is_table or (isinstance(value, list) and any(isinstance(item, dict) for item in value)):
            yield from keys(value, here)


def without(raw: Any, path: Path) -> Any:
    """A copy of the tables with one of them, or one key, left out."""
    raw = here = copy.deepcopy(raw)
    *way, last = path
    for part in way:
        here = here[int(part) if isinstance(here, list) else part]
    del here[int(last) if isinstance(here, list) else last]
    return raw


def is_a_thing(path: Path) -> bool:
    """Whether what goes is a thing of its own, so that there is less to judge."""
    if path[-1].isdigit() and path[-2] not in ("fail_safe", "channel"):
        return True  # one of a list
    if path[0] in RADIOS and len(path) > 1:
        return path[1] in ("control", "mix") and len(path) < 4
    return len(path) <= (2 if path[0] in THINGS else 1 if path[0] in WHOLE else 0)


def verdicts(loaded: Loaded, raw: Any) -> Verdicts:
    """What every check says about some tables."""
    built = build(raw, loaded.where, loaded.folder, text=loaded.text, catalog=loaded.catalog)
    found = run(Evaluation(link(built)), CHECKS.values())
    return {(verdict.check.id, verdict.entity): verdict for verdict in found}


def hushed(before: Verdicts, after: Verdicts) -> list[str]:
    """Checks that no longer trip, and no longer say that they cannot tell, about the same thing.

    Of a thing that is gone, it is enough that the check now asks for something more.
    """
    asked, asks = needs(before), needs(after)
    found = []
    for (check, entity), verdict in before.items():
        now = after.get((check, entity))
        if verdict.outcome in OPEN and (now.outcome not in OPEN if now else asks[check] <= asked[check]):
            found.append(f"{check} {entity}: {now.what if now else 'gone'}")
    return found


def needs(verdicts: Verdicts) -> dict[str, set[str]]:
    """What each check asks for."""
    found: dict[str, set[str]] = {}
    for (check, _), verdict in verdicts.items():
        found.setdefault(check, set()).update(verdict.needs)
    return found


@pytest.mark.parametrize("design", DESIGNS)
def test_nothing_passes_because_it_was_left_out(design: str) -> None:
    loaded = load(EXAMPLES / design / "mule.toml")
    before = verdicts(loaded, loaded.base)
    silent: dict[str, list[str]] = {}
    for path in keys(loaded.base):
        try:
            after = verdicts(loaded, without(loaded.base, path))
        except MulewrightError:  # what refers to it leads nowhere
            continue
        lost = hushed(before, after)
        if lost and not is_a_thing(path) and path[-1] not in SAYS_ANOTHER_THING:
            silent[written(path)] = lost
    assert silent.keys() == STANDS_IN.get(design, {}).keys(), silent
