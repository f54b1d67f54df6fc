"""What does a check cost? Ratios, both sides measured in turn in one run; run with ``-s`` to read them.

Side conditions: whole processes from a warm disk, with the bytecode that an installation leaves behind; the loaded
design is the shipped aisle carrier.
"""

from __future__ import annotations

import os
import statistics
import subprocess
import sys
import time
from collections.abc import Callable, Sequence
from pathlib import Path

from mulewright.checks import CHECKS
from mulewright.checks.engine import run
from mulewright.design.mule import Mule, link
from mulewright.design.resolve import load, load_text
from mulewright.facts.catalog import every_fact
from mulewright.facts.graph import Evaluation

CARRIER = Path(__file__).parents[1] / "examples" / "aisle-carrier" / "mule.toml"
LIBRARIES = (sys.executable, "-c", "import numpy, networkx, typer, rich; from pydantic import BaseModel")
CHECK = (sys.executable, "-m", "mulewright", "check", str(CARRIER))
INSTALLED = {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}
ROUNDS = int(os.environ.get("MULEWRIGHT_BENCH_ROUNDS", "9"))


def in_turn(*sides: Callable[[], object], rounds: int = ROUNDS) -> list[float]:
    """Median seconds of each side, the sides run one after the other in every round, and once before the first."""
    for side in sides:
        side()
    taken: list[list[float]] = [[] for _ in sides]
    for _ in range(rounds):
        for times, side in zip(taken, sides, strict=True):
            start = time.perf_counter()
            side()
            times.append(time.perf_counter() - start)
    return [statistics.median(times) for times in taken]


def process(command: Sequence[str]) -> Callable[[], object]:
    return lambda: subprocess.run(command, env=INSTALLED, capture_output=True)


def evaluated(mule: Mule) -> int:
    """All checks and all facts of a mule."""
    evaluation = Evaluation(mule)
    return len(run(evaluation, CHECKS.values())) + len(list(every_fact(evaluation)))


def many_motors(count: int) -> Mule:
    """The carrier with further pumps beside its own, each on its own controller and branch."""
    text = CARRIER.read_text("utf-8")
    more = "".join(
        f'\n[motor.more{n}]\npart = "mo-raw"\nruns = "one-way"\n'
        f'[controller.more{n}]\npart = "ctl-6l"\nfeeds = "motor.more{n}"\npolarity = "straight"\nred_wire = "pulled"\n'
        for n in range(count)
    )
    return link(load_text(text + more))


def test_whole_process_against_its_libraries() -> None:
    bare, ours = in_turn(process(LIBRARIES), process(CHECK))
    print(f"\ncheck as a process: {ours:.3f} s, {ours / bare:.2f} times its libraries alone ({bare:.3f} s)")


def test_facts_and_checks_of_a_loaded_design() -> None:
    mule = link(load(CARRIER))
    evaluated(mule)
    reading, judging = in_turn(lambda: link(load(CARRIER)), lambda: evaluated(mule))
    only = in_turn(lambda: run(Evaluation(mule), CHECKS.values()))[0]
    print(
        f"\n{len(CHECKS)} checks: {only * 1e3:.1f} ms; with every fact: {judging * 1e3:.1f} ms, "
        f"{judging / reading:.2f} times reading the file ({reading * 1e3:.1f} ms)"
    )


def test_cost_grows_with_the_motors() -> None:
    few, many = many_motors(0), many_motors(34)
    small, large = in_turn(
        lambda: run(Evaluation(few), CHECKS.values()), lambda: run(Evaluation(many), CHECKS.values())
    )
    motors = len(many.file.motor) / len(few.file.motor)
    print(
        f"\n{len(many.file.motor)} motors: {large / small:.1f} times the cost for {motors:.1f} times the motors"
    )


def test_peak_memory_of_the_process() -> None:
    script = (
        "import resource, subprocess, sys; subprocess.run(sys.argv[1:], capture_output=True); "
        "print(resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss)"
    )
    sizes = [
        int(subprocess.run([sys.executable, "-c", script, *command], capture_output=True, check=True).stdout)
        for command in (LIBRARIES, CHECK)
    ]
    print(f"\npeak memory: {sizes[1] / 1024:.0f} MB, {sizes[1] / sizes[0]:.2f} times its libraries alone")
