"""Facts about servo leads: how long they are, what they lie beside, and how their plugs sit."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Self

from mulewright.design.schema.electrics import Lead
from mulewright.facts.descriptors import fact, given
from mulewright.facts.graph import Evaluation, Facts
from mulewright.facts.nodes import Missing, Value
from mulewright.models.arithmetic import largest

LEADS = ("controller", "servo", "inline")


class LeadFacts(Facts):
    """The servo lead of a controller, a servo or an in-line device."""

    kind = "servo lead"
    none = "nothing with a servo lead is described"

    lead_length = given(assume="lead_length")

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        file = evaluation.mule.file
        return [evaluation.entity(cls, f"{kind}.{name}") for kind in LEADS for name in getattr(file, kind)]

    @property
    def lead(self) -> Lead:
        """Its table."""
        assert isinstance(self.table, Lead)
        return self.table

    # --- its length

    @fact("m", "length of the lead, with what extends it where its plug sits farther away")
    def laid(self) -> Value:
        if self.lead.way_to_socket is None:
            return self.lead_length
        return self.by(largest, values=[self.lead_length, self.read("way_to_socket")])

    @property
    def place(self) -> str:
        """What it lies beside, for people."""
        if self.lead.beside_motor_leads is None and self.bundled:
            return "perhaps beside motor leads"
        return "beside motor leads" if self.bundled else "away from motor leads"

    @property
    def bundled(self) -> bool:
        """Whether it is taken to lie beside motor leads; one of the usual length is short enough even there.

        Raises
        ------
        Missing
            If its length is noted, or its way, and not what it lies beside.
        """
        beside, length = self.lead.beside_motor_leads, self.lead.lead_length or self.lead.way_to_socket
        if beside is None and length is not None:
            raise Missing(f"{self.id}.beside_motor_leads")
        return beside is not False

    @fact("1", "1 where it lies beside motor leads, or may")
    def beside(self) -> Value:
        return self.found(self.bundled, f"it lies {self.place}")

    # --- its plug

    @property
    def seated(self) -> str:
        """How its plug sits, for people.

        Raises
        ------
        Missing
            If neither that is noted nor the item of the checklist.
        """
        if self.lead.plug is not None:
            return self.lead.plug
        ticked = self.mule.file.checklist.plugs_seated
        if not ticked:
            raise Missing("checklist.plugs_seated" if ticked is None else f"{self.id}.plug")
        return "as marked"

    @property
    def evidence(self) -> str:
        """Where that is known from."""
        return "noted" if self.lead.plug is not None else "ticked in the checklist"

    @fact("1", "1 where its plug sits the wrong way round")
    def plug_turned(self) -> Value:
        return self.found(self.seated == "turned", f"its plug sits {self.seated}, as {self.evidence}")

    @fact("1", "1 where its plug sits one pin or one row off")
    def plug_one_off(self) -> Value:
        return self.found(self.seated == "one pin off", f"its plug sits {self.seated}, as {self.evidence}")
