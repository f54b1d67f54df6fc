"""A progress bar for long work, on a terminal only."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import contextmanager


@contextmanager
def watched(what: str) -> Iterator[Callable[[int], Callable[[], None]]]:
    """Give what takes the number of steps, and then a function to call after each."""
    from rich.console import Console
    from rich.progress import Progress

    progress = Progress(console=Console(stderr=True), transient=True)
    progress.disable = not progress.console.is_terminal
    with progress:

        def watch(steps: int) -> Callable[[], None]:
            bar = progress.add_task(what, total=steps)
            return lambda: progress.advance(bar)

        yield watch
