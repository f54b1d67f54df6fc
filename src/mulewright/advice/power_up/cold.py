"""What is looked at and metered before anything is connected?"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from mulewright.advice.power_up.bands import Read
from mulewright.advice.power_up.bench import Bench, named, wire_words
from mulewright.advice.power_up.plan import Step
from mulewright.advice.spoken import spoken
from mulewright.design.harness import Conductor
from mulewright.design.mule import Mule
from mulewright.design.schema.electrics import Fuse
from mulewright.design.schema.functions import Arm, Flywheel, Lift, Winch
from mulewright.design.supply import Run
from mulewright.facts.habits import ChargingFacts
from mulewright.facts.wiring import BatteryFacts, FuseFacts, RunFacts
from mulewright.models.arithmetic import product
from mulewright.models.bus import total

CARRIED = ("controller.", "regulator.")


def cold_steps(bench: Bench) -> Iterator[Step]:
    """Every step with the battery out, in their order."""
    yield _props(bench)
    if bench.mule.signals.leads:
        yield _plugs(bench)
    yield from _fuses(bench)
    yield from _packs(bench)
    yield from _joined(bench)
    for source in bench.mule.supply.sources:
        yield _short(bench, source)
    yield from _branches(bench)


def _props(bench: Bench) -> Step:
    return bench.step("props", "all", do=props(bench.mule))


def props(mule: Mule) -> list[str]:
    """What has to be held, propped and guarded, by what is on the mule."""
    found = ["The battery lies beside the machine, its plug capped. Loose metal off the bench."]
    if mule.file.drive is not None:
        found.append("Wheels off the ground: blocks under the frame, so that no wheel touches anything.")
    for name, one in mule.file.mechanism.items():
        if isinstance(one, Arm):
            found.append(f"Prop {name}: it must not fall when its motor lets go. Nothing on it yet.")
        elif isinstance(one, Lift):
            found.append(f"Lower {name} to its lowest point, or put a pin under it. Nothing on it yet.")
        elif isinstance(one, Winch):
            found.append(f"{name}: load on the ground, rope slack, nobody in line with the rope.")
        elif isinstance(one, Flywheel):
            guard = "its guard on" if one.guard else "no guard is noted: fit one before it turns"
            found.append(f"{name}: {guard}; nothing in it to throw, nobody in its plane, eyes protected.")
    horns = [f"servo.{name}" for name, servo in mule.file.servo.items() if servo.rotation != "continuous"]
    if horns:
        found.append(
            f"Horns off {named(horns)}: they may jump when they get power. On in the steps of their own."
        )
    if any(servo.moves for servo in mule.file.servo.values()):
        found.append("Fingers out of what servos close.")
    found.append("Hair, sleeves and lanyards away. Somebody else knows where the disconnect is.")
    return found


def _plugs(bench: Bench) -> Step:
    leads = [one for one in bench.wires if one.kind == "servo lead"]
    red = {True: "red pulled and insulated", False: "red in", None: "red in or pulled: ?"}
    lines = [
        f"{wire_words([one.number])}: {spoken(one.path)} in {socket(one)}, {red[one.red_pulled]}"
        for one in leads
    ]
    lines.append("Each plug: ground on the ground side, on all its pins, in the right row.")
    return bench.step("plugs", "all", do=lines, wires=[one.number for one in leads])


def socket(lead: Conductor) -> str:
    """Where a lead's plug sits, for people."""
    return spoken(f"{lead.end.thing}.{lead.end.name}") if lead.end is not None else "? (write down where)"


def _fuses(bench: Bench) -> Iterator[Step]:
    for item, run in bench.mule.supply.run_through.items():
        if isinstance(bench.mule.things[item], Fuse):
            reading = bench.reading("fuse", item, rating(item), thing=item)
            numbers = bench.numbers(thing=item, kinds=("plus", "minus"))
            yield bench.step(
                "fuse", item, readings=[reading], wires=numbers, live=[item, run.wire], thing=item
            )


def _packs(bench: Bench) -> Iterator[Step]:
    for pack in bench.batteries:
        word = "dry_pack" if ChargingFacts(bench.evaluation, pack).dry else "pack"
        reading = bench.reading(word, pack, rested(pack), full(pack), pack=True, thing=pack)
        yield bench.step("pack", pack, readings=[reading], live=[pack], thing=pack)


def _joined(bench: Bench) -> Iterator[Step]:
    for name, lead in bench.mule.file.y_lead.items():
        if lead.carries == "power":
            id, packs = f"y_lead.{name}", lead.joins or []
            reads = [read(pack) for pack in packs or [f"{id}.joins"] for read in (rested, full)]
            reading = bench.reading("joined", id, *reads, pack=True, thing=id)
            yield bench.step("joined", id, readings=[reading], live=[id, *packs], thing=id)


def rating(fuse: str) -> Read:
    """The figure on a fuse."""
    return lambda on: on.entity(FuseFacts, fuse).rating


def rested(pack: str) -> Read:
    """Volts of a rested pack."""
    return lambda on: on.entity(BatteryFacts, pack).rested


def full(pack: str) -> Read:
    """Volts of a pack straight off the charger."""
    return lambda on: on.entity(BatteryFacts, pack).full


def one_pole(way: Sequence[Run]) -> Read:
    """Resistance of one conductor along some runs. [ohm]."""
    return lambda on: product(0.5, total([on.entity(RunFacts, run.id).resistance for run in way]))


def _short(bench: Bench, source: str) -> Step:
    reading = bench.constant("short", source, "no_short")
    run = bench.mule.supply.runs_from(source)
    through = [item for one in run for item in one.through if item.startswith("switch.")]
    switches = f"{named(through)} on, " if through else ""
    wires = bench.numbers(thing=source, kinds=("plus", "minus"))
    return bench.step("short", source, readings=[reading], live=[source], wires=wires, switches=switches)


def _branches(bench: Bench) -> Iterator[Step]:
    supply = bench.mule.supply
    for source in supply.sources:
        ends = [run.end for run in supply.runs if run.end.startswith(CARRIED)]
        ends = [end for end in ends if supply.source_of(end) == source]
        if ends:
            yield _branches_of(bench, source, ends)


def _branches_of(bench: Bench, source: str, ends: Sequence[str]) -> Step:
    supply = bench.mule.supply
    found, wires, live, switched = [], list[int](), set[str](), False
    for end in ends:
        way = supply.way_to(end)
        numbers = [number for run in way for number in _poles(bench, run.wire, run.end)]
        pluses = wire_words([number for number in numbers if bench.wires[number - 1].kind == "plus"])
        through = pluses or "no wire is known"
        about = f"{spoken(end)} ({through})"
        found.append(bench.reading("plus", end, one_pole(way), about=about, thing=end, wires=through))
        found.append(bench.constant("apart", end, "apart", about=about, thing=end))
        wires += numbers
        live |= bench.way(end)
        switched = switched or any(item.startswith("switch.") for run in way for item in run.through)
    return bench.step(
        "branch", source, readings=found, live=live, wires=wires, thing=source,
        switched=", switch on" if switched else "",
    )  # fmt: skip


def _poles(bench: Bench, wire: str, end: str) -> tuple[int, ...]:
    """Numbers of the wires of one run: those of its table that end on its end, or on what lies in it."""
    pieces = [one for one in bench.wires if one.path == wire and one.kind in ("plus", "minus")]
    through = {
        item for run in bench.mule.supply.runs_of.get(wire, []) if run.end == end for item in run.through
    }
    return tuple(
        one.number
        for one in pieces
        if one.end is not None
        and (one.end.thing == end or one.end.thing in through or one.start.thing in through)
    )
