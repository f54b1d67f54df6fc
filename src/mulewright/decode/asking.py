"""Which question comes next, one at a time, until the wiring is settled?"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field

from mulewright.decode.faults import mis_seen
from mulewright.decode.looking import Cell, look_at, next_look
from mulewright.decode.states import UNSEEN, Seen, fitting, nothing_seen, unseen, with_sign
from mulewright.decode.wiring import Code


@dataclass(frozen=True)
class Question:
    """One wheel to look at while one command is pushed."""

    wheel: int
    command: int
    again: bool = False  # it was answered before, and does not fit


@dataclass
class Asking:
    """The answers so far, each with its question."""

    codes: tuple[Code, ...]  # of one drive: its plugs taken together, and one by one
    given: list[tuple[Question, int]] = field(default_factory=list)

    @property
    def seen(self) -> Seen:
        """All signs so far; a later look at the same wheel counts."""
        seen = nothing_seen(self.codes[-1])
        for question, sign in self.given:
            seen = with_sign(seen, question.wheel, question.command, sign)
        return seen

    @property
    def skipped(self) -> frozenset[Cell]:
        """The looks that told nothing."""
        return frozenset(
            (question.wheel, question.command) for question, sign in self.given if sign == UNSEEN
        )

    def answer(self, question: Question, sign: int) -> None:
        """Note the answer to a question."""
        self.given.append((question, sign))

    def back(self) -> None:
        """Take the last answer back, if there is one."""
        del self.given[-1:]

    def question(self) -> Question | None:
        """The next question; none where all is settled or no look tells more."""
        seen, code = self.seen, self.codes[-1]
        left = fitting(code, seen)
        if len(left) == 1:
            return None
        if len(left):
            return self._telling(seen)
        return next(self._doubtful(seen), None)

    def _telling(self, seen: Seen) -> Question | None:
        """The most telling look, if there is one on the command that was pushed last, so that the thumb can stay."""
        code = self.codes[-1]
        left = fitting(code, seen)
        if self.given:
            command = self.given[-1][0].command
            open_wheels = [
                wheel
                for wheel, place in unseen(seen)
                if place == command and (wheel, place) not in self.skipped
            ]
            here = look_at(left, command, open_wheels)
            if here.wheels:
                return Question(here.wheels[0], command)
        look = next_look(left, seen, self.skipped)
        return Question(look.wheels[0], look.command) if look is not None else None

    def _doubtful(self, seen: Seen) -> Iterator[Question]:
        """Where nothing fits: every look that is still open, then those that may have been mistaken."""
        last = self.given[-1][0].command
        still_open = [cell for cell in unseen(seen) if cell not in self.skipped]
        for wheel, command in sorted(still_open, key=lambda cell: (cell[1] != last, cell[1])):
            yield Question(wheel, command)
        again = {(question.wheel, question.command) for question, _ in self.given if question.again}
        for wheel, command in mis_seen(self.codes[-1], seen):
            if (wheel, command) not in again:
                yield Question(wheel, command, again=True)
