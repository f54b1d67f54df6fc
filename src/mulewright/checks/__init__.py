"""Every check of the catalogue; importing this package registers them all."""

from __future__ import annotations

import importlib
import pkgutil

from mulewright.checks import handover, mechanism, power, radio, safety, signal
from mulewright.checks.engine import REGISTRY, Check

for _family in (signal, power, mechanism, radio, safety, handover):
    for _module in pkgutil.iter_modules(_family.__path__, f"{_family.__name__}."):
        importlib.import_module(_module.name)

FAMILIES = {  # by the letter of their ids, in the order in which they are listed
    "S": "signal",
    "P": "power",
    "M": "mechanism",
    "R": "radio",
    "X": "safety",
    "H": "handover",
}
CHECKS: dict[str, Check] = dict(
    sorted(REGISTRY.items(), key=lambda item: ([*FAMILIES].index(item[0][0]), item[0]))
)
