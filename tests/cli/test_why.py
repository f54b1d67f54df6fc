"""What `why` answers: the causes, one question at a time, and a trail; one clear message where it cannot."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path

import pytest

from mulewright.cli.why_text import PROMPT, converse
from mulewright.tasks.asking import Inquiry, why
from tests.cli.conftest import Run, path_of
from tests.designs import DESIGNS

LIFT, CART = path_of("vine-lift"), path_of("tray-cart")


@pytest.mark.parametrize("design", DESIGNS)
@pytest.mark.parametrize("symptom", ["arm sinks", "receiver stays dark", "one wheel is slow"])
def test_it_fits_80_columns_and_is_the_same_every_time(mulewright: Run, design: str, symptom: str) -> None:
    first, second = (mulewright("why", path_of(design), symptom) for _ in range(2))
    assert (first.code, first.err) == (0, "")
    assert max(map(len, first.out.splitlines())) <= 80
    assert first.out == second.out


def test_programs_get_causes_with_reasons_and_the_next_test(mulewright: Run) -> None:
    found = mulewright("why", LIFT, "lift", "sinks", "--json", "--answers", "y").json
    assert found.keys() == set("mule symptom matches causes dropped next_test trail".split())
    assert found["symptom"]["id"] == "arm-sinks"
    assert found["matches"][0]["id"] == "arm-sinks"
    assert [one["check"] for one in found["causes"]] == ["M07", "M07", None]
    assert found["causes"][0]["because"].startswith("M07 creeps-when-let-go trips")
    assert sum(one["probability"] for one in found["causes"]) == pytest.approx(1, abs=1e-3)
    assert found["trail"][0]["answer"] == "y"
    assert found["next_test"]["minutes"] > 0
    assert found["next_test"]["tells"].keys() == {"yes", "no"}


def test_what_cannot_be_is_said_with_the_reason(mulewright: Run) -> None:
    found = mulewright("why", CART, "arm sinks", "--json").json
    assert (found["causes"], found["next_test"]) == ([], None)
    assert all(one["reason"] for one in found["dropped"])
    assert "By the mule file none of its causes can be" in mulewright("why", CART, "arm sinks").out


def test_back_takes_an_answer_back(mulewright: Run) -> None:
    once = mulewright("why", LIFT, "resets on lift", "--json", "--answers", "n").json
    back = mulewright("why", LIFT, "resets on lift", "--json", "--answers", "y,back,n").json
    assert once["causes"] == back["causes"]
    assert once["trail"] == back["trail"]


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (("qqq zzz",), "no symptom is like that"),
        (("arm sinks", "--answers", "perhaps"), "not an answer"),
        (("arm sinks", "--answers", "y,,n"), "not an answer"),
        (("arm sinks", "--answers", "?,?,?,?"), "no question for this answer"),
        (("arm sinks", "--trail", "no/such/folder/trail.jsonl"), "the trail cannot be written"),
    ],
)
def test_one_clear_message(mulewright: Run, words: tuple[str, ...], says: str) -> None:
    ran = mulewright("why", LIFT, *words)
    assert ran.code == 2
    assert says in ran.err
    assert "Traceback" not in ran.err


def test_a_trail_is_appended(mulewright: Run, tmp_path: Path) -> None:
    trail = tmp_path / "trail.jsonl"
    for answers in ("y", "n,?"):
        assert mulewright("why", LIFT, "arm sinks", "--answers", answers, "--trail", trail).code == 0
    kept = [json.loads(line) for line in trail.read_text("utf-8").splitlines()]
    assert [[step["answer"] for step in one["trail"]] for one in kept] == [["y"], ["n", "?"]]
    assert {one["mule"] for one in kept} == {"Vine lift"}
    assert all(one["at"] for one in kept)


def replies(*words: str | type[BaseException]) -> Callable[[str], str]:
    """Somebody who answers so, and then says no more."""
    left = iter(words)

    def ask(prompt: str) -> str:
        assert prompt == PROMPT
        word = next(left, "")
        if isinstance(word, str):
            return word
        raise word

    return ask


def asked(*words: str | type[BaseException]) -> Inquiry:
    return converse(why(LIFT, "resets when the lift starts"), replies(*words))


def test_a_conversation_takes_one_answer_at_a_time(capsys: pytest.CaptureFixture[str]) -> None:
    found = asked("y", "what", "n", "back", "?")
    assert [reply.value for reply in found.replies] == ["y", "?"]
    out = capsys.readouterr().out
    assert "not an answer: y, n, ? or back" in out
    assert max(map(len, out.splitlines())) <= 80


@pytest.mark.parametrize("end", [EOFError, KeyboardInterrupt, ""])
def test_a_conversation_ends_when_nobody_answers(end: str | type[BaseException]) -> None:
    assert len(asked("n", end, "y").replies) == 1


def test_a_conversation_ends_when_no_test_is_left(capsys: pytest.CaptureFixture[str]) -> None:
    found = asked(*["?"] * 20)
    assert found.diagnosis.next_test is None
    assert "No test is left" in capsys.readouterr().out
