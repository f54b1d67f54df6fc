"""What comes after the first pushes: the battery, the rate switch, warmth, the record, and the floor."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from mulewright.advice.power_up.at_rest import all_live, everything, standing_band_reads
from mulewright.advice.power_up.bands import Read
from mulewright.advice.power_up.bench import Bench, named
from mulewright.advice.power_up.cold import full, rested
from mulewright.advice.power_up.functions import DRIVE, moved_by, small_stick, uncoupled
from mulewright.advice.power_up.plan import Band, Step, around
from mulewright.advice.power_up.rails import rails
from mulewright.advice.room import short_of
from mulewright.advice.spoken import listed
from mulewright.facts.first_push import FirstMetreFacts, FirstPushFacts
from mulewright.facts.loads import held_by
from mulewright.facts.regulators import LinearFacts
from mulewright.facts.runaway import RunawayFacts
from mulewright.facts.slow_mode import FunctionModeFacts
from mulewright.models.arithmetic import product
from mulewright.shelf.power_up import factor, fixed
from mulewright.units.shown import people


def later_steps(bench: Bench) -> Iterator[Step]:
    """The steps from the battery on."""
    yield from _batteries(bench)
    yield from _rates(bench)
    if bench.functions or bench.mule.file.servo:
        yield _warm(bench)
        yield _record(bench)
    if bench.mule.file.drive is not None and DRIVE in bench.functions:
        yield _floor(bench)
    yield from _loads(bench)


def _batteries(bench: Bench) -> Iterator[Step]:
    supply = bench.mule.supply
    for pack in bench.batteries:
        if pack not in supply.sources:
            continue
        ends = [run.end for run in supply.runs_from(pack)]
        volts = bench.pack_bands.of("volts", rested(pack), full(pack))
        readings = [
            bench.said("bus", f"{pack}>{end}", bench.borne(volts, _behind(bench, end)), thing=end)
            for end in ends
        ]
        rail = next(iter(rails(bench)), "")
        reads = standing_band_reads(bench, everything(bench, pack), rail, pack)
        fuses = [
            item for item, run in supply.run_through.items() if item.startswith("fuse.") and run.start == pack
        ]
        live = {pack, *fuses, *(one for end in ends for one in bench.way(end)), *all_live(bench)}
        yield bench.step(
            "battery", pack, readings=[*readings, bench.reading("standing", pack, *reads)], live=live,
            wires=bench.numbers(thing=pack, kinds=("plus", "minus")), thing=pack,
            fuse=named(fuses) if fuses else "a fuse", first=_fuse_first(bench, fuses),
        )  # fmt: skip


def _behind(bench: Bench, end: str) -> list[str]:
    """A thing, and the controllers to which the current goes on from it."""
    return [
        end,
        *(one for one in everything(bench) if one.startswith("controller.") and end in bench.way(one)),
    ]


def _fuse_first(bench: Bench, fuses: Sequence[str]) -> str:
    """Which fuse lies in the battery's wire before it goes in."""
    small = bench.mode == "battery"
    if fuses:
        return (
            f"Battery out. {'The small first fuse out, ' if small else ''}{named(fuses)} in, as read before."
        )
    if small:
        return "Battery out. By the file its wire has no fuse: the small first fuse stays in until one is fitted."
    return (
        "By the file its wire has no fuse: fit one first, close to the battery, that suits the thinnest wire."
    )


# --- rates


def _rates(bench: Bench) -> Iterator[Step]:
    radio = bench.mule.file.radio
    if radio is None or radio.rate.switch is None:
        return
    for mode in FunctionModeFacts.all(bench.evaluation):
        slows, has_duty = False, False
        with bench.evaluation.watch() as seen:
            slows = bool(mode.slowed > 0.5)
            has_duty = mode.has_duty
        if seen.gaps or not has_duty:
            continue
        if slows:
            yield _rate(bench, mode)


def slow_volts(mode: str, motor: str) -> Read:
    """Volts at a motor at full stick with the rate switch slow."""
    return lambda on: product(
        on.entity(FunctionModeFacts, mode).slow_duty, on.entity(FirstPushFacts, motor).supply
    )


def _rate(bench: Bench, mode: FunctionModeFacts) -> Step:
    mule = bench.mule
    motors = mule.motors_of(mode.device.id)[:1]
    found = [
        bench.reading("slow", f"{mode.name}:{motor}", slow_volts(mode.id, motor), motors=motor)
        for motor in motors
    ]
    function = mode.name if mode.name in bench.functions else DRIVE
    live = {mode.id, f"{mode.controls[0].radio.id}.rate", *moved_by(bench, function, mode.name)}
    do = uncoupled(bench, mode.name)
    return bench.step(
        "rate", mode.name, do=do, readings=found, live=live, function=mode.name, control=mode.on
    )


# --- warmth, record


