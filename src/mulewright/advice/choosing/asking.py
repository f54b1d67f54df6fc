"""What does a function ask of its parts where nobody says it: margin, slowest and fastest speed?"""

from __future__ import annotations

import numpy as np

from mulewright.advice.choosing.tables import Asked, perhaps
from mulewright.checks import CHECKS
from mulewright.checks.engine import limits_of
from mulewright.design.schema.functions import Arm, Flywheel, Lift, Roller, Winch
from mulewright.facts.chain import DRIVE
from mulewright.facts.driving import DrivingFacts, WantedSpeedFacts
from mulewright.facts.graph import Facts
from mulewright.facts.holding import RaisingArmFacts, RaisingOnRopeFacts
from mulewright.facts.serving import ServiceFacts
from mulewright.facts.throwing import ThrowerFacts
from mulewright.models.throwing import longest_throw
from mulewright.shelf.tables import default

NONE = (0.0, np.inf)


def asked_of(service: ServiceFacts) -> Asked:
    """The margin at which the check of torque is quiet, and the speeds at which those of speed are."""
    table = service.mule.things.get(service.target)
    margin = 1.0 if isinstance(table, Flywheel) else max(_limits(service, "M05"))
    slowest, fastest = _speeds(service)
    return Asked(margin, slowest, fastest)


def _limits(service: ServiceFacts, id: str) -> list[float]:
    """Every limit of a check, with what the file says of it."""
    return list(limits_of(CHECKS[id], service.mule.file.limits.get(id)).by_level.values())


def _speeds(service: ServiceFacts) -> tuple[float, float]:
    table = service.mule.things.get(service.target)
    if service.name == DRIVE:
        return _wanted(service)
    if isinstance(table, Arm):
        return _over(
            service.of(RaisingArmFacts, service.target), "travel", max(_limits(service, "M12")), table
        )
    if isinstance(table, Lift | Winch) and getattr(table, "use", None) != "pulling":
        return _over(
            service.of(RaisingOnRopeFacts, service.target), "climbs", max(_limits(service, "M24")), table
        )
    if isinstance(table, Flywheel):
        distance = perhaps(service.of(ThrowerFacts, service.target), "wanted_distance")
        return (float(np.sqrt(distance / longest_throw(1.0))), np.inf) if np.isfinite(distance) else NONE
    if isinstance(table, Roller) and service.mule.file.drive is not None:
        cart = perhaps(service.of(DrivingFacts, DRIVE), "nominal_top_speed")
        return (cart * max(_limits(service, "M31")), np.inf) if np.isfinite(cart) else NONE
    return NONE


def _wanted(service: ServiceFacts) -> tuple[float, float]:
    drive = service.mule.file.drive
    if drive is None or drive.wanted_speed is None:
        return NONE
    wanted = perhaps(service.of(WantedSpeedFacts, DRIVE), "wanted_speed")
    (apart,) = _limits(service, "M34")
    return wanted * (1 - apart), wanted * (1 + apart)


def _over(moved: Facts, way: str, shortest: float, table: Arm | Lift | Winch) -> tuple[float, float]:
    """Speeds at which the whole way takes neither less than a hand can follow nor more than the task allows."""
    length = perhaps(moved, way)
    if not np.isfinite(length):
        return NONE
    budget = table.quantity("time_budget") or default("longest_way")
    return length / budget.value if budget.value > 0 else np.inf, length / shortest
