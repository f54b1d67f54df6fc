"""What does each switch of the radio do to each function, and a lost link to each output?"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from pathlib import Path

from mulewright.advice.lost_link import LostOutput, lost_link
from mulewright.advice.spoken import UNKNOWN, control_word
from mulewright.facts.controls import ControlFacts, RateFacts
from mulewright.facts.graph import Evaluation
from mulewright.facts.slow_mode import FunctionModeFacts, SwitchPositionFacts
from mulewright.tasks.opening import open_mule
from mulewright.tasks.sheets import Cell, Sheet, Sheets, figure

SLOWS, MISSES = "slows", "misses"
RATE_COLUMNS = (
    "function", "on", "switch", "rate", "pulse", "duty", "slow rate", "slow pulse", "slow duty",
)  # fmt: skip
LOST_COLUMNS = ("output", "socket", "receiver", "then it", "after", "as far as")


def switch_matrix(path: str | Path, settings: Sequence[str] = (), variant: str | None = None) -> Sheets:
    """Read a mule file and set every function against every switch of its radio."""
    opened = open_mule(path, settings, variant)
    modes = FunctionModeFacts.all(opened.evaluation)
    switches = [
        control for control in ControlFacts.all(opened.evaluation) if control.control.kind == "switch"
    ]
    sheets = [_rates(opened.evaluation, modes), *(_positions(one, modes) for one in switches)]
    return Sheets(opened, tuple(sheets))


def lost_link_matrix(path: str | Path, settings: Sequence[str] = (), variant: str | None = None) -> Sheets:
    """Read a mule file and say of every output on a receiver what a lost link does to it."""
    opened = open_mule(path, settings, variant)
    outputs = lost_link(opened.evaluation)
    rows = tuple(_lost_row(output) for output in outputs)
    sheet = Sheet("without a link", LOST_COLUMNS, rows, (), tuple(_said_of(outputs)))
    return Sheets(opened, (sheet,), {"outputs": [output.as_dict() for output in outputs]})


def _lost_row(output: LostOutput) -> tuple[Cell, ...]:
    name = output.device.removeprefix("controller.").replace("servo.", "servo ")
    return name, output.places, output.receiver, output.then, output.after, output.way or "-"


def _said_of(outputs: Sequence[LostOutput]) -> Iterator[str]:
    """What the machine then does, when that was tried, and what is missing to say more."""
    if not outputs:
        yield "No output is plugged into a receiver, as far as the file says."
    functions = ((output.function.split(" (")[0], output.happens) for output in outputs)
    yield from (
        f"{function}: {happens}." for function, happens in dict.fromkeys(functions) if happens != UNKNOWN
    )
    yield from (
        f"Tried, as the file says: {day}." for day in dict.fromkeys(output.tested for output in outputs)
    )
    if missing := dict.fromkeys(path for output in outputs for path in output.needs):
        yield f"{UNKNOWN} is not known: needs {', '.join(missing)}."


def _rates(evaluation: Evaluation, modes: Sequence[FunctionModeFacts]) -> Sheet:
    radio = evaluation.mule.file.radio
    switch = radio.rate.switch if radio is not None else None
    title = f"rate switch{f' {switch}' if switch else ''}: full stick, off and slow"
    above = [] if switch else ["No rate switch is noted; what follows is what its slow position would do."]
    return Sheet(
        title, RATE_COLUMNS, tuple(_row(mode) for mode in modes), tuple(above), _said(evaluation, modes)
    )


def _row(mode: FunctionModeFacts) -> tuple[Cell, ...]:
    duties = [figure(mode, name, as_percent=True) for name in ("full_duty", "slow_duty")]
    full, slow = duties if _has_duty(mode) else ("-", "-")
    return (
        mode.name, mode.on, _reach(mode),
        figure(mode, "full_rate", as_percent=True), figure(mode, "full_pulse"), full,
        figure(mode, "slow_rate", as_percent=True), figure(mode, "slow_pulse"), slow,
    )  # fmt: skip


def _has_duty(mode: FunctionModeFacts) -> bool:
    return not mode.node("full_pulse").known or mode.has_duty


def _wanted(mode: FunctionModeFacts) -> str:
    serving = mode.mule.things.get(mode.mule.functions[mode.name])
    wanted: bool | None = getattr(serving, "slow_mode", None)
    return "-" if wanted is None else "yes" if wanted else "no"


def _reach(mode: FunctionModeFacts) -> str:
    slowed = mode.node("slowed")
    if not slowed.known:
        return "?"
    return SLOWS if slowed.value else MISSES


def _said(evaluation: Evaluation, modes: Sequence[FunctionModeFacts]) -> tuple[str, ...]:
    missed = [mode.name for mode in modes if _wanted(mode) == "yes" and _reach(mode) == MISSES]
    rates = RateFacts.all(evaluation)
    named = [
        control_word(f"{one.id.removesuffix('.rate')}.control.{name}", several=len(rates) > 1)
        for one in rates
        for name in one.covered or []
    ]
    reached = ", ".join(named) or "nothing"
    said = [f"The rate switch reaches {reached}."]
    if missed:
        said.append(f"A slow mode is wanted and does not come: {', '.join(missed)}.")
    return tuple(said)


def _positions(control: ControlFacts, modes: Sequence[FunctionModeFacts]) -> Sheet:
    changed = [mode for mode in modes if control.id in [one.id for one in mode.controls]]
    rows: list[tuple[Cell, ...]] = []
    for mode in changed:
        places = [one for one in SwitchPositionFacts.all(control.evaluation) if one.mode is mode]
        rows += [
            (
                mode.name, f"{one.place}",
                figure(one, "position_command", as_percent=True), figure(one, "position_pulse"),
            )
            for one in places
        ]  # fmt: skip
    other = [mode.name for mode in modes if mode not in changed]
    below = [f"It does not change {', '.join(other)}."] if other else []
    if not rows:
        below.insert(0, f"Its positions are not noted: write {control.id}.positions.")
    columns = ("function", "position", "command", "pulse")
    return Sheet(f"switch {control.name}", columns, tuple(rows), (), tuple(below))