def rise(regulator: str) -> Read:
    """How warm a linear regulator gets in the long run."""
    return lambda on: on.entity(LinearFacts, regulator).rise


def _warm(bench: Bench) -> Step:
    groups: dict[object, list[tuple[str, Band]]] = {}
    bears = float(bench.evaluation.assumption("regulator_rise").value)
    touched = fixed("warm")[1] or 0.0
    hot = []
    for linear in LinearFacts.all(bench.evaluation):
        band = replace(bench.bands.of("warmth", rise(linear.id)), low=None)
        if band.high is None or band.high > touched:
            hot.append(linear.regulator.device)
        band = band.cut(bears, "such a regulator")
        like = None if band.nominal is None else float(f"{band.nominal:.3g}")
        groups.setdefault((like, band.needs), []).append((linear.regulator.device, band))
    found = [
        bench.said(
            "warm", group[0][0], around([band for _, band in group]), thing=named(one for one, _ in group)
        )
        for group in groups.values()
    ]
    told = {device for group in groups.values() for device, _ in group}
    rest = [one for one in _warming(bench) if one not in told]
    if rest or not found:
        found.append(bench.constant("warm", "others", "warm", thing=named(rest) if rest else "every servo"))
    do = ["Then feel, back of the hand first."]
    if hot:
        do = [
            f"DO NOT TOUCH {named(hot)}: maybe hotter than a finger bears. Infrared thermometer alone.",
            "The rest: back of the hand first.",
        ]
    return bench.step("warm", "all", do=do, readings=found, live=all_live(bench))


def _warming(bench: Bench) -> list[str]:
    """Motors and the controllers that feed them."""
    fed = bench.mule.controller_of
    pairs = [(f"motor.{name}", fed.get(f"motor.{name}")) for name in bench.mule.file.motor]
    return list(dict.fromkeys(one for pair in pairs for one in pair if one is not None))


def _record(bench: Bench) -> Step:
    do = []
    if bench.mule.wheels:
        do.append(
            "Each wheel's sign for each push: mulewright decode FILE --ask --record as-found. "
            "Then put right what it says, the cheapest first, and push again."
        )
    do += [
        "The radio's settings, the receiver's light, the day of the fail-safe trial, every reading of this plan.",
        "Receiver off before the transmitter.",
    ]
    return bench.step("record", "all", do=do)


# --- the floor


def first_metre(*, slower: float = 1.0) -> Read:
    """Time over the first metre."""
    return lambda on: product(on.entity(FirstMetreFacts, DRIVE).first_metre, slower)


def way_to_stop(name: str) -> Read:
    """Way from full speed until it stands."""
    return lambda on: getattr(on.entity(FirstMetreFacts, DRIVE), name)


def _floor(bench: Bench) -> Step:
    found = [
        bench.reading(
            "metre", DRIVE, first_metre(), first_metre(slower=factor("small_error")), stick=_stick(bench)
        ),
        bench.reading("stop", DRIVE, way_to_stop("coasted_way"), way_to_stop("braked_way")),
    ]
    do = [
        *_room(bench),
        "Range walk first: wheels still up, motors running, the transmitter at reduced power if it can.",
        "Off the blocks, nobody in front of it, somebody at the disconnect. Lowest rate, arms low, a small stick.",
        "When that went well: slowly to full stick, free way ahead, let go at a mark, read the way from there.",
    ]
    live = {DRIVE, "room", "body", *all_live(bench)}
    return bench.step("floor", DRIVE, do=do, readings=found, live=live)


def _stick(bench: Bench) -> str:
    """How far the stick is pushed on the first metre."""
    return small_stick(bench, bench.mule.motors_serving.get(DRIVE, []))


def _room(bench: Bench) -> list[str]:
    """How much room a lost link takes."""
    drives = RunawayFacts.all(bench.evaluation)
    if not drives:
        return []
    band = bench.bands.of("way", lambda on: on.entity(RunawayFacts, DRIVE).runaway)
    if too_small := short_of(bench.evaluation):
        return [too_small]
    if band.nominal is not None:
        return [
            f"On a lost link at full speed it goes {people(band.nominal, 'm', 2)}: as much free room ahead, and more."
        ]
    needs = f" (needs {listed(band.needs)})" if band.needs else ""
    return [
        f"How far it goes on a lost link has no bound that is known{needs}: somebody stays at the disconnect."
    ]


def _loads(bench: Bench) -> Iterator[Step]:
    for function in bench.functions:
        if held_by(bench.evaluation, f"mechanism.{function}") is not None:
            live = {function, f"mechanism.{function}", f"function.{function}"}
            for motor in bench.mule.motors_serving[function]:
                live |= {motor} | (
                    bench.way(bench.mule.controller_of[motor]) if motor in bench.mule.controller_of else set()
                )
            yield bench.step("load", function, live=live, function=function)
