"""Can the checks take the limits that a mule file sets?"""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from mulewright.checks import CHECKS
from mulewright.checks.engine import Limit, Severity
from mulewright.design.problems import together
from mulewright.design.schema.people import LimitSetting
from mulewright.errors import DesignError, MulewrightError, UnitError, closest
from mulewright.units.quantity import read_quantity


def require_limits(limits: Mapping[str, LimitSetting], where: str) -> None:
    """Refuse limits that no check can take, all of them at once.

    Raises
    ------
    MulewrightError
        If there is no such check, it has no such limit, or the value is of another kind.
    """
    problems = [problem for id, setting in limits.items() for problem in _problems(id, setting)]
    if problems:
        raise together(problems, where)


def _problems(id: str, setting: LimitSetting) -> Iterator[MulewrightError]:
    if id not in CHECKS:
        rule = "the id of a check, such as P26"
        yield DesignError(f"no check is called {id!r}", f"limits.{id}", rule, id, closest(id, CHECKS))
        return
    by_word = {level.word: limit for level, limit in CHECKS[id].limits.items()}
    known = by_word | ({"limit": next(iter(by_word.values()))} if by_word else {})
    for word in ("limit", *(level.word for level in Severity)):
        text = getattr(setting, word)
        if text is not None:
            yield from _problem(f"limits.{id}.{word}", text, known.get(word), " or ".join(by_word))
    also = CHECKS[id].also
    for name, text in setting.also.items():
        yield from _problem(f"limits.{id}.also.{name}", text, also.get(name), " or ".join(also))


def _problem(where: str, text: str | float, limit: Limit | None, levels: str) -> Iterator[MulewrightError]:
    if limit is None:
        rule = f"it has a limit for {levels}" if levels else "it has no limit that could be set"
        yield DesignError("the check has no such limit", where, rule, str(text))
        return
    try:
        read_quantity(text, limit.kind)
    except UnitError as no:
        no.where = where
        yield no
