"""What can be proven today with a servo tester and no radio? Each controller and servo in turn."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from mulewright.advice.power_up.bands import Read
from mulewright.advice.power_up.bench import Bench, named, wire_words
from mulewright.advice.power_up.currents import assumed, standing, volts_of
from mulewright.advice.power_up.first_volts import bus_reading
from mulewright.advice.power_up.functions import free, uncoupled
from mulewright.advice.power_up.plan import Reading, Step
from mulewright.advice.power_up.rails import (
    draws,
    feeders,
    lead_readings,
    rail_reading,
    rails,
    source_on_rail,
)
from mulewright.advice.power_up.risk import controllers_in_order
from mulewright.advice.power_up.servos import live_of, others_aside
from mulewright.advice.spoken import listed, spoken
from mulewright.facts.first_push import TesterPushFacts
from mulewright.facts.graph import Evaluation
from mulewright.facts.motors import MotorFacts
from mulewright.facts.nodes import Missing, Value
from mulewright.facts.servo_travel import ServoTravelFacts, TesterPulseFacts
from mulewright.models.bus import total
from mulewright.models.pulses import servo_angle

NONE = "tester.bench"  # the name under which a tester would be written into the file
KNOB = "Mode knob or centre"


def tester_steps(bench: Bench) -> Iterator[Step]:
    """A step for the tester's supply, and one for each controller and each servo."""
    yield _supply(bench)
    for controller in controllers_in_order(bench.evaluation, bench.functions):
        yield _controller(bench, controller)
    for name in bench.mule.file.servo:
        yield _servo(bench, f"servo.{name}")


def tester_of(bench: Bench, device: str) -> str:
    """The tester on which a device hangs, or else the first of the file."""
    source = bench.mule.signals.trace(device).source or ""
    known = [f"tester.{name}" for name in bench.mule.file.tester]
    return source if source in known else (known or [NONE])[0]


# --- its supply


def _supply(bench: Bench) -> Step:
    testers = [f"tester.{name}" for name in bench.mule.file.tester] or [NONE]
    found, do, live = [], [], set[str]()
    for id in testers:
        table = bench.mule.file.tester.get(id.removeprefix("tester."))
        if table is not None and table.own_supply:
            do.append(f"{spoken(id)} has a supply of its own; its ground must meet that of what hangs on it.")
            continue
        do += _which_rail(bench, id)
        live |= {id}
        rail = next((one for one in rails(bench) if id in draws(bench, one)), None)
        if rail is not None:
            live |= {rail, *draws(bench, rail)}
            found += [reading for one in feeders(bench, rail) for reading in lead_readings(bench, rail, one)]
            found.append(rail_reading(bench, rail, rail, feeders(bench, rail)))
        elif not _feeding(bench):
            needs = table is None
            found.append(
                bench.reading(
                    "rail",
                    id,
                    _missing(id if needs else f"{id}.power"),
                    place=f"a socket of {_called(bench, id)}",
                )
            )
    if bench.mule.file.servo:
        do.append(
            "Servo plugs out while the volts are read: they come in one by one, in the steps that follow."
        )
    do.append("Ground side of every plug on the ground side of the tester: most have no key.")
    return bench.step(
        "tester", "all", do=do, readings=found, live=live, thing=listed(_called(bench, id) for id in testers)
    )


def _known(bench: Bench, tester: str, read: Read) -> Read:
    """What hangs on the tester's pulses; nobody knows those of a tester that the file does not name."""
    return (
        read if tester in bench.mule.things else _missing("a tester in the file, with the ends of its pulses")
    )


def _called(bench: Bench, tester: str) -> str:
    return spoken(tester) if tester in bench.mule.things else "the tester"


def _missing(path: str) -> Read:
    def read(_: Evaluation) -> Value:
        raise Missing(path)

    return read


def _feeding(bench: Bench) -> list[str]:
    """Controllers with a regulator whose red wire is in, so that they feed whatever their plug sits in."""
    return [
        f"controller.{name}"
        for name, one in bench.mule.file.controller.items()
        if one.regulator is not None and one.regulator.kind != "none" and one.red_wire == "in"
    ]


def _which_rail(bench: Bench, id: str) -> list[str]:
    feeding = _feeding(bench)
    lines = [f"The supply of {_called(bench, id)} comes in by the middle wire of its plugs."]
    if feeding:
        lines.append(
            f"The red wire of {listed(map(spoken, feeding), 'or')} is in: "
            "while one of them is on the tester, it feeds it."
        )
    pulled = [
        f"controller.{name}"
        for name, one in bench.mule.file.controller.items()
        if f"controller.{name}" not in feeding
    ]
    if pulled:
        give = "gives" if len(pulled) == 1 else "give"
        lines.append(
            f"{named(pulled)} {give} it nothing: "
            "put a receiver pack or a regulator (4.8 to 6 V) on a second socket."
        )
    if bench.mule.file.servo:
        lines.append(_servo_supply(bench))
    return lines


def _servo_supply(bench: Bench) -> str:
    """Which supply the servos need on the tester."""
    tables = bench.mule.file.servo.values()
    most = [one.max_voltage.value for one in tables if one.max_voltage is not None]
    bears = (
        f"never more than {min(most):.2g} V" if most else "look at their sheets for the most that they bear"
    )
    fast = [one.stall_current.value for one in tables if one.stall_current is not None]
    amps = f", and {max(fast):.2g} A for one that is held fast" if fast else ""
    return f"Servos give the tester nothing: they and it need a pack or a regulator; {bears}{amps}."


