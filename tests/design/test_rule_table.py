"""A rule table that cannot be looked up is refused when the file is read."""

import pytest

from mulewright.design.mule import link
from mulewright.design.resolve import load
from mulewright.errors import MulewrightError
from tests.designs import EXAMPLES


def linked(rule: str) -> None:
    link(load(EXAMPLES / "tray-cart" / "mule.toml", settings=[f"rules={{ rule = [{rule}] }}"]))


@pytest.mark.parametrize(
    "rule",
    [
        '{ about = "motor", most = 8, parts = ["gm-drive"] }',
        '{ about = "wire", property = "gauge", least = "18 AWG" }',
        '{ about = "body", property = "mass", limit = "10 kg" }',
        '{ note = "no sharp edges" }',
    ],
)
def test_a_rule_reads(rule: str) -> None:
    linked(rule)


@pytest.mark.parametrize(
    ("rule", "says"),
    [
        ('{ about = "motr" }', r"rules\.rule\.0\.about \(.*\): is no kind of thing(?s:.*)motor"),
        (
            '{ about = "fuse", property = "raiting" }',
            r"rules\.rule\.0\.property \(.*\): is no number(?s:.*)rating",
        ),
        (
            '{ about = "mechanism", property = "mass" }',
            r"rules\.rule\.0\.property \(.*\): is no number there",
        ),
        ('{ about = "fuse", property = "rating", limit = "20 mm" }', r"rules\.rule\.0\.limit"),
        ('{ about = "fuse", property = "rating", least = "many" }', r"rules\.rule\.0\.least"),
    ],
)
def test_a_rule_that_cannot_be_looked_up_is_refused(rule: str, says: str) -> None:
    with pytest.raises(MulewrightError, match=says):
        linked(rule)
