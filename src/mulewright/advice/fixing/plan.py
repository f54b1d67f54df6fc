"""Which set of steps is the cheapest, and which the cleanest, that clears what trips and makes nothing worse?"""

from __future__ import annotations

from collections.abc import Callable, Collection, Sequence
from dataclasses import dataclass
from itertools import combinations

from mulewright.advice.fixing.allowance import Allowance
from mulewright.advice.fixing.bench import MARGIN, NOTHING, Bench, Question, Standing
from mulewright.advice.fixing.lessons import Lessons
from mulewright.advice.fixing.offers import Offers
from mulewright.advice.fixing.search import Answer, Puzzle, solve
from mulewright.advice.fixing.states import Steps
from mulewright.advice.fixing.steps import Step, clash, consistent, together
from mulewright.checks.engine import Check, Outcome, Severity, Verdict

PENALTY = {Severity.BLOCK: 4000.0, Severity.STOP: 1000.0, Severity.WARN: 200.0, Severity.NOTE: 50.0}
MOST_ROUNDS = 24
MOST_PAIRED = 14  # steps of which pairs are tried where none helps by itself
MOST_ALIKE = 12  # equal steps of which all but one are tried
ENOUGH = 0.5  # of the way to its limit that a step has to leave at most, to be tried without clearing
FORESIGHT = 4_000  # verdicts that are looked at to see what single steps break
MOST_GUARDS = 4  # verdicts that are watched before the search begins
MOST_LOOKS = 4  # verdicts that are looked at again at once, from where a set leads
USUAL = 200  # verdicts; a mule with more of them takes longer to judge, and fewer sets of it are tried
A_STEP = 100.0  # what one step weighs where few steps are wanted, beside its cost


@dataclass(frozen=True)
class Plan:
    """A set of steps with what it clears, and what all checks say then."""

    steps: tuple[Step, ...]
    left: tuple[Question, ...]
    after: tuple[Verdict, ...]
    proven: bool
    total: float  # its cost, and what it costs to leave what it leaves


