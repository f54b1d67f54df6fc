"""How cures are looked for: what changes cost here, and which sprockets are at hand."""

from pydantic import Field

from mulewright.units import fields as u
from mulewright.units.table import Table


class FixCosts(Table):
    """What a change costs beside the others, a setting in the radio being 1."""

    record: u.Ratio | None = Field(None, description="Do what a list says, and write it down")
    setting: u.Ratio | None = Field(None, description="Set something in radio, receiver, controller or box")
    red_wire: u.Ratio | None = Field(None, description="Pull the middle wire of a servo plug, or put it back")
    plug: u.Ratio | None = Field(None, description="Move a plug to another socket")
    leads: u.Ratio | None = Field(
        None, description="Swap the leads of a motor, move a switch to the other wire"
    )
    fuse: u.Ratio | None = Field(None, description="Another fuse in its holder")
    wire: u.Ratio | None = Field(None, description="A run of other wire or with another connector")
    alarm: u.Ratio | None = Field(None, description="A cell alarm on a pack")
    part: u.Ratio | None = Field(None, description="Another part from the shelf")
    supply: u.Ratio | None = Field(None, description="A supply of its own for a servo or a tester")
    teeth: u.Ratio | None = Field(None, description="Another sprocket or gear")
    adding: u.Ratio | None = Field(None, description="Something bolted on")
    geometry: u.Ratio | None = Field(None, description="Another drum, wheel, rope or lever, another frame")
    task: u.Ratio | None = Field(None, description="Ask less of the machine")
    waiver: u.Ratio | None = Field(None, description="Leave a finding as it is, on purpose")


class Fix(Table):
    """How cures are looked for: what changes cost here, what is at hand."""

    cost: FixCosts = Field(default_factory=FixCosts, description="Costs that differ from the usual ones")
    teeth: list[int] | None = Field(None, description="Teeth of the sprockets and gears at hand")
