"""Do packs that are joined match each other, and does a controller's cut-off match its pack?"""

from __future__ import annotations

from mulewright.checks.engine import (
    Answer,
    Example,
    Flip,
    Limit,
    Limits,
    NotApplicable,
    Outcome,
    Severity,
    above,
    below,
    check,
    either,
    flagged,
    lacking,
)
from mulewright.checks.symptoms import Symptom
from mulewright.facts.cut_off import CutOffFacts
from mulewright.facts.joined_packs import JoinedPacksFacts

LEFT = "controller.left"
CUTS_AT = f"{LEFT}.cuts_off=true", f"{LEFT}.cut_off_voltage={{}} V"
LITHIUM = (f"{LEFT}.cuts_off=true", f"{LEFT}.cut_off_chemistry=lithium-polymer")
NIMH = (f"{LEFT}.cuts_off=true", f"{LEFT}.cut_off_chemistry=nimh")
LOWEST = 0.8  # share of the volts of the empty pack


def _cuts_at(volts: float) -> tuple[str, ...]:
    return (CUTS_AT[0], CUTS_AT[1].format(volts))


def _two(**second: str) -> tuple[str, ...]:
    """A second pack beside the first, on a Y-lead."""
    known = {"part": "b-ni"} | second
    return (
        'y_lead.packs={ kind = "parallel", carries = "power", joins = ["battery.main", "battery.second"] }',
        "battery.second={ " + ", ".join(f'{key} = "{value}"' for key, value in known.items()) + " }",
    )


SERIES = (*_two(), "y_lead.packs.kind=series")
ALONE = (*_two(), 'y_lead.packs.joins=["battery.main"]')


@check(
    "P32",
    on=CutOffFacts,
    severity=Severity.WARN,
    why="It stops long before the pack is empty, or it never stops and the pack is ruined.",
    seen="Dies with the pack half full, or never cuts off",
    symptom=Symptom.CUTS_OUT,
    fixes=("Set the cut-off for this pack.", "Switch the cut-off off and fit an alarm to the pack."),
    levers=("controller.*.cut_off_voltage", "controller.*.cut_off_cells", "battery.*.part"),
    limits=Limit(1.2, "ratio", "judgement", "judgement: less than one cell in four wrong"),
    examples=(
        Example("tray-cart", Outcome.PASS, LEFT, _cuts_at(10)),
        Example("tray-cart", Outcome.TRIP, LEFT, _cuts_at(12.5), Severity.WARN),
        Example("tray-cart", Outcome.TRIP, LEFT, _cuts_at(6), Severity.WARN),
        Example("tray-cart", Outcome.TRIP, LEFT, LITHIUM, Severity.WARN),
        Example("tray-cart", Outcome.PASS, LEFT, (*NIMH, f"{LEFT}.cut_off_cells=10")),
        Example("tray-cart", Outcome.TRIP, LEFT, (*NIMH, f"{LEFT}.cut_off_cells=9")),
        Example("tray-cart", Outcome.TRIP, LEFT, (*NIMH, f"{LEFT}.cut_off_cells=11")),
        Example("tray-cart", Outcome.PASS, LEFT, (*NIMH, f"{LEFT}.cut_off_voltage=11 V")),
        Example("hose-tug", Outcome.PASS, LEFT, (LITHIUM[0], f"{LEFT}.cut_off_voltage=9 V")),
        Example("tray-cart", Outcome.CANNOT_TELL, LEFT, NIMH),
        Example("tray-cart", Outcome.CANNOT_TELL, LEFT, (f"{LEFT}.cuts_off=?",)),
        Example("tray-cart", Outcome.NOT_APPLICABLE, LEFT),
    ),
    flips=(
        Flip("tray-cart", LEFT, f"{LEFT}.cut_off_voltage", "13 V", "10 V", CUTS_AT[:1]),
        Flip("tray-cart", LEFT, f"{LEFT}.cut_off_voltage", "5 V", "10 V", CUTS_AT[:1]),
    ),
)
def cut_off_for_another_pack(controller: CutOffFacts, limits: Limits) -> Answer:
    """What a controller's own cut-off is set for, against the pack that feeds it.

    Worked out: kind and number of cells are compared where they are noted. Where only the volts are, they are
    compared with those of the empty pack: cells in series times the volts of one empty cell of their kind. A
    fifth of them up or down is let pass.

    Not covered: controllers that count the cells by themselves at switch-on, and may count wrongly.

    Source: common practice, no source; volts of empty cells from the table of assumptions.
    """
    if not controller.cuts:
        return NotApplicable(f"{controller.id} does not cut off by itself")
    if controller.on_bench:
        return NotApplicable(f"{controller.on_bench} feeds {controller.id}, and does not run empty")
    if controller.set_for_other:
        what = "The cut-off of {controller} is set for {set_for}; its pack is {cells} cells of {pack}."
        return flagged(
            controller.other_cells, Severity.WARN, what, controller=controller.id, set_for=controller.set_for,
            pack=controller.battery.choice("chemistry"), cells=controller.battery.cells,
        )  # fmt: skip
    if controller.counted:
        what = "The cut-off of {controller} is set for {set} cells in series; its pack has {has}."
        return above(
            controller.cells_off, {Severity.WARN: 0.5}, what, controller=controller.id,
            set=controller.cut_off_cells, has=controller.battery.cells,
        )  # fmt: skip
    what = "{controller} cuts off at {volts}, {value:%} of the {empty} at which its pack is empty."
    words = {"volts": controller.cut_off_voltage, "empty": controller.empty}
    return either(
        above(controller.cut_share, limits, what, controller=controller.id, **words),
        below(controller.cut_share, {Severity.WARN: LOWEST}, what, controller=controller.id, **words),
    )


