"""What do the pushes tell: the state of the wiring, its cheapest and its cleanest fix, or what to do next?"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

from mulewright.decode.bench import CONTROLLERS, Bench
from mulewright.decode.explaining import Probe, equivalent, explanations, likeliest
from mulewright.decode.faults import FLOOR, TWICE, UNMIXED, Fault, apart_from, faults, unpaired
from mulewright.decode.fixing import Fix, cleanest, fixes, reversals
from mulewright.decode.floor import Motions, fitting_floor, wrong_hands
from mulewright.decode.looking import Look, next_look
from mulewright.decode.states import Seen, Signs, as_rows, fitting, unseen
from mulewright.decode.wiring import Rows, Wiring, signs
from mulewright.errors import MulewrightError

SQUARE = (1.0, 1.0)  # wheelbase and track where nobody measured them: only their ratio counts


@dataclass(frozen=True)
class Evidence:
    """All that was seen."""

    pushes: Seen
    floor: Motions = field(default_factory=dict)
    tests: tuple[Probe, ...] = ()
    skipped: frozenset[tuple[int, int]] = frozenset()
    size: tuple[float, float] = SQUARE
    moved: bool = False  # whether plugs were moved as told before, so that only reversals are left


@dataclass(frozen=True)
class Answer:
    """What follows from it."""

    bench: Bench
    evidence: Evidence
    candidates: int
    answers: Rows | None  # signs of every wheel, once they are settled
    state: Wiring | None  # the likeliest wiring behind them
    equivalent: int  # explanations that look the same, whatever the reverse flags
    explanations: int  # those that fit the reverse flags and the tester
    ranked: tuple[Fix, ...]  # every fix, the cheapest first
    cleanest: Fix | None
    look: Look | None
    faults: tuple[Fault, ...]
    after: Rows | None = None  # signs to expect once the drive is mixed once

    @property
    def complete(self) -> bool:
        """Whether the state is settled, and nothing else is the matter."""
        return self.state is not None and not self.faults

    @property
    def cheapest(self) -> Fix | None:
        """The fix that costs least."""
        return self.ranked[0] if self.ranked else None


def decode(found: Sequence[Bench], evidence: Evidence) -> Answer:
    """Work out what the evidence tells about a drive, its plugs taken together where that explains it.

    Raises
    ------
    MulewrightError
        If a tester showed what no wiring could show that fits the pushes.
    """
    fits = (bench for bench in found if len(fitting(bench.code, evidence.pushes)))
    bench = next(fits, found[-1])
    what = _likely(bench, faults(bench.code, evidence.pushes))
    if after := _mixed_once(bench, evidence, what):
        return _settled(bench, evidence, after, what, after=after)
    seen = apart_from(evidence.pushes, what)
    left = fitting(bench.code, seen)
    if len(left) and not what:
        on_floor = fitting_floor(bench.code, left, evidence.floor)
        what = _on_floor(bench, evidence, left, on_floor)
        left = on_floor if len(on_floor) else left
    if len(left) == 1:
        return _settled(bench, evidence, as_rows(left[0]), what)
    look = next_look(left, seen, evidence.skipped) if len(left) else None
    return Answer(bench, evidence, len(left), None, None, 0, 0, (), None, look, tuple(what))


def _likely(bench: Bench, found: Sequence[Fault]) -> list[Fault]:
    """The faults without those that the file speaks against, where another one shows the same."""
    if bench.twice:
        return [fault for fault in found if fault.kind != UNMIXED]
    return sorted(found, key=lambda fault: bench.mixing == CONTROLLERS and fault.kind == TWICE)


def _on_floor(bench: Bench, evidence: Evidence, left: Signs, on_floor: Signs) -> list[Fault]:
    """What may be the matter where no wiring that fits the blocks moves the mule as it moved."""
    if len(on_floor):
        return []
    right = len(left) == 1 and as_rows(left[0]) == bench.code.rows
    hands = wrong_hands(bench.code, evidence.floor, *evidence.size) if right else []
    return hands or [Fault(FLOOR)]


def _mixed_once(bench: Bench, evidence: Evidence, what: Sequence[Fault]) -> Rows | None:
    """What the wheels will do once they are mixed once, where they are mixed twice or not at all."""
    mixes = [fault for fault in what if fault.kind in (TWICE, UNMIXED)]
    if not mixes or unseen(evidence.pushes):
        return None
    one, other = mixes[0].commands
    return unpaired(bench.code, evidence.pushes, (one, other))


def _settled(
    bench: Bench, evidence: Evidence, rows: Rows, what: Sequence[Fault], after: Rows | None = None
) -> Answer:
    code, described = bench.code, bench.described
    flags = [described.controls] if bench.flags_noted else signs(len(code.commands))
    found = explanations(code, rows, flags, described.channels, () if after else evidence.tests)
    if not found:
        rule = (
            "what the tester showed and what the pushes showed must be possible at once; push and look again"
        )
        raise MulewrightError("no wiring shows both", "--tester", rule)
    known = [wiring for wiring in found if wiring.controls == described.controls] or found
    state = likeliest(code, known, described)
    ranked, clean = fixes(code, state, bench.costs), cleanest(code, state, bench.costs)
    if evidence.moved:
        ranked = reversals(code, state, bench.costs)
        clean = min(ranked, key=_reverses_left, default=clean)
    return Answer(
        bench, evidence, 1, rows, state, equivalent(code, rows), len({(one.inputs, one.controls) for one in found}),
        tuple(ranked), clean, None, tuple(what), after,
    )  # fmt: skip


def _reverses_left(fix: Fix) -> int:
    return (fix.to.controls + fix.to.channels).count(-1)
