"""The whole plan of a first power-up: which steps a mule needs, and in which order."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace

from mulewright.advice.power_up.bench import Bench
from mulewright.advice.power_up.cold import cold_steps
from mulewright.advice.power_up.first_volts import first_volts
from mulewright.advice.power_up.functions import DRIVE, function_steps
from mulewright.advice.power_up.later import later_steps
from mulewright.advice.power_up.lost_link import lost_link_steps
from mulewright.advice.power_up.plan import Limit, Mode, Plan, Step
from mulewright.advice.power_up.risk import risk_of
from mulewright.advice.power_up.servos import servo_steps
from mulewright.advice.power_up.tester import tester_steps
from mulewright.advice.power_up.waiting import with_checks
from mulewright.advice.spoken import listed
from mulewright.checks import CHECKS
from mulewright.checks.engine import Outcome, Severity, Verdict, run
from mulewright.facts.graph import Evaluation
from mulewright.shelf.power_up import without_radio

RADIO = "R"  # the letter of the checks that are about the link


def power_up(
    evaluation: Evaluation,
    *,
    supply: bool = False,
    tester: bool = False,
    verdicts: Iterable[Verdict] | None = None,
) -> Plan:
    """Plan the first power-up of a mule.

    Parameters
    ----------
    evaluation : Evaluation
        The mule.
    supply : bool
        A bench supply with a current limit is at hand; one in the file counts as well.
    tester : bool
        There is no radio today, only a servo tester; so it is, too, where the file has testers and no receiver.
    verdicts : iterable of Verdict, optional
        What the checks say, if somebody asked them already.

    Returns
    -------
    plan : Plan
        The steps in their order.
    """
    mode, why = _mode(evaluation, supply, tester)
    judged = list(verdicts) if verdicts is not None else run(evaluation, CHECKS.values())
    bench = Bench(
        evaluation, "bench supply" if mode != "battery" and _has_supply(evaluation, supply) else "battery"
    )
    with_tester = mode == "servo tester"
    of_a_radio = [one for one in judged if with_tester and one.check.id.startswith(RADIO)]
    judged = [one for one in judged if one not in of_a_radio]
    steps = list(_on_tester(bench) if with_tester else _on_radio(bench))
    if bench.mode == "battery":
        steps = behind_a_small_fuse(bench, steps)
    found, opened = with_checks(steps, judged)
    order = tuple((one, risk_of(evaluation, one).words) for one in bench.functions)
    return Plan(
        mode,
        why,
        tuple(found),
        tuple(opened),
        order,
        _unproven(evaluation, of_a_radio) if with_tester else (),
    )


def behind_a_small_fuse(bench: Bench, steps: list[Step]) -> list[Step]:
    """Without a bench supply: one small first fuse, told at the first step with power, instead of the limits."""
    limits = [step.limit for step in steps if step.limit is not None]
    plain = [replace(step, limit=None) for step in steps]
    if not limits:
        return plain
    first = next(place for place, step in enumerate(steps) if step.limit is not None)
    most = max(limits, key=lambda limit: limit.amps or 0.0)
    noted = [one.rating.value for one in bench.mule.file.fuse.values() if one.rating is not None]
    fuse = min([most.fuse, *noted]) if most.fuse is not None else None
    why, needs = _what_is_in_it(steps, most)
    plain[first] = replace(plain[first], limit=Limit(None, None, fuse, why, needs))
    return plain


def _what_is_in_it(steps: list[Step], most: Limit) -> tuple[str, tuple[str, ...]]:
    """Why a first fuse is as large as it is, and what is not in it because nobody knows it."""
    unknown = [
        (step.title.partition(":")[0], step.limit.needs)
        for step in steps
        if step.limit and step.limit.amps is None
    ]
    if not unknown or most.amps is None:
        return most.why, most.needs
    needs = sorted({need for _, needs in unknown for need in needs})
    titles = listed(title for title, _ in unknown)
    return f"{most.why}. NOT in it, for it is not known: {titles}; it may blow there, nothing wrong", tuple(
        needs
    )


def _on_radio(bench: Bench) -> Iterator[Step]:
    yield from cold_steps(bench)
    yield from first_volts(bench)
    yield from function_steps(bench)
    yield from servo_steps(bench)
    yield from lost_link_steps(bench)
    yield from later_steps(bench)


def _on_tester(bench: Bench) -> Iterator[Step]:
    yield from cold_steps(bench)
    yield from tester_steps(bench)


def _has_supply(evaluation: Evaluation, supply: bool) -> bool:
    return supply or bool(evaluation.mule.file.bench_supply)


def _mode(evaluation: Evaluation, supply: bool, tester: bool) -> tuple[Mode, str]:
    file = evaluation.mule.file
    no_receiver = file.receiver is None and file.second_receiver is None
    no_radio = file.radio is None and file.second_radio is None
    if tester:
        return "servo tester", "no radio today"
    if file.tester and (no_receiver or no_radio):
        what = "receiver" if no_receiver else "transmitter"
        return "servo tester", f"the file has a servo tester and no {what}"
    if supply:
        return "bench supply", "a bench supply with a current limit is at hand"
    if file.bench_supply:
        return "bench supply", f"the file has bench_supply.{next(iter(file.bench_supply))}"
    return "battery", "no bench supply is at hand: the battery from the start, behind a small first fuse"


def _unproven(evaluation: Evaluation, of_a_radio: Iterable[Verdict]) -> tuple[str, ...]:
    mule = evaluation.mule
    more = []
    tripped = [one for one in of_a_radio if one.outcome is Outcome.TRIP and one.severity >= Severity.STOP]
    if tripped:
        ids = dict.fromkeys(f"{one.check.id} {one.check.name}" for one in tripped)
        more.append(f"what the checks say about the radio, and nobody can put right today: {', '.join(ids)}")
    if any(mule.file.mixer) or any(
        getattr(radio, "mix", None) for radio in (mule.file.radio, mule.file.second_radio)
    ):
        more.append("the mix: every wheel gets its own signal from the tester, not its share of a command")
    if DRIVE in mule.motors_serving:
        more.append("driving: never put a machine on the floor that only a tester holds")
    return (*without_radio(), *more)
