"""Which fonts does paper use, how wide is a text in them, and which characters do they lack?"""

from __future__ import annotations

import re
import sys
import unicodedata
from collections.abc import Iterable, Mapping
from functools import cache
from pathlib import Path

FAMILY = "DejaVu Sans"
FILES = {False: "DejaVuSans.ttf", True: "DejaVuSans-Bold.ttf"}  # by whether it is bold
SYMBOLS = ("So", "Sk", "Sm", "Sc")  # kinds of characters that belong to no script
CAPITALS = ("CJK",)  # scripts that are known by their letters
PRIVATE = "Co"  # kind of characters for private use
UNSEEN = ("Cc", "Cf", "Zl", "Zp")  # kinds of characters that leave no mark
LEFTWARD = ("R", "AL")  # directions of letters that run from right to left
MARKS = ("NSM",)  # and of what stands above or below a letter
MARKING = ("L", "AL", "AN")  # directions of those among them that do: they stand before what they act on


@cache
def folder() -> Path:
    """The folder of the fonts, which come with the plotting library.

    It is found without loading that library, which takes a while.
    """
    from importlib.util import find_spec

    spec = find_spec("matplotlib")
    assert spec is not None
    assert spec.origin is not None
    return Path(spec.origin).parent / "mpl-data" / "fonts" / "ttf"


@cache
def _advances(bold: bool) -> tuple[Mapping[int, float], float]:
    """Width of each character in parts of the size of the font, and that of one that it lacks."""
    from fontTools.ttLib import TTFont

    with TTFont(folder() / FILES[bold], lazy=True) as font:
        per_size = float(font["head"].unitsPerEm)
        widths, names = font["hmtx"].metrics, font.getBestCmap()
        advances = {code: widths[name][0] / per_size for code, name in names.items()}
        return advances, widths[".notdef"][0] / per_size


def width(text: str, size: float, *, bold: bool = False) -> float:
    """How wide a text is in a size. [unit of the size]."""
    advances, otherwise = _advances(bold)
    return size * sum(advances.get(ord(character), otherwise) for character in text)


def shortened(text: str, size: float, room: float, *, bold: bool = False) -> str:
    """A text, cut with an ellipsis where it is wider than its room."""
    if width(text, size, bold=bold) <= room:
        return text
    kept = text
    while kept and width(f"{kept.rstrip()}…", size, bold=bold) > room:
        kept = kept[:-1]
    return f"{kept.rstrip()}…"


def lacking(text: str) -> set[str]:
    """Characters of a text that the fonts cannot show, and those for private use, which look different everywhere."""
    shown = _advances(False)[0].keys() & _advances(True)[0].keys()
    return {
        character
        for character in set(text)
        if unicodedata.category(character) == PRIVATE or not (ord(character) in shown or _unseen(character))
    }


def isolated(text: str) -> str:
    """The same, where words that run from right to left turn nothing around them.

    Without that a number behind such a word is set before it.
    """
    return text if text.isascii() else _leftward().sub("\u2068\\g<0>\u2069", text)


@cache
def _leftward() -> re.Pattern[str]:
    """Words that run from right to left, one behind the other."""
    every = [chr(code) for code in range(sys.maxunicode + 1)]
    letters, marks = (
        re.escape("".join(char for char in every if unicodedata.bidirectional(char) in kinds))
        for kinds in (LEFTWARD, MARKS)
    )
    word = rf"[{letters}](?:[\w\-'{marks}]*[\w{marks}])?"
    return re.compile(rf"{word}(?:\s+{word})*")


def _unseen(character: str) -> bool:
    """Whether a character leaves no mark by itself; some that act on what follows do."""
    category = unicodedata.category(character)
    return category in UNSEEN and (category != "Cf" or unicodedata.bidirectional(character) not in MARKING)


def scripts(characters: Iterable[str]) -> list[str]:
    """What characters are called that a person may know: Hangul, CJK, Ethiopic, symbol and the like."""
    return sorted({_script(character) for character in characters})


def _script(character: str) -> str:
    if unicodedata.category(character) in SYMBOLS:
        return "emoji or symbol"
    word = unicodedata.name(character, "unnamed").split()[0]
    return word if word in CAPITALS else word.capitalize()
