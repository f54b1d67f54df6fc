"""How is a text or a table written in Markdown, so that nothing in it is taken for a command?"""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence

_SPECIAL = re.compile(r"([\\*_<>\[\]|`$])")


def plain(text: str) -> str:
    r"""Write a text so that it is shown as it is.

    >>> plain("a_b | <c>")
    'a\\_b \\| \\<c\\>'
    """
    return _SPECIAL.sub(r"\\\1", " ".join(text.split()))


def code(text: str) -> str:
    """Write a text in the type of what one types."""
    return f"`{text}`".replace("|", r"\|")


def listed(words: Iterable[str]) -> str:
    """Write words in the type of what one types, with commas."""
    return ", ".join(map(code, words))


def sentence(text: str) -> str:
    """Begin a text with a capital letter and end it with a full stop."""
    return text[:1].upper() + text[1:].rstrip(".") + "."


def table(headings: Sequence[str], rows: Iterable[Sequence[str]]) -> str:
    """Write a table; cells are Markdown already."""
    lines = [headings, ["---"] * len(headings), *rows]
    return "".join(f"| {' | '.join(line)} |\n" for line in lines)
