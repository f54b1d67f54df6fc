"""Facts about the rule table that the user typed: which things of the target it is about, and whether they fit."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Self

from mulewright.design.schema.people import Rule, RuleTable
from mulewright.facts.descriptors import fact
from mulewright.facts.graph import Evaluation, Facts
from mulewright.facts.handover import HandoverFacts
from mulewright.facts.nodes import Missing, Value
from mulewright.units.quantity import read_quantity
from mulewright.units.table import Table, form_of, kinds_of


class ThingFacts(Facts):
    """A thing of the target that a rule is about."""

    kind = "thing under a rule"
    none = "no rule is written"

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        return []


def rules_for(evaluation: Evaluation) -> RuleTable:
    """The rule table that counts: the target's own, or else the mule's."""
    assert evaluation.target is not None
    own = evaluation.target.mule.file.rules
    return own if own.rule else evaluation.mule.file.rules


def things_of(evaluation: Evaluation, rule: Rule) -> list[str]:
    """The things of the target that a rule is about."""
    assert evaluation.target is not None
    things = evaluation.target.mule.things
    return [id for id in things if rule.about and (id == rule.about or id.startswith(f"{rule.about}."))]


class RuleFacts(HandoverFacts):
    """One rule and all things of the target that it is about, ``rules.rule.0``, or one, ``rules.rule.1@fuse.main``."""

    kind = "rule of the user's own table"
    none = "no rule table is typed; the program ships none"

    @classmethod
    def names(cls, evaluation: Evaluation) -> list[str]:
        found = []
        for place, rule in enumerate(rules_for(evaluation).rule):
            whole = f"rules.rule.{place}"
            things = things_of(evaluation, rule) if rule.property else []
            if not things or rule.most is not None or rule.parts is not None:
                found.append(whole)
            found += [f"{whole}@{thing}" for thing in things]
        return found

    @property
    def thing(self) -> str:
        """The thing whose property it limits; empty where it is about all of them."""
        return self.id.partition("@")[2]

    @property
    def rule(self) -> Rule:
        """Its table."""
        return rules_for(self.evaluation).rule[int(self.id.partition("@")[0].rsplit(".", 1)[1])]

    @property
    def note(self) -> str:
        """The rule in the user's words, with the day of its table."""
        dated = rules_for(self.evaluation).dated
        words = self.rule.note or f"a rule about {self.rule.about or 'nothing'}"
        return f"{words} ({f'table of {dated}' if dated else 'table without a day'})"

    @property
    def things(self) -> list[str]:
        """The things of the target that it is about."""
        return things_of(self.evaluation, self.rule)

    @property
    def most(self) -> float | None:
        """How many of them it allows."""
        most = self.rule.quantity("most")
        return most.value if most is not None else None

    def bound(self, text: str | None) -> float | None:
        """A bound of the property, in SI."""
        if text is None or not self.rule.property:
            return None
        form: type[Table] = form_of(self.target.mule.things[self.thing])
        return read_quantity(text, kinds_of(form)[self.rule.property].kind).value

    @property
    def value(self) -> Value:
        """The property of its thing, as it is noted on the target."""
        return self.there(ThingFacts, self.thing).read(self.rule.property or "")

    @fact("1", "things of the target that it is about")
    def count(self) -> Value:
        return self.found(len(self.things), f"{len(self.things)}: {', '.join(self.things) or 'none'}")

    @property
    def unlisted(self) -> list[str]:
        """Things whose part is not on the list.

        Raises
        ------
        Missing
            If it is not noted which part one of them is.
        """
        tables = {id: self.target.mule.things[id] for id in self.things}
        parts: dict[str, str | None] = {id: getattr(table, "part", None) for id, table in tables.items()}
        unknown = [f"{self.target.mark}{id}.part" for id, part in parts.items() if part is None]
        if unknown:
            raise Missing(*unknown)
        return [f"{id} ({part})" for id, part in parts.items() if part not in (self.rule.parts or [])]

    @fact("1", "things whose part is not on the list")
    def unlisted_count(self) -> Value:
        found = self.unlisted
        return self.found(len(found), f"not on the list: {', '.join(found) or 'none'}")
