"""What gets power first, and one after the other: the receiver on its rail, each controller, all of it at rest."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from mulewright.advice.power_up.at_rest import everything, standing_band_reads
from mulewright.advice.power_up.bands import Read
from mulewright.advice.power_up.bench import Bench, named, wire_words
from mulewright.advice.power_up.currents import volts_of
from mulewright.advice.power_up.plan import Reading, Step
from mulewright.advice.power_up.rails import (
    draws,
    feeders,
    lead_readings,
    rail_reading,
    rails,
    receiver_rail,
)
from mulewright.advice.power_up.risk import controllers_in_order
from mulewright.advice.spoken import listed, spoken
from mulewright.advice.start_list import start_list
from mulewright.design.unsaid import WIRES
from mulewright.facts.graph import Evaluation
from mulewright.facts.nodes import Missing, Value
from mulewright.facts.rest import on_tester
from mulewright.shelf.power_up import readings

FEW = 2  # sources that a title names


def first_volts(bench: Bench) -> Iterator[Step]:
    """The steps up to everything powered and at rest."""
    file = bench.mule.file
    if file.radio is not None or file.second_radio is not None:
        yield _radio(bench)
    for rail in rails(bench):
        yield _rail(bench, rail)
    for controller in controllers_in_order(bench.evaluation, bench.functions):
        if not on_tester(bench.mule, controller):
            yield _controller(bench, controller)
    if bench.mule.supply.sources or rails(bench):
        yield _neutral(bench)


def _radio(bench: Bench) -> Step:
    file = bench.mule.file
    radios = [
        (name, radio) for name in ("radio", "second_radio") if (radio := getattr(file, name)) is not None
    ]
    memories = [radio.planned_memory or radio.memory for _, radio in radios]
    quoted = listed([f'"{memory}"' for memory in memories if memory])
    starts = [
        f"{bench.control(one.control)} {one.place or '? (write it down)'}"
        for one in start_list(bench.evaluation)
    ]
    live = [name for name, _ in radios]
    return bench.step(
        "radio", "all", live=live, memory=f": {quoted}" if any(memories) else "",
        starts=", ".join(starts) or "nothing commands anything yet",
    )  # fmt: skip


# --- rails


def _rail(bench: Bench, rail: str) -> Step:
    sources, on_it = feeders(bench, rail), draws(bench, rail)
    signals = [one for one in on_it if not one.startswith("servo.")]
    source = next((one for name in sources if (one := bench.mule.supply.source_of(name))), None)
    first = [one for one in sources[:1] if one.startswith("controller.")]
    draw = standing_band_reads(bench, [*(signals or on_it), *first], rail if signals else "", source)
    current = bench.reading("standing", rail, *draw)
    leads = [reading for one in sources for reading in lead_readings(bench, rail, one)]
    live: set[str] = {rail, *(signals or on_it)}
    for one in sources:
        live |= bench.way(one)
    return bench.step(
        "rail", rail,
        do=_rail_do(bench, rail, sources, signals=bool(signals)),
        readings=[*leads, *_one_by_one(bench, rail, sources), *([current] if source else [])],
        live=live, wires=[number for one in sources for number in bench.power_wires(one)],
        limit=bench.limit(source, [("standing", current.band)]) if source else None,
        rail=spoken(rail), sources=_fed_by(sources), draws=named(on_it),
    )  # fmt: skip


def _fed_by(sources: Sequence[str]) -> str:
    return named(sources) if len(sources) <= FEW else f"{len(sources)} sources"


def _one_by_one(bench: Bench, rail: str, sources: Sequence[str]) -> list[Reading]:
    """The rail's volts on each of its sources alone."""
    if len(sources) < 2:
        return [rail_reading(bench, rail, rail, sources)]
    return [rail_reading(bench, rail, f"{rail}:{one}", [one], alone=spoken(one)) for one in sources]


def _rail_do(bench: Bench, rail: str, sources: Sequence[str], *, signals: bool) -> list[str]:
    lines = []
    if not sources:
        lines.append("By the file nothing feeds it: put one red wire in, or a regulator of its own. Note it.")
    if len(sources) > 1:
        lines.append(
            f"{len(sources)} sources feed it: power them one at a time, and read the rail each time."
        )
    controllers = [one for one in sources if one.startswith("controller.")]
    if controllers:
        each = [_alone(bench, one) for one in controllers]
        lines.append(f"On alone, motor wires off where they can be undone: {'; '.join(each)}.")
    for one in sources:
        if one.startswith("battery."):
            lines.append(f"Plug in {spoken(one)} alone.")
        elif one not in controllers:
            lines.append(
                f"Power {spoken(one)} alone ({wire_words(bench.power_wires(one)) or 'its input leads'})."
            )
    if signals:
        lines.append("All servo plugs and the signal plugs of all other controllers stay out.")
        lines.append("The receiver's light shows its own pattern for linked: write down which.")
    numbers = [one.number for one in bench.wires if one.kind == "supply lead" and one.start.thing in sources]
    if numbers:
        lines.append(
            f"The far end of {wire_words(numbers)} stays out until its volts and its plus are read; then in."
        )
    bears = [_bears(bench, one) for one in draws(bench, rail)]
    lines.append(f"Never more than they bear: {'; '.join(bears)}.")
    return lines


