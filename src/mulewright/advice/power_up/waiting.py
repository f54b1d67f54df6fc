"""Which steps wait for an open check, which one settles it, and what has to be kept in mind at each?"""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from dataclasses import replace
from fnmatch import fnmatchcase

from mulewright.advice.power_up.plan import OpenCheck, Step
from mulewright.checks.engine import Outcome, Severity, Verdict

THINGS = ("motor.", "controller.", "servo.", "mixer.", "regulator.", "battery.", "tester.", "mechanism.")
PARTS = re.compile(r"[@<>:]")


def with_checks(steps: Sequence[Step], verdicts: Iterable[Verdict]) -> tuple[list[Step], list[OpenCheck]]:
    """The numbered steps with what each waits for, minds and settles; and the checks that are open."""
    verdicts = list(verdicts)
    numbered = [replace(step, number=number) for number, step in enumerate(steps, 1)]
    settled = _settled(numbered, verdicts)
    opened = [one for verdict in verdicts if (one := _open(verdict, numbered, settled))]
    told = [verdict for verdict, _ in settled]
    minded = _minded(numbered, [verdict for verdict in verdicts if not any(one is verdict for one in told)])
    found = []
    for step in numbered:
        waits = [
            f"{one.verdict.check.id} {one.verdict.entity}".strip()
            for one in opened
            if step.number in one.waits
        ]
        settles = [verdict.check.id for verdict, number in settled if number == step.number]
        needs = {path for verdict in verdicts for path in verdict.needs if fills(step, path)}
        found.append(
            replace(
                step, waits=tuple(dict.fromkeys(waits)), settles=tuple(dict.fromkeys(settles)),
                minds=tuple(minded.get(step.number, ())), writes=tuple(sorted(needs)),
            )
        )  # fmt: skip
    return found, _together(opened)


def _together(opened: Sequence[OpenCheck]) -> list[OpenCheck]:
    """Open checks, each once for all things of which it says so and that one step settles."""
    groups: dict[object, list[OpenCheck]] = {}
    for one in opened:
        groups.setdefault((one.verdict.check.id, one.verdict.outcome, one.settled_by), []).append(one)
    return [
        replace(
            group[0],
            about=tuple(one.verdict.entity for one in group if one.verdict.entity),
            says=tuple(dict.fromkeys(one.verdict.what for one in group)),
            waits=tuple(sorted({number for one in group for number in one.waits})),
        )
        for group in groups.values()
    ]


def fits(path: str, patterns: Iterable[str]) -> bool:
    """Whether a step fills in a path."""
    return any(fnmatchcase(path, pattern) for pattern in patterns)


def fills(step: Step, path: str) -> bool:
    """Whether a step fills in a path: its table, where it is that of a thing, gets power or moves in it."""
    thing = ".".join(path.split(".")[:2])
    apart = step.stage == 0 or not path.startswith(THINGS)
    return fits(path, step.proves) and (apart or touches(step, thing))


def touches(step: Step, entity: str) -> bool:
    """Whether what a check is about gets power, or moves, in a step."""
    things = [part for part in PARTS.split(entity) if part]
    things += [thing.removeprefix("signal.") for thing in things]
    return any(
        thing == live or thing.startswith(f"{live}.") or live.startswith((f"{thing}.", f"{thing}>"))
        for thing in things
        for live in step.live
    )


def _powered(step: Step) -> bool:
    return step.stage >= 1 and bool(step.live) and not step.id.startswith("radio:")


def _open(
    verdict: Verdict, steps: Sequence[Step], settled: Sequence[tuple[Verdict, int]]
) -> OpenCheck | None:
    if verdict.outcome is Outcome.TRIP and verdict.severity is Severity.BLOCK:
        return OpenCheck(verdict, tuple(step.number for step in _waiting(verdict, steps)))
    if verdict.outcome is Outcome.CANNOT_TELL and verdict.check.severity is Severity.BLOCK:
        by = next((number for one, number in settled if one is verdict), None)
        waiting = _waiting(verdict, steps)
        waits = tuple(step.number for step in waiting if by is None or step.number <= by)
        return OpenCheck(verdict, tuple(one for one in waits if one != by), by)
    return None


def _waiting(verdict: Verdict, steps: Sequence[Step]) -> list[Step]:
    """The steps in which its subject gets power; all of them where it has no subject that does."""
    powered = [step for step in steps if _powered(step)]
    return [step for step in powered if touches(step, verdict.entity)] or powered


def _settled(steps: Sequence[Step], verdicts: Sequence[Verdict]) -> list[tuple[Verdict, int]]:
    """The verdicts that can be told once some step is noted, or whose record it makes; with that step."""
    found = []
    for verdict in verdicts:
        if verdict.outcome in (Outcome.PASS, Outcome.NOT_APPLICABLE):
            continue
        recorded = next((step.number for step in steps if verdict.check.id in step.records), None)
        if recorded is not None and verdict.outcome is Outcome.TRIP:
            found.append((verdict, recorded))
        elif verdict.outcome is Outcome.CANNOT_TELL and verdict.needs:
            last = _last(verdict, steps)
            if last is not None:
                found.append((verdict, last))
    return found


def _last(verdict: Verdict, steps: Sequence[Step]) -> int | None:
    """The step after which all that a verdict needs is filled in; None where some of it never is."""
    found = []
    for path in verdict.needs:
        fitting = [step for step in steps if fills(step, path)]
        if not fitting:
            return None
        found.append(next((step for step in fitting if touches(step, verdict.entity)), fitting[0]).number)
    return max(found)


def _minded(steps: Sequence[Step], verdicts: Sequence[Verdict]) -> dict[int, list[str]]:
    """The findings of STOP, each at the first step that touches its subject; what no step touches at the last."""
    found: dict[int, dict[str, list[str]]] = {}
    powered = [step for step in steps if _powered(step)]
    for verdict in verdicts:
        if verdict.outcome is not Outcome.TRIP or verdict.severity is not Severity.STOP or not powered:
            continue
        moving = [step for step in powered if step.stage >= 4] or powered
        at = next((step for step in _best(verdict, powered, moving)), powered[-1])
        named = found.setdefault(at.number, {})
        named.setdefault(f"{verdict.check.id} {verdict.check.name}", []).append(verdict.what)
    return {
        number: [f"{check}: {' '.join(dict.fromkeys(says))}" for check, says in named.items()]
        for number, named in found.items()
    }


def _best(verdict: Verdict, powered: Sequence[Step], moving: Sequence[Step]) -> list[Step]:
    """Supplies are minded where they get power first, all else where it moves first."""
    steps = powered if verdict.check.id.startswith("P") else moving
    return [step for step in steps if touches(step, verdict.entity)]
