"""What does `log` cost against comparing each snapshot with the one before it anew? Run with ``-s`` to read it."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta
from itertools import pairwise
from pathlib import Path

from benchmarks.bench_check import CARRIER, in_turn
from mulewright.tasks.comparing import State, compare_files
from mulewright.tasks.history import history
from mulewright.tasks.snapshots import keep, read_log

COUNT = 8
FIRST = datetime(2026, 11, 7, 9, 0, tzinfo=UTC)


def kept(folder: Path) -> Path:
    """A mule file with snapshots, in each of which the room is another."""
    path = folder / "mule.toml"
    before, free, after = CARRIER.read_text("utf-8").partition('free     = "4 m"')
    assert free
    for count in range(COUNT):
        path.write_text(f'{before}free = "{2 + count} m"{after}', "utf-8")
        keep(path, f"room {count}", FIRST + timedelta(hours=count))
    return path


def anew(path: Path) -> int:
    """Each state against the one before it, both read and judged for that."""
    numbers = [one.number for one in read_log(path).snapshots]
    states = [State(path, snapshot=number) for number in (*numbers, None)]
    return sum(len(compare_files(*pair).verdicts) for pair in pairwise(states))


def test_a_log_against_comparing_each_pair(tmp_path: Path) -> None:
    path = kept(tmp_path)
    assert len(history(path).steps) == COUNT
    ours, theirs, one = in_turn(
        lambda: history(path),
        lambda: anew(path),
        lambda: compare_files(State(path, snapshot=1), State(path, snapshot=2)),
        rounds=5,
    )
    print(
        f"\nlog of {COUNT} snapshots: {ours:.2f} s, {ours / one:.1f} times one comparison; "
        f"each pair anew takes {theirs / ours:.2f} times as long"
    )
    assert ours < theirs
