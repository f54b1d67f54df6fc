"""Commands run in this process, as in a plain terminal with no shelf of one's own."""

from __future__ import annotations

import json
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import Any, NoReturn

import pytest

from mulewright.cli import main
from tests.designs import EXAMPLES

Run = Callable[..., "Ran"]


def path_of(design: str) -> Path:
    """The file of a shipped design."""
    return EXAMPLES / design / "mule.toml"


@dataclass(frozen=True)
class Ran:
    """What one command left behind."""

    code: int
    out: str
    err: str

    @property
    def json(self) -> Any:
        """Standard output as strict JSON."""
        return json.loads(self.out, parse_constant=_refuse)


def _refuse(constant: str) -> NoReturn:
    raise AssertionError(f"{constant} is no JSON")


@pytest.fixture(autouse=True)
def plain_terminal(monkeypatch: pytest.MonkeyPatch, tmp_path_factory: pytest.TempPathFactory) -> None:
    for name in ("COLUMNS", "FORCE_COLOR", "NO_COLOR", "TERM"):
        monkeypatch.delenv(name, raising=False)
    monkeypatch.setenv("MULEWRIGHT_SHELF", str(tmp_path_factory.mktemp("shelf")))


@pytest.fixture
def mulewright(capsys: pytest.CaptureFixture[str]) -> Run:
    """Run a command and return its exit code, its output and its complaints."""

    def run(*words: str | Path) -> Ran:
        capsys.readouterr()
        with pytest.raises(SystemExit) as ended:
            main([str(word) for word in words])
        said = capsys.readouterr()
        assert isinstance(ended.value.code, int)
        return Ran(ended.value.code, said.out, said.err)

    return run
