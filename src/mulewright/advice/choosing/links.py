"""What may give at once between battery and load, and at what, for each option of each slot?"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from mulewright.facts.chain_links import CurrentLinkFacts, EndLinkFacts, LinkFacts, links
from mulewright.facts.serving import BREAKS, YIELDS, ServiceFacts

if TYPE_CHECKING:
    from mulewright.kernels.choosing import Links

Floats = NDArray[np.float64]
Key = tuple[str, str, int]  # thing, what about it gives, place of its chain


@dataclass(frozen=True)
class Seen:
    """One link as the facts see it."""

    part: str
    words: str
    fails: str
    breaks: int  # 1 breaks, -1 gives way without harm, 0 trips
    bears: float
    behind: tuple[str, ...]  # motors whose current it carries

    @property
    def named(self) -> str:
        """As people read it."""
        return f"{self.part} ({self.words})"


def seen_links(service: ServiceFacts) -> dict[Key, Seen]:
    """Every link that may give at once; a new gear stage's wheels are not judged."""
    found: dict[Key, Seen] = {}
    for place, chain in enumerate(service.chains):
        for link in links(chain):
            if not link.manner.lasting and link.slug != "stage":
                found[link.thing, link.slug, place] = _seen(link)
    return found


def _seen(link: LinkFacts) -> Seen:
    node = link.node("bears")
    breaks = 1 if link.manner.fails in BREAKS or link.slug == "hub" else -1 if link.slug in YIELDS else 0
    behind = tuple(link.behind) if isinstance(link, CurrentLinkFacts) else ()
    bears = float(node.value) if node.known else float("nan")
    return Seen(link.part, link.manner.words, link.manner.fails, breaks, bears, behind)


def links_of(
    seen: Mapping[str, Sequence[Mapping[Key, Seen]]], service: ServiceFacts, duties: NDArray[np.float64]
) -> tuple[Links, tuple[Seen, ...]]:
    """The links as arrays, those that can never be told left out, alike ones once."""
    from mulewright.kernels import choosing

    slots = {"motor": choosing.MOTOR, "controller": choosing.CONTROLLER, "battery": choosing.BATTERY}
    fixed = [seen_links(service)]
    widest = max(len(options) for options in seen.values())
    rows: dict[str, tuple[tuple[int, ...], Floats, Floats, Seen]] = {}
    for thing, slug, place in _keys(seen, fixed):
        slot = thing.split(".", 1)[0]
        options = seen[slot] if slot in slots else fixed
        every = [option.get((thing, slug, place)) for option in options]
        one = next(found for found in every if found is not None)
        bears = [found.bears if found is not None else np.nan for found in every]
        terms = _terms(thing, slug)
        if terms == choosing.STALL:
            bears = [0.0] * len(bears)  # it follows from the motors and their supply
        if np.isnan(bears).all():
            continue
        share = _share(service, one, terms, duties)
        whole = (place, terms, slots.get(slot, choosing.FIXED), one.breaks)
        padded = np.pad(np.array(bears), (0, widest - len(bears)), constant_values=np.nan)
        rows.setdefault(str((whole, bears, share.tolist())), (whole, padded, share, one))
    chains, terms_of, slot_of, breaks = (
        np.array(column) for column in zip(*(row[0] for row in rows.values()), strict=True)
    )
    return choosing.Links(
        chain=chains,
        terms=terms_of,
        slot=slot_of,
        breaks=breaks,
        bears=np.array([row[1] for row in rows.values()]),
        share=np.array([row[2] for row in rows.values()]),
    ), tuple(row[3] for row in rows.values())


def _keys(seen: Mapping[str, Sequence[Mapping[Key, Seen]]], fixed: Sequence[Mapping[Key, Seen]]) -> list[Key]:
    """Every link that some option has, those of one slot seen by that slot's options."""
    own = [
        key
        for slot, options in seen.items()
        for option in options
        for key in option
        if key[0].startswith(f"{slot}.")
    ]
    rest = [key for key in fixed[0] if key[0].split(".", 1)[0] not in ("motor", "controller", "battery")]
    return list(dict.fromkeys([*own, *rest]))


def _terms(thing: str, slug: str) -> int:
    from mulewright.kernels import choosing

    if slug == "stall":
        return choosing.STALL
    if slug in EndLinkFacts.manners:
        return choosing.LOAD
    if slug not in CurrentLinkFacts.manners:
        return choosing.TORQUE
    return choosing.MOTOR_CURRENT if thing.startswith("controller.") else choosing.SUPPLY_CURRENT


def _share(service: ServiceFacts, one: Seen, terms: int, duties: NDArray[np.float64]) -> NDArray[np.float64]:
    """How much of each motor's current it carries, for every controller option."""
    from mulewright.kernels import choosing

    if terms == choosing.MOTOR_CURRENT:
        return np.full(len(duties), float(len(one.behind)))
    if terms != choosing.SUPPLY_CURRENT:
        return np.ones(len(duties))
    fed = [service.controllers.index(service.mule.controller_of[motor]) for motor in one.behind]
    return np.asarray(duties[:, fed].sum(axis=1))
