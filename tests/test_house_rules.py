"""Rules of the house that no linter knows."""

import os
import re
import statistics
import subprocess
import sys
import tomllib
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[1]
LONGEST, TYPICAL = 600, 150  # [lines]

# Written in pieces, so that this file does not contain what it looks for.
FORBIDDEN = {
    "the address of a download": r"https?:" + r"//[^\s\"]+/(simple|packages|archive|releases|download)/",
    "the host of a package index": "python" + r"hosted\.|pypi" + r"\.org|npm" + r"js\.|debian" + r"\.org",
    "an address in a lock file": '"resolved"' + ":|--index" + "-url|--find" + "-links|@ file" + ":",
    "a path of one machine": r"(?<![\w.])/(work|farm|root|home|tmp|opt|Users)" + "/[a-z]",
    "a paper from outside": r"(trade|oracles)\." + r"md|\.\./" + "shared|trans" + "cript|seed" + " document",
}


def tracked() -> list[Path]:
    """Every file that is in the repository or is about to be."""
    listing = subprocess.run(
        ["git", "ls-files", "-z", "--cached", "--others", "--exclude-standard"],
        cwd=ROOT,
        check=True,
        capture_output=True,
        text=True,
    )
    return [ROOT / name for name in listing.stdout.split("\0") if name and (ROOT / name).is_file()]


def lines(path: Path) -> int:
    return len(path.read_text(encoding="utf-8").splitlines())


def python_files(folder: str = "") -> list[Path]:
    return [path for path in tracked() if path.suffix == ".py" and path.is_relative_to(ROOT / folder)]


def test_no_module_is_long() -> None:
    assert {path.name: lines(path) for path in python_files() if lines(path) > LONGEST} == {}


def test_a_typical_module_is_short() -> None:
    assert statistics.median(lines(path) for path in python_files("src")) < TYPICAL


@pytest.mark.parametrize("what", FORBIDDEN)
def test_files_speak_of_the_project_alone(what: str) -> None:
    pattern = re.compile(FORBIDDEN[what].encode(), re.I)
    hits = [
        f"{path.relative_to(ROOT)}: {hit[0].decode()}"
        for path in tracked()
        if (hit := pattern.search(path.read_bytes()))
    ]
    assert hits == []


def test_what_facts_keep_says_what_it_rests_on() -> None:
    """A plain cached property would hide from a search what it has read of the mule."""
    every = [*python_files("src/mulewright/facts"), *python_files("src/mulewright/design")]
    plain = {"nodes.py", "typed.py", "reads.py"}  # nothing of a mule in the making is read there
    hiding = [path.name for path in every if "cached_property" in path.read_text(encoding="utf-8")]
    assert set(hiding) <= plain


def test_readme_and_package_agree_on_python() -> None:
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    oldest = project["requires-python"].removeprefix(">=")
    assert f"Python {oldest}" in (ROOT / "README.md").read_text(encoding="utf-8")


def test_constraints_are_exact_and_name_no_place() -> None:
    pins = (ROOT / "constraints.txt").read_text(encoding="utf-8").splitlines()
    assert [pin for pin in pins if not re.fullmatch(r"[\w.-]+==[\w.!+-]+", pin)] == []


@pytest.mark.parametrize(("no_skips", "code"), [("", 0), ("1", 1)])
def test_an_excused_test_fails_the_run_where_none_may_be(tmp_path: Path, no_skips: str, code: int) -> None:
    (tmp_path / "test_excused.py").write_text(
        "import pytest\n\ndef test_runs(): pass\n\n@pytest.mark.xfail\ndef test_is_excused(): assert False\n"
    )
    run = subprocess.run(
        [sys.executable, "-m", "pytest", "-p", "tests.conftest", "--rootdir", str(tmp_path), str(tmp_path)],
        cwd=ROOT,
        env=os.environ | {"MULEWRIGHT_NO_SKIPS": no_skips},
        capture_output=True,
        text=True,
    )
    assert run.returncode == code, run.stdout
    assert ("not allowed here, xfailed" in run.stdout) == bool(no_skips)
