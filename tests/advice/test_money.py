"""Are prices read as a person means them, and never added across currencies?"""

from __future__ import annotations

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from mulewright.advice.money import amount, sums


@pytest.mark.parametrize(
    ("text", "found"),
    [
        ("12 crowns", (Decimal(12), "crowns")),
        ("12.50 crowns", (Decimal("12.50"), "crowns")),
        ("12,5 crowns", (Decimal("12.5"), "crowns")),
        ("crowns 3", (Decimal(3), "crowns")),
        ("€4.20", (Decimal("4.20"), "€")),
        ("4", (Decimal(4), "")),
    ],
)
def test_a_price_is_a_number_and_a_currency(text: str, found: tuple[Decimal, str]) -> None:
    assert amount(text) == found


@pytest.mark.parametrize(
    "text", [None, "", "crowns", "1,200 crowns", "3 or 4 crowns", "-3 crowns", "=1+1", "2 crowns 3", "a 3 b"]
)
def test_what_is_no_single_price_is_not_added(text: str | None) -> None:
    assert amount(text) is None


def test_each_currency_has_its_own_sum() -> None:
    prices = [(Decimal("0.10"), "crowns")] * 3 + [(Decimal(5), "marks")]
    assert sums(prices) == ["0.30 crowns", "5.00 marks"]
    assert sums([]) == []


@given(st.text(max_size=30))
def test_any_text_is_read_or_refused(text: str) -> None:
    found = amount(text)
    assert found is None or found[0] >= 0
