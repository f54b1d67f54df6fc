"""What does decoding pushes cost against trying every wiring and every fix? Ratios; run with ``-s`` to read them."""

from __future__ import annotations

from itertools import permutations, product

import numpy as np

from benchmarks.bench_check import in_turn
from mulewright.decode.answer import Evidence, decode
from mulewright.models.mixing import ROLLER
from tests.decode.rig import ROLLERS, Rig, bench

SEEN = Rig(ROLLERS, [1, 1, 1, -1], [0, 2, 1, 3]).pushed()
BOUND = 0.050  # [s]


def brute_force() -> int:
    """Every wheel side times every control side, and which of the pairs put the pushes right."""
    seen, found = np.array(SEEN), 0
    for order, flags in product(permutations(range(3)), product((1, -1), repeat=3)):
        turned = seen[:, list(order)] * flags
        for plugs, leads in product(permutations(range(4)), product((1, -1), repeat=4)):
            found += bool(np.array_equal(turned[list(plugs)] * np.array(leads)[:, None], ROLLER))
    return found


def test_decode_against_brute_force() -> None:
    on = bench(ROLLERS)
    assert brute_force() == 48
    ours, theirs = in_turn(lambda: decode([on], Evidence(SEEN)), brute_force, rounds=3)
    print(
        f"\ndecode of four roller wheels: {ours * 1e3:.1f} ms, {theirs / ours:.0f} times faster than brute force"
    )
    assert ours < BOUND
