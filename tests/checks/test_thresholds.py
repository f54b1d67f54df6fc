"""Default limits against the thresholds of the trade; common practice, no source."""

from __future__ import annotations

import numpy as np
import pytest

from mulewright.checks import CHECKS

# id: severity and threshold, in the SI unit of the limit
TRADE: dict[str, dict[str, float]] = {
    "S01": {"warn": 0.95},
    "S02": {"note": 1.05},
    "S14": {"warn": 0.5},
    "S17": {"warn": 1.25},
    "S24": {"warn": 0.9},
    "S28": {"warn": 0.7, "stop": 1.0},
    "S30": {"warn": 0.15},
    "S32": {"warn": 0.03},
    "P03": {"stop": 0.15},
    "P04": {"warn": 0.8},
    "P05": {"stop": 1.0},
    "P06": {"warn": 0.7, "stop": 1.3},
    "P10": {"block": 1.0},
    "P20": {"warn": 0.8},
    "P21": {"block": 1.0},
    "P22": {"warn": 1.0},
    "P23": {"block": 30.0},
    "P25": {"note": 3.0},
    "P26": {"warn": 0.05, "stop": 0.10},
    "P27": {"warn": 4.0, "stop": 3.5},
    "P28": {"warn": 4.0},
    "P29": {"warn": 1.0, "stop": 1.0},
    "P30": {"stop": 0.35},
    "P33": {"note": 1.0},
    "P34": {"warn": 0.97, "block": 1.0},
    "P36": {"block": 0.1},
    "P37": {"warn": 1.0},
    "P38": {"warn": 1.0},
    "P40": {"note": 1.0},
    "P43": {"warn": 4.0},
    "P44": {"note": 0.05},
    "M00": {"stop": 1.0, "note": 0.85},
    "M02": {"warn": 0.7},
    "M05": {"stop": 1.0, "warn": 2.0},
    "M06": {"note": 0.25, "warn": 0.5, "stop": 0.8},
    "M08": {"warn": 0.25},
    "M10": {"warn": 15.0, "stop": 5.0},
    "M12": {"warn": 1.0},
    "M15": {"warn": 0.8, "stop": 1.0},
    "M16": {"warn": 1.5},
    "M17": {"warn": 0.35, "stop": 0.6},
    "M18": {"warn": 0.8},
    "M20": {"stop": np.pi / 6},
    "M21": {"warn": 1.5},
    "M23": {"stop": 1.0, "warn": 2.0},
    "M24": {"warn": 0.8},
    "M25": {"stop": 5.0},
    "M26": {"stop": 1.0},
    "M27": {"note": 0.25},
    "M28": {"warn": 0.1, "note": 0.1},
    "M31": {"stop": 1.0, "warn": 2.0},
    "M32": {"warn": 15.0},
    "M34": {"note": 0.2},
    "M35": {"warn": 1 / 3},
    "M36": {"stop": 1.0, "warn": 0.8},
    "M39": {"note": 0.85},
    "M40": {"warn": 0.002},
    "M41": {"note": 0.1},
    "M43": {"warn": 2.0},
    "M44": {"stop": 0.01},
    "M45": {"note": 0.12},
    "M47": {"warn": 0.1},
    "M48": {"note": 2.0},
    "R10": {"warn": 0.030},
    "R11": {"note": 0.1},
    "X01": {"warn": 0.6, "stop": 1.0},
    "X02": {"warn": 0.6, "stop": 1.0},
    "X03": {"warn": 0.25, "stop": 0.10},
    "X04": {"warn": 0.6},
    "X05": {"warn": 0.6},
    "X06": {"warn": 20.0, "stop": 100.0},
    "X07": {"warn": 5.0},
    "X08": {"warn": 5.0},
    "X09": {"warn": 0.025},
    "X11": {"warn": 20.0},
    "X15": {"warn": 273.15 + 60},
}


@pytest.mark.parametrize("id", TRADE)
def test_default_is_the_trades_threshold(id: str) -> None:
    limits = {level.word: limit.quantity.value for level, limit in CHECKS[id].limits.items()}
    assert limits == pytest.approx(TRADE[id])
