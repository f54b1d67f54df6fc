"""How long does a person wait before the first answer? Each round is a fresh interpreter."""

import subprocess
import sys

import pytest
from pytest_benchmark.fixture import BenchmarkFixture

STARTS = {
    "libraries alone": ("-c", "import numpy, pydantic"),
    "mulewright --help": ("-m", "mulewright", "--help"),
}


@pytest.mark.parametrize("start", STARTS)
def test_start_up(benchmark: BenchmarkFixture, start: str) -> None:
    def run() -> subprocess.CompletedProcess[bytes]:
        return subprocess.run([sys.executable, *STARTS[start]], capture_output=True)

    result = benchmark(run)
    assert result.returncode == 0, result.stderr.decode()
