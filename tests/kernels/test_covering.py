"""What nothing beats, against its plain definition."""

from __future__ import annotations

import numpy as np
import pytest
from numpy.typing import NDArray

from mulewright.kernels.covering import covering


def order_of(scores: NDArray[np.float64]) -> NDArray[np.int64]:
    return np.argsort(-scores.sum(axis=1), kind="stable")


def beaten(one: NDArray[np.float64], other: NDArray[np.float64]) -> bool:
    return bool((other >= one).all() and (other > one).any())


@pytest.mark.parametrize("seed", range(5))
def test_without_slack_it_is_all_that_nothing_beats(seed: int) -> None:
    scores = np.random.default_rng(seed).random((300, 4))
    kept = covering(scores, order_of(scores), 0.0)
    plain = [place for place, one in enumerate(scores) if not any(beaten(one, other) for other in scores)]
    assert kept.tolist() == plain


@pytest.mark.parametrize("slack", [0.05, 0.2])
def test_with_slack_each_row_left_out_has_one_that_is_hardly_worse(slack: float) -> None:
    scores = np.random.default_rng(3).random((2000, 3))
    kept = covering(scores, order_of(scores), slack)
    exact = covering(scores, order_of(scores), 0.0)
    assert set(kept.tolist()) <= set(exact.tolist())
    assert len(kept) < len(exact)
    for one in scores:
        assert any((scores[place] >= one - slack).all() for place in kept)


def test_equal_rows_count_once() -> None:
    assert covering(np.ones((4, 2)), np.arange(4), 0.0).tolist() == [0]
