"""Mules that nobody would build: every kind of wiring that a file can describe, thrown together."""

from __future__ import annotations

import json
import random
from collections.abc import Sequence
from typing import Any

from mulewright.design.mule import Mule, link
from mulewright.design.resolve import load_text
from tests.renamed import ODD_NAME

SYLLABLES = "nor tal ves kim ora pel dun sa gri mo lek tu".split()
LONG = "the one on the far side behind the blue crate under the shelf"  # 61 characters
GREEK, CYRILLIC = "μπροστά αριστερά", "левый задний"


def random_mule(seed: int) -> Mule:
    """The same mule for the same seed."""
    return link(load_text(_toml(_Maker(random.Random(seed)).tables)))


class _Maker:
    def __init__(self, dice: random.Random) -> None:
        self.dice = dice
        self.named: set[str] = set()
        self.tables: dict[str, Any] = {"schema_version": 1, "name": dice.choice(["Heap", LONG, GREEK])}
        self.sockets = self._receivers()
        self._signal_boxes()
        feeds = self._power()
        self._controllers(feeds)
        self._servos(feeds)

    def name(self) -> str:
        while True:
            words = "_".join(self.dice.choice(SYLLABLES) for _ in range(self.dice.choice([1, 2, 2, 3])))
            odd = self.dice.random()
            words = (
                f"{LONG} {words}"
                if odd < 0.03
                else f"{GREEK} {words}"
                if odd < 0.06
                else f"{CYRILLIC} {words}"
                if odd < 0.08
                else f"{ODD_NAME} {words}"
                if odd < 0.11
                else words
            )
            if words not in self.named:
                self.named.add(words)
                return words

    def put(self, kind: str, table: dict[str, Any]) -> str:
        name = self.name()
        self.tables.setdefault(kind, {})[name] = {
            key: value for key, value in table.items() if value is not None
        }
        return f"{kind}.{name}"

    def maybe(self, share: float, value: Any) -> Any:
        return value if self.dice.random() < share else None

    # --- signals

    def _receivers(self) -> list[str]:
        found: list[str] = []
        for kind in ("receiver", "second_receiver")[: self.dice.choice([0, 1, 1, 1, 1, 2])]:
            count = self.dice.randint(2, 14)
            self.tables[kind] = {"channels": count}
            found += [f"{kind}.{number}" for number in range(1, count + 1)]
        return found

    def socket(self) -> str | None:
        """A socket that is mostly free."""
        if not self.sockets or self.dice.random() < 0.05:
            return None
        place = self.dice.randrange(len(self.sockets))
        often = self.sockets[place].startswith(("y_lead", "tester")) or self.dice.random() < 0.05
        return self.sockets[place] if often else self.sockets.pop(place)

    def _signal_boxes(self) -> None:
        for _ in range(self.dice.choice([0, 0, 0, 1])):
            self.sockets.append(self.put("tester", {}))
        for _ in range(self.dice.choice([0, 0, 1, 1, 2])):
            kind = self.dice.choice(["two-sides", "four-roller-wheels"])
            inputs = {
                side: self.socket()
                for side in ("forward", "turn", "strafe")[: 2 if kind == "two-sides" else 3]
            }
            mixer = self.put("mixer", {"mixes": kind, "red_wire": self.maybe(0.3, "pulled"), **inputs})
            self.sockets += [f"{mixer}.out{number}" for number in range(1, 3 if kind == "two-sides" else 5)]
        for _ in range(self.dice.choice([0, 0, 1, 2, 3])):
            self.sockets.append(
                self.put("y_lead", {"kind": "parallel", "carries": "signal", "signal": self.socket()})
            )
        for _ in range(self.dice.choice([0, 0, 0, 1])):
            self.sockets.append(
                self.put(
                    "inline",
                    {"does": "reverses", "signal": self.socket(), "red_wire": self.maybe(0.3, "pulled")},
                )
            )

    # --- power

    def wire(self, path: Sequence[str]) -> None:
        gauge = self.dice.choice(["10 AWG", "14 AWG", "16 AWG", "2.5 mm2", "20 AWG", None])
        self.put(
            "wire",
            {"path": list(path), "gauge": gauge, "length": self.maybe(0.7, f"{self.dice.randint(8, 99)} cm")},
        )

    def between(self, most: int = 2) -> list[str]:
        found = []
        for _ in range(self.dice.randint(0, most)):
            sits = {"conductor": self.dice.choice(["plus", "plus", "minus", None])}
            kind = self.dice.choice(["fuse", "switch"])
            found.append(
                self.put(
                    kind,
                    {
                        **sits,
                        "rating": self.maybe(0.7, "20 A"),
                        "from_battery": self.maybe(0.5, "0.1 m") if kind == "fuse" else None,
                    },
                )
            )
        return found

    def _power(self) -> list[str]:
        """The ends from which further runs may start."""
        starts: list[str] = []
        packs = [self.put("battery", {}) for _ in range(self.dice.choice([0, 1, 1, 1, 2, 3]))]
        if len(packs) > 1 and self.dice.random() < 0.4:
            lead = self.put("y_lead", {"kind": "parallel", "carries": "power", "joins": packs[:2]})
            board = self.put("board", {})
            self.wire([packs[0], *self.between(1), lead, *self.between(1), board])
            starts.append(board)
            packs = packs[2:]
        if self.dice.random() < 0.1:
            packs.append(self.put("bench_supply", {"voltage": "12 V"}))
        for pack in packs:
            if self.dice.random() < 0.7:
                board = self.put("board", {"rating": self.maybe(0.5, "30 A")})
                self.wire([pack, *self.between(), board])
                starts.append(board)
            else:
                starts.append(pack)
        if starts and self.dice.random() < 0.3:
            further = self.put("board", {})
            self.wire([self.dice.choice(starts), *self.between(1), further])
            starts.append(further)
        return starts

    def fed(self, starts: Sequence[str], thing: str) -> None:
        if starts and self.dice.random() < 0.93:
            self.wire(
                [self.dice.choice(starts), *(self.between(1) if self.dice.random() < 0.15 else []), thing]
            )

    # --- what moves

    def _controllers(self, starts: Sequence[str]) -> None:
        for _ in range(self.dice.choice([0, 1, 2, 2, 3, 4, 6, 9])):
            motors = [self.put("motor", {}) for _ in range(self.dice.choice([0, 1, 1, 1, 1, 1, 2, 3]))]
            lead = {
                "signal": self.socket(),
                "red_wire": self.dice.choice(["in", "pulled", None]),
                "ground_wire": self.maybe(0.05, "pulled"),
            }
            known = {"lead_length": self.maybe(0.3, "300 mm"), "lead_gauge": self.maybe(0.3, "26 AWG")}
            polarity = self.dice.choice(["straight", "swapped", None])
            self.fed(starts, self.put("controller", {"feeds": motors, "polarity": polarity, **lead, **known}))
        if self.dice.random() < 0.15:
            self.fed(starts, self.put("motor", {}))

    def _servos(self, starts: Sequence[str]) -> None:
        servos = [
            self.put("servo", {"signal": self.socket()}) for _ in range(self.dice.choice([0, 1, 1, 2, 4]))
        ]
        for _ in range(self.dice.choice([0, 0, 1, 2])):
            targets = [one for one in servos if self.dice.random() < 0.4]
            servos = [one for one in servos if one not in targets]
            if (
                self.sockets
                and self.dice.random() < 0.4
                and (at := self.socket())
                and at.startswith(("receiver", "second"))
            ):
                targets.append(at)
            self.fed(starts, self.put("regulator", {"feeds": targets, "red_wire": self.maybe(0.1, "pulled")}))
        if servos and self.dice.random() < 0.2:
            self.put("battery", {"feeds": [servos[0]]})
        if self.dice.random() < 0.15 and (at := self.socket()) and at.startswith(("receiver", "second")):
            self.put("battery", {"feeds": [at]})


def _toml(tables: dict[str, Any]) -> str:
    lines = [
        f"{key} = {json.dumps(value, ensure_ascii=False)}"
        for key, value in tables.items()
        if not isinstance(value, dict)
    ]
    for kind, table in tables.items():
        if not isinstance(table, dict):
            continue
        named = table if all(isinstance(value, dict) for value in table.values()) else {None: table}
        for name, values in named.items():
            lines.append(f"[{kind}]" if name is None else f"[{kind}.{json.dumps(name, ensure_ascii=False)}]")
            lines += [f"{key} = {json.dumps(value, ensure_ascii=False)}" for key, value in values.items()]
    return "\n".join(lines)
