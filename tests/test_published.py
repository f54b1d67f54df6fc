"""The list of outside comparisons grows by decoration and leaves the tests alone."""

import numpy as np
import pytest

from tests import published
from tests.published import Outside, as_printed, outside


@pytest.fixture(autouse=True)
def own_list(monkeypatch: pytest.MonkeyPatch) -> list[Outside]:
    rows: list[Outside] = []
    monkeypatch.setattr(published, "OUTSIDE", rows)
    return rows


def test_a_decorated_test_is_listed_and_unchanged(own_list: list[Outside]) -> None:
    def adds_up(total: int) -> None:
        assert total == 3

    listed = outside("A1", quantity="a sum", source="worked by hand", mark="C")
    below = pytest.mark.parametrize("total", [3])(listed(adds_up))
    above = listed(pytest.mark.parametrize("total", [3])(adds_up))

    assert below is adds_up
    assert above is adds_up
    assert [row.test for row in own_list] == [f"{__name__}::{adds_up.__name__}"] * 2
    assert own_list[0] == Outside("A1", "a sum", "worked by hand", "C", own_list[0].test)


def test_a_mark_that_means_nothing_is_refused() -> None:
    with pytest.raises(ValueError, match="A1: mark 'X'"):
        outside("A1", quantity="a sum", source="worked by hand", mark="X")  # type: ignore[arg-type]


def test_printed_numbers_compare_with_arrays() -> None:
    assert np.asarray(1.5884) == as_printed("1.588")
    assert np.asarray([10.149, 10.151]) == as_printed("10.15")
    assert np.asarray(4.975e-3) != as_printed("4.96e-3")
