"""The sentences of findings: numbers with their unit, and enough digits to tell a value from its limit."""

from __future__ import annotations

import numpy as np

from mulewright.checks.wording import say


def test_a_value_just_below_its_limit_does_not_read_like_it() -> None:
    text = say("{value} where {limit} is expected", {}, np.array(1.9962), np.array(2.0), None, ())
    assert text == "1.996 where 2 is expected"


def test_a_value_at_its_limit_reads_like_it() -> None:
    assert say("{value:%} of {limit:%}", {}, np.array(0.95), np.array(0.95), None, ()) == "95 % of 95 %"


def test_three_digits_do_as_a_rule() -> None:
    assert say("{value} of {limit}", {}, np.array(1.23456), np.array(2.0), None, ()) == "1.23 of 2"


def test_a_place_that_was_passed_is_said_without_a_minus() -> None:
    for value, text in ((4.0, "4 before, 3"), (-57.5, "57.5 beyond, 3")):
        assert say("{value:side}, {limit}", {}, np.array(value), np.array(3.0), None, ()) == text
