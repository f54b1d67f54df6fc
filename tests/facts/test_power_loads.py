"""Steady currents, packs, leads, bench supplies: numbers worked out by hand beside them."""

from __future__ import annotations

import numpy as np
import pytest

from mulewright.checks import CHECKS
from mulewright.checks.engine import run
from mulewright.facts.catalog import find
from mulewright.facts.nodes import Value
from tests.designs import evaluation
from tests.published import as_printed

BENCH = (
    'bench_supply.lab={ voltage = "12 V", current_limit = "5 A", absorbs = false }',
    'wire.main.path=["bench_supply.lab", "fuse.main", "switch.main", "board.main"]',
)
PULLING = ("mechanism.winch.use=pulling", "mechanism.winch.pull=117.72 N")
CUTTING = ("controller.left.cuts_off=true", "controller.left.cut_off_chemistry=nimh")


def value(design: str, name: str, *sets: str, variant: str | None = None) -> Value:
    return find(evaluation(design, sets, variant), name).value


@pytest.mark.parametrize(
    ("design", "fact", "printed"),
    [
        ("aisle-carrier", "motor.lift.steady_current", "2.47"),
        ("log-winch", "motor.winch.steady_current", "5.6"),
        ("two-benches", "motor.lift.steady_current", "7.3"),
    ],
)
def test_raising_is_steady_work(design: str, fact: str, printed: str) -> None:
    assert value(design, fact) == as_printed(printed)


def test_rolling_on_level_ground() -> None:
    # 0.035 of 6.0 kg on two wheels of 50 mm: 0.0515 N m each, over 0.338 N m/A, and the free 0.4 A
    each = 0.035 * 6.0 * 9.81 / 2 * 0.050 / (2.4 / (7.5 - 0.4)) + 0.4
    assert value("tray-cart", "motor.left.steady_current") == pytest.approx(each)
    duty = value("tray-cart", "controller.left.full_duty")
    assert value("tray-cart", "wire.main.steady") == pytest.approx(2 * duty * each)
    assert value("tray-cart", "wire.branches.steady") == pytest.approx(duty * each)


def test_noted_torque_flywheel_and_spinner() -> None:
    # ungeared motor: 0.11 N m at 7 A, 0.35 A free
    pump = 0.03 / (0.11 / (7 - 0.35)) + 0.35
    assert value("aisle-carrier", "motor.pump.steady_current") == pytest.approx(pump)
    assert value("seed-ball-thrower", "motor.upper.steady_current") == 0.35
    feeder = 0.05 / (0.5 / (7.5 - 0.4)) + 0.4
    assert value("seed-ball-thrower", "motor.feeder.steady_current") == pytest.approx(feeder)
    unsaid = find(evaluation("aisle-carrier", ("motor.pump.load_torque=?",)), "motor.pump.steady_current")
    assert unsaid.gaps == {"motor.pump.load_torque"}


def test_a_winch_that_pulls_works_like_one_that_lifts_as_much() -> None:
    lifting = value("log-winch", "motor.winch.steady_current")
    assert value("log-winch", "motor.winch.steady_current", *PULLING) == pytest.approx(lifting)


def test_pack_lasts_by_its_charge() -> None:
    # 3.0 Ah, 0.8 of it taken out, 0.9 of that comes out, at 2 A: 1.08 h
    sets = ("battery.main.mean_current=2 A",)
    assert value("tray-cart", "battery.main.lasts", *sets) == pytest.approx(1.08 * 3600)
    half = value("tray-cart", "battery.main.mean_current")
    assert half == pytest.approx(value("tray-cart", "battery.main.steady") / 2)


def test_what_a_pack_bears_by_its_rates() -> None:
    assert value("hose-tug", "battery.main.bears_peak") == pytest.approx(25 * 5.0)
    assert value("hose-tug", "battery.main.bears_steady") == pytest.approx(25 * 5.0 / 2)
    assert value("hose-tug", "battery.main.bears_steady", "battery.main.continuous_rate=10 C") == 50


def test_start_on_a_bench_supply() -> None:
    # two motors of 1.6 ohm at duty u: u * u * 12 V / 1.6 ohm each
    duty = value("tray-cart", "controller.left.full_duty", *BENCH)
    start = value("tray-cart", "bench_supply.lab.start_current", *BENCH)
    assert start == pytest.approx(2 * duty**2 * 12 / 1.6)
    assert value("tray-cart", "bench_supply.lab.returning_count", *BENCH) == 2


def test_a_stall_on_a_bench_supply_draws_its_limit_and_no_more() -> None:
    place = "bench_supply.lab@all-stalled"
    assert value("tray-cart", f"{place}.outflow", *BENCH) == pytest.approx(5)
    ample = (*BENCH, "bench_supply.lab.current_limit=50 A")
    assert value("tray-cart", f"{place}.voltage", *ample) == 12
    seen = value("tray-cart", f"{place}.conductance", *ample)
    assert value("tray-cart", f"{place}.voltage", *BENCH) == pytest.approx(5 / seen)
    assert value("tray-cart", f"{place}.outflow", *ample) == pytest.approx(12 * seen)


def test_a_bench_supply_is_no_missing_battery() -> None:
    verdicts = run(evaluation("tray-cart", BENCH), CHECKS.values())
    assert not [verdict.says for verdict in verdicts if "from a battery" in " ".join(verdict.needs)]
    cutting = run(evaluation("tray-cart", (*BENCH, *CUTTING)), [CHECKS["P32"]])
    assert "does not run empty" in cutting[0].what


def test_lead_of_a_servo() -> None:
    # 0.6 m of AWG 26 at 134 ohm/km and two contacts of 10 mohm, at 2.5 A
    lost = value("aisle-carrier", "servo.tilt.lost")
    assert lost == pytest.approx(2.5 * (0.6 * 0.134 + 0.020), rel=2e-3)
    assert value("aisle-carrier", "servo.tilt.left") == pytest.approx(6.0 - lost)


def test_servos_and_motors_held_at_once() -> None:
    sets = ("battery.main.resistance=0.6 ohm", "servo.tilt.stall_current=0.9 A")
    on = evaluation("aisle-carrier", sets)
    alone = find(on, "controller.lift.regulator@all-stalled.input_voltage").value
    way = find(on, "controller.lift.regulator.way").value
    assert way > 0.6
    assert find(on, "controller.lift.regulator.held_input").value == pytest.approx(alone - 0.9 * way)
    assert find(on, "rail.receiver.held_voltage").value < find(on, "rail.receiver.lowest_voltage").value


def test_cut_off_by_its_cells_and_by_its_volts() -> None:
    # empty: ten cells of 0.9 to 1.2 V, 1.0 V taken
    assert value("tray-cart", "controller.left.empty") == pytest.approx(10.0)
    sets = (*CUTTING, "controller.left.cut_off_cells=6", "controller.left.cut_off_voltage=7 V")
    assert value("tray-cart", "controller.left.cut_share", *sets) == pytest.approx(0.7)
    assert value("tray-cart", "controller.left.cells_off", *sets) == 4


def test_facts_take_draws() -> None:
    draws = np.array([5.0, 6.0, 7.0])
    on = evaluation("tray-cart", values={"body.mass": draws})
    assert find(on, "board.main.share").value.shape == draws.shape
    assert np.all(np.diff(find(on, "battery.main.sessions").value) < 0)
