"""What does a price say, and what do several come to? Only equal currencies are added."""

from __future__ import annotations

import re
from collections.abc import Iterable
from decimal import Decimal

_PRICE = re.compile(r"(?P<before>[^\d.,-]*)(?P<number>\d+(?:[.,]\d+)?)(?P<after>[^\d.,-]*)")
_CENTS = 2


def amount(price: str | None) -> tuple[Decimal, str] | None:
    """The number of a price and its currency; none where the text is no single price.

    A comma before one or two digits is a decimal comma; before three it may be either, which is nobody's price.

    >>> amount("4,50 crowns"), amount("1,200 crowns"), amount("ask")
    ((Decimal('4.50'), 'crowns'), None, None)
    """
    match = _PRICE.fullmatch((price or "").strip())
    if match is None:
        return None
    before, number, after = match["before"].strip(), match["number"], match["after"].strip()
    digits = re.split(r"[.,]", number)
    if (before and after) or ("," in number and len(digits[1]) > _CENTS):
        return None
    return Decimal(number.replace(",", ".")), before or after


def sums(prices: Iterable[tuple[Decimal, str]]) -> list[str]:
    """What prices come to, one text for each currency."""
    found: dict[str, Decimal] = {}
    for number, currency in prices:
        found[currency] = found.get(currency, Decimal(0)) + number
    return [f"{number:.2f} {currency}".rstrip() for currency, number in sorted(found.items())]
