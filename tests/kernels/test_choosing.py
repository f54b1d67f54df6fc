"""The compiled path and the facts agree on random candidates of every kind of function."""

from __future__ import annotations

import numpy as np
import pytest

from mulewright.kernels.choosing import HEAT, MARGIN, MASS, REACH, SHORT, UNBROKEN, WEAKEST, judged
from tests.choices import FUNCTIONS, by_facts, same, tables

DRAWS = 100  # of each of the ten kinds of function: 1,000 in all
SHARE = 1e-9


@pytest.mark.parametrize("name", FUNCTIONS)
def test_random_candidates_are_judged_as_by_the_facts(name: str) -> None:
    on, _, found = tables(name)
    places = np.random.default_rng(7).integers(0, found.count, DRAWS)
    numbers = judged(places, found.choices, found.wiring, found.links, found.work)
    told = 0
    for place, row in zip(places, numbers, strict=True):
        service = on.service(*found.options(int(place)))
        *properties, unbroken = by_facts(service)
        wrong = [
            (one, other) for one, other in zip(row, properties, strict=False) if not same(one, other, SHARE)
        ]
        assert wrong == [], [option.label for option in found.options(int(place))]
        if int(row[SHORT]) == UNBROKEN:
            assert same(row[REACH], unbroken, SHARE)
        link = service.weakest
        named = f"{link.part} ({link.manner.words})"
        seen = found.seen[int(row[WEAKEST])]
        assert seen.named == named or seen.words == link.manner.words  # motors that are alike share a link
        told += int(np.isfinite(row[[MARGIN, HEAT, MASS]]).sum())
    assert told > DRAWS


def test_a_candidate_does_not_depend_on_its_neighbours() -> None:
    _, _, found = tables("drive of four wheels")
    places = np.arange(0, found.count, 997)
    every = judged(places, found.choices, found.wiring, found.links, found.work)
    for place, row in zip(places[:20], every[:20], strict=True):
        alone = judged(np.array([place]), found.choices, found.wiring, found.links, found.work)
        np.testing.assert_array_equal(alone[0], row)


def test_what_cannot_be_told_stays_so() -> None:
    _, _, found = tables("winch")
    heavy = next(place for place, motor in enumerate(found.slots.motors) if motor.label == "gm-heavy")
    each = found.count // len(found.slots.motors)
    rows = judged(
        np.arange(heavy * each, heavy * each + 50), found.choices, found.wiring, found.links, found.work
    )
    assert np.isnan(rows[:, MASS]).all()  # its sheet does not say what it weighs
    assert np.isfinite(rows[:, MARGIN]).all()
