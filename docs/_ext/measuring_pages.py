"""With what, how and how well is something measured? Read off the table that `measure` uses."""

from __future__ import annotations

from docs._ext.markdown import code, listed, plain, sentence, table
from mulewright.shelf.measuring import CHOICE, Row, instruments, ranges, rows, spreads


def instruments_at_hand() -> str:
    """Write every instrument with its error."""
    return table(
        ("instrument", "off by", "what it is", "mark", "source"),
        (
            (plain(one.name), one.error, plain(sentence(one.about)), one.mark, plain(one.source))
            for one in instruments().values()
        ),
    )


def ways_to_measure() -> str:
    """Write every way to measure something."""
    known = instruments()
    return table(
        ("what", "with", "how", "minutes", "off by"),
        (
            (
                _what(row),
                way.instrument,
                plain(way.how),
                f"{way.minutes:g}",
                way.error or known[way.instrument].error,
            )
            for row in rows()
            for way in row.by
        ),
    )


def usual_ranges() -> str:
    """Write between what an unknown number usually lies."""
    return table(
        ("what", "from", "to", "mark", "source"),
        ((listed(one.paths), one.low, one.high, one.mark, plain(one.source)) for one in ranges()),
    )


def usual_spreads() -> str:
    """Write how far off a weak number may be."""
    return table(
        ("what", "where", "estimate", "assumed", "mark"),
        (
            (plain(one.about), _where(one.paths, one.kinds), one.estimate, one.assumed, one.mark)
            for one in spreads()
        ),
    )


def _what(row: Row) -> str:
    return _where(row.paths, row.kinds) + (", once for equal parts" if row.same_part else "")


def _where(paths: tuple[str, ...], kinds: tuple[str, ...]) -> str:
    others = [f"any other {kind.replace('_', ' ')}" for kind in kinds if kind != CHOICE]
    looked = ["what is no number"] if CHOICE in kinds else []
    return ", ".join([*map(code, paths), *others, *looked])