class Planner:
    """Looks for plans for one mule."""

    def __init__(self, bench: Bench, offers: Offers, checks: Sequence[Check], allowance: Allowance) -> None:
        self.bench = bench
        self.offers = offers
        self.checks = checks
        self.allowance = allowance
        self.before = bench.verdicts(NOTHING, checks)
        self.severity = {(one.check.id, one.entity): _severity(one) for one in self.before}
        self.silent = {id for id, one in zip(self.severity, self.before, strict=True) if _says_nothing(one)}
        tripped = [one for one in self.before if one.outcome is Outcome.TRIP and one.severity >= bench.level]
        self.targets = [Question(one.check, one.entity) for one in tripped]
        self.guards: set[Question] = set()  # what got worse once
        self.moves: dict[Question, set[Steps]] = {}
        self.helps: dict[Question, set[Step]] = {}  # whatever helps a little
        self.known: set[Step] = set()
        self.looked: set[tuple[Question, Steps]] = set()
        self.aside: set[Step] = set()  # steps that break more than they clear
        self.begun: Steps = NOTHING  # where the last search ended
        self.lessons: Lessons[Step, Question] = Lessons()
        try:
            self.learn(self.targets, NOTHING)
            self.foresee()
        except KeyboardInterrupt:
            allowance.stopped = True

    def foresee(self) -> None:
        """Set steps aside that break more than they clear; see what the others break, so that a search need not."""
        tried = {step for moves in self.moves.values() for move in moves for step in move if not step.waiver}
        kept: list[tuple[Step, list[Question]]] = []
        applied = list({one.check.id: one.check for one in self.before if not _says_nothing(one)}.values())
        for step in sorted(tried, key=_far_reaching)[: FORESIGHT // max(1, len(self.before))]:
            alone = frozenset({step})
            if self.bench.tried(alone) is None:
                continue
            broken = [
                one for one in self._what_is_wrong(alone, self.targets, applied) if one not in self.targets
            ]
            if len(broken) > sum(self.fine(one, alone) for one in self.targets) + 1:
                self.aside.add(step)
            elif broken:
                kept.append((step, broken))
        for question, moves in self.moves.items():
            self.moves[question] = {move for move in moves if self.aside.isdisjoint(move)}
        for step, broken in kept:
            fresh = [one for one in broken if one not in self.guards]
            if fresh and len(self.guards) < MOST_GUARDS:
                self._learn_from(fresh, frozenset({step}))

    # --- what helps what ----------------------------------------------------------------------------------------

    def learn(self, questions: Collection[Question], steps: Steps) -> None:
        """Find what may help some questions, from where the mule stands with some steps taken."""
        for question in questions:
            self.moves.setdefault(question, set())
        offered = self.offers.of(questions, steps)
        offered = {question: found - self.aside for question, found in offered.items()}
        for number, (question, own) in enumerate(offered.items()):
            self.allowance.tell("Weighing single steps", number, len(offered))
            for step in sorted(own):
                self._weigh(question, step, NOTHING, own)
                if steps:
                    self._weigh(question, step, steps, own)
            self._counts(question)
            self._pairs(question, own, steps)
        useful = {step for moves in self.moves.values() for move in moves for step in move}
        fresh = useful - self.known
        for question in self.moves:
            for step in sorted(useful if question in offered else fresh):
                self._weigh(question, step, NOTHING, offered.get(question, ()))
        self.known |= useful
        several = {move for moves in self.moves.values() for move in moves if len(move) > 1}
        for move in sorted(several, key=_named):
            for question in self.moves:
                self._weigh_together(question, move)

    def _weigh(self, question: Question, step: Step, steps: Steps, own: Collection[Step]) -> None:
        """Note whether a step touches a question, and whether it helps it enough to be tried for its sake."""
        if step.waiver:
            if step.path == f"limits.{question.check.id}":
                self.moves[question].add(frozenset({step}))
            return
        if not steps and not self.bench.alters(step, question):
            return
        before = self.bench.standing(question, steps)
        after = self.bench.standing(question, together(steps, {step}))
        if before.same(after):
            return
        if _helps(before, after):
            self.helps.setdefault(question, set()).add(step)
        elsewhere = step not in own and any(step.path == one.path for one in own)
        if not elsewhere and _helps(before, after, ENOUGH):
            self.moves[question].add(frozenset({step}))

    def _weigh_together(self, question: Question, move: Steps) -> None:
        """Note whether several steps together help a question enough to be tried for its sake."""
        if move not in self.moves[question] and any(self.bench.alters(step, question) for step in move):
            before, after = self.bench.standing(question, NOTHING), self.bench.standing(question, move)
            if not before.same(after) and _helps(before, after, ENOUGH):
                self.moves[question].add(move)

    def _counts(self, question: Question) -> None:
        """Where several equal steps help a little each, all of them are a move, and all but one."""
        alike: dict[tuple[int, str], list[Step]] = {}
        for step in sorted(self.helps.get(question, set())):
            if step.change is not None and not step.for_all and not self.fine(question, frozenset({step})):
                alike.setdefault((id(step.change), step.shown), []).append(step)
        for steps in alike.values():
            if 1 < len(steps) <= MOST_ALIKE and consistent(steps):
                some = combinations(steps, len(steps) - 1) if len(steps) > 2 else ()
                self.moves[question] |= {frozenset(few) for few in some}
                self.moves[question].add(frozenset(steps))

    def _pairs(self, question: Question, offered: Collection[Step], steps: Steps) -> None:
        """Where no clean step clears a question by itself, two may, or the same done to several inputs."""
        alone = [step for step in offered if self.fine(question, together(steps, {step}))]
        if any(step.clean for step in alone):
            return
        before = self.bench.standing(question, steps)
        rest = [step for step in sorted(offered) if step not in alone and not step.waiver]
        tried = [*combinations(rest[:MOST_PAIRED], 2), *self.offers.joint(question, steps)]
        for pair in tried:
            if consistent(pair) and _helps(
                before, self.bench.standing(question, together(steps, pair)), ENOUGH
            ):
                self.moves[question].add(frozenset(pair))

    # --- the search ---------------------------------------------------------------------------------------------

    def plan(self, *, clean: bool) -> Plan:
        """The cheapest set of steps, or the cleanest: the one of fewest steps, each of which makes the mule right."""
        self.allowance.refill(0.5 * min(1.0, USUAL / max(1, len(self.before))))
        begun = frozenset(step for step in self.begun if step.clean or not clean)
        ends = [begun]  # from which to go on where the search has to stop
        try:
            for _ in range(MOST_ROUNDS):
                answer = solve(self._puzzle(clean), self._asked, self.allowance, self.lessons)
                ends.append(answer.atoms)
                wrong = self._what_is_wrong(answer.atoms, answer.left)
                if not answer.proven:
                    break
                if wrong:
                    self._learn_from(wrong, answer.atoms)
                elif not self._second_look(answer):
                    return self._made(self._refined(answer.atoms, answer.left), True)
        except KeyboardInterrupt:
            self.allowance.stopped = True
        return min((self._rescued(some, clean) for some in dict.fromkeys(ends[-2:])), key=_merit(clean))

    @property
    def _asked(self) -> list[Question]:
        return [*self.targets, *sorted(self.guards)]

    def _rescued(self, steps: Steps, clean: bool) -> Plan:
        """What can be made of a set at which the search had to stop."""
        steps = self._without_harm(steps)
        open_ones = [one for one in self.targets if not self.fine(one, steps)]
        steps, left = self._completed(steps, open_ones, clean)
        return self._made(self._refined(steps, left), False)

    def _second_look(self, answer: Answer[Step, Question]) -> bool:
        """Look at what a set leaves or waives from where it leads; whether that brought anything to try."""
        real = frozenset(step for step in answer.atoms if not step.waiver)
        waived = {step.path.removeprefix("limits.") for step in answer.atoms if step.waiver}
        open_ones = [one for one in self.targets if one in answer.left or one.check.id in waived]
        looks = [(one, real) for one in open_ones if (one, real) not in self.looked][:MOST_LOOKS]
        self.looked |= set(looks)
        before = sum(map(len, self.moves.values()))
        if looks and real:
            self.learn([one for one, _ in looks], real)
        return sum(map(len, self.moves.values())) > before

    def _puzzle(self, clean: bool) -> Puzzle[Step, Question]:
        def bad(question: Question, steps: Steps) -> bool:
            return not self.fine(question, steps)

        def pain(question: Question, steps: Steps) -> float:
            return float(self.bench.standing(question, steps).excess)

        def cost(step: Step) -> float:
            return A_STEP + step.cost if clean else step.cost + 1e-3

        def fits(steps: Steps) -> bool:
            return self.bench.tried(steps) is not None

        factor = A_STEP if clean else 1.0
        penalty = {one: PENALTY[Severity(self.severity[one.id])] * factor for one in self.targets}
        own = {question: {one for move in moves for one in move} for question, moves in self.moves.items()}
        offered = {step for steps in own.values() for step in steps if step.clean or not clean}
        helps = {
            question: sorted((steps | self.helps.get(question, set())) & offered)
            for question, steps in own.items()
        }
        return Puzzle(helps, bad, pain, cost, self.bench.felt, clash, fits, penalty)

    def fine(self, question: Question, steps: Steps) -> bool:
        """Whether a question is cleared, or a guard no worse than it was."""
        return self._stands(question, self.bench.standing(question, steps))

    def _stands(self, question: Question, standing: Standing, margin: float = 0.0) -> bool:
        if question not in self.guards:
            return bool(standing.clear(int(self.bench.level), margin))
        return not self._worse(question.id, int(standing.severity))

    def _worse(self, id: tuple[str, str], now: int) -> bool:
        """Whether a verdict is worse than before: it trips harder at a level that counts, or cannot be told any more.

        What did not apply before may be left open: a new part has sides that nobody has described yet.
        """
        if now < 0:
            return id in self.severity and id not in self.silent
        return now > self.severity.get(id, 0) and now >= self.bench.level

    def _what_is_wrong(
        self, steps: Steps, left: Collection[Question], checks: Sequence[Check] = ()
    ) -> list[Question]:
        """What trips that should not, once all steps are taken together."""
        found = []
        for verdict in self.bench.verdicts(steps, checks or self.checks):
            question = Question(verdict.check, verdict.entity)
            now = _severity(verdict)
            if question in left or question not in self.targets:
                wrong = self._worse(question.id, now)
            else:
                wrong = now >= self.bench.level or now < 0
            if wrong:
                found.append(question)
        return found

    def made_worse(self, steps: Steps) -> list[Question]:
        """What a set makes worse than it was."""
        return self._what_is_wrong(steps, self.targets)

    def _learn_from(self, wrong: Sequence[Question], steps: Steps) -> None:
        """Learn what may help against what a set makes wrong; where that was known, the set cannot be."""
        fresh = [one for one in wrong if one not in self.moves or not self.fine(one, steps)]
        if not fresh:
            self.lessons.unfit.append(self._harmful(steps, wrong[0]))
            return
        fresh = fresh[:MOST_LOOKS]
        self.guards.update(one for one in fresh if one not in self.targets)
        self.learn(fresh, steps)

    def _harmful(self, steps: Steps, question: Question) -> Steps:
        """As few of some steps as make something wrong that nobody can be asked about alone."""
        for step in sorted(steps):
            if question in self._what_is_wrong(steps - {step}, self.targets, [question.check]):
                steps -= {step}
        return steps

    def _without_harm(self, steps: Steps) -> Steps:
        """Drop steps until nothing is worse than before; for a search that had to stop too early."""
        while steps and (harmed := self.made_worse(steps)):
            ways = [steps - {step} for step in sorted(steps) if self._matters(step, steps, harmed)]
            steps = min(ways or [NOTHING], key=lambda fewer: self._harm(fewer, harmed))
        return steps

    def _matters(self, step: Step, steps: Steps, questions: Sequence[Question]) -> bool:
        """Whether some question stands differently without a step."""
        standing = self.bench.standing
        return any(not standing(one, steps).same(standing(one, steps - {step})) for one in questions)

    def _harm(self, steps: Steps, questions: Sequence[Question]) -> int:
        """How many of some questions stand worse than before."""
        return sum(self._worse(one.id, int(self.bench.standing(one, steps).severity)) for one in questions)

    def _completed(
        self, steps: Steps, left: Collection[Question], clean: bool
    ) -> tuple[Steps, Collection[Question]]:
        """Take what clears a finding more and undoes nothing; for a search that had to stop too early."""
        asked = self._asked
        for question in sorted(left):
            well = [one for one in asked if self.fine(one, steps)]
            ways = (
                steps | move
                for move in sorted(
                    self.moves[question], key=lambda move: (sum(one.cost for one in move), _named(move))
                )
                if not clean or all(step.clean for step in move)
            )
            for way in ways:
                if (
                    consistent(way)
                    and self.bench.tried(way)
                    and all(self.fine(one, way) for one in (question, *well))
                ):
                    rest = [one for one in left if one != question]
                    if not self._what_is_wrong(way, rest):
                        steps, left = way, rest
                        break
        return steps, left

    def _refined(self, steps: Steps, left: Collection[Question]) -> Steps:
        """Leave out what is not needed; set each number no further than it has to be beside the other steps."""
        for step in sorted(steps, key=lambda step: (-step.cost, step.key)):
            fewer = steps - {step}
            needed = any(self.fine(one, steps) and not self.fine(one, fewer) for one in self.targets)
            if not needed and not self._what_is_wrong(fewer, left):
                steps = fewer
        for step in sorted(steps):
            if step.change is not None and (step.change.numeric or step.change.by == "teeth"):
                changed = self._set_anew(steps, step)
                if changed != steps and not self._what_is_wrong(changed, left):
                    steps = changed
        return steps

    def _set_anew(self, steps: Steps, step: Step) -> Steps:
        good = [one for one in self._asked if step in self.bench.felt(one, steps) and self.fine(one, steps)]
        for nearer, standings in self.offers.nearer(step, steps, good):
            if all(self._stands(one, standing, MARGIN) for one, standing in standings.items()):
                return steps - {step} | {nearer}
        return steps

    def _made(self, steps: Steps, proven: bool) -> Plan:
        self.begun = steps
        after = self.bench.judged_anew(steps, self.checks)
        now = {(one.check.id, one.entity): _severity(one) for one in after}
        left = tuple(
            one for one in self.targets if now.get(one.id, 0) >= self.bench.level or now.get(one.id, 0) < 0
        )
        total = sum(one.cost for one in steps) + sum(PENALTY[Severity(self.severity[one.id])] for one in left)
        return Plan(tuple(sorted(steps)), left, tuple(after), proven, total)


def _merit(clean: bool) -> Callable[[Plan], tuple[float, int]]:
    return lambda plan: (plan.total + A_STEP * clean * (len(plan.steps) + len(plan.left)), len(plan.steps))


def _helps(before: Standing, after: Standing, share: float = 1.0) -> bool:
    """Whether a question stands better than before, by more than a share of the way where it still trips."""
    if after.severity < 0:
        return False
    if before.excess <= 0 or after.excess <= 0:
        return bool(after.excess < before.excess - 1e-9)
    return bool(after.excess < before.excess * share - 1e-9)


def _severity(verdict: Verdict) -> int:
    if verdict.outcome is Outcome.TRIP:
        return int(verdict.severity)
    return -1 if verdict.outcome is Outcome.CANNOT_TELL else 0


def _named(move: Steps) -> list[str]:
    return sorted(step.key for step in move)


def _far_reaching(step: Step) -> tuple[bool, float, str]:
    """Moved plugs, other parts and supplies before all else, then by cost."""
    return not (step.change is not None and step.change.by), -step.cost, step.key


def _says_nothing(verdict: Verdict) -> bool:
    return verdict.outcome in (Outcome.NOT_APPLICABLE, Outcome.CANNOT_TELL)
