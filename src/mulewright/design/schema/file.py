"""The whole mule file: a table per thing, its name is its id."""

from typing import Any

from pydantic import Field

from mulewright.design.schema import electrics as e
from mulewright.design.schema import machine as m
from mulewright.design.schema import people as p
from mulewright.design.schema.decoding import Decode
from mulewright.design.schema.fixing import Fix
from mulewright.design.schema.functions import Mechanism
from mulewright.design.schema.radio import Radio, Receiver
from mulewright.units.table import Table

SCHEMA_VERSION = 1


class MuleFile(Table):
    """One mule, described for a person to read aloud and for a program to compute with."""

    schema_version: int = Field(description="Version of this form; 1 today", ge=1, le=SCHEMA_VERSION)
    name: str = Field("unnamed mule", description="What people call it")
    question: str | None = Field(None, description="The one question that the mule is built to answer")
    accept: str | None = Field(None, description="What counts as a yes, as a number, before the first run")
    deadline: str | None = Field(None, description="When the answer is needed")
    note: str | list[str] | None = Field(None, description="Anything worth remembering")

    body: m.Body = Field(default_factory=m.Body)
    drive: m.Drive | None = Field(None)
    room: m.Room = Field(default_factory=m.Room)
    course: m.Course = Field(default_factory=m.Course)
    mechanism: dict[str, Mechanism] = Field(default_factory=dict)

    motor: dict[str, e.Motor] = Field(default_factory=dict)
    controller: dict[str, e.Controller] = Field(default_factory=dict)
    mixer: dict[str, e.Mixer] = Field(default_factory=dict)
    servo: dict[str, e.Servo] = Field(default_factory=dict)
    tester: dict[str, e.Tester] = Field(default_factory=dict)
    inline: dict[str, e.Inline] = Field(default_factory=dict)
    y_lead: dict[str, e.YLead] = Field(default_factory=dict)

    battery: dict[str, e.Battery] = Field(default_factory=dict)
    bench_supply: dict[str, e.BenchSupply] = Field(default_factory=dict)
    regulator: dict[str, e.Regulator] = Field(default_factory=dict)
    fuse: dict[str, e.Fuse] = Field(default_factory=dict)
    switch: dict[str, e.Switch] = Field(default_factory=dict)
    board: dict[str, e.Board] = Field(default_factory=dict)
    wire: dict[str, e.Wire] = Field(default_factory=dict)

    radio: Radio | None = Field(None)
    receiver: Receiver | None = Field(None)
    second_radio: Radio | None = Field(None)
    second_receiver: Receiver | None = Field(None)

    driver: dict[str, p.Driver] = Field(default_factory=dict)
    instrument: dict[str, p.Instrument] = Field(default_factory=dict)
    measuring: dict[str, p.Measuring] = Field(
        default_factory=dict, description="By path, such as battery.*.capacity: how it is measured here"
    )
    habits: p.Habits = Field(default_factory=p.Habits)
    checklist: p.Checklist = Field(default_factory=p.Checklist)
    as_found: p.Pushes = Field(default_factory=p.Pushes)
    as_left: p.Pushes = Field(default_factory=p.Pushes)
    accepted: p.Accepted = Field(default_factory=p.Accepted)
    target: p.Target | None = Field(None)
    rules: p.RuleTable = Field(default_factory=p.RuleTable)
    limits: dict[str, p.LimitSetting] = Field(default_factory=dict)
    layout: p.LayoutWishes = Field(default_factory=p.LayoutWishes)
    fix: Fix = Field(default_factory=Fix)
    decode: Decode = Field(default_factory=Decode)
    print: p.Printing = Field(default_factory=p.Printing)
    variant: dict[str, dict[str, Any]] = Field(
        default_factory=dict,
        description="For each variant, what it lays over the rest: dotted paths and values",
    )
