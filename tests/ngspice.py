"""Run a netlist in ngspice, a circuit simulator that knows nothing of our models."""

import re
import shutil
import subprocess
from pathlib import Path
from tempfile import TemporaryDirectory

import pytest

PRINTED = re.compile(r"^\s*([A-Za-z][\w().#]*)\s*=\s*([-+]?\d[\d.]*(?:[eE][-+]?\d+)?)\b", re.M)
TROUBLE = re.compile(r"failed|error|warning|singular|no such|not available", re.I)

needs_ngspice = pytest.mark.skipif(shutil.which("ngspice") is None, reason="ngspice is not installed")


def run(elements: str, control: str) -> dict[str, float]:
    """Name -> number of everything that the control lines print or measure.

    ``elements`` are the lines of the circuit, ``control`` those between .control and .endc,
    such as "op" and "print v(pack) i(v1)". Names come back in lower case.
    """
    netlist = (
        f"* circuit\n{elements.strip()}\n.control\nset numdgt=12\n{control.strip()}\nquit\n.endc\n.end\n"
    )
    with TemporaryDirectory() as folder:
        path = Path(folder) / "circuit.cir"
        path.write_text(netlist, encoding="ascii")
        done = subprocess.run(
            ["ngspice", "-b", str(path)], capture_output=True, text=True, timeout=60, check=False
        )
    output = done.stdout + done.stderr
    if done.returncode or TROUBLE.search(output):
        raise AssertionError(f"ngspice did not solve the circuit:\n{netlist}\n{output}")
    return {name.lower(): float(number) for name, number in PRINTED.findall(done.stdout)}


def operating_point(elements: str, *wanted: str) -> dict[str, float]:
    """Steady voltages and currents, such as "v(node)" or "i(vsource)" (into its plus terminal)."""
    found = run(elements, f"op\nprint {' '.join(wanted)}")
    assert found.keys() >= set(wanted), f"asked for {wanted}, got {sorted(found)}"
    return found
