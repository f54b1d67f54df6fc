"""Cautions: those that concern a mule, and none about what it does not have."""

from __future__ import annotations

from mulewright.advice.cautions import ALWAYS, DRIVEN, LITHIUM, STEERED, cautions
from tests.designs import evaluation


def test_a_bench_of_servos_on_a_tester_has_no_wheels_no_battery_and_no_transmitter() -> None:
    assert cautions(evaluation("soft-fruit-gripper").mule) == [*ALWAYS]
    assert cautions(evaluation("soft-fruit-gripper", variant="high-voltage-pack").mule) == [*ALWAYS, LITHIUM]


def test_a_cart_has_them_all() -> None:
    assert {DRIVEN, STEERED} <= set(cautions(evaluation("tray-cart").mule))
