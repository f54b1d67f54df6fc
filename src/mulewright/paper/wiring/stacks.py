"""How high do batteries stand, with their fuses and switches over and under them? Beside what they feed."""

from __future__ import annotations

from collections.abc import Sequence

from mulewright.paper.wiring.heights import TOP
from mulewright.paper.wiring.plan import Box, Plan, Row, Stack, Wire
from mulewright.paper.wiring.scene import Rect
from mulewright.paper.wiring.sizes import EDGE, SIDE_BY_SIDE, Sizes, label_width

GAP = 9.0  # [mm] between the boxes of a stack, for the wire between them
BESIDE_LABEL = 9.0  # [mm] of a stack left of and right of the label of a wire in it
LEAST = 12.0  # [mm] height of a box
CLEAR = 2.2  # [mm] between wires that run level
NUDGE = 0.4  # [mm]
NEARLY = 1e-6  # [mm]


class Stacks:
    """The boxes of all stacks, and the heights at which wires leave them. [mm]."""

    def __init__(self, plan: Plan, sizes: Sizes) -> None:
        self._plan, self._sizes = plan, sizes
        labels = (label_width(wire) + BESIDE_LABEL for wire in plan.upright)
        self.wide = max((*(sizes.wide(box) for box in plan.stacked), *labels), default=0.0)
        self.rect: dict[Box, Rect] = {}
        self.bottom = TOP
        outs = [wire for stack in plan.stacks for wire in self._outs(stack)]
        self._taken = [wire.lane.y for wire in outs if wire.lane is not None]
        for stack in sorted(plan.stacks, key=self._aim):
            self._stand(stack)
        for box in plan.standing:
            self._face(box)

    def _outs(self, stack: Stack) -> list[Wire]:
        """The wires that leave a stack, from the top down."""
        return [wire for box in stack.boxes for wire in self._out(box)]

    def _out(self, box: Box) -> list[Wire]:
        return [wire for wire in box.leaving if wire not in self._plan.upright]

    def _aim(self, stack: Stack) -> float:
        """The height at which the middle of a stack should lie."""
        ends = dict.fromkeys(wire.right for wire in self._outs(stack) if wire.right is not None)
        middles = [sum(self._sizes.top_and_bottom(box)) / 2 for box in ends if box.all_rows()]
        return sum(middles) / len(middles) if middles else 0.0

    def _stand(self, stack: Stack) -> None:
        """Place a stack where no wire of it runs on the height of another one."""
        heights = [self._high(box) for box in stack.boxes]
        whole = sum(heights) + GAP * (len(heights) - 1)
        top = max(self._aim(stack) - whole / 2, self.bottom)
        while any(
            abs(y - other) < CLEAR for y in self._leaving(stack, top, heights) for other in self._taken
        ):
            top += NUDGE
        leaving = self._leaving(stack, top, heights)
        for wire, y in zip(self._outs(stack), leaving, strict=True):
            wire.left_row = Row(0.0, 0.0, y)
        self._taken += leaving
        self.bottom = top + whole + GAP
        for box, height in zip(stack.boxes, heights, strict=True):
            self.rect[box] = Rect(0.0, top, self.wide, top + height)
            top += height + GAP

    def _high(self, box: Box) -> float:
        return max(LEAST, self._sizes.high(box), SIDE_BY_SIDE * len(self._out(box)) + 2.0)

    def _leaving(self, stack: Stack, top: float, heights: Sequence[float]) -> list[float]:
        """Heights at which its wires would leave a stack."""
        found = []
        for box, height in zip(stack.boxes, heights, strict=True):
            count = len(self._out(box))
            found += [top + height * (place + 0.5) / count for place in range(count)]
            top += height + GAP
        return found

    def _face(self, box: Box) -> None:
        """End the wires from stacks at a board: at their own heights where they fit, else bent to it."""
        ends = [(wire.left_row.y, wire) for wire in box.incoming if wire.left_row and wire.right_row is None]
        ends.sort(key=lambda end: end[0])
        if not ends:
            return
        heights = _spread([y for y, _ in ends], *self._sizes.top_and_bottom(box))
        for (wanted, wire), y in zip(ends, heights, strict=True):
            level = abs(y - wanted) < NEARLY
            wire.right_row = wire.lane = wire.left_row if level else Row(0.0, 0.0, y)


def _spread(heights: Sequence[float], top: float, bottom: float) -> list[float]:
    """Heights as near to the wanted ones as a board allows, far enough from each other, in the same order."""
    low, high = top + EDGE, bottom - EDGE
    found: list[float] = []
    for y in heights:
        found.append(max(min(max(y, low), high), found[-1] + SIDE_BY_SIDE if found else low))
    for place in reversed(range(len(found))):
        found[place] = min(found[place], found[place + 1] - SIDE_BY_SIDE if place + 1 < len(found) else high)
    return found
