"""How is a strip for the end of a wire laid out? What fits on a tape of a width, and the code that carries its text."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property, lru_cache
from typing import TYPE_CHECKING, Any

from mulewright.errors import DesignError
from mulewright.paper import fonts
from mulewright.units.shown import people

if TYPE_CHECKING:
    from segno import QRCode

TAPES = (9e-3, 12e-3, 18e-3, 24e-3)  # [m] widths of tape
_HOW: dict[str, Any] = {"error": "l", "micro": False, "encoding": "utf-8"}
LENGTH = 90e-3  # [m] of a strip; two of them stand side by side on a page
POINT = 25.4e-3 / 72  # [m]
MODULE = 0.35e-3  # [m] smallest square of a code that a plain camera reads off a plain printer
LARGEST_MODULE = 0.45e-3  # [m]
QUIET = 2  # modules left clear around a code
EDGE = 0.5e-3  # [m] left clear above and below the words
GAP = 1.5e-3  # [m] between code, number and words, and half of it at the ends
SMALLEST, LARGEST = 8.0, 10.0  # [pt] of the words
LARGEST_NUMBER = 28.0  # [pt]
MOST_LINES, LINE = 4, 1.25  # and the pitch of lines over the size of their letters


def tape_of(width: float, said: str, where: str) -> float:
    """The tape of a width.

    Raises
    ------
    DesignError
        If there is none.
    """
    nearest = _nearest(width)
    if not abs(nearest - width) <= 1e-6:
        raise no_tape(width, said, where)
    return nearest


def no_tape(width: float, said: str, where: str) -> DesignError:
    """What to tell whoever wants a tape that there is not."""
    *first, last = (people(tape, "m") for tape in TAPES)
    rule = f"{', '.join(first)} or {last}"
    return DesignError("no label tape is this wide", where, rule, said, (people(_nearest(width), "m"),))


def _nearest(width: float) -> float:
    return min(TAPES, key=lambda tape: abs(tape - width))


@dataclass(frozen=True)
class Strip:
    """The measures of a strip on a tape."""

    tape: float  # [m]

    @property
    def number(self) -> float:
        """Size of the number. [pt]."""
        return min(0.75 * self.tape / POINT, LARGEST_NUMBER)

    @cached_property
    def lines(self) -> int:
        """How many lines of words fit."""
        return min(MOST_LINES, int((self.tape - 2 * EDGE) / (LINE * SMALLEST * POINT)))

    @property
    def text(self) -> float:
        """Size of the words. [pt]."""
        return min(LARGEST, (self.tape - 2 * EDGE) / (self.lines * LINE * POINT))

    @property
    def modules(self) -> int:
        """How many modules wide a code may be."""
        return int(self.tape / MODULE + 1e-9) - 2 * QUIET

    def module(self, code: str) -> float:
        """Size of a module of a code. [m]."""
        return min(LARGEST_MODULE, self.tape / (modules_of(code) + 2 * QUIET))

    def side(self, code: str) -> float:
        """Side of a code with what is left clear around it. [m]."""
        return self.module(code) * (modules_of(code) + 2 * QUIET)

    def room(self, number: str, code: str) -> float:
        """What is left for the words beside number and code. [pt]."""
        taken = self.side(code) + 3 * GAP
        return (LENGTH - taken) / POINT - fonts.width(number, self.number, bold=True)

    def fits(self, code: str) -> bool:
        """Whether a code with this text can be read off this tape."""
        import segno

        try:
            segno.make(code, **_HOW, version=(self.modules - 17) // 4, mask=0)
        except segno.DataOverflowError:
            return False
        return True


def matrix(code: str) -> tuple[bytearray, ...]:
    """The modules of the code of a text, 1 for black: the smallest code, with as much correction as it has room for."""
    return tuple(_made(code).matrix)


def modules_of(code: str) -> int:
    """How many modules wide the code of a text is."""
    return len(matrix(code))


def svg_of(code: str) -> str:
    """The code of a text as a picture with its clear border, a module to a unit."""
    return str(_made(code).svg_inline(border=QUIET, omitsize=True, svgclass=None, lineclass=None))


@lru_cache(maxsize=1000)
def _made(code: str) -> QRCode:
    import segno

    return segno.make(code, **_HOW)
