"""What happens when the transmitter goes off? Function by function, wheels up."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from mulewright.advice.power_up.bands import Read
from mulewright.advice.power_up.bench import Bench
from mulewright.advice.power_up.plan import Step
from mulewright.advice.power_up.servos import live_of
from mulewright.advice.spoken import listed, spoken
from mulewright.design.schema.lost_link import HOLD, NEUTRAL, SILENT
from mulewright.design.signals import RECEIVERS
from mulewright.facts.fail_safe import LostLinkFacts, ReceiverFacts, SocketFacts, sources
from mulewright.facts.graph import Evaluation
from mulewright.facts.nodes import Missing, Value
from mulewright.models.arithmetic import largest
from mulewright.shelf.power_up import readings


def lost_link_steps(bench: Bench) -> Iterator[Step]:
    """A step for each function whose motors hang on a receiver."""
    steered = {one.id: one for one in LostLinkFacts.all(bench.evaluation)}
    mule = bench.mule
    for function in bench.functions:
        fed = dict.fromkeys(mule.controller_of.get(motor, "") for motor in mule.motors_serving[function])
        links = [steered[one] for one in fed if one in steered]
        if links:
            yield _step(bench, function, links)
    for receiver in RECEIVERS:
        steered_servos = [
            (f"servo.{name}", socket)
            for name in mule.file.servo
            for socket in sources(mule, f"servo.{name}")
            if socket.startswith(f"{receiver}.") and getattr(mule.file, receiver) is not None
        ]
        if steered_servos:
            yield _servos(bench, receiver, steered_servos)


def _servos(bench: Bench, receiver: str, steered: list[tuple[str, str]]) -> Step:
    """A step for all servos of a receiver together: they do no harm by running on, but by jumping."""
    radio = "Second transmitter" if receiver.startswith("second") else "Transmitter"
    do = [
        "Hands out. Each of them off its middle with its control; transmitter off; watch for 5 s; "
        "controls to rest, then transmitter on again."
    ]
    do += [f"{_then(bench, servo, socket)}." for servo, socket in steered]
    live = {one for servo, _ in steered for one in live_of(bench, servo)}
    return bench.step("lost_servos", receiver, do=do, live=live, radio=radio, thing=receiver)


def _then(bench: Bench, servo: str, socket: str) -> str:
    """What a servo does by the file when the link is lost."""
    does = {NEUTRAL: "goes to neutral", HOLD: "stays where it is", SILENT: "gets no pulses and goes limp"}
    setting = ""
    with bench.evaluation.watch() as seen:
        setting = bench.evaluation.entity(SocketFacts, socket).setting
    says = f"needs {listed(sorted(seen.gaps))}" if seen.gaps else does.get(setting, f"goes to {setting}")
    return f"{spoken(servo)} on {spoken(socket)}, by the file: {says}"


def notice(links: list[str]) -> Read:
    """Time until the receivers of some controllers take the link for lost."""

    def read(on: Evaluation) -> Value:
        found = [on.entity(LostLinkFacts, one) for one in links]
        names = dict.fromkeys(socket.id.split(".", 1)[0] for one in found for socket in one.sockets)
        if not names:
            raise Missing("a receiver that steers it")
        return largest([on.entity(ReceiverFacts, name).fail_safe_delay for name in names])

    return read


def _step(bench: Bench, function: str, links: list[LostLinkFacts]) -> Step:
    ids = [one.id for one in links]
    noticed = bench.bands.of(readings()["lost"].meter, notice(ids))
    band = replace(noticed, low=None)
    keeps_on = any(_keeps_on(bench, one) for one in links)
    if keeps_on:
        band = replace(noticed, low=noticed.high, high=None, nominal=None)
    live = {function, f"function.{function}", f"mechanism.{function}"}
    for one in links:
        live |= bench.way(one.id)
    do = [
        "As in step 1: nothing touches, nothing is loaded.",
        "Small stick, so that it runs; transmitter off; watch; stick to rest, then transmitter on again.",
    ]
    do += list(dict.fromkeys(line for one in links for line in _expected(bench, one)))
    return bench.step(
        "lost", function, do=do,
        readings=[bench.said("lost_on" if keeps_on else "lost", function, band, thing=function)],
        live=live, function=function,
    )  # fmt: skip


def _keeps_on(bench: Bench, link: LostLinkFacts) -> bool:
    """Whether it goes on for certain, by the file."""
    on = 0.0
    with bench.evaluation.watch() as seen:
        on = float(link.runs_on)
    return not seen.gaps and on > 0.5


def _with_spoken_sockets(link: LostLinkFacts) -> str:
    """What its sockets do, called as people call them."""
    reaction = link.reaction
    for socket in sorted(link.known_sockets, key=len, reverse=True):
        reaction = reaction.replace(f"{socket} ", f"{spoken(socket)} ")
    return reaction


def _expected(bench: Bench, link: LostLinkFacts) -> list[str]:
    """What the file says that it will do."""
    reaction, runs_on = "", 0.0
    with bench.evaluation.watch() as seen:
        reaction = _with_spoken_sockets(link)
        runs_on = float(link.runs_on)
    if seen.gaps:
        return [
            f"By the file nobody knows what it does: needs {listed(sorted(seen.gaps))}. Write down what you see."
        ]
    if runs_on > 0.5:
        return [
            f"By the file it runs on ({reaction}): a hand at the disconnect, and pull it then.",
            *_presets(link),
        ]
    return [f"By the file: {reaction}."]


def _presets(link: LostLinkFacts) -> list[str]:
    """Where a preset can be stored first, and where it cannot."""
    can = [spoken(socket.id) for socket in link.sockets if socket.presettable]
    cannot = [spoken(socket.id) for socket in link.sockets if not socket.presettable]
    lines = (
        [f"Store neutral first for {listed(can)}: then it lets go, and that is what is seen."] if can else []
    )
    if cannot:
        lines.append(
            f"No preset can be stored for {listed(cannot)}: first move the plug to a socket that takes one."
        )
    return lines
