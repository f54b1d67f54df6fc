"""The mule as linked things: names of the file resolved to each other, and refused where they lead nowhere."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from functools import cached_property

from mulewright.design.resolve import Loaded
from mulewright.design.schema.electrics import Controller, Lead, Mixer, Motor, Servo
from mulewright.design.schema.file import MuleFile
from mulewright.design.schema.functions import Function
from mulewright.design.schema.machine import COMMANDS, WHEELS
from mulewright.design.signals import Signals
from mulewright.design.supply import Supply
from mulewright.errors import DesignError, MulewrightError, Problems, closest
from mulewright.shelf.tables import default
from mulewright.units.quantity import Quantity
from mulewright.units.table import Table

KINDS_OF_THING = (
    "motor controller mixer servo tester inline y_lead battery bench_supply regulator fuse switch board wire mechanism"
).split()


@dataclass(frozen=True)
class Mule:
    """One mule with its links; made by :func:`link`."""

    loaded: Loaded

    @property
    def file(self) -> MuleFile:
        """The validated tables."""
        return self.loaded.file

    @cached_property
    def things(self) -> dict[str, Table]:
        """Every named thing by its id, e.g. ``motor.lift``."""
        found: dict[str, Table] = {}
        for kind in KINDS_OF_THING:
            tables: Mapping[str, Table] = getattr(self.file, kind)
            found |= {f"{kind}.{name}": table for name, table in tables.items()}
        singles = {"body": self.file.body, "room": self.file.room, "course": self.file.course}
        singles |= {"drive": self.file.drive, "radio": self.file.radio, "receiver": self.file.receiver}
        singles |= {"second_radio": self.file.second_radio, "second_receiver": self.file.second_receiver}
        return found | {name: table for name, table in singles.items() if table is not None}

    def table(self, path: str) -> Table:
        """The table at a dotted path, e.g. ``radio.control.LV`` or ``motor.lift.regulator``."""
        found = self.things.get(path)
        if found is not None:
            return found
        here: object = self.file
        for word in path.split("."):
            if isinstance(here, Mapping):
                here = here.get(word)
            elif isinstance(here, list):
                here = here[int(word)]
            else:
                here = getattr(here, word, None)
        if not isinstance(here, Table):
            raise KeyError(path)
        return here

    def assumed(self, name: str) -> Quantity:
        """A default of the table of assumptions, marked as assumed."""
        return default(name)

    # --- motors, controllers, functions -------------------------------------------------------------------------

    @cached_property
    def controller_of(self) -> dict[str, str]:
        """Which controller feeds which motor."""
        return {
            motor: f"controller.{name}"
            for name, controller in self.file.controller.items()
            for motor in as_list(controller.feeds)
        }

    def motors_of(self, controller: str) -> list[str]:
        """The motors on a controller."""
        table = self.things[controller]
        assert isinstance(table, Controller)
        return as_list(table.feeds)

    def motors_turning(self, thing: str) -> list[str]:
        """The motors that turn a wheel or a mechanism."""
        return [f"motor.{name}" for name, motor in self.file.motor.items() if motor.turns == thing]

    @property
    def wheels(self) -> tuple[str, ...]:
        """Names of the driven wheels."""
        drive = self.file.drive
        return WHEELS[drive.kind] if drive is not None and drive.kind is not None else ()

    @property
    def drive_commands(self) -> tuple[str, ...]:
        """Functions of the drive, in their fixed order."""
        drive = self.file.drive
        if drive is None or drive.kind is None:
            return ()
        return tuple(drive.commands) if drive.commands else COMMANDS[drive.kind]

    @cached_property
    def functions(self) -> dict[str, str]:
        """Function name to the id of what serves it: ``drive``, a mechanism, a motor or a servo of its own."""
        found = dict.fromkeys(self.drive_commands, "drive")
        found |= {name: f"mechanism.{name}" for name in self.file.mechanism}
        alone: dict[str, Motor | Servo] = {
            f"motor.{n}": m for n, m in self.file.motor.items() if m.turns is None
        }
        alone |= {f"servo.{name}": servo for name, servo in self.file.servo.items() if servo.moves is None}
        for path in alone:
            found.setdefault(path.split(".", 1)[1], path)
        return found

    def function_of(self, device: str) -> str | None:
        """The function that a motor or a servo serves: ``drive`` for a wheel motor."""
        table = self.things[device]
        target = (
            table.turns if isinstance(table, Motor) else table.moves if isinstance(table, Servo) else None
        )
        if target is None:
            return device.split(".", 1)[1] if isinstance(table, Function) else None
        return "drive" if target.startswith("wheel.") else target.removeprefix("mechanism.")

    @cached_property
    def commands_of(self) -> dict[str, list[str]]:
        """Control id, e.g. ``radio.control.LV``, to the functions that it commands."""
        found: dict[str, list[str]] = {}
        for radio in ("radio", "second_radio"):
            table = getattr(self.file, radio)
            for name, control in table.control.items() if table is not None else ():
                found[f"{radio}.control.{name}"] = as_list(control.commands)
        return found

    def controls_for(self, function: str) -> list[str]:
        """Controls that command a function."""
        return [control for control, functions in self.commands_of.items() if function in functions]

    # --- nets ---------------------------------------------------------------------------------------------------

    @cached_property
    def signals(self) -> Signals:
        """Where each signal lead goes."""
        return Signals(self.file)

    @cached_property
    def supply(self) -> Supply:
        """Where the current goes."""
        return Supply(self.file)


def as_list(value: str | list[str] | None) -> list[str]:
    """One, several or none as a list."""
    return [] if value is None else [value] if isinstance(value, str) else list(value)


def link(loaded: Loaded) -> Mule:
    """Resolve the names of a loaded file.

    Raises
    ------
    Problems
        If references lead nowhere, a port is taken twice, a motor is fed twice, or the supply runs in a ring.
    """
    mule = Mule(loaded)
    problems = [*_dangling(mule), *_fed_twice(mule)]
    if not problems:
        problems = [*mule.signals.problems(), *mule.supply.problems()]
    if problems:
        raise Problems(loaded.where, problems)
    return mule


def _references(mule: Mule) -> Iterator[tuple[str, str, tuple[str, ...]]]:
    """Every reference as (where it stands, what it names, which kinds it may name)."""
    file = mule.file
    for name, motor in file.motor.items():
        if motor.turns is not None:
            yield f"motor.{name}.turns", motor.turns, ("wheel", "mechanism")
    for name, controller in file.controller.items():
        for motor_id in as_list(controller.feeds):
            yield f"controller.{name}.feeds", motor_id, ("motor",)
    for name, servo in file.servo.items():
        for key in ("moves", "power", "coupled_with"):
            value = getattr(servo, key)
            kinds = {"moves": ("mechanism",), "coupled_with": ("servo",)}.get(key, ("regulator", "battery"))
            if value is not None:
                yield f"servo.{name}.{key}", value, kinds
    for name, wire in file.wire.items():
        for place in wire.path or []:
            kinds = (
                "battery",
                "bench_supply",
                "fuse",
                "switch",
                "board",
                "controller",
                "regulator",
                "motor",
                "y_lead",
            )
            yield f"wire.{name}.path", place, kinds
    for kind in ("regulator", "battery"):
        for name, source in getattr(file, kind).items():
            for target in source.feeds or []:
                yield (
                    f"{kind}.{name}.feeds",
                    target,
                    ("receiver", "second_receiver", "servo", "mixer", "tester"),
                )
    for kind in ("controller", "servo", "inline"):
        leads: Mapping[str, Lead] = getattr(file, kind)
        for name, lead in leads.items():
            for source_id in as_list(lead.signal):
                yield f"{kind}.{name}.signal", source_id, SIGNAL_SOURCES
    for name, mixer in file.mixer.items():
        for key in ("forward", "strafe", "turn"):
            if (value := getattr(mixer, key)) is not None:
                yield f"mixer.{name}.{key}", value, SIGNAL_SOURCES
    for name, y_lead in file.y_lead.items():
        if y_lead.signal is not None:
            yield f"y_lead.{name}.signal", y_lead.signal, SIGNAL_SOURCES
        for pack in y_lead.joins or []:
            yield f"y_lead.{name}.joins", pack, ("battery",)


SIGNAL_SOURCES = ("receiver", "second_receiver", "mixer", "y_lead", "inline", "tester")


def _dangling(mule: Mule) -> Iterator[MulewrightError]:
    places = {*mule.things, *(f"wheel.{wheel}" for wheel in mule.wheels), *_ports(mule)}
    for where, name, kinds in _references(mule):
        kind = name.split(".", 1)[0]
        if name.endswith(".*") and kind in kinds:
            continue
        allowed = [place for place in places if place.split(".", 1)[0] in kinds]
        if kind not in kinds or name not in places:
            rule = f"the name of a {' or '.join(word.replace('_', ' ') for word in kinds)}, as kind.name"
            yield DesignError(
                f"nothing here is called {name!r}", where, rule, name, closest(name, sorted(allowed))
            )
    functions = list(mule.functions)
    for control, commanded in mule.commands_of.items():
        for function in commanded:
            if function not in mule.functions:
                rule = f"a function of this mule: {', '.join(functions) or 'none yet'}"
                yield DesignError(
                    f"no function is called {function!r}", f"{control}.commands", rule, function,
                    closest(function, functions),
                )  # fmt: skip


def _ports(mule: Mule) -> Iterable[str]:
    """Every socket that a signal plug may sit in."""
    for receiver in ("receiver", "second_receiver"):
        table = getattr(mule.file, receiver)
        if table is not None:
            yield from (f"{receiver}.{port}" for port in range(1, (table.channels or 18) + 1))
    for name, mixer in mule.file.mixer.items():
        yield from (f"mixer.{name}.{output}" for output in outputs_of(mixer))


def outputs_of(mixer: Mixer) -> list[str]:
    """Names of a mixer's outputs."""
    count = 4 if mixer.mixes == "four-roller-wheels" else 2
    return mixer.outputs or [f"out{number}" for number in range(1, count + 1)]


def _fed_twice(mule: Mule) -> Iterator[MulewrightError]:
    seen: dict[str, str] = {}
    for name, controller in mule.file.controller.items():
        for motor in as_list(controller.feeds):
            here = f"controller.{name}.feeds"
            if motor in seen:
                yield DesignError(
                    f"{motor} is already fed by {seen[motor]}", here, "one controller to a motor", motor
                )
            seen[motor] = here
