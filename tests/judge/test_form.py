"""Steps that ask for no quantity, each by its kind."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from tests.support.lime import make_lime_case
from workbook.judge.judge import judge
from workbook.wire.answer import Answer, Chosen, Match, Matched, Ordered, Typed
from workbook.wire.verdict import Outcome

if TYPE_CHECKING:
    from pathlib import Path

    from workbook.judge.case import Case

FILTERING = ("paper", "wet", "suck", "pour", "rinse", "off")


@pytest.fixture
def lime(tmp_path: Path) -> Case:
    return make_lime_case(tmp_path)


@pytest.mark.parametrize(
    ("step", "answer", "outcome"),
    [
        ("smell", Chosen(("sour",)), Outcome.COMMITTED),
        ("observations", Typed("It grew warm."), Outcome.KEPT),
        ("streams", Matched((Match("lime", ("base",)),)), Outcome.PARTLY),
        ("filtering", Ordered(FILTERING), Outcome.RIGHT),
        ("neutralising", Ordered(("solid", "proton", "gather")), Outcome.RIGHT),
        ("filtering", Ordered(FILTERING[::-1]), Outcome.WRONG),
    ],
)
def test_a_step_is_judged_by_its_kind(
    lime: Case, step: str, answer: Answer, outcome: Outcome
) -> None:
    assert judge(lime, step, {step: answer}).outcome is outcome


@pytest.mark.parametrize(
    ("step", "answer"),
    [
        ("smell", Typed("sour")),
        ("observations", Chosen(("warm",))),
        ("filtering", Chosen(FILTERING)),
        ("filtering", Typed("paper")),
        ("streams", Chosen(("base",))),
    ],
)
def test_an_answer_of_another_kind_is_not_read(
    lime: Case, step: str, answer: Answer
) -> None:
    assert judge(lime, step, {step: answer}).outcome is Outcome.UNREAD
