"""What was ticked; the limiting reagent is judged from the student's own amounts."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from tests.support.student import answers
from workbook.judge.choice import limiting_reagent
from workbook.judge.judge import judge
from workbook.wire.answer import Chosen
from workbook.wire.verdict import Outcome

if TYPE_CHECKING:
    from workbook.judge.case import Case
    from workbook.wire.verdict import Verdict


def verdict(case: Case, step: str, *ticked: str, **earlier: str) -> Verdict:
    return judge(case, step, answers(**earlier) | {step: Chosen(ticked)})


@pytest.mark.parametrize(
    ("ticked", "outcome"),
    [
        (("H290", "H314"), Outcome.RIGHT),
        (("H314", "H290"), Outcome.RIGHT),
        (("H314",), Outcome.WRONG),
        (("H290", "H314", "H301"), Outcome.WRONG),
        (("nothing",), Outcome.WRONG),
        ((), Outcome.BLANK),
    ],
)
def test_all_that_belong_and_no_other_are_ticked(
    case: Case, ticked: tuple[str, ...], outcome: Outcome
) -> None:
    assert verdict(case, "lye_statements", *ticked).outcome is outcome


def test_the_sentence_does_not_tell_which(case: Case) -> None:
    several = verdict(case, "lye_statements", "H314").sentence
    single = verdict(case, "splash", "acid").sentence
    assert several != single
    assert not {"H290", "H314", "rinse", "water"} & set(several.split())


@pytest.mark.parametrize(
    ("ticked", "outcome"),
    [(("oil",), Outcome.RIGHT), (("lye",), Outcome.WRONG), ((), Outcome.BLANK)],
)
def test_the_limiting_reagent_is_the_first_to_run_out(
    case: Case, ticked: tuple[str, ...], outcome: Outcome
) -> None:
    """0.0129 mol of oil needs 0.0386 mol of lye, and there are 0.0701."""
    assert verdict(case, "limiting", *ticked).outcome is outcome


def test_the_limiting_reagent_follows_from_own_amounts(case: Case) -> None:
    """0.0386 mol of oil would need 0.1158 mol of lye, and there are 0.0701."""
    own = {"oil_amount": "0.0386 mol", "lye_amount": "0.0701 mol"}
    follows = verdict(case, "limiting", "lye", **own)
    assert follows.outcome is Outcome.FOLLOWS
    assert follows.follows
    assert "The amount of olive oil still needs" in follows.sentence
    assert verdict(case, "limiting", "oil", **own).outcome is Outcome.RIGHT


def test_amounts_are_compared_by_their_coefficients(case: Case) -> None:
    """0.04 mol of lye are more than 0.02 mol of oil, and still too few for it."""
    values = {"oil_amount": 0.02, "lye_amount": 0.04}
    assert limiting_reagent(case, "limiting", values) == "lye"
    assert limiting_reagent(case, "limiting", values | {"oil_amount": 0.01}) == "oil"
