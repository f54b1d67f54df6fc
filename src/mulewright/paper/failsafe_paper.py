"""What happens at each output when the link is lost, and what was seen when somebody tried it?"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from mulewright.advice.lost_link import LostOutput, lost_link
from mulewright.advice.room import short_of
from mulewright.advice.spoken import UNKNOWN, listed, read, read_with_doubt, spoken
from mulewright.design.signals import RECEIVERS
from mulewright.facts.body import RoomFacts
from mulewright.facts.graph import Evaluation
from mulewright.facts.nodes import number
from mulewright.facts.runaway import RunawayFacts
from mulewright.paper.blocks import Block, Grid, Paper, Ticks, Words

MATRIX = (
    "output", "moves", "socket", "receiver", "it then", "the machine", "after", "as far as", "tried",
    "seen today",
)  # fmt: skip
BEFORE = (
    "Wheels off the ground, arms propped, nobody near anything that turns or falls",
    "For each line: run it, switch the transmitter off, watch until it rests, switch the transmitter on again",
    "Write what was seen, and the day; after every bind and every plug that was moved, do it again",
)


def failsafe_paper(evaluation: Evaluation) -> Paper:
    """The fail-safe matrix of a mule, output by output."""
    outputs = lost_link(evaluation)
    what_for = "What each output does when the link is lost, as the file says it; the last column is for what is seen."
    blocks = [*_matrix(outputs), *_room(evaluation, outputs)] if outputs else [Words(_nothing(evaluation))]
    return Paper("failsafe", "Fail-safe matrix", what_for, tuple(blocks), wide=True)


def _nothing(evaluation: Evaluation) -> str:
    if any(receiver in evaluation.mule.things for receiver in RECEIVERS):
        return (
            "No output is plugged into the receiver as far as the mule file says, so nothing can be said yet."
        )
    return "No receiver is described in the mule file: no link steers this mule, and none can be lost."


def _matrix(outputs: Sequence[LostOutput]) -> Iterator[Block]:
    rows = [_row(output) for output in outputs]
    marked = [place for place, output in enumerate(outputs) if output.runs_on is not False or output.needs]
    yield Grid(MATRIX, rows, ("fit", "fit", 1.2, 1.2, 1.3, 2.4, "fit", "fit", "fit", 3), (0, 5), marked)
    missing = list(dict.fromkeys(path for output in outputs for path in output.needs))
    if missing:
        yield Words(f"What says {UNKNOWN} is not known. The file lacks {listed(missing)}.", "warning")
    yield Words("Hold: the last pulse goes on. No pulses: it is for the output to stop by itself.", "small")
    if any(output.runs_on for output in outputs):
        yield Words(
            "Marked lines go on without a link: only a disconnect at the machine stops them.", "warning"
        )


def _row(output: LostOutput) -> tuple[str, ...]:
    return (
        spoken(output.device), output.function, output.places, output.receiver, output.then,
        output.happens, output.after, output.way or "-", output.tested, "",
    )  # fmt: skip


def _room(evaluation: Evaluation, outputs: Sequence[LostOutput]) -> Iterator[Block]:
    """How much room it needs, and how the test is done."""
    drives = RunawayFacts.all(evaluation)
    if drives:
        yield Words("Room", "heading")
        too_small = short_of(evaluation)
        yield Words(_runaway(evaluation, drives[0]))
        if too_small:
            yield Words(too_small, "warning")
    yield Words("The test", "heading")
    yield Ticks([(step, "") for step in BEFORE])


def _runaway(evaluation: Evaluation, drive: RunawayFacts) -> str:
    free = evaluation.entity(RoomFacts, "room").node("free")
    has = (
        f"this room has {read(free)} in front of it" if free.known else "how much room there is, is not noted"
    )
    runaway = drive.node("runaway")
    if not runaway.known:
        return f"How far it goes after a lost link cannot be told; {has}."
    if number(runaway) is None:
        return f"After a lost link it goes on without end; {has}."
    delay = read_with_doubt(drive.node("notice"))
    return (
        f"After a lost link at top speed it stands {read(runaway)} further on: the receiver takes "
        f"{delay} to notice, and then it rolls out. Keep that circle free; {has}."
    )
