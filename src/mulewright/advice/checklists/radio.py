"""Which transmitters, receivers, controls and functions of a mule do the items of a checklist stand for?"""

from __future__ import annotations

from collections.abc import Iterator

from mulewright.advice.checklists.power import Said, Subject
from mulewright.advice.lost_link import LostOutput, lost_link
from mulewright.advice.same_lead import on_the_same_lead
from mulewright.advice.spoken import UNKNOWN, listed, read, spoken
from mulewright.advice.start_list import start_list
from mulewright.design.pushes import code
from mulewright.design.schema.radio import Control, Radio, Receiver
from mulewright.design.signals import RECEIVERS
from mulewright.facts.boxes import RADIO_OF
from mulewright.facts.controls import ControlFacts, RadioFacts, RateFacts
from mulewright.facts.graph import Evaluation
from mulewright.facts.slow_mode import FunctionModeFacts


def radios(evaluation: Evaluation) -> Iterator[Said]:
    """Every transmitter."""
    for facts in RadioFacts.all(evaluation):
        radio = facts.table
        assert isinstance(radio, Radio)
        day = radio.battery_checked
        yield {
            "radio": _transmitter(facts.id),
            "memory": radio.planned_memory or radio.memory or UNKNOWN,
            "checked": f"in the file: looked at on {day}" if day is not None else "",
            "noted": "in the file: filled in" if radio.settings_noted else "",
        }


def _transmitter(radio: str) -> str:
    return "second transmitter" if radio.startswith("second") else "transmitter"


def receivers(evaluation: Evaluation) -> Iterator[Said]:
    """Every receiver."""
    for name in RECEIVERS:
        receiver = evaluation.mule.things.get(name)
        if isinstance(receiver, Receiver):
            clear = receiver.antenna_clear
            yield {
                "name": spoken(name),
                "light": receiver.light or UNKNOWN,
                "clear": f"{clear.text} in the file" if clear is not None else UNKNOWN,
            }


def starts(evaluation: Evaluation) -> Iterator[Said]:
    """Every transmitter with the places of its controls at switch-on."""
    places = start_list(evaluation)
    for facts in RadioFacts.all(evaluation):
        own = [one for one in places if one.control.startswith(f"{facts.id}.")]
        if own:
            unknown = [one.name for one in own if one.place is None]
            yield {
                "radio": _transmitter(facts.id),
                "places": "; ".join(f"{one.name} {one.place or UNKNOWN}" for one in own),
                "not_noted": f"not in the file: {listed(unknown)}" if unknown else "",
            }


# --- functions, one at a time


def _along(evaluation: Evaluation, function: str) -> str:
    """What moves with a servo because it hangs on the same lead."""
    servo = f"servo.{function}"
    others = on_the_same_lead(evaluation.mule, servo) if servo in evaluation.mule.things else []
    return f"; on the same lead with it {listed(map(spoken, others))}" if others else ""


def functions(evaluation: Evaluation) -> Iterator[Said]:
    """Every control with each of its functions: what a small push of it should do."""
    for facts in ControlFacts.all(evaluation):
        on_second = " of the second transmitter" if facts.id.startswith("second") else ""
        for function in facts.functions:
            yield {
                "control": facts.name + on_second,
                "push": _push(facts.control),
                "does": _does(evaluation, function, facts.control),
                "function": function,
                "along": _along(evaluation, function),
            }


def _push(control: Control) -> str:
    if control.kind == "stick":
        return "a little to the right" if control.axis == "horizontal" else "a little up"
    if control.kind == "switch":
        return "through its positions"
    return "a little up" if control.kind == "slider" else "a little to the right"


def _does(evaluation: Evaluation, function: str, control: Control) -> str:
    mule = evaluation.mule
    if function in mule.drive_commands:
        return _wheels(evaluation, function)
    table = mule.things.get(mule.functions.get(function, ""))
    way = control.pushes_to or getattr(table, "positive", None) or getattr(table, "habit", None)
    return way or UNKNOWN


def _wheels(evaluation: Evaluation, function: str) -> str:
    place = evaluation.mule.drive_commands.index(function)
    signs = {name.replace("_", " "): word[place] for name, word in code(evaluation.mule).items()}
    ways = {1: "ahead", -1: "back"}
    said = []
    for sign, way in ways.items():
        turning = [name for name, own in signs.items() if own == sign]
        if turning:
            every = len(turning) == len(signs)
            said.append(f"{'every wheel' if every else listed(turning)} {way}")
    return ", ".join(said)


def outputs(evaluation: Evaluation) -> Iterator[Said]:
    """Every function that is steered through a receiver: what it does when its transmitter is off."""
    groups: dict[tuple[str, str], list[LostOutput]] = {}
    for output in lost_link(evaluation):
        receiver = output.sockets[0].id.split(".", 1)[0]
        groups.setdefault((receiver, output.function.split(" (")[0]), []).append(output)
    for (receiver, function), found in groups.items():
        happens = list(dict.fromkeys(output.happens for output in found))
        tested = found[0].tested
        yield {
            "radio": _transmitter(RADIO_OF[receiver]).capitalize(),
            "functions": f"the {function}" if function == "drive" else function,
            "happens": listed(happens),
            "tested": f"in the file: {'never tried' if tested == 'never' else f'tried {tested}'}",
        }


def rates(evaluation: Evaluation) -> Iterator[Said]:
    """Every rate switch: what it slows, and what it does not."""
    for rate in RateFacts.all(evaluation):
        name = rate.id.split(".", 1)[0]
        radio = getattr(evaluation.mule.file, name)
        if radio.rate.switch is None and radio.rate.slow is None:
            continue
        modes = [
            one
            for one in FunctionModeFacts.all(evaluation)
            if one.controls[0].radio.id == rate.id.split(".", 1)[0]
        ]
        known = {mode.name: mode.node("slowed") for mode in modes}
        slowed = [name for name, node in known.items() if node.known and float(node.value)]
        missed = [name for name, node in known.items() if node.known and not float(node.value)]
        verb = "are" if len(slowed) > 1 or not slowed else "is"
        yield {
            "switch": radio.rate.switch or "the rate switch",
            "slow": read(rate.node("slow"), as_percent=True),
            "slowed": f"{listed(slowed)} {verb}" if slowed else "nothing is",
            "missed": f"; {listed(missed)} at full speed as before" if missed else "",
        }


SUBJECTS: dict[str, Subject] = {
    "radio": radios, "receiver": receivers, "start": starts, "function": functions, "output": outputs, "rate": rates,
}  # fmt: skip
