"""Draws fill their intervals evenly and apart from each other, and verdicts on them are those of a loop."""

from __future__ import annotations

import numpy as np
import pytest
from scipy import stats

from mulewright.advice.draws import DRAWS, draw, draws, intervals, on_draws, uncertain, with_shares
from mulewright.checks import CHECKS
from mulewright.checks.engine import Outcome, run
from mulewright.facts.graph import Evaluation
from mulewright.units.quantity import read_quantity
from tests.designs import evaluation

MISMATCH = 'drive.side_mismatch={ value = "1 %", plus_minus = "1 %" }'


def judged(design: str, *sets: str) -> tuple[Evaluation, list[object]]:
    on = evaluation(design, sets)
    return on, list(with_shares(on, run(on, CHECKS.values())))


@pytest.mark.parametrize(
    ("raw", "low", "high"),
    [
        ({"value": "6 kg", "plus_minus": "0.1 kg"}, 5.9, 6.1),
        ({"min": "5 kg", "max": "8 kg"}, 5.0, 8.0),
        ({"value": "6 kg", "max": "7 kg"}, 6.0, 7.0),
    ],
)
def test_draws_fill_the_interval_evenly(raw: dict[str, str], low: float, high: float) -> None:
    values = draw("body.mass", read_quantity(raw, "mass"))
    assert len(values) == DRAWS
    assert stats.kstest(values, stats.uniform(low, high - low).cdf).pvalue > 0.05
    assert np.all(np.histogram(values, DRAWS, (low, high))[0] == 1)


def test_draws_of_two_inputs_do_not_follow_each_other() -> None:
    quantity = read_quantity({"value": "1 kg", "plus_minus": "0.5 kg"}, "mass")
    one, other = draw("body.mass", quantity), draw("mechanism.lift.load", quantity)
    assert abs(stats.pearsonr(one, other).statistic) < 4 / np.sqrt(DRAWS)


def test_draws_are_the_same_every_time() -> None:
    quantity = read_quantity({"value": "1 kg", "plus_minus": "0.5 kg"}, "mass")
    assert np.array_equal(draw("body.mass", quantity), draw("body.mass", quantity))


def test_share_of_a_linear_verdict_is_the_share_of_the_interval() -> None:
    # the offset is proportional to the mismatch: it trips above the mismatch at which it stands at its limit
    on = evaluation("tray-cart", (MISMATCH, "room.straight_run=3 m"))
    (verdict,) = [
        one for one in with_shares(on, run(on, [CHECKS["M37"]])) if one.outcome is not Outcome.NOT_APPLICABLE
    ]
    assert verdict.value is not None
    assert verdict.limit is not None
    at_limit = 0.01 * verdict.limit / verdict.value
    assert verdict.share == pytest.approx(stats.uniform(0, 0.02).sf(at_limit), abs=1e-3)


@pytest.mark.parametrize("design", ["aisle-carrier", "vine-lift"])
def test_shares_are_those_of_a_loop(design: str) -> None:
    on = evaluation(design)
    count = 25
    shares = {
        (one.check.id, one.entity): one.share for one in with_shares(on, run(on, CHECKS.values()), count)
    }
    values = draws(on, count)
    tripped: dict[tuple[str, str], float] = dict.fromkeys(shares, 0.0)
    for number in range(count):
        single = Evaluation(on.mule, {path: value[number] for path, value in values.items()})
        for one in run(single, CHECKS.values()):
            tripped[one.check.id, one.entity] += (one.outcome is Outcome.TRIP) / count
    for key, share in shares.items():
        if share is not None:
            assert share == pytest.approx(tripped[key]), key


def test_nothing_is_drawn_where_nothing_may_be_off() -> None:
    on = evaluation("soft-fruit-gripper")
    verdicts = run(on, [CHECKS["S03"]])
    assert not uncertain(on)
    assert with_shares(on, verdicts) == verdicts


def test_intervals_hold_95_in_100_of_the_draws() -> None:
    on = evaluation("tray-cart")
    found = intervals(on)
    low, high = found["body.mass"]
    assert (low, high) == pytest.approx((5.905, 6.095), abs=1e-3)
    drawn = on_draws(on, draws(on))
    assert drawn.values["body.mass"].shape == (DRAWS,)
