"""Which of many candidates are worth showing? Those that nothing beats, and of those that are nearly alike one."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from mulewright.kernels.compiling import kernel


@kernel
def covering(scores: NDArray[np.float64], order: NDArray[np.int64], slack: float) -> NDArray[np.int64]:
    """Places of the rows that no other row beats by having each score as high, less a slack.

    Shapes: (n, k), (n,) -> (m,). Scores grow with merit. ``order`` holds the places of all rows, those with the largest
    sum first, so that no row comes before one that beats it. With a slack of 0 these are all rows that nothing beats;
    with more, every row that is left out has one of them that is at most that slack below it in each score.
    """
    kept = np.empty(order.size, dtype=np.int64)
    count = 0
    for at in range(order.size):
        row = order[at]
        covered = False
        for place in range(count):
            covered = True
            for one in range(scores.shape[1]):
                if scores[kept[place], one] < scores[row, one] - slack:
                    covered = False
                    break
            if covered:
                if place > 0:  # what covers much is asked sooner
                    kept[place - 1], kept[place] = kept[place], kept[place - 1]
                break
        if not covered:
            kept[count] = row
            count += 1
    return np.sort(kept[:count])