# --- controllers


def knob(motor: str, tester: str, name: str) -> Read:
    """A fact about a motor with the tester's knob at its end."""
    return lambda on: getattr(on.entity(TesterPushFacts, f"{motor}@{tester}"), name)


def _controller(bench: Bench, thing: str) -> Step:
    tester, motors = tester_of(bench, thing), bench.mule.motors_of(thing)
    served = dict.fromkeys(bench.mule.function_of(motor) or "" for motor in motors)
    lead = wire_words([one.number for one in bench.wires if one.kind == "servo lead" and one.path == thing])
    do = [
        f"Power off. Only {spoken(thing)} has power ({wire_words(bench.power_wires(thing)) or 'its power leads'}). "
        f"Its plug {f'({lead}) ' if lead else ''}out of where it sits, into the tester; no receiver on the same lead.",
        f"{KNOB}, knob in the middle before power comes on. Never sweep with a motor: it is thrown to and fro.",
        "Power on. Nothing moves. Then the knob a little, back, a little the other way: write down which way it turns, "
        "and at how many microseconds it begins to (its dead band), where the tester shows them.",
        *(line for one in served for line in uncoupled(bench, one)),
        "Then slowly to its end; a tester goes as far as it goes, whatever the radio's endpoints will be.",
    ]
    at_rest = bench.reading("standing", thing, lambda on: standing(on, [thing]))
    found: list[Reading] = [bus_reading(bench, thing), at_rest]
    parts = [("standing", at_rest.band)]
    if thing in _feeding(bench):
        found.append(
            bench.reading(
                "rail", thing, source_on_rail(thing), place=f"a free socket of {_called(bench, tester)}"
            )
        )
    if motors:
        found.append(bench.constant("still", thing, "still", thing=thing))
    for motor in motors:
        found.append(
            bench.reading(
                "knob", motor, _known(bench, tester, knob(motor, tester, "knob_volts")), motors=motor
            )
        )
        found.append(bench.reading("free", motor, free(motor), motors=motor))
    if motors:
        draw = bench.reading("knob_draw", thing, _known(bench, tester, _draw(thing, motors, tester)))
        found.append(draw)
        parts += [
            ("running free", bench.bands.of("supply", _free(motors))),
            ("its start", bench.bands.of("supply", _start(motors))),
        ]
    live = {one for one in bench.way(thing) if not one.startswith("rail.")} | {*motors}
    return bench.step(
        "tested", thing, do=do, readings=found, live=live,
        wires=[*bench.power_wires(thing), *bench.numbers(thing=thing, kinds=("motor",))],
        limit=bench.limit(bench.mule.supply.source_of(thing), parts), thing=thing,
    )  # fmt: skip


def _draw(thing: str, motors: Sequence[str], tester: str) -> Read:
    def read(on: Evaluation) -> Value:
        running = [on.entity(TesterPushFacts, f"{motor}@{tester}").knob_draw for motor in motors]
        return standing(on, [thing]) + total(running)

    return read


def _free(motors: Sequence[str]) -> Read:
    """What the supply gives at most while they run freely: all of their free current."""
    return lambda on: total([on.entity(MotorFacts, motor).free_current for motor in motors])


def _start(motors: Sequence[str]) -> Read:
    """What the supply gives while the motors start with the knob turned a quarter: duty times duty times stall."""

    def read(on: Evaluation) -> Value:
        found = []
        for motor in motors:
            own = on.entity(TesterPushFacts, f"{motor}@{NONE}").motor
            source = on.mule.supply.source_of(own.controller.id)
            if source is None:
                raise Missing(f"a wire from a battery to {own.controller.id}")
            share = assumed(on, "first_stick")
            found.append(share * share * volts_of(on, source).rested / own.resistance)
        return total(found)

    return read


# --- servos


def tester_swing(servo: str, tester: str) -> Read:
    """Angle between the ends of the tester's knob."""

    def read(on: Evaluation) -> Value:
        own, source = on.entity(ServoTravelFacts, servo), on.entity(TesterPulseFacts, tester)
        return servo_angle(own.gain, source.high, source.low)

    return read


def _servo(bench: Bench, servo: str) -> Step:
    tester = tester_of(bench, servo)
    lead = wire_words([one.number for one in bench.wires if one.kind == "servo lead" and one.path == servo])
    do = [
        f"Horn off. Only {spoken(servo)} on the tester{f' ({lead})' if lead else ''}.",
        f"{KNOB}, in the middle before power comes on.",
        "The knob slowly to either end: it follows, does not buzz, comes back. Stop where it meets its own stop.",
        "Horn on in its middle. Again, slowly, only as far as its linkage lets it. Sweep only with the horn off.",
    ]
    do = [*others_aside(bench, servo), *do]
    found = [bench.reading("swing", servo, _known(bench, tester, tester_swing(servo, tester)), thing=servo)]
    function = bench.mule.function_of(servo) or ""
    live = {f"mechanism.{function}", tester, *live_of(bench, servo)}
    return bench.step("tested_servo", servo, do=do, readings=found, live=live, thing=servo)
