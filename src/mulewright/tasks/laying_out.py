"""Lay out the controls of a mule, and write the layout into its file."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from mulewright.design.mule import Mule, link
from mulewright.design.resolve import rebuild
from mulewright.design.writing import BEFORE, save, set_values
from mulewright.errors import DesignError
from mulewright.layout.plan import Plan, lay_out, steps
from mulewright.layout.pricing import Priced
from mulewright.layout.setting import by_hand, settings
from mulewright.tasks.opening import Opened, open_mule

Watch = Callable[[int], Callable[[], None]]  # gets the number of steps, gives what is called after each


@dataclass(frozen=True)
class LayoutReport:
    """The layout of one mule, what would be written into its file, and whether it was."""

    opened: Opened
    where: str
    plan: Plan
    values: dict[str, Any]
    by_hand: tuple[str, ...]
    applied: bool

    @property
    def kept(self) -> str:
        """Where the file as it was lies, if it was changed."""
        return f"{self.where}{BEFORE}" if self.applied else ""

    def as_dict(self) -> dict[str, Any]:
        """The layout for programs."""
        plan = self.plan
        return {
            "mule": self.opened.name,
            "best": _layout(plan.best),
            "present": _layout(plan.present),
            "ties": [{"more": round(one.cost - plan.best.cost, 6)} | _layout(one) for one in plan.ties],
            "more_ties": plan.more_ties,
            "pareto": [{"best_at": name} | _layout(one) for name, one in plan.pareto],
            "springs": {"wanted": list(plan.springs.wanted), "there": list(plan.springs.there)},
            "changes": [
                {
                    "what": one.what,
                    "gain": one.gain,
                    "fits": one.fits,
                    "cost": one.best.cost,
                    "set": list(one.settings),
                }
                for one in plan.changes
            ],
            "packing": [
                {
                    "move": one.moves[0].what,
                    "price": one.price,
                    "short": one.short,
                    "cost": one.best.cost,
                }
                for one in plan.packing
            ],
            "packed": None
            if plan.packed is None
            else {
                "moves": [one.what for one in plan.packed.moves],
                "price": plan.packed.price,
                **_layout(plan.packed.best),
            },
            "short": plan.short,
            "proved": plan.proved,
            "set": self.values,
            "by_hand": list(self.by_hand),
            "notes": list(plan.notes),
            "applied": self.applied,
        }


def lay_out_file(
    path: str | Path,
    changes: Sequence[str] = (),
    variant: str | None = None,
    *,
    apply: bool = False,
    watch: Watch | None = None,
) -> LayoutReport:
    """Read a mule file, lay out its controls, and write the layout into it if that is asked for.

    Raises
    ------
    MulewrightError
        If the file cannot be read or written, if there is nothing to lay out, or if something would be written that
        is not in the file, or that leaves something out.
    """
    if apply and (changes or variant):
        raise DesignError(
            "what is only laid over the file cannot be written into it",
            "--apply",
            "without --set and --variant",
        )
    opened = open_mule(path, changes, variant)

    def again(further: Sequence[str]) -> Mule:
        return link(rebuild(opened.mule.loaded, (*changes, *further), variant))

    step = watch(steps(opened.evaluation)) if watch is not None else lambda: None
    plan = lay_out(opened.evaluation, again, step)
    if apply and plan.short:
        names = ", ".join(plan.best.left_out)
        raise DesignError(f"no place is left for {names}, so nothing was written", "--apply", found=names)
    values = settings(opened.mule, plan.problem, plan.best) if not plan.short else {}
    if apply and values:
        save(Path(path), set_values(opened.mule.loaded.text, values, str(path)))
    hand = tuple(by_hand(opened.mule, plan.problem, plan.best))
    return LayoutReport(opened, str(path), plan, values, hand, apply and bool(values))


def _layout(priced: Priced) -> dict[str, Any]:
    return {
        "cost": priced.cost,
        "risk": priced.part("risk"),
        "handling": priced.part("handling"),
        "work": priced.work,
        "assignment": [
            {
                "function": entry.function.name,
                "control": entry.seat.control,
                "channel": entry.seat.channel.number if entry.seat.channel is not None else None,
                "socket": entry.seat.channel.socket if entry.seat.channel is not None else None,
                "cost": round(entry.cost, 6),
                "reasons": [line.text for line in entry.lines],
            }
            for entry in priced.entries
        ],
        "pairs": [
            {"functions": [one.pair.first, one.pair.second], "cost": one.line.cost, "reason": one.line.text}
            for one in priced.beside
        ],
        "clashes": [{"cost": line.cost, "reason": line.text} for line in priced.clashes],
        "left_out": list(priced.left_out),
    }
