"""How far may a search look? Sets that it tries are counted, and its time of computing is measured."""

from __future__ import annotations

from collections.abc import Callable
from time import process_time

from mulewright.advice.fixing.search import Spent

Tell = Callable[[str, int, int], None]  # what is done, how much of it, and how much there is at most


def silent(what: str, done: int, most: int) -> None:
    """Nobody is told."""


class Allowance:
    """How many sets of steps a search may try, and for how long it may compute.

    Parameters
    ----------
    most : int
        Sets in all searches together.
    seconds : float
        Time of computing, not of the clock. [s]
    tell : callable, optional
        Told how far it is.
    """

    def __init__(self, most: int, seconds: float, tell: Tell = silent) -> None:
        self.most = most
        self.end = process_time() + seconds
        self.tell = tell
        self.stopped = False  # by hand
        self.until = self.tried = 0

    def refill(self, share: float) -> None:
        """Begin a search that may take a share of what there is."""
        self.tried, self.until = 0, max(1, int(self.most * share))

    def spend(self) -> None:
        """Count one set; raise Spent where there have been enough."""
        if self.spent:
            raise Spent
        self.tried += 1
        self.tell("Trying sets of changes", self.tried, self.until)

    @property
    def spent(self) -> bool:
        """Whether there have been enough."""
        return self.stopped or self.tried >= self.until or process_time() > self.end
