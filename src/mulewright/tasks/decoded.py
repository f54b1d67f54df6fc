"""How is a decode told by the names of the mule: wheels, plugs and channels in place of numbers?"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from mulewright.decode.answer import Answer
from mulewright.decode.bench import BOX, Bench
from mulewright.decode.faults import Fault
from mulewright.decode.fixing import CHANNEL, CONTROL, INPUTS, LEADS, MOVES, PLUGS, Action, Fix
from mulewright.decode.looking import Look
from mulewright.decode.typed import shown
from mulewright.decode.wiring import Rows, Wiring
from mulewright.decode.words import WORDS, listed, spoken
from mulewright.tasks.opening import Opened

MIX_ONCE = "mix-once"
MOST_RANKED = 5  # fixes that are listed


@dataclass(frozen=True)
class Decoded:
    """An answer with the names of the mule's own things."""

    opened: Opened
    answer: Answer
    source: str

    @property
    def bench(self) -> Bench:
        """The drive that was decoded."""
        return self.answer.bench

    def as_dict(self) -> dict[str, Any]:
        """The answer for programs."""
        found, code = self.answer, self.bench.code
        return {
            "mule": self.opened.name,
            "drive": self.opened.mule.file.drive.kind if self.opened.mule.file.drive else None,
            "mixing": self.bench.mixing,
            "commands": list(code.commands),
            "source": self.source,
            "observed": self.words(found.evidence.pushes),
            "wanted": self.words(code.rows),
            "complete": found.complete,
            "correct": found.complete and found.answers == code.rows,
            "candidates": found.candidates,
            "state": self._state(found.state) if found.state is not None else None,
            "explanations": found.equivalent,
            "explanations_that_fit": found.explanations,
            "cheapest": self._fix(found.cheapest),
            "cleanest": self._fix(found.cleanest),
            "ranked": [self._fix(one) for one in found.ranked[:MOST_RANKED]],
            "next_push": self._look(found.look),
            "faults": [self._fault(fault) for fault in found.faults],
            "flags_noted": self.bench.flags_noted,
        }

    def words(self, rows: Rows) -> dict[str, str]:
        """Signs by wheel."""
        return {
            wheel: shown(row) for wheel, row in zip(self.bench.code.wheels, rows, strict=True)
        }  # fmt: skip

    def _state(self, wiring: Wiring) -> dict[str, Any]:
        code = self.bench.code
        wheels = {
            wheel: {
                "gets_signal_of": self.bench.places[wiring.sockets[plug]],
                "reversed": sign * wiring.channels[code.channels[wiring.sockets[plug]]] < 0,
                "leads_reversed": sign < 0,
            }
            for wheel, plug, sign in zip(code.wheels, code.plug_of, wiring.leads, strict=True)
        }
        inputs = [code.commands[place] for place in wiring.inputs]
        turned = [code.commands[place] for place, sign in enumerate(wiring.controls) if sign < 0]
        return {
            "wheels": wheels,
            "inputs": dict(zip(code.commands, inputs, strict=True)),
            "reversed_controls": turned,
        }

    def _fix(self, fix: Fix | None) -> dict[str, Any] | None:
        if fix is None:
            return None
        actions = [self.action(fix, place) for place in range(len(fix.actions))]
        return {"cost": fix.cost, "actions": [*self._before(), *actions]}

    def _before(self) -> list[dict[str, Any]]:
        """What has to be done before any wiring can be judged."""
        after = self.answer.after
        if after is None:
            return []
        return [{"kind": MIX_ONCE, "cost": 0.0, "expect": self.words(after), "push_again": True}]

    def action(self, fix: Fix, place: int) -> dict[str, Any]:
        """One thing to do, by the names of the mule."""
        action = fix.actions[place]
        following = [one.kind for one in fix.actions[place + 1 : place + 2]]
        return {
            "kind": action.kind,
            "cost": action.cost,
            **self._named(fix, action),
            "expect": self.words(action.then),
            "push_again": action.kind in MOVES and following != [action.kind] and not {*following} & {*MOVES},
        }

    def _named(self, fix: Fix, action: Action) -> dict[str, Any]:
        bench, code = self.bench, self.bench.code
        if action.kind == PLUGS:
            return {
                "plugs": [bench.plugs[plug] for plug in action.of],
                "wheels": [[code.wheels[wheel] for wheel in code.plugs[plug]] for plug in action.of],
            }
        if action.kind == INPUTS:
            return {"inputs": [code.commands[place] for place in action.of]}
        (one,) = action.of
        if action.kind == CONTROL:
            channel = bench.stick_ports[one] if bench.mixing == BOX else None
            return {"control": code.commands[one], "channel": channel}
        if action.kind == CHANNEL:
            sits = [code.channels[fix.to.sockets[plug]] for plug in code.plug_of]
            wheels = [wheel for wheel, channel in zip(code.wheels, sits, strict=True) if channel == one]
            return {"wheels": wheels, "channel": bench.ports[one]}
        assert action.kind == LEADS
        return {"wheel": code.wheels[one]}

    def _look(self, look: Look | None) -> dict[str, Any] | None:
        if look is None:
            return None
        code = self.bench.code
        return {
            "push": code.commands[look.command],
            "look_at": [code.wheels[wheel] for wheel in look.wheels],
            "candidates": look.candidates,
            "leaves": look.leaves,
        }

    def _fault(self, fault: Fault) -> dict[str, Any]:
        code, words = self.bench.code, WORDS[fault.kind]
        wheels = [code.wheels[wheel] for wheel in fault.wheels]
        commands = [code.commands[command] for command in fault.commands]
        cells = [(code.wheels[wheel], code.commands[command]) for wheel, command in fault.cells]
        says = words.says.format_map(
            {
                "wheels": listed([spoken(wheel) for wheel in wheels]),
                "commands": listed(commands),
                "cells": listed([f"{spoken(wheel)} on {command}" for wheel, command in cells], "or"),
            }
        )
        return {
            "kind": fault.kind,
            "wheels": wheels,
            "commands": commands,
            "look_again": [{"wheel": wheel, "push": command} for wheel, command in cells],
            "says": says[0].upper() + says[1:],
            "do": words.do,
        }
