"""How is each function tried with a small stick: which way, with which volts and amps, one at a time?"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence

from mulewright.advice.power_up.at_rest import everything, limit_with
from mulewright.advice.power_up.bands import Read
from mulewright.advice.power_up.bench import Bench, named
from mulewright.advice.power_up.currents import free_running, standing, starting
from mulewright.advice.power_up.plan import Band, Reading, Step, around
from mulewright.advice.spoken import listed
from mulewright.design.characters import control_kind
from mulewright.design.schema.functions import Flywheel
from mulewright.facts.directions import WheelMotorFacts
from mulewright.facts.first_push import FirstPushFacts
from mulewright.facts.graph import Evaluation
from mulewright.facts.loads import held_by
from mulewright.facts.motors import MotorFacts
from mulewright.facts.nodes import UNKNOWN, Value, average
from mulewright.facts.outputs import OutputFacts
from mulewright.shelf.power_up import readings as reading_words
from mulewright.shelf.tables import default
from mulewright.units.shown import percent

DRIVE = "drive"
AHEAD = {1: "ahead", -1: "backwards"}


def function_steps(bench: Bench) -> Iterator[Step]:
    """A step for each command that motors follow, the least risk first."""
    for function in bench.functions:
        if function == DRIVE:
            for command in bench.mule.drive_commands:
                yield _step(bench, function, command, _own_motors(bench, command))
        elif bench.mule.controls_for(function):
            yield _step(bench, function, function, bench.mule.motors_serving[function])


def small_stick(bench: Bench, motors: Sequence[str]) -> str:
    """How far a stick is pushed for the first time, for people."""
    sticks = [_known(bench, fact_of(bench.evaluation, motor, "first_stick")) for motor in motors]
    known = [one for one in sticks if one is not None]
    return percent(max(known, default=default("first_stick").value), 2)


def driven_by(bench: Bench, motor: str) -> set[str]:
    """What a motor's current and its signal come through."""
    controller = bench.mule.controller_of.get(motor)
    if controller is None:
        return set()
    trace = bench.mule.signals.trace(controller)
    boxes = [box for term in bench.evaluation.entity(OutputFacts, controller).terms for box in term.boxes]
    return {*bench.way(controller), *trace.hops, *boxes}


def fact_of(evaluation: Evaluation, motor: str, name: str) -> Callable[[], Value]:
    """A fact about a motor at its first push, to be asked for later."""
    return lambda: volts(motor, name)(evaluation)


def _own_motors(bench: Bench, command: str) -> list[str]:
    """The motors whose own command it is: with forward, all wheels of a mixed drive."""
    found = []
    for motor in bench.mule.motors_serving.get(DRIVE, []):
        controller = bench.mule.controller_of.get(motor)
        if controller is None:
            continue
        output = bench.evaluation.entity(OutputFacts, controller)
        if output.terms and command in output.main[0].control.functions:
            found.append(motor)
    return found


def _step(bench: Bench, function: str, command: str, motors: Sequence[str]) -> Step:
    mule = bench.mule
    controls = mule.controls_for(command)
    control = listed(map(bench.control, controls)) if controls else "?"
    kind = control_kind(mule, controls[0]) if controls else None
    source = source_of_all(bench, motors)
    more = [(f"{command} running free", free_draw(motors)), ("its start", start_draw(motors))]
    on_supply = bench.mode == "bench supply"
    return bench.step(
        "function",
        command,
        do=[
            *uncoupled(bench, function),
            *_push(
                kind,
                control,
                command,
                small_stick(bench, motors),
                on_supply=on_supply,
                one_way=_one_way(bench, function),
            ),
            *_ways(bench, function, command),
            *_mind_volts(bench, motors),
        ],
        readings=readings_of(bench, command, motors, small=kind != "switch"),
        live=moved_by(bench, function, command),
        limit=limit_with(bench, source, more) if motors else None,
        wires=[number for motor in motors for number in bench.numbers(thing=motor, kinds=("motor",))],
        function=command,
        control=control,
    )


def moved_by(bench: Bench, function: str, command: str) -> set[str]:
    """What a command moves, and all through which its current and its signal come."""
    live = {command, f"function.{command}", f"mechanism.{function}", *bench.mule.controls_for(command)}
    live |= {DRIVE} if function == DRIVE else set()
    for motor in bench.mule.motors_serving.get(function, []):
        live |= {motor, *driven_by(bench, motor)}
    return live


def source_of_all(bench: Bench, motors: Sequence[str]) -> str | None:
    """What feeds some motors: the first source that is known."""
    mule = bench.mule
    fed = [mule.supply.source_of(mule.controller_of[one]) for one in motors if one in mule.controller_of]
    return next((one for one in fed if one is not None), None)


def uncoupled(bench: Bench, function: str) -> list[str]:
    """What has ends to its way is not run at full stick."""
    if held_by(bench.evaluation, f"mechanism.{function}") is None:
        return []
    return [
        f"Uncouple {function} from its motor for full stick (chain, pin or rope off): its way has ends. "
        "Where that cannot be, leave full stick and its readings out."
    ]


def free_draw(motors: Sequence[str]) -> Read:
    """What the supply gives while some motors run freely."""
    return lambda on: free_running(on, motors)


def start_draw(motors: Sequence[str]) -> Read:
    """What the supply gives while some motors start."""
    return lambda on: starting(on, motors)


