"""Which motors, servos and mechanisms of a mule do the items of a checklist stand for, and what it needs as room?"""

from __future__ import annotations

from collections.abc import Iterator

from mulewright.advice.checklists.power import Said, Subject
from mulewright.advice.room import short_of
from mulewright.advice.spoken import UNKNOWN, listed, read, spoken
from mulewright.design.schema.functions import Arm, Flywheel, Gripper, Lift, Winch
from mulewright.facts.body import RoomFacts
from mulewright.facts.checklist import DressFacts
from mulewright.facts.fail_safe import ReceiverFacts, SocketFacts
from mulewright.facts.graph import Evaluation
from mulewright.facts.nodes import number
from mulewright.facts.regulators import LinearFacts
from mulewright.facts.runaway import RunawayFacts

RAISED, ON_A_ROPE, STOPPED = (Arm, Lift, Winch), (Lift, Winch), (Arm, Lift, Winch, Gripper)


def the_mule(evaluation: Evaluation) -> Iterator[Said]:
    """The mule as a whole, once."""
    yield {}


def question(evaluation: Evaluation) -> Iterator[Said]:
    """What the mule is built to find out."""
    file = evaluation.mule.file
    yield {"question": file.question or UNKNOWN, "accept": file.accept or UNKNOWN}


def drive(evaluation: Evaluation) -> Iterator[Said]:
    """The drive, with its wheels and with what was seen of them."""
    file, wheels = evaluation.mule.file, evaluation.mule.wheels
    if file.drive is not None:
        seen = next((name for name in ("as_left", "as_found") if getattr(file, name).wheels), None)
        signs = getattr(file, seen).wheels.items() if seen else ()
        noted = ", ".join(f"{wheel.replace('_', ' ')} {word}" for wheel, word in signs)
        yield {
            "wheels": listed(wheel.replace("_", " ") for wheel in wheels) if wheels else UNKNOWN,
            "pushes": f"in the file, {seen.replace('_', ' ')}: {noted}" if seen else "",
        }


def of_kinds(*kinds: type) -> Subject:
    """Every mechanism of some kinds."""

    def find(evaluation: Evaluation) -> Iterator[Said]:
        for name, mechanism in evaluation.mule.file.mechanism.items():
            if isinstance(mechanism, kinds):
                yield {"name": name}

    return find


def at_its_ends(*kinds: type, stops: bool) -> Subject:
    """Every mechanism of some kinds that stops at its ends by itself, or that a file says has nothing to stop it."""

    def find(evaluation: Evaluation) -> Iterator[Said]:
        file = evaluation.mule.file
        for said in of_kinds(*kinds)(evaluation):
            if (getattr(file.mechanism[said["name"]], "stop_switch", None) is not False) is stops:
                yield said

    return find


def carried(evaluation: Evaluation) -> Iterator[Said]:
    """Every mechanism that can be raised on a mule that drives."""
    if evaluation.mule.file.drive is not None:
        yield from of_kinds(*RAISED)(evaluation)


def motors(evaluation: Evaluation) -> Iterator[Said]:
    """All motors together, with the parts that get warm."""
    file = evaluation.mule.file
    if file.motor:
        linear = dict.fromkeys(one.regulator.device.split(".", 1)[1] for one in LinearFacts.all(evaluation))
        regulators = [f"the linear BEC of {listed(linear)}"] if linear else []
        yield {"motors": listed(file.motor), "parts": ", ".join(["motors", "controllers", *regulators])}


def servos(evaluation: Evaluation) -> Iterator[Said]:
    """Every servo."""
    for name, servo in evaluation.mule.file.servo.items():
        horn = {True: "in the file: on", False: "in the file: off", None: ""}[servo.horn_on]
        need = f"; it needs {servo.need.text}" if servo.need is not None else ""
        yield {"name": spoken(f"servo.{name}"), "horn": horn, "need": need}


def testers(evaluation: Evaluation) -> Iterator[Said]:
    """Every servo tester in use."""
    for name in evaluation.mule.file.tester:
        yield {"name": spoken(f"tester.{name}")}


def on_testers(evaluation: Evaluation) -> Iterator[Said]:
    """Every controller and servo that hangs on a servo tester."""
    file, signals = evaluation.mule.file, evaluation.mule.signals
    for device in [
        *(f"controller.{name}" for name in file.controller),
        *(f"servo.{name}" for name in file.servo),
    ]:
        source = signals.trace(device).source or ""
        if source.startswith("tester."):
            yield {"tester": spoken(source), "device": spoken(device)}


def flying(evaluation: Evaluation) -> Iterator[Said]:
    """What may fly at somebody, together."""
    for dress in DressFacts.all(evaluation):
        if dress.flying:
            yield {"because": listed(spoken(one) for one in dress.flying)}


def runaway(evaluation: Evaluation) -> Iterator[Said]:
    """How far the drive goes after a lost link, where that has an end."""
    for facts in RunawayFacts.all(evaluation):
        if number(facts.node("runaway")) is not None:
            free = evaluation.entity(RoomFacts, "room").node("free")
            known = f"in the file: {read(free)} free" if free.known else ""
            known = short_of(evaluation) or known
            yield {"way": read(facts.node("runaway")), "free": known}


def no_runaway(evaluation: Evaluation) -> Iterator[Said]:
    """A drive that goes on without end after a lost link, or nobody can tell how far."""
    for facts in RunawayFacts.all(evaluation):
        node = facts.node("runaway")
        if number(node) is None:
            yield {"why": "it goes on without end" if node.known else "it is not known how far it goes"}


def minors(evaluation: Evaluation) -> Iterator[Said]:
    """Every driver who is a minor."""
    for name, driver in evaluation.mule.file.driver.items():
        if driver.minor:
            yield {"name": name}


def out_of_hand(evaluation: Evaluation) -> Iterator[Said]:
    """A mule that is steered through a receiver: what to reach for, and whether the fail-safe is proved."""
    if not SocketFacts.all(evaluation):
        return
    switches = [spoken(f"switch.{name}") for name in evaluation.mule.file.switch]
    packs = [f"the plug of {spoken(f'battery.{name}')}" for name in evaluation.mule.file.battery]
    proved = all(number(receiver.node("tried")) for receiver in ReceiverFacts.all(evaluation))
    yield {
        "disconnect": listed(switches or packs or ["the disconnect"]),
        "radio_off": "only after that" if proved else "is no way to stop it: the fail-safe is not proved",
    }


SUBJECTS: dict[str, Subject] = {
    "mule": the_mule, "question": question, "drive": drive, "raised": of_kinds(*RAISED), "carried": carried,
    "rope": of_kinds(*ON_A_ROPE), "flywheel": of_kinds(Flywheel), "stopped": at_its_ends(*STOPPED, stops=True),
    "unstopped": at_its_ends(*STOPPED, stops=False), "motors": motors,
    "servo": servos, "tester": testers, "on_tester": on_testers, "flying": flying, "runaway": runaway,
    "no_runaway": no_runaway, "minor": minors, "out_of_hand": out_of_hand,
}  # fmt: skip
