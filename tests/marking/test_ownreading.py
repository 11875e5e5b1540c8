"""Readings of the student's own bench in the marks."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from tests.support.kiln import CHANGE, READINGS, make_kiln_case
from tests.support.soap import make_attempts
from workbook.marking.ownreading import list_changed, list_noted
from workbook.wire.answer import Noted

if TYPE_CHECKING:
    from workbook.judge.case import Case

FIRST = READINGS["crucible"]


@pytest.fixture(scope="module")
def case(tmp_path_factory: pytest.TempPathFactory) -> Case:
    return make_kiln_case(tmp_path_factory.mktemp("kiln"))


def test_what_stood_is_listed_by_step(case: Case) -> None:
    given = [("crucible", FIRST), ("chalk_taken", Noted("9 g")), ("crucible", CHANGE)]
    assert list_noted(case, make_attempts(given)) == {
        "crucible": (FIRST, CHANGE),
        "chalk_taken": (),
        "crucible_and_lime": (),
    }


def test_only_a_change_is_remarked_on() -> None:
    assert list_changed({"crucible": (FIRST,), "chalk_taken": ()}) == ""
    changed = {"crucible": (FIRST, CHANGE), "chalk_taken": (FIRST,)}
    assert list_changed(changed) == "Own readings changed: crucible."