def _alone(bench: Bench, controller: str) -> str:
    """The wires by which a controller is powered alone, and those of its motors."""
    power = wire_words(bench.power_wires(controller)) or "its power leads"
    motors = wire_words(bench.numbers(thing=controller, kinds=("motor",)))
    return f"{spoken(controller)} ({power} on{f'; motor {motors} off' if motors else ''})"


def _bears(bench: Bench, thing: str) -> str:
    table = bench.mule.table(thing)
    low, high = getattr(table, "min_voltage", None), getattr(table, "max_voltage", None)
    span = " to ".join(one.text for one in (low, high) if one is not None)
    return f"{spoken(thing)} {span or '? V (look at its sheet)'}"


# --- controllers, and all of it


def bus_reading(bench: Bench, thing: str) -> Reading:
    """Volts at the power terminals of a controller."""
    source = bench.mule.supply.source_of(thing)
    reads = [source_volts(bench, source, thing)]
    if bench.mode == "battery" and source is not None:
        reads.append(source_volts(bench, source, thing, fresh=True))
    band = bench.bands.of(readings()["bus"].meter, *reads)
    return bench.said("bus", thing, bench.borne(band, [thing]), thing=thing)


def source_volts(bench: Bench, source: str | None, thing: str, *, fresh: bool = False) -> Read:
    """Volts of what feeds a thing, rested or straight off the charger."""

    def read(on: Evaluation) -> Value:
        if source is None:
            raise Missing(*on.unsaid(WIRES) or [f"a wire from a battery to {thing}"])
        found = volts_of(on, source)
        return found.full if fresh else found.rested

    return read


def _controller(bench: Bench, thing: str) -> Step:
    powered = powered_up_to(bench, thing)
    source = bench.mule.supply.source_of(thing)
    rail = receiver_rail(bench)
    current = bench.reading("standing", thing, *standing_band_reads(bench, powered, rail, source))
    lead = [one for one in bench.wires if one.kind == "servo lead" and one.path == thing]
    where = f"signal plug in ({wire_words([one.number for one in lead])})" if lead else "signal plug in"
    power = wire_words(bench.power_wires(thing))
    motors = wire_words(bench.numbers(thing=thing, kinds=("motor",)))
    do = [
        f"Power off. {spoken(thing)}: {power or 'power leads'} on{f', motor {motors} on' if motors else ''}, {where}.",
        "Those before it stay on; the signal plugs of the others stay out.",
        "Power on. Its light comes; its motor stands still.",
    ]
    still = bench.constant("still", thing, "still", thing=thing)
    found = [bus_reading(bench, thing), current]
    if bench.mule.motors_of(thing):
        found.append(still)
    if rail and rail in bench.way(thing):
        now = [one for one in feeders(bench, rail) if one in powered or not one.startswith("controller.")]
        found.insert(1, rail_reading(bench, rail, f"{rail}+{thing}", now))
    return bench.step(
        "controller", thing, do=do, readings=found, live=bench.way(thing),
        wires=[*bench.power_wires(thing), *(one.number for one in lead)],
        limit=bench.limit(source, [("standing", current.band)]), thing=thing,
    )  # fmt: skip


def powered_up_to(bench: Bench, thing: str) -> list[str]:
    """Everything that is powered once a controller is: those before it, the receiver, and what feeds that."""
    order = controllers_in_order(bench.evaluation, bench.functions)
    powered, rail = order[: order.index(thing) + 1], receiver_rail(bench)
    if not rail:
        return powered
    on_rail = [one for one in draws(bench, rail) if not one.startswith("servo.")]
    fed = feeders(bench, rail)
    needed = [] if any(one in powered for one in fed) else fed[:1]
    return list(dict.fromkeys([*on_rail, *needed, *powered]))


def _neutral(bench: Bench) -> Step:
    source = next(iter(bench.mule.supply.sources), None)
    rail = receiver_rail(bench)
    reads = standing_band_reads(bench, everything(bench, source), rail, source)
    current = bench.reading("standing", "all", *reads)
    live = set(everything(bench))
    for one in list(live):
        live |= bench.way(one)
    found = [rail_reading(bench, one, f"{one}+all", feeders(bench, one)) for one in rails(bench)]
    return bench.step(
        "neutral", "all", readings=[current, *found], live=live,
        limit=bench.limit(source, [("standing", current.band)]),
    )  # fmt: skip
