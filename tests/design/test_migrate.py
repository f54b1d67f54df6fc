"""Files of an older form are brought up step by step; files of a newer one are refused."""

import pytest

from mulewright.design.migrate import STEPS, Raw, migrate
from mulewright.design.schema.file import SCHEMA_VERSION
from mulewright.errors import DesignError


def test_todays_form_stays_as_it_is() -> None:
    raw = {"schema_version": SCHEMA_VERSION, "name": "cart"}
    assert migrate(raw) == raw


def test_every_older_form_has_its_step() -> None:
    assert set(STEPS) == set(range(1, SCHEMA_VERSION))


@pytest.mark.parametrize(
    ("raw", "says"),
    [
        ({}, "schema_version: is missing\n  Rule: write schema_version = 1 at the top"),
        ({"schema_version": 99}, "the file is newer than this program"),
        ({"schema_version": 0}, "is not a version"),
        ({"schema_version": True}, "is not a version"),
        ({"schema_version": "1"}, "Found: '1'"),
    ],
)
def test_what_is_no_version_is_refused(raw: Raw, says: str) -> None:
    with pytest.raises(DesignError) as caught:
        migrate(raw)
    assert says in str(caught.value)


def test_steps_run_one_after_the_other_and_leave_the_old_form_alone() -> None:
    def second(raw: Raw) -> Raw:
        return {"title" if key == "name" else key: value for key, value in raw.items()}

    def third(raw: Raw) -> Raw:
        return raw | {"title": raw["title"].upper()}

    old = {"schema_version": 1, "name": "cart"}
    assert migrate(old, {1: second, 2: third}, newest=3) == {"schema_version": 3, "title": "CART"}
    assert migrate({"schema_version": 2, "title": "x"}, {1: second, 2: third}, newest=3)["title"] == "X"
    assert old == {"schema_version": 1, "name": "cart"}
