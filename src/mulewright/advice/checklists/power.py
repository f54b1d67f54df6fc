"""Which packs, fuses, switches, rails and plugs of a mule do the items of a checklist stand for?"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping

from mulewright.advice.spoken import UNKNOWN, listed, read, read_with_doubt, spoken
from mulewright.design.signals import RECEIVERS
from mulewright.facts.graph import Evaluation
from mulewright.facts.pack_care import PackCareFacts, StoredPackFacts
from mulewright.facts.rail import RailFacts
from mulewright.facts.wiring import BatteryFacts

Said = Mapping[str, str]
"""Words for the braces of an item; ``known`` stands behind it, and instead of what its tick says."""
Subject = Callable[[Evaluation], Iterator[Said]]


def batteries(evaluation: Evaluation) -> Iterator[Said]:
    """Every pack in use."""
    for pack in PackCareFacts.all(evaluation):
        retained = evaluation.mule.file.battery[pack.id.split(".", 1)[1]].retained
        known = {} if retained is None else {"known": f"in the file: {'held' if retained else 'not held'}"}
        swap = read_with_doubt(pack.node("swap_voltage"), 3)
        yield {"name": spoken(pack.id), "swap": swap, **known}


def of_cells(*chemistries: str) -> Subject:
    """Packs whose cells are of a kind."""

    def find(evaluation: Evaluation) -> Iterator[Said]:
        for pack in BatteryFacts.all(evaluation):
            chemistry = evaluation.mule.file.battery[pack.id.split(".", 1)[1]].chemistry or ""
            if chemistry.startswith(chemistries):
                yield {"name": spoken(pack.id)}

    return find


def lithium(evaluation: Evaluation) -> Iterator[Said]:
    """Packs of lithium cells, and what cells they are is not known of."""
    for pack in StoredPackFacts.all(evaluation):
        volts = read_with_doubt(pack.node("storage_voltage"), 3)
        yield {"name": spoken(pack.id), "volts": volts}


def leads_of_batteries(evaluation: Evaluation) -> Iterator[Said]:
    """Every pack in use, with the wires that leave it."""
    mule = evaluation.mule
    for pack in BatteryFacts.all(evaluation):
        wires = list(dict.fromkeys(run.wire for run in mule.supply.runs_from(pack.id)))
        metered = {mule.file.wire[wire.split(".", 1)[1]].polarity_metered for wire in wires}
        done = "metered" if metered == {True} else "not metered" if False in metered else ""
        noted = f"in the file: {done}" if done else ""
        leads = listed(map(spoken, wires)) if wires else UNKNOWN
        yield {"battery": spoken(pack.id), "wire": leads, "metered": noted}


def bench_supplies(evaluation: Evaluation) -> Iterator[Said]:
    """Every bench supply."""
    for name, supply in evaluation.mule.file.bench_supply.items():
        volts, limit = supply.voltage, supply.current_limit
        yield {
            "name": spoken(f"bench_supply.{name}"),
            "volts": volts.text if volts is not None else UNKNOWN,
            "limit": limit.text if limit is not None else UNKNOWN,
        }


def unfused(evaluation: Evaluation) -> Iterator[Said]:
    """Packs behind which no fuse is noted."""
    supply = evaluation.mule.supply
    for pack in BatteryFacts.all(evaluation):
        if not any(item.startswith("fuse.") for run in supply.runs_from(pack.id) for item in run.through):
            yield {"name": spoken(pack.id)}


def fuses(evaluation: Evaluation) -> Iterator[Said]:
    """Every fuse."""
    for name, fuse in evaluation.mule.file.fuse.items():
        rating = fuse.rating.text if fuse.rating is not None else UNKNOWN
        yield {"name": spoken(f"fuse.{name}"), "rating": rating}


def switches(evaluation: Evaluation) -> Iterator[Said]:
    """Every switch in a run of wire."""
    for name, switch in evaluation.mule.file.switch.items():
        reachable = switch.reachable
        noted = "within reach" if reachable else "out of reach"
        known = {} if reachable is None else {"known": f"in the file: {noted}"}
        yield {"name": spoken(f"switch.{name}"), **known}


def unswitched(evaluation: Evaluation) -> Iterator[Said]:
    """Packs behind which no switch lies."""
    supply = evaluation.mule.supply
    for pack in BatteryFacts.all(evaluation):
        runs = supply.runs_from(pack.id)
        if runs and not any(item.startswith("switch.") for run in runs for item in run.through):
            yield {"name": spoken(pack.id)}


def power_y_leads(evaluation: Evaluation) -> Iterator[Said]:
    """Every Y-lead that joins packs, with the volts that it should show."""
    file = evaluation.mule.file
    for name, lead in file.y_lead.items():
        if lead.carries == "power":
            packs = [evaluation.entity(BatteryFacts, pack) for pack in lead.joins or ()]
            volts = [read(pack.node("rested"), 3) for pack in packs]
            yield {
                "name": spoken(f"y_lead.{name}"),
                "packs": listed(spoken(pack.id) for pack in packs) if packs else UNKNOWN,
                "volts": volts[0] if len(set(volts)) == 1 else listed(volts, "or") if volts else UNKNOWN,
            }


def rails(evaluation: Evaluation) -> Iterator[Said]:
    """Every rail of middle wires, with what feeds it and its volts."""
    for rail in RailFacts.all(evaluation):
        named = rail.id.removeprefix("rail.")
        certain = sorted(rail.demand.certain("feeds"))
        perhaps = sorted(set(rail.demand.perhaps("feeds")) - set(certain))
        sources = UNKNOWN if perhaps and not certain else listed(map(spoken, certain))
        if certain and perhaps:
            sources += f" (perhaps {listed(map(spoken, perhaps))})"
        low, high = (read(rail.node(name)) for name in ("lowest", "voltage"))
        yield {
            "name": f"the rail of {'the ' if named.endswith('receiver') else ''}{spoken(named)}",
            "sources": sources,
            "volts": high if low == high else f"{low} to {high}, as the stronger source gives it",
        }


def red_wires(state: str) -> Subject:
    """The plugs whose middle wire is pulled, or in, as one item."""

    def find(evaluation: Evaluation) -> Iterator[Said]:
        file = evaluation.mule.file
        kinds = ("controller", "regulator", "mixer", "servo", "inline", "y_lead")
        plugs = [
            spoken(f"{kind}.{name}")
            for kind in kinds
            for name, table in getattr(file, kind).items()
            if table.red_wire == state
        ]
        if plugs:
            yield {"plugs": listed(plugs)}

    return find


def plugged(evaluation: Evaluation) -> Iterator[Said]:
    """Every receiver and box with the plugs that sit in it."""
    found: dict[str, dict[str, list[str]]] = {}
    for socket, leads in evaluation.mule.signals.in_socket.items():
        thing, _, place = socket.rpartition(".")
        if thing in RECEIVERS or thing.startswith("mixer."):
            found.setdefault(thing, {})[place] = leads
    for thing, taken in sorted(found.items(), key=lambda one: one[0] not in RECEIVERS):
        places = sorted(taken, key=lambda place: place.zfill(4) if place.isdigit() else place)
        plugs = "; ".join(f"{place}: {listed(map(spoken, taken[place]))}" for place in places)
        yield {"name": spoken(thing), "plugs": plugs}


def y_leads(evaluation: Evaluation) -> Iterator[Said]:
    """Every Y-lead that splits a signal."""
    signals = evaluation.mule.signals
    for name, lead in evaluation.mule.file.y_lead.items():
        if lead.carries != "power":
            own = f"y_lead.{name}"
            joined = [plug for plug, places in signals.leads.items() if own in places]
            yield {"name": spoken(own), "devices": listed(map(spoken, joined)) if joined else UNKNOWN}


SUBJECTS: dict[str, Subject] = {
    "battery": batteries, "lithium": lithium, "lead": of_cells("lead"), "nickel": of_cells("nimh"),
    "dry": of_cells("dry"), "battery_lead": leads_of_batteries, "bench_supply": bench_supplies,
    "unfused": unfused, "fuse": fuses, "switch": switches, "unswitched": unswitched, "power_y": power_y_leads,
    "rail": rails, "pulled": red_wires("pulled"), "kept": red_wires("in"), "plugged": plugged, "y_lead": y_leads,
}  # fmt: skip
