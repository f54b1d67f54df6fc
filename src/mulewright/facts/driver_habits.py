"""Facts about what a push does, and what the thumb of the driver expects of it."""

from __future__ import annotations

import re

from mulewright.facts.descriptors import fact
from mulewright.facts.nodes import Missing, Value
from mulewright.facts.roles import RoleFacts

FORWARDS = (
    "forward",
    "left",
    "right",
)  # commands of a drive that go with a push up; the others with one to the right
USUAL = {"lift": "up", "arm": "up", "gripper": "open"}  # by kind of mechanism


class HabitFacts(RoleFacts):
    """A control and what a push up, to the right or clockwise does."""

    kind = "control with a direction"
    none = "no control has a direction that a driver could mistake"

    @property
    def fits(self) -> bool:
        """Whether it commands more than switching on and off, and more than wheels unless that is noted."""
        return bool(self.directed)

    @property
    def directed(self) -> list[str]:
        """The functions that it commands and that go two ways; wheels only where somebody noted what a push does."""
        noted = self.control.control.pushes_to is not None
        ways = self.characters.items()
        return [
            name
            for name, what in ways
            if what != "constant" and (noted or self.mule.functions[name] != "drive")
        ]

    @property
    def does(self) -> str:
        """What a push does, as noted."""
        noted: str = self.control.choice("pushes_to")
        return noted

    @property
    def expected(self) -> dict[str, str]:
        """What the driver expects of it, for each function.

        Raises
        ------
        Missing
            If that is not noted, and the kind of the function has no usual way.
        """
        return {name: self._expected(name) for name in self.directed}

    def _expected(self, name: str) -> str:
        serving = self.mule.functions[name]
        if serving == "drive":
            return "forward" if name in FORWARDS else "right"
        table = self.mule.things[serving]
        habit: str | None = getattr(table, "habit", None) or USUAL.get(getattr(table, "kind", None) or "")
        if habit is None:
            raise Missing(f"{serving}.habit")
        return habit

    @property
    def in_words(self) -> str:
        """Both, for people."""
        wanted = ", ".join(f"{name}: {habit}" for name, habit in self.expected.items())
        return f"a push of {self.name} up or right does this: {self.does}; the driver expects {wanted}"

    @fact("1", "1 where a push does what the driver expects")
    def as_expected(self) -> Value:
        words = self.does.casefold()
        met = (re.search(rf"\b{re.escape(habit.casefold())}", words) for habit in self.expected.values())
        return self.found(all(met), self.in_words)
