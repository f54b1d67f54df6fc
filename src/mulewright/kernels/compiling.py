"""How is a loop compiled? Once for each machine where what was compiled can be kept, else once for each run.

A division by nothing gives inf or nan, as in numpy.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import update_wrapper
from typing import Any, TypeVar

import numba

F = TypeVar("F", bound=Callable[..., Any])


def helper(function: F) -> F:
    """Compile a function that a kernel of the same file calls."""
    compiled: F = numba.njit(function, error_model="numpy")
    return compiled


def kernel(function: F) -> F:
    """Compile a function that Python calls; what was compiled is kept where that is possible."""
    return update_wrapper(Kernel(function), function)  # type: ignore[return-value]  # called as the function is


class Kernel:
    """A compiled function that does not mind a folder in which nothing can be kept."""

    def __init__(self, function: Callable[..., Any]) -> None:
        self.function = function
        self.compiled: Callable[..., Any]
        try:
            self.compiled = numba.njit(function, cache=True, error_model="numpy")
        except RuntimeError:  # no folder to keep it in
            self.compiled = numba.njit(function, error_model="numpy")

    def __call__(self, *arguments: Any) -> Any:
        """Call it, compiled."""
        try:
            return self.compiled(*arguments)
        except OSError:  # the folder was there, but nothing can be written to it
            self.compiled = numba.njit(self.function, error_model="numpy")
            return self.compiled(*arguments)
