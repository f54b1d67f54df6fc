"""How does the search for a cause read at the bench? The causes, and one question at a time."""

from __future__ import annotations

from collections.abc import Callable

from rich.console import Console

from mulewright.cli.console import console, labelled, paragraph
from mulewright.errors import MulewrightError
from mulewright.shelf.symptoms import BenchTest
from mulewright.tasks.asking import Inquiry, tells
from mulewright.units.shown import percent

MOST = 4  # causes that are shown in full
BEFORE = "Before every test: wheels up, what is raised propped, hands out."
PROMPT = "y, n, ? or back (Enter ends): "


def print_inquiry(inquiry: Inquiry) -> None:
    """Print what it may come from after the answers so far, and the next test."""
    out = console()
    _print_head(out, inquiry)
    for step in inquiry.diagnosis.trail:
        labelled(out, step.reply.value, f"{step.test.do} Leads: {step.leads.cause.text}.", 0)
    _print_causes(out, inquiry)
    test = inquiry.diagnosis.next_test
    out.print()
    if test is not None:
        _print_test(out, inquiry, test)
    else:
        paragraph(out, _ending(inquiry))


def converse(inquiry: Inquiry, ask: Callable[[str], str] = input) -> Inquiry:
    """Ask one question at a time, until nothing is left to ask or nobody answers."""
    out = console()
    _print_head(out, inquiry)
    _print_causes(out, inquiry)
    while (test := inquiry.diagnosis.next_test) is not None:
        out.print()
        _print_test(out, inquiry, test)
        try:
            word = ask(PROMPT)
        except (EOFError, KeyboardInterrupt):
            word = ""
        if not word.strip():
            return inquiry
        try:
            inquiry = inquiry.told(word)
        except MulewrightError as no:
            paragraph(out, f"{no.what}: {no.rule}")
            continue
        _print_causes(out, inquiry)
    out.print()
    paragraph(out, _ending(inquiry))
    return inquiry


def _print_head(out: Console, inquiry: Inquiry) -> None:
    paragraph(out, f"{inquiry.opened.name} ({inquiry.where})", style="bold")
    first, *others = inquiry.matched
    paragraph(out, f"{first.symptom.says}.")
    if others:
        nearly = "; ".join(f"{one.symptom.says} ({one.symptom.id})" for one in others)
        labelled(out, "Or", f"{nearly}?", 0)
    if inquiry.diagnosis.next_test is not None:
        labelled(out, "!", BEFORE, 0)


def _print_causes(out: Console, inquiry: Inquiry) -> None:
    out.print()
    ranked = inquiry.diagnosis.ranked
    for rank, (one, chance) in enumerate(ranked[:MOST], 1):
        paragraph(out, f"{rank}. {percent(chance, 2)}  {one.cause.text}", style="bold")
        labelled(out, "Why", one.because)
        labelled(out, "Do", one.do)
    if len(ranked) > MOST:
        rest = "; ".join(f"{one.cause.text} {percent(chance, 2)}" for one, chance in ranked[MOST:])
        labelled(out, "Less", rest, 0)
    if not inquiry.replies:
        for dropped in inquiry.suspicion.dropped:
            labelled(out, "Not", f"{dropped.cause.text}: {dropped.reason}", 0)


def _print_test(out: Console, inquiry: Inquiry, test: BenchTest) -> None:
    labelled(out, "Test", f"{test.do} ({test.minutes:g} min)", 0, "bold")
    for word, causes in tells(inquiry, test).items():
        if causes:
            labelled(out, word, "; ".join(causes))


def _ending(inquiry: Inquiry) -> str:
    if not inquiry.diagnosis.ranked:
        return (
            "By the mule file none of its causes can be: look whether the file is what stands on the bench."
        )
    return "No test is left that would tell much more. Begin with the first cause."
