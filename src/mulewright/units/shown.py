"""How does an SI value read to a person at a bench? Short, in the unit that they would use."""

from __future__ import annotations

import math

_SCALES: dict[
    str, tuple[tuple[float, float, str], ...]
] = {  # unit: (smallest size shown so, factor, unit shown)
    "s": ((3600.0, 3600, "h"), (120.0, 60, "min"), (0.1, 1, "s"), (5e-3, 1e-3, "ms"), (0, 1e-6, "us")),
    "m": ((0.1, 1, "m"), (0, 1e-3, "mm")),
    "m/s": ((0.1, 1, "m/s"), (0, 1e-3, "mm/s")),
    "ohm": ((0.5, 1, "ohm"), (0, 1e-3, "mohm")),
    "A": ((0.1, 1, "A"), (0, 1e-3, "mA")),
    "m2": ((0, 1e-6, "mm2"),),
    "rad": ((0, math.pi / 180, "deg"),),
    "rad/s": ((2 * math.pi, math.pi / 30, "rpm"), (0, math.pi / 180, "deg/s")),
    "A s": ((0, 3600, "Ah"),),
    "1/s": ((0, 1 / 3600, "C"),),
    "kg": ((0.1, 1, "kg"), (0, 1e-3, "g")),
}


def people(value: float, unit: str, digits: int = 3) -> str:
    """Write a value with a unit that fits its size.

    >>> people(0.0004, "s"), people(0.153, "m/s"), people(0.79, "1")
    ('400 us', '0.153 m/s', '0.79')
    """
    if math.isnan(value):
        return "unknown"
    if math.isinf(value):
        return "unlimited" if value > 0 else "minus unlimited"
    scales = _SCALES.get(unit, ())
    for smallest, factor, name in scales:
        if abs(value) >= smallest:
            if value == 0:
                return f"0 {name if len(scales) == 1 else unit}"
            return f"{_short(value / factor, digits)} {name}"
    return f"{_short(value, digits)} {unit}".removesuffix(" 1").rstrip()


def percent(value: float, digits: int = 3) -> str:
    """Write a fraction as percent.

    >>> percent(0.78947)
    '78.9 %'
    """
    return f"{_short(value * 100, digits)} %" if math.isfinite(value) else people(value, "1")


def _short(value: float, digits: int) -> str:
    text = f"{value:.{digits}g}"
    return f"{value:.0f}" if "e" in text and 1 <= abs(value) < 1e6 else text
