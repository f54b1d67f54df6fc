"""How the wiring of a drive is put right: what each change costs here, and how the motor leads are joined."""

from pydantic import Field

from mulewright.units import fields as u
from mulewright.units.table import Table


class DecodeCosts(Table):
    """What a change to the wiring of a drive costs beside the others, swapping two plugged motor leads being 1."""

    swap_plugs: u.Ratio | None = Field(None, description="Exchange the plugs of two controllers")
    swap_inputs: u.Ratio | None = Field(None, description="Exchange two inputs of the mix")
    reverse_control: u.Ratio | None = Field(
        None, description="Turn a control round, before the mix, where it can be"
    )
    reverse_channel: u.Ratio | None = Field(
        None, description="Turn a channel round, behind the mix, where it can be"
    )
    swap_motor_leads: u.Ratio | None = Field(None, description="Swap the two leads of a motor")


class Decode(Table):
    """How the wiring of a drive is put right."""

    cost: DecodeCosts = Field(
        default_factory=DecodeCosts, description="Costs that differ from the usual ones"
    )
    soldered: bool | None = Field(None, description="Whether the leads of the drive's motors are soldered")
