"""How much faster is the compiled judging of candidates than a loop over the facts? One core; read with ``-s``.

Side conditions: candidates drawn at random from all of the function, the kernel already compiled, times of this
process alone. The loop builds the mule of each candidate anew, as the final judging does.
"""

from __future__ import annotations

import time

import numpy as np
import pytest

from mulewright.kernels.choosing import judged
from tests.choices import FUNCTIONS, by_facts, tables

COMPILED, LOOPED, ROUNDS = 200_000, 40, 5
WANTED_RATE = 1e6  # candidates a second


@pytest.mark.parametrize("name", FUNCTIONS)
def test_compiled_against_a_loop_over_the_facts(name: str) -> None:
    on, _, found = tables(name)
    places = np.random.default_rng(1).integers(0, found.count, COMPILED)
    judged(places[:1], found.choices, found.wiring, found.links, found.work)
    taken = []
    for _ in range(ROUNDS):
        start = time.process_time()
        judged(places, found.choices, found.wiring, found.links, found.work)
        taken.append(time.process_time() - start)
    start = time.process_time()
    for place in places[:LOOPED]:
        by_facts(on.service(*found.options(int(place))))
    looped = (time.process_time() - start) / LOOPED
    compiled = min(taken) / COMPILED
    print(
        f"\n{name}: {1e-6 / compiled:.1f} million candidates a second, {looped / compiled:,.0f} times as fast "
        f"as the facts one by one"
    )
    assert 1 / compiled > WANTED_RATE
