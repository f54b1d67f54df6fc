"""Which findings does a battery, a controller or a gauge of wire bring along, whatever motor it serves?"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from mulewright.advice.choosing.bench import Bench, Option
from mulewright.advice.choosing.slots import Slots
from mulewright.checks import CHECKS
from mulewright.checks.engine import Outcome, Severity, run
from mulewright.facts.graph import Evaluation

Floats = NDArray[np.float64]


def findings(on: Bench, slots: Slots) -> list[Floats]:
    """For each slot and option, how many more checks forbid the use of something than in the file as it is.

    Counted with that option alone in the file, and not about the function's own motors, controllers and load: what
    these bear depends on all slots at once. Motors, ratios and sizes therefore count nothing.
    """
    service = on.service()
    own = (*service.motors, *service.controllers, service.target, f"chain.{service.name}", f"{service.name}-")

    def count(option: Option) -> int:
        verdicts = run(Evaluation(on.mule(option)), CHECKS.values())
        return len({
            verdict.check.id
            for verdict in verdicts
            if verdict.outcome is Outcome.TRIP
            and verdict.severity >= Severity.STOP
            and not verdict.entity.startswith(own)
        })  # fmt: skip

    now = count(Option(""))
    judged = (slots.controllers, slots.batteries, slots.wires)
    return [
        np.array([float(count(option) - now) if option.edits else 0.0 for option in slot])
        if any(slot is one for one in judged)
        else np.zeros(len(slot))
        for slot in slots.all
    ]