def _one_way(bench: Bench, function: str) -> bool:
    """Whether it is run one way only: a flywheel, or what only hangs on controllers that know no other."""
    if isinstance(bench.mule.file.mechanism.get(function), Flywheel):
        return True
    fed = [bench.mule.controller_of.get(motor, "") for motor in bench.mule.motors_serving.get(function, [])]
    tables = [bench.mule.things.get(one) for one in fed]
    return bool(tables) and all(getattr(one, "direction", None) == "one-way" for one in tables)


def _push(
    kind: str | None, control: str, command: str, stick: str, *, on_supply: bool, one_way: bool
) -> list[str]:
    if kind == "switch":
        return [
            f"Flick {control} on for a second and off again: a switch has no small stick. "
            "If the radio can, lower the endpoint of its channel to a third for this first time.",
            "Where that went well: on as long as the readings take, with its whole endpoint, and off again.",
        ]
    if kind in ("knob", "slider"):
        return [f"Turn {control} slowly from its neutral to {stick} of its way, and back."]
    gently = " Back slowly, too: a bench supply takes no braking current." if on_supply else ""
    after = "wait until it stands; one way only" if one_way else "then the other way"
    return [
        f"Push {control} to {stick} of its way for {command}, let go, {after}. "
        "Then slowly to full stick: pushed at once, it asks for its whole starting current."
        f"{gently}"
    ]


def _ways(bench: Bench, function: str, command: str) -> list[str]:
    """Which way things should go, and where the file says that they will not."""
    if function != DRIVE:
        return _mechanism_ways(bench, function)
    wheels = [bench.evaluation.entity(WheelMotorFacts, motor) for motor in bench.mule.motors_serving[DRIVE]]
    said = [f"{one.wheel} {AHEAD[sign]}" for one in wheels if (sign := one.word.get(command))]
    others = " Every other wheel stands still." if len(said) < len(wheels) else ""
    lines = [f"Expected: {', '.join(said)}.{others}" if said else "Expected: no wheel moves."]
    wrong = [one.wheel for one in wheels if _known(bench, follows(one)) == -1]
    if wrong:
        lines.append(
            f"As the file stands, {listed(wrong)} will not do so. Write down what you see, change nothing yet."
        )
    return lines


def follows(wheel: WheelMotorFacts) -> Callable[[], Value]:
    """Whether a wheel follows every command the right way."""
    return lambda: wheel.all_in_all


def _mechanism_ways(bench: Bench, function: str) -> list[str]:
    mule = bench.mule
    pushes = [getattr(mule.table(one), "pushes_to", None) for one in mule.controls_for(function)]
    way = next((word for word in pushes if word), None) or getattr(
        mule.things.get(mule.functions[function]), "habit", None
    )
    says = (
        f"Expected for a push up or right: {way}."
        if way
        else "Write down which way it goes for a push up or right."
    )
    return [f"{says} Nothing else moves."]


def _mind_volts(bench: Bench, motors: Sequence[str]) -> list[str]:
    """How to judge volts at another supply."""
    if not motors:
        return []
    duty = _known(bench, lambda: bench.evaluation.entity(MotorFacts, motors[0]).duty)
    if duty is None:
        return []
    return [f"At other supply volts expect {percent(duty, 2)} of them at full stick."]


def _known(bench: Bench, read: Callable[[], Value]) -> float | None:
    value = UNKNOWN
    with bench.evaluation.watch() as seen:
        value = read()
    return None if seen.gaps else average(value)


def volts(motor: str, name: str) -> Read:
    """A fact about a motor at its first push."""
    return lambda on: getattr(on.entity(FirstPushFacts, motor), name)


def free(motor: str) -> Read:
    """Its free current."""
    return lambda on: on.entity(MotorFacts, motor).free_current


def readings_of(bench: Bench, command: str, motors: Sequence[str], *, small: bool) -> list[Reading]:
    """The readings of a function; motors whose bands are alike share one."""
    if not motors:
        return []
    found = [
        *(grouped(bench, "small", command, motors, "small_volts") if small else []),
        *grouped(bench, "full", command, motors, "full_volts"),
        *_free(bench, command, motors),
    ]

    source = source_of_all(bench, motors)

    def draw(on: Evaluation) -> Value:
        return standing(on, everything(bench, source)) + free_running(on, motors)

    return [*found, bench.reading("draw", command, draw)]


def grouped(bench: Bench, word: str, key: str, motors: Sequence[str], name: str) -> list[Reading]:
    """One reading for all motors whose bands are alike."""
    return _alike(bench, word, key, motors, [volts(motor, name) for motor in motors])


def _free(bench: Bench, key: str, motors: Sequence[str]) -> list[Reading]:
    return _alike(bench, "free", key, motors, [free(motor) for motor in motors])


def _alike(bench: Bench, word: str, key: str, motors: Sequence[str], reads: Sequence[Read]) -> list[Reading]:
    meter = reading_words()[word].meter
    groups: dict[object, list[tuple[str, Band]]] = {}
    for motor, read in zip(motors, reads, strict=True):
        band = bench.bands.of(meter, read)
        like = None if band.nominal is None else float(f"{band.nominal:.3g}")
        groups.setdefault((like, band.needs), []).append((motor, band))
    found = []
    for group in groups.values():
        motors_alike = [motor for motor, _ in group]
        several = f"{'each of ' if len(group) > 1 else ''}{named(motors_alike)}"
        band = around([band for _, band in group])
        stick = small_stick(bench, motors_alike)
        found.append(bench.said(word, f"{key}:{motors_alike[0]}", band, motors=several, stick=stick))
    return found
