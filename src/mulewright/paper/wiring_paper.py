"""The wiring picture as a paper."""

from __future__ import annotations

from mulewright.advice.spoken import spoken
from mulewright.design.harness import Pin, harness
from mulewright.design.mule import Mule
from mulewright.facts.graph import Evaluation
from mulewright.paper.blocks import Drawing, Paper
from mulewright.paper.wiring.draw import svg
from mulewright.paper.wiring.sheet import ADVICE, wiring_scene

MARGIN, EDGE = 5.0, 0.4  # [mm] around the picture where it stands alone, and on a page


def wiring_paper(evaluation: Evaluation) -> Paper:
    """The wiring picture of a mule, which lies on its long side where it is wider than high."""
    scene = wiring_scene(evaluation.mule, titled=False)
    alone = wiring_scene(evaluation.mule)
    wide, high = scene.size
    picture = Drawing(svg(scene, EDGE), in_words(evaluation.mule), svg(alone, MARGIN))
    return Paper("wiring", "Wiring picture", ADVICE, [picture], wide=wide > high)


def in_words(mule: Mule) -> str:
    """Every wire with its two ends, for those who cannot see the picture."""
    wires = (
        f"wire {one.number} from {_end(one.start)} to {_end(one.end)}" for one in harness(mule).conductors
    )
    return f"Wiring of {mule.file.name}: {'; '.join(wires) or 'no wires'}."


def _end(pin: Pin | None) -> str:
    return f"{spoken(pin.thing)} {pin.name}" if pin is not None else "a place that is not noted"
