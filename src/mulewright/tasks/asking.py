"""Ask what a symptom comes from: match its words, weigh its causes on this mule, take the answers to tests."""

from __future__ import annotations

import json
from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import datetime
from functools import cached_property
from pathlib import Path
from typing import Any

from mulewright.advice.causes import Diagnosis, Reply, Step, Suspicion, diagnose, suspect
from mulewright.advice.symptom_words import Match, matches, stem
from mulewright.errors import FileProblem, MulewrightError
from mulewright.shelf.symptoms import BenchTest, causes
from mulewright.tasks.opening import Opened, open_mule

DIGITS = 4
BACK = "back"
WORDS = {
    "y": Reply.YES,
    "yes": Reply.YES,
    "n": Reply.NO,
    "no": Reply.NO,
    "?": Reply.UNKNOWN,
    "back": BACK,
    "b": BACK,
}
RULE = "y, n, ? or back"


@dataclass(frozen=True)
class Inquiry:
    """One symptom on one mule, with the answers so far."""

    opened: Opened
    where: str
    text: str
    matched: tuple[Match, ...]
    suspicion: Suspicion
    replies: tuple[Reply, ...] = ()

    @cached_property
    def diagnosis(self) -> Diagnosis:
        """What is believed after these answers."""
        return diagnose(self.suspicion, self.replies)

    def told(self, word: str) -> Inquiry:
        """The inquiry after one more answer, or without its last one.

        Raises
        ------
        MulewrightError
            If the answer is none, or there is no question for it.
        """
        reply = WORDS.get(word.strip().casefold())
        if reply is None:
            raise MulewrightError("not an answer", "--answers", RULE, word.strip())
        if reply == BACK:
            return replace(self, replies=self.replies[:-1])
        if self.diagnosis.next_test is None:
            rule = "one answer for each question; no test is left that tells the causes apart"
            raise MulewrightError("no question for this answer", "--answers", rule, word.strip())
        return replace(self, replies=(*self.replies, Reply(reply)))

    def as_dict(self) -> dict[str, Any]:
        """What was found, for programs."""
        found, symptom = self.diagnosis, self.suspicion.symptom
        return {
            "mule": self.opened.name,
            "symptom": {"id": symptom.id, "says": symptom.says, "asked": self.text},
            "matches": [
                {"id": one.symptom.id, "says": one.symptom.says, "likeness": round(one.likeness, DIGITS)}
                for one in self.matched
            ],
            "causes": [
                {
                    "cause": one.cause.text,
                    "id": one.cause.id,
                    "probability": round(chance, DIGITS),
                    "because": one.because,
                    "check": one.verdict.check.id if one.verdict else None,
                    "do": one.do,
                }
                for one, chance in found.ranked
            ],
            "dropped": [
                {"cause": one.cause.text, "id": one.cause.id, "reason": one.reason}
                for one in self.suspicion.dropped
            ],
            "next_test": _test(self, found.next_test) if found.next_test else None,
            "trail": [_step(step) for step in found.trail],
        }


def why(
    path: str | Path,
    text: str,
    answers: str = "",
    settings: Sequence[str] = (),
    variant: str | None = None,
) -> Inquiry:
    """Read a mule file and look for what a symptom comes from.

    Raises
    ------
    MulewrightError
        If the file cannot be read, no symptom is like the words, or an answer is none.
    """
    opened = open_mule(path, settings, variant)
    mechanisms = opened.mule.file.mechanism
    matched = matches(text, {name: one.kind for name, one in mechanisms.items()})
    said = {stem(word) for word in text.split()}
    about = [f"mechanism.{name}" for name in mechanisms if stem(name) in said]
    suspicion = suspect(opened.evaluation, matched[0].symptom, about)
    inquiry = Inquiry(opened, str(path), text, tuple(matched), suspicion)
    words = answers.split(",") if answers.strip() else []
    for word in words:
        inquiry = inquiry.told(word)
    return inquiry


def tells(inquiry: Inquiry, test: BenchTest) -> dict[str, list[str]]:
    """Which of the causes that may be would have a test answered yes, and which no; the likeliest first."""
    likely = [one.cause.id for one, _ in inquiry.diagnosis.ranked]
    return {
        word: [causes()[id].text for id in likely if id in ids]
        for word, ids in (("yes", test.yes), ("no", test.no))
    }


def keep_trail(inquiry: Inquiry, path: str | Path) -> None:
    """Append what was asked and answered to a file, as one line of JSON.

    Raises
    ------
    FileProblem
        If the file cannot be written.
    """
    kept = inquiry.as_dict()
    dated = {"at": datetime.now().astimezone().isoformat(timespec="minutes")}
    chosen = {key: kept[key] for key in ("mule", "symptom", "trail", "causes")}
    line = json.dumps(dated | chosen, ensure_ascii=False)
    try:
        with Path(path).open("a", encoding="utf-8") as file:
            file.write(line + "\n")
    except OSError as no:
        raise FileProblem("the trail cannot be written", str(path), found=no.strerror or str(no)) from no


def _test(inquiry: Inquiry, test: BenchTest) -> dict[str, Any]:
    return {"do": test.do, "minutes": test.minutes, "tells": tells(inquiry, test)}


def _step(step: Step) -> dict[str, Any]:
    return {
        "do": step.test.do,
        "minutes": step.test.minutes,
        "answer": step.reply.value,
        "leads": step.leads.cause.text,
        "probability": round(step.probability, DIGITS),
    }