@check(
    "P36",
    on=JoinedPacksFacts,
    severity=Severity.BLOCK,
    why="Nothing limits the current from one pack into the other, and a pack that is charged so can burn.",
    seen="Packs are hot soon after they were joined",
    symptom=Symptom.HOT,
    fixes=(
        "Join only packs of one kind with equal cells.",
        "Charge both before they are joined, so that they stand at the same volts.",
        "Use one pack.",
    ),
    levers=("y_lead.*.joins", "battery.*.part", "battery.*.rested"),
    limits=Limit("0.1 V", "voltage", "common practice"),
    examples=(
        Example("tray-cart", Outcome.PASS, "y_lead.packs", _two()),
        Example("tray-cart", Outcome.TRIP, "y_lead.packs", _two(rested="11.0 V"), Severity.BLOCK),
        Example("tray-cart", Outcome.TRIP, "y_lead.packs", _two(chemistry="lead"), Severity.BLOCK),
        Example("tray-cart", Outcome.TRIP, "y_lead.packs", (*_two(), "battery.second.cells=9")),
        Example("tray-cart", Outcome.CANNOT_TELL, "y_lead.packs", (*_two(), "battery.second.cells=?")),
        Example("tray-cart", Outcome.CANNOT_TELL, "y_lead.packs", (*_two(), "y_lead.packs.kind=?")),
        Example("tray-cart", Outcome.NOT_APPLICABLE, "y_lead.packs", SERIES),
        Example("tray-cart", Outcome.NOT_APPLICABLE, "y_lead.packs", ALONE),
    ),
    flips=(Flip("tray-cart", "y_lead.packs", "battery.second.rested", "11 V", "12.6 V", _two()),),
)
def unequal_packs_in_parallel(lead: JoinedPacksFacts, limits: Limits) -> Answer:
    """Whether packs that a lead joins in parallel are of one kind, and how far their cells stand apart.

    Worked out: kind of cells and cells in series are compared; rested volts over cells give the volts of one
    cell in each pack.

    Not covered: packs of one kind with different age or capacity, which share the load unevenly.

    Source: common practice, no source.
    """
    if lead.in_series:
        return NotApplicable(f"{lead.id} joins its packs in series")
    if len(lead.names) < 2:
        return NotApplicable(f"{lead.id} joins one pack only")
    return either(
        above(lead.cells_apart, limits, "Cells on {lead} stand {value} apart; {limit} is the most.", lead=lead.id),
        lacking(lead.alike, Severity.BLOCK, "{lead} joins {count} packs: {kinds}.", lead=lead.id,
                count=len(lead.names), kinds=lead.chemistries),
        above(
            lead.more_cells, {Severity.BLOCK: 0.5}, "{lead} joins packs of {few} and of {many} cells.",
            lead=lead.id, few=lead.fewest_cells, many=lead.most_cells,
        ),
    )  # fmt: skip
