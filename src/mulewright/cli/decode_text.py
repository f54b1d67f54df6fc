"""How does a decode read at the bench: the questions, the state of the wiring, and what to do in which order?"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, TextIO

from rich.console import Console

from mulewright.cli.console import console, labelled, paragraph, print_table
from mulewright.decode.asking import Question
from mulewright.decode.typed import SIGNS, short
from mulewright.decode.words import listed, spoken
from mulewright.tasks.decoded import Decoded
from mulewright.tasks.decoding import Decoding

HOW = (
    "Wheels up on blocks, transmitter on first. Push one control at a time, all others at rest.",
    "Answer + (turns forward), - (turns backward), 0 (stands still), ? (not seen) or back.",
)
BACK = ("back", "b")
ENDS = ("stop", "quit", "q")
WAYS = {"forward": "forward", "strafe": "strafe to the right", "turn": "turn to the right"}
PLAIN = {"left": "the left stick forward", "right": "the right stick forward"}


def ask_all(found: Decoding, answers: TextIO, out: TextIO) -> None:
    """Ask one question at a time until the wiring is settled, or the answers end."""
    for line in HOW:
        out.write(f"{line}\n")
    asking = found.asking
    try:
        while (question := asking.question()) is not None:
            out.write(_question(found, question))
            out.flush()
            line = answers.readline()
            word = line.strip().casefold()
            if not line or word in ENDS:
                break
            if word in BACK:
                asking.back()
            elif word in SIGNS:
                asking.answer(question, SIGNS[word])
            else:
                out.write("  + - 0 ? or back\n")
    except KeyboardInterrupt:
        pass
    out.write("\n\n" if asking.question() is not None else "\n")


def _question(found: Decoding, question: Question) -> str:
    command, wheel = found.code.commands[question.command], found.code.wheels[question.wheel]
    way = (PLAIN if "forward" not in found.code.commands else WAYS).get(command, command)
    head = "That fits nothing. Once more: push" if question.again else "Push"
    return f"{head} {way}. {spoken(wheel)}? "


def print_decoded(found: Decoded) -> None:
    """Print an answer."""
    out, answer = console(), found.as_dict()
    mixed = "nothing mixes" if answer["mixing"] == "controllers" else f"mixed in the {answer['mixing']}"
    paragraph(out, f"{answer['mule']}: pushes {answer['source']}, {mixed}", style="bold")
    _print_wheels(out, answer)
    for fault in answer["faults"]:
        _print_fault(out, fault)
    if answer["next_push"] is not None:
        _print_next(out, answer["next_push"])
    elif answer["state"] is None and not answer["faults"]:
        text = f"{answer['candidates']} states are left, and no look at these wheels tells them apart."
        paragraph(out, text, 2)
    if answer["state"] is not None:
        _print_state(out, answer)


def _print_wheels(out: Console, answer: dict[str, Any]) -> None:
    state = answer["state"]
    rows = []
    for wheel, seen in answer["observed"].items():
        row = [spoken(wheel), seen, answer["wanted"][wheel]]
        if state is not None:
            part = state["wheels"][wheel]
            backwards = ", backwards" if part["reversed"] else ""
            row.append(f"{spoken(part['gets_signal_of'])}{backwards}")
        rows.append(row)
    headings = ["wheel", "seen", "wanted", "gets the signal of"][: 4 if state is not None else 3]
    print_table(out, headings, rows)
    paragraph(out, f"Signs: {', '.join(answer['commands'])}.", 2)


def _print_fault(out: Console, fault: dict[str, Any]) -> None:
    labelled(out, "What", fault["says"])
    labelled(out, "Do", fault["do"])


def _print_next(out: Console, look: dict[str, Any]) -> None:
    wheels = listed([spoken(wheel) for wheel in look["look_at"]])
    left = "which settles it" if look["leaves"] == 1 else f"which leaves {look['leaves']} at most"
    paragraph(out, f"{look['candidates']} states fit so far.", 2)
    labelled(out, "Do", f"Push {WAYS.get(look['push'], look['push'])} and look at {wheels}, {left}.")


def _print_state(out: Console, answer: dict[str, Any]) -> None:
    cheapest, cleanest = answer["cheapest"], answer["cleanest"]
    if not cheapest["actions"]:
        if not answer["faults"]:
            paragraph(out, "Every wheel does what it should.", 2)
        return
    count, fitting = answer["explanations"], answer["explanations_that_fit"]
    paragraph(
        out,
        f"{count} wirings look the same from here; {fitting} of them fit what is known beside the pushes. "
        "The likeliest stands above.",
        2,
    )
    if not answer["flags_noted"]:
        paragraph(
            out, "The reverse flags of the radio are not all noted: they are taken as off. Look there.", 2
        )
    same = cheapest["actions"] == cleanest["actions"]
    _print_fix(out, "Cheapest and cleanest fix" if same else "Cheapest fix", cheapest, answer["mixing"])
    if not same:
        _print_fix(out, "Cleanest fix, every label true and every lead straight", cleanest, answer["mixing"])


def _print_fix(out: Console, title: str, fix: dict[str, Any], mixing: str) -> None:
    out.print()
    paragraph(out, f"{title} (cost {fix['cost']:g})", style="bold")
    for number, action in enumerate(fix["actions"], 1):
        labelled(out, f"{number}", _todo(action, mixing))
        again = "Push again: e" if action["push_again"] else "E"
        labelled(out, "", f"{again}xpect {_signs(action['expect'])}.")
    if len(fix["actions"]) > 1:
        paragraph(out, "Stop as soon as every push is right.", 2)
    if any(action["push_again"] for action in fix["actions"]):
        text = "If you see something else, leave the plugs there and decode that with --moved."
        paragraph(out, text, 2)


def _lead(plug: str) -> str:
    kind, _, name = plug.partition(".")
    return f"{'Y-lead' if kind == 'y_lead' else kind} {spoken(name)}"


def _signs(words: Mapping[str, str]) -> str:
    return "  ".join(f"{short(wheel)} {signs}" for wheel, signs in words.items())


def _todo(action: dict[str, Any], mixing: str) -> str:
    match action["kind"]:
        case "mix-once":
            return "Let one mix act, and one only."
        case "swap-plugs":
            both = zip(action["plugs"], action["wheels"], strict=True)
            names = [spoken(wheels[0]) if len(wheels) == 1 else _lead(plug) for plug, wheels in both]
            return f"Exchange the signal plugs of {listed(names)}."
        case "swap-inputs":
            how = "move their plugs at the box" if mixing == "box" else "assign them anew in the radio"
            return f"Exchange {listed(action['inputs'])}: {how}."
        case "reverse-control" if action["channel"] is None:
            return f"Turn the sign of the weight of {action['control']} in the radio's mix."
        case "reverse-control":
            return f"Reverse the channel of {action['control']}, channel {action['channel']}."
        case "reverse-channel":
            number = f" (channel {action['channel']})" if action["channel"] is not None else ""
            wheels = listed([spoken(wheel) for wheel in action["wheels"]])
            return f"Reverse the channel in which the plug of {wheels} sits{number}."
        case _:
            return f"Swap the two motor leads of {spoken(action['wheel'])}."
