"""Everything that stands in its place, drawn as a scene."""

from __future__ import annotations

from mulewright.paper.wiring.boxes import draw_box
from mulewright.paper.wiring.place import Places
from mulewright.paper.wiring.plan import CONTROL
from mulewright.paper.wiring.scene import Rect, Scene
from mulewright.paper.wiring.wires import draw_upright, draw_wire


def compose(places: Places) -> Scene:
    """Draw the boxes and the wires of a plan."""
    scene = Scene((places.right, places.height))
    _shade(scene, places)
    for box in places.rect:
        draw_box(scene, places, box)
    for wire in places.plan.wires:
        draw = draw_upright if wire in places.plan.upright else draw_wire
        draw(scene, places, wire)
    return scene


def _shade(scene: Scene, places: Places) -> None:
    """Shade every other lane, from the boards to the receivers."""
    left = max((gap.left for stage, gap in places.gaps.items() if stage < CONTROL), default=0.0)
    for lane in places.lanes.lanes[::2]:
        top, bottom = lane[0].y - lane[0].above, lane[-1].y + lane[-1].below
        scene.bands.append(Rect(left, top, places.right, bottom))
