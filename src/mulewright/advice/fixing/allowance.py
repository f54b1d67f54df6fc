"""How far may a search look? Sets that it tries out are counted, and its time of computing is measured."""

from __future__ import annotations

from time import process_time

from mulewright.advice.fixing.bench import Bench
from mulewright.advice.fixing.search import Spent

MOST_BEGINNINGS = 3  # times that a search begins anew that has found nothing yet
LOOKS = 6  # sets that are looked at for each that is tried out


class Allowance:
    """How many sets of steps a search may try out, and for how long it may compute.

    Parameters
    ----------
    bench : Bench
        Which counts what is tried out.
    most : int
        Sets in all searches together; sets that are looked at and need no trying out are many times as many.
    seconds : float
        Time of computing, not of the clock. [s]
    """

    def __init__(self, bench: Bench, most: int, seconds: float) -> None:
        self.bench = bench
        self.most = most
        self.end = process_time() + seconds
        self.until = self.mark = 0
        self.looked_at = self.begun = 0

    def refill(self, share: float) -> None:
        """Begin a search that may take a share of what there is."""
        self.looked_at, self.mark, self.begun = 0, self.bench.built, 0
        self.until = int(self.most * share)

    def more(self) -> bool:
        """Begin anew where nothing was found yet, a few times; whether that was allowed."""
        self.begun += 1
        self.looked_at, self.mark = 0, self.bench.built
        return self.begun <= MOST_BEGINNINGS and process_time() <= self.end

    def spend(self) -> None:
        """Count one set."""
        self.looked_at += 1
        if self.spent:
            raise Spent

    @property
    def spent(self) -> bool:
        """Whether there have been enough."""
        tried = self.bench.built - self.mark
        return tried > self.until or self.looked_at > LOOKS * self.until or process_time() > self.end
