"""Facts about connectors: whether the halves mate, what stays bare, which way round plus and minus arrive."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Self

from mulewright.design.reads import kept
from mulewright.design.schema.electrics import Joint, Wire
from mulewright.design.unsaid import WIRES
from mulewright.facts.descriptors import fact, given
from mulewright.facts.graph import Evaluation, Facts
from mulewright.facts.nodes import Missing, Value
from mulewright.facts.steady import WireLoadFacts
from mulewright.models.arithmetic import quotient

NO_JOINTS = "no connector lies in a wire"
FED = ("controller.", "regulator.")


class JointFacts(Facts):
    """A connector that is described: ``wire.main.joints.0``."""

    kind = "described connector"
    none = NO_JOINTS

    rating = given()

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        return [
            evaluation.entity(cls, f"wire.{name}.joints.{place}")
            for name, wire in evaluation.mule.file.wire.items()
            for place in range(len(wire.joints or []))
        ]

    @property
    def wire(self) -> WireLoadFacts:
        """The wire that it lies in."""
        return self.of(WireLoadFacts, self.id.split(".joints", 1)[0])


class ConnectorFacts(Facts):
    """A connector in a wire; ``wire.main.joints`` where nobody said whether there are any."""

    kind = "connector"
    none = NO_JOINTS

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        wires = evaluation.mule.file.wire.items()
        unsaid = [f"wire.{name}.joints" for name, wire in wires if wire.joints is None]
        described = [joint.id for joint in JointFacts.all(evaluation)]
        return [evaluation.entity(cls, id) for id in (*described, *unsaid)]

    @property
    def described(self) -> JointFacts:
        """The same with its numbers.

        Raises
        ------
        Missing
            If nobody said whether there is a connector in the wire.
        """
        if self.id.endswith(".joints"):
            raise Missing(self.id)
        return self.of(JointFacts, self.id)

    @property
    def wire(self) -> WireLoadFacts:
        """The wire that it lies in."""
        return self.described.wire

    @property
    def other_half(self) -> str:
        """Family of the other half: its own, where no other is written."""
        own: str = self.choice("family")
        joint = self.table
        assert isinstance(joint, Joint)
        return joint.mates_with or own

    @fact("1", "1 where both halves are of one family, or an adapter lies between")
    def mates(self) -> Value:
        own, other = self.choice("family"), self.other_half
        if own == other:
            return self.found(1, f"both halves are: {own}")
        between = "an adapter" if self.choice("adapter") else "no adapter"
        return self.found(float(self.choice("adapter")), f"{own} meets {other}; {between} lies between")

    @fact("1", "1 where its live half has bare pins")
    def bare(self) -> Value:
        contacts = self.choice("battery_side")
        return self.found(float(contacts == "pins"), f"towards the battery it has {contacts}")

    @fact("A", "current that it bears for ever")
    def bears(self) -> Value:
        return self.described.rating

    @fact("1", "current for long through it over its rating")
    def steady_share(self) -> Value:
        return self.by(quotient, part=self.wire.steady, whole=self.bears)

    @fact("1", "peak current through it over its rating")
    def peak_share(self) -> Value:
        return self.by(quotient, part=self.wire.peak, whole=self.bears)


class PolarityFacts(Facts):
    """A controller or regulator, and which way round plus and minus reach it."""

    kind = "device on a battery"
    none = "nothing is wired to a battery"
    rests_on = (WIRES,)

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        ends = (run.end for run in evaluation.mule.supply.runs)
        return [evaluation.entity(cls, end) for end in dict.fromkeys(ends) if end.startswith(FED)]

    @kept
    def wires(self) -> list[tuple[str, Wire]]:
        """The wires on the way to it, from the battery outwards."""
        names = [run.wire.split(".", 1)[1] for run in self.mule.supply.way_to(self.id)]
        return [(name, self.mule.file.wire[name]) for name in names]

    @property
    def connected(self) -> bool:
        """Whether a connector lies on the way to it.

        Raises
        ------
        Missing
            If that is not said of a wire, and of no other that there is one.
        """
        if any(wire.joints for _, wire in self.wires):
            return True
        unsaid = [f"wire.{name}.joints" for name, wire in self.wires if wire.joints is None]
        if unsaid:
            raise Missing(*unsaid)
        return False

    @kept
    def unmetered(self) -> list[tuple[str, Wire]]:
        """The wires behind the last one at whose end plus and minus were metered."""
        if self.mule.file.checklist.polarity_metered:
            return []
        metered = [place for place, (_, wire) in enumerate(self.wires) if wire.polarity_metered]
        return self.wires[metered[-1] + 1 :] if metered else self.wires

    @property
    def flipping(self) -> list[str]:
        """The connectors among them that swap plus and minus.

        Raises
        ------
        Missing
            If that is not said of each of them.
        """
        unsaid = [f"wire.{name}.joints" for name, wire in self.unmetered if wire.joints is None]
        joints = [
            (f"wire.{name}.joints.{place}", joint)
            for name, wire in self.unmetered
            for place, joint in enumerate(wire.joints or [])
        ]
        unsaid += [f"{path}.flips" for path, joint in joints if joint.flips is None]
        if unsaid:
            raise Missing(*unsaid)
        return [path for path, joint in joints if joint.flips]

    @property
    def flip_words(self) -> str:
        """Where plus and minus swap, for people."""
        if not self.unmetered:
            return "plus and minus were metered at the last plug"
        return f"plus and minus swap in {', '.join(self.flipping) or 'no connector'}"

    @fact("1", "1 where plus and minus swap an odd number of times, behind where they were metered last")
    def turned(self) -> Value:
        return self.found(len(self.flipping) % 2, self.flip_words)
