"""One push of all controls at once: the order of the wheels' speeds names their signals, the signs their polarity."""

from __future__ import annotations

import math
from collections.abc import Mapping

from mulewright.decode.typed import items, short, wheel_named
from mulewright.decode.wiring import Code, Rows, times
from mulewright.errors import MulewrightError
from mulewright.models.mixing import mixed

SPEEDS = "--speeds"
SHARES: Mapping[int, tuple[float, ...]] = {2: (0.6, 0.3), 3: (0.55, 0.25, 0.12)}
"""How far each control is pushed, by their number: no two wheels get the same speed, and none more than full."""


def expected(code: Code) -> list[float]:
    """The speed that each wheel should have, as a share of the full one.

    Raises
    ------
    MulewrightError
        If two wheels follow the same signal, so that no order tells them apart.
    """
    found = [float(speed) for speed in mixed(code.rows, SHARES[len(code.commands)])]
    if len({abs(round(speed, 6)) for speed in found}) < len(found):
        rule = "a drive in which every wheel follows a signal of its own; push one control at a time"
        raise MulewrightError("the order of speeds does not tell these wheels apart", SPEEDS, rule)
    return found


def read_speeds(text: str, code: Code) -> Rows:
    """The signs of every wheel, from text such as ``FL:0.92 FR:0.18 RL:0.42 RR:-0.68``; only the order counts.

    Raises
    ------
    MulewrightError
        If a wheel is missing, two are equally fast, one stands still, or something is no speed.
    """
    wanted, found = expected(code), {}
    for name, number in items(text, SPEEDS, "WHEEL:SPEED, as FL:0.92"):
        found[wheel_named(code, name, SPEEDS)] = _speed(number, name)
    sizes = {abs(speed) for speed in found.values()}
    if len(found) < len(code.wheels) or len(sizes) < len(found) or 0 in sizes:
        rule = f"a speed for each of {', '.join(map(short, code.wheels))}, no two alike, none 0"
        more = "; where one stays in the dead band, push one control at a time"
        raise MulewrightError("these speeds name no signals", SPEEDS, rule + more, text)
    by_size = sorted(range(len(wanted)), key=lambda wheel: abs(wanted[wheel]))
    rows = dict(zip(sorted(found, key=lambda wheel: abs(found[wheel])), by_size, strict=True))
    return tuple(
        times(1 if found[wheel] * wanted[rows[wheel]] > 0 else -1, code.rows[rows[wheel]])
        for wheel in range(len(code.wheels))
    )


def _speed(number: str, name: str) -> float:
    try:
        found = float(number)
    except ValueError:
        found = math.nan
    if not math.isfinite(found):
        raise MulewrightError("is no speed", f"{SPEEDS} {name}", "a number, negative for backward", number)
    return found
