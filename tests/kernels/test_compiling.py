"""A kernel runs wherever it is installed, and nothing else waits for it."""

from __future__ import annotations

import subprocess
import sys
from typing import Any

import numpy as np
import pytest

from mulewright.kernels.compiling import Kernel, kernel

SOURCE = "def doubled(values):\n    return 2 * values\n"
START = "import sys, mulewright.cli.commands, mulewright.tasks.{task}; print(sorted({{'numba', 'matplotlib'}} & set(sys.modules)))"


def test_what_has_no_place_to_be_kept_is_compiled_for_the_run() -> None:
    made: dict[str, Any] = {}
    exec(SOURCE, made)  # it has no file beside which something could be kept
    assert kernel(made["doubled"])(np.arange(3.0)).tolist() == [0.0, 2.0, 4.0]


def test_a_folder_that_cannot_be_written_does_not_matter(monkeypatch: pytest.MonkeyPatch) -> None:
    made: dict[str, Any] = {}
    exec(SOURCE, made)
    found = Kernel(made["doubled"])

    def full(*_: object) -> None:
        raise OSError(30, "Read-only file system")

    monkeypatch.setattr(found, "compiled", full)
    assert found(np.ones(2)).tolist() == [2.0, 2.0]


@pytest.mark.parametrize("task", ["checking", "choosing"])
def test_no_command_waits_for_what_only_some_need(task: str) -> None:
    run = subprocess.run(
        [sys.executable, "-c", START.format(task=task)], capture_output=True, text=True, check=True
    )
    assert run.stdout == "[]\n"
