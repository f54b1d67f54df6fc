"""Which rails are there, what is on each, what feeds it, and how many volts should it have?"""

from __future__ import annotations

from collections.abc import Sequence

from mulewright.advice.power_up.bands import Read
from mulewright.advice.power_up.bench import Bench, named
from mulewright.advice.power_up.plan import Reading
from mulewright.advice.power_up.risk import controllers_in_order
from mulewright.advice.spoken import spoken
from mulewright.design.harness import Conductor
from mulewright.facts.graph import Evaluation
from mulewright.facts.nodes import Value
from mulewright.facts.rail import RailFacts, regulator_id
from mulewright.facts.regulators import RegulatorFacts
from mulewright.facts.wiring import BatteryFacts
from mulewright.models.arithmetic import largest
from mulewright.shelf.power_up import readings

RECEIVERS = ("receiver", "second_receiver")


def rails(bench: Bench) -> list[str]:
    """The rails, those that carry signals first."""
    names = bench.mule.supply.rail_names.values()
    return sorted(names, key=lambda rail: not bench.evaluation.entity(RailFacts, rail).carries_signals)


def draws(bench: Bench, rail: str) -> list[str]:
    """What draws from a rail for certain."""
    return bench.evaluation.entity(RailFacts, rail).demand.certain("draws")


def feeders(bench: Bench, rail: str) -> list[str]:
    """What feeds a rail for certain: controllers in the order in which they are powered."""
    order = controllers_in_order(bench.evaluation, bench.functions)
    found = bench.evaluation.entity(RailFacts, rail).demand.certain("feeds")
    return sorted(found, key=lambda one: order.index(one) if one in order else -1)


def rail_source(bench: Bench, rail: str) -> str | None:
    """The battery or bench supply that gives a rail its current; a pack that feeds it by itself."""
    for one in feeders(bench, rail):
        if one.startswith("battery."):
            return one
        if source := bench.mule.supply.source_of(one):
            return source
    return None


def receiver_rail(bench: Bench) -> str:
    """The rail of the receiver; empty where there is none."""
    return next((rail for rail in rails(bench) if any(one in RECEIVERS for one in draws(bench, rail))), "")


def source_on_rail(source: str) -> Read:
    """Volts that one source gives a rail."""

    def read(on: Evaluation) -> Value:
        if source.startswith("battery."):
            return on.entity(BatteryFacts, source).rested
        return on.entity(RegulatorFacts, regulator_id(source)).voltage

    return read


def highest(sources: Sequence[str], rail: str) -> Read:
    """Volts of a rail that some sources feed: the one set highest carries it."""

    def read(on: Evaluation) -> Value:
        if not sources:
            return on.entity(RailFacts, rail).voltage  # which says what is missing
        return largest([source_on_rail(one)(on) for one in sources])

    return read


def rail_reading(bench: Bench, rail: str, key: str, sources: Sequence[str], *, alone: str = "") -> Reading:
    """The volts of a rail while some of its sources are powered."""
    band = bench.bands.of(readings()["rail"].meter, highest(sources, rail), *_carrying(bench, sources))
    place, on = _where(bench, rail), f", on {alone} alone" if alone else ""
    return bench.said("rail", key, bench.borne(band, draws(bench, rail)), about=alone, place=f"{place}{on}")


def _carrying(bench: Bench, sources: Sequence[str]) -> list[Read]:
    """The sources that are set highest: any of them may carry a rail, and all of one batch may be off alike."""
    alone = [(read, bench.bands.of(readings()["rail"].meter, read)) for read in map(source_on_rail, sources)]
    known = [(read, band.nominal) for read, band in alone if band.known and band.nominal is not None]
    most = max((nominal for _, nominal in known), default=0.0)
    return [read for read, nominal in known if nominal == most]


def _where(bench: Bench, rail: str) -> str:
    """Where to probe a rail: at a free socket of a receiver or a box, or else at the plugs of its servos."""
    on_it = draws(bench, rail)
    with_sockets = [one for one in on_it if not one.startswith("servo.")]
    return f"a free socket of {named(with_sockets)}" if with_sockets else f"the supply plug of {named(on_it)}"


def lead_readings(bench: Bench, rail: str, source: str) -> list[Reading]:
    """Volts and polarity at the far end of each supply lead of a source of a rail, before it goes in."""
    reads = [source_on_rail(source)]
    if source.startswith("battery."):
        reads.append(lambda on: on.entity(BatteryFacts, source).full)
    band = bench.borne(bench.bands.of(readings()["lead"].meter, *reads), draws(bench, rail))
    return [
        bench.said("lead", str(one.number), band, wire=str(one.number), ends=spoken_end(one))
        for one in bench.wires
        if one.kind == "supply lead" and one.start.thing == source
    ]


def spoken_end(lead: Conductor) -> str:
    """What a lead goes to, for people."""
    if lead.end is None:
        return "? (write down what)"
    place = f"{lead.end.thing}.{lead.end.name}"
    return spoken(place if lead.end.name.isdigit() else lead.end.thing)
