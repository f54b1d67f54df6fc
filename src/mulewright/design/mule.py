"""The mule as linked things: names of the file resolved to each other, and refused where they lead nowhere."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from mulewright.design.names import KINDS_OF_THING, misnamed
from mulewright.design.problems import together
from mulewright.design.reads import READING, kept
from mulewright.design.references import as_list, dangling, fed_twice
from mulewright.design.resolve import Loaded
from mulewright.design.rule_table import misread_rules
from mulewright.design.schema.electrics import Controller, Motor, Servo
from mulewright.design.schema.file import MuleFile
from mulewright.design.schema.functions import Function
from mulewright.design.schema.machine import COMMANDS, WHEELS
from mulewright.design.schema.radio import Channel
from mulewright.design.signals import Signals
from mulewright.design.supply import Supply
from mulewright.errors import MulewrightError
from mulewright.shelf.tables import default
from mulewright.units.quantity import Quantity
from mulewright.units.table import Table

CHANNELS = ("radio.channel.", "second_radio.channel.")
SINGLE_TABLES = "body room course drive radio receiver second_radio second_receiver".split()


@dataclass(frozen=True)
class Mule:
    """One mule with its links; made by :func:`link`."""

    loaded: Loaded

    @property
    def file(self) -> MuleFile:
        """The validated tables."""
        return self.loaded.file

    @kept
    def things(self) -> dict[str, Table]:
        """Every named thing by its id, e.g. ``motor.lift``."""
        found: dict[str, Table] = {}
        for kind in KINDS_OF_THING:
            tables: Mapping[str, Table] = getattr(self.file, kind)
            found |= {f"{kind}.{name}": table for name, table in tables.items()}
        singles = {name: getattr(self.file, name) for name in SINGLE_TABLES}
        return found | {name: table for name, table in singles.items() if table is not None}

    def table(self, path: str) -> Table:
        """The table at a dotted path, e.g. ``radio.control.LV`` or ``motor.lift.regulator``.

        Raises
        ------
        KeyError
            If there is none.
        """
        found = self._tables.get(path)
        if found is None:
            with READING.apart() as own:
                table = self._table(path)
            found = self._tables[path] = table, own.seen
        READING.seen |= found[1]
        return found[0]

    @kept
    def _tables(self) -> dict[str, tuple[Table, int]]:
        """The tables that were asked for, by path, and what was read to find them."""
        return {}

    def _table(self, path: str) -> Table:
        here: object = self.file
        for word in path.split("."):
            if isinstance(here, Mapping):
                here = here.get(word)
            elif isinstance(here, list):
                here = here[int(word)]
            else:
                here = getattr(here, word, None)
        if here is None and path.startswith(CHANNELS):
            return Channel()  # it is there, but nothing is said about it
        if not isinstance(here, Table):
            raise KeyError(path)
        return here

    def assumed(self, name: str) -> Quantity:
        """A default of the table of assumptions, marked as assumed."""
        return default(name)

    # --- motors, controllers, functions -------------------------------------------------------------------------

    @kept
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
        return self._turning.get(thing, [])

    @kept
    def _turning(self) -> dict[str, list[str]]:
        found: dict[str, list[str]] = {}
        for name, motor in self.file.motor.items():
            if motor.turns is not None:
                found.setdefault(motor.turns, []).append(f"motor.{name}")
        return found

    @kept
    def servos_moving(self) -> dict[str, list[str]]:
        """Mechanism to the servos that move it."""
        found: dict[str, list[str]] = {}
        for name, servo in self.file.servo.items():
            if servo.moves is not None:
                found.setdefault(servo.moves, []).append(f"servo.{name}")
        return found

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

    @kept
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

    @kept
    def motors_serving(self) -> dict[str, list[str]]:
        """Function name to the motors that serve it; ``drive`` stands for all of the drive."""
        found: dict[str, list[str]] = {}
        for name in self.file.motor:
            function = self.function_of(f"motor.{name}")
            if function is not None:
                found.setdefault(function, []).append(f"motor.{name}")
        return found

    @kept
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

    @kept
    def signals(self) -> Signals:
        """Where each signal lead goes."""
        return Signals(self.file)

    @kept
    def supply(self) -> Supply:
        """Where the current goes."""
        return Supply(self.file)


def link(loaded: Loaded) -> Mule:
    """Resolve the names of a loaded file.

    Raises
    ------
    MulewrightError
        If names could be taken for something else, references lead nowhere, leads only lead to each other, a
        motor is fed twice, or the supply runs in a ring.
    """
    mule = Mule(loaded)
    problems: list[MulewrightError] = [*misnamed(mule)] or [
        *dangling(mule), *fed_twice(mule), *misread_rules(mule)
    ]  # fmt: skip
    if not problems:
        problems = [*mule.signals.problems(), *mule.supply.problems()]
    if problems:
        for problem in problems:
            problem.where = loaded.typed.place_of(problem.where)
        raise together(problems, loaded.where)
    return mule
