"""A progress bar for long work, on a terminal only."""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager

Tell = Callable[[str, int, int], None]  # what is done, how much of it, and of how much


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


@contextmanager
def bars() -> Iterator[Tell | None]:
    """Give what is told how far each kind of work is, where somebody looks at a terminal."""
    if sys.stderr is None or not sys.stderr.isatty():
        yield None
        return
    from rich.console import Console
    from rich.progress import Progress, TaskID

    shown: dict[str, TaskID] = {}
    with Progress(console=Console(stderr=True), transient=True) as progress:

        def tell(what: str, done: int, of: int) -> None:
            if what not in shown:
                shown[what] = progress.add_task(what, total=of)
            progress.update(shown[what], completed=done, total=of)

        yield tell
