"""Facts about what works side by side: are its controls shaped alike, and its controllers of one kind?"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Self

from mulewright.design.reads import kept
from mulewright.design.schema.electrics import Controller
from mulewright.facts.channels import NeededFacts
from mulewright.facts.controls import ControlFacts
from mulewright.facts.descriptors import fact
from mulewright.facts.graph import Evaluation, Facts
from mulewright.facts.nodes import Missing, Value
from mulewright.facts.outputs import ControllerSignalFacts, OutputFacts
from mulewright.models.arithmetic import difference, largest, smallest


class SideBySideFacts(Facts):
    """What is moved by several devices that follow different controls: ``drive`` or ``mechanism.lift``."""

    kind = "function on several controls"
    none = "no two devices that work side by side follow different controls"

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        made = (evaluation.entity(cls, one.id) for one in NeededFacts.all(evaluation))
        return [one for one in made if len(one.controls) > 1]

    @kept
    def controls(self) -> list[ControlFacts]:
        """The controls that its devices follow; those of a mixed drive are meant to differ."""
        drive = self.mule.file.drive
        if self.id == "drive" and (drive is None or drive.kind != "two-sticks"):
            return []
        outputs = [self.of(OutputFacts, device) for device in self.of(NeededFacts, self.id).devices]
        names = dict.fromkeys(one.main[0].control.id for one in outputs if one.terms)
        return [self.of(ControlFacts, name) for name in names]

    @property
    def names(self) -> str:
        """Their names, for people."""
        return " and ".join(control.name for control in self.controls)

    @fact("1", "its roundest curve")
    def most_expo(self) -> Value:
        return self.by(largest, values=[control.expo for control in self.controls])

    @fact("1", "its straightest curve")
    def least_expo(self) -> Value:
        return self.by(smallest, values=[control.expo for control in self.controls])

    @fact("1", "how far its curves lie apart")
    def expo_gap(self) -> Value:
        return self.by(difference, first=self.most_expo, second=self.least_expo)

    @fact("1", "its highest rate")
    def most_rate(self) -> Value:
        return self.by(largest, values=[control.rate for control in self.controls])

    @fact("1", "its lowest rate")
    def least_rate(self) -> Value:
        return self.by(smallest, values=[control.rate for control in self.controls])

    @fact("1", "how far its rates lie apart")
    def rate_gap(self) -> Value:
        return self.by(difference, first=self.most_rate, second=self.least_rate)


class WheelControllersFacts(Facts):
    """The controllers of a drive, against each other."""

    kind = "controllers of a drive"
    none = "no two controllers share the wheels"

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        drive = evaluation.entity(cls, "drive")
        return [drive] if len(drive.controllers) > 1 else []

    @kept
    def controllers(self) -> list[str]:
        """Controllers whose motors turn wheels."""
        mule = self.mule
        motors = mule.motors_serving.get("drive", [])
        return list(
            dict.fromkeys(mule.controller_of[motor] for motor in motors if motor in mule.controller_of)
        )

    @property
    def signals(self) -> list[ControllerSignalFacts]:
        """What they make of pulses."""
        return [self.of(ControllerSignalFacts, controller) for controller in self.controllers]

    def _kinds(self, field: str) -> dict[str, str]:
        """What a field says of each."""
        found = {}
        for controller in self.controllers:
            table = self.mule.things[controller]
            assert isinstance(table, Controller)
            value = getattr(table, field)
            if value is None and field != "part":
                raise Missing(f"{controller}.{field}")
            found[controller] = value or "no part of the shelf"
        return found

    @property
    def differences(self) -> dict[str, dict[str, str]]:
        """What they differ in: the part, the way they reverse, what follows the dead band."""
        fields = {field: self._kinds(field) for field in ("part", "direction", "response")}
        return {field: kinds for field, kinds in fields.items() if len(set(kinds.values())) > 1}

    @property
    def in_words(self) -> str:
        """The same for people."""
        if not self.differences:
            return "its controllers are of one kind"
        words = (
            " and ".join(f"{controller} {kind}" for controller, kind in kinds.items())
            for kinds in self.differences.values()
        )
        return "its controllers differ: " + "; ".join(words)

    @fact("1", "how many of part, way of reversing and response they differ in")
    def differing(self) -> Value:
        return self.found(len(self.differences), self.in_words)

    @fact("s", "widest dead band among them")
    def widest_band(self) -> Value:
        return self.by(largest, values=[one.dead_band for one in self.signals])

    @fact("s", "narrowest dead band among them")
    def narrowest_band(self) -> Value:
        return self.by(smallest, values=[one.dead_band for one in self.signals])

    @fact("s", "how far their dead bands lie apart")
    def band_gap(self) -> Value:
        return self.by(difference, first=self.widest_band, second=self.narrowest_band)

    @fact("s", "widest range among them")
    def widest_range(self) -> Value:
        return self.by(largest, values=[one.full_pulse for one in self.signals])

    @fact("s", "narrowest range among them")
    def narrowest_range(self) -> Value:
        return self.by(smallest, values=[one.full_pulse for one in self.signals])

    @fact("s", "how far their ranges lie apart, as they are or as they were taught")
    def range_gap(self) -> Value:
        return self.by(difference, first=self.widest_range, second=self.narrowest_range)
