"""Where a student stands with each quantity, as far as it is asked for."""

from __future__ import annotations

from typing import TYPE_CHECKING
from unittest.mock import Mock

import pytest

from tests.support.student import all_right, answer
from workbook.judge.footing import Footing, asks_of
from workbook.judge.value import judge_value
from workbook.wire.verdict import Outcome

if TYPE_CHECKING:
    from workbook.judge.case import Case


def test_a_student_goes_on_from_what_they_typed(case: Case) -> None:
    """13.7 g is wrong: 12.5 mL × 0.911 g/mL is 11.4 g."""
    stand = Footing(case, {"oil_mass": answer("oil_mass", "13.7 g")})["oil_mass"]
    assert stand.value == pytest.approx(13.7)
    assert stand.fault == "oil_mass"


def test_before_an_answer_a_student_stands_on_what_it_rests_on(case: Case) -> None:
    """Soundly at 12.5 × 0.911 / 885.453 = 0.01286 mol, by 13.7 g at 0.01547 mol."""
    stands = Footing(case, {"oil_mass": answer("oil_mass", "13.7 g")})
    sound, own = stands.before("oil_amount")
    assert sound.value == pytest.approx(0.01286, rel=1e-3)
    assert own.value == pytest.approx(0.01547, rel=1e-3)


def test_nothing_is_said_where_nothing_is_answered(case: Case) -> None:
    assert Footing(case, {}).judgement("oil_mass") is None


def test_another_value_leaves_the_one_that_stands(case: Case) -> None:
    stands = Footing(case, all_right())
    other = stands.judge("oil_mass", answer("oil_mass", "13.7 g"))
    standing = stands.judgement("oil_mass")
    assert other.verdict.outcome is Outcome.WRONG
    assert standing is not None
    assert standing.verdict.outcome is Outcome.RIGHT


def test_only_what_a_quantity_rests_on_is_judged(
    case: Case, monkeypatch: pytest.MonkeyPatch
) -> None:
    watched = Mock(wraps=judge_value)
    monkeypatch.setattr("workbook.judge.footing.judge_value", watched)
    Footing(case, all_right()).judgement("oil_amount")
    seen = [call.args[1].name for call in watched.call_args_list]
    assert seen == ["oil_mass", "oil_amount"]


def test_it_holds_every_quantity_of_the_lab(case: Case) -> None:
    stands = Footing(case, {})
    assert list(stands) == list(case.graph.quantities)
    assert len(stands) == len(case.graph.quantities)


def test_a_name_that_is_no_quantity_is_not_there(case: Case) -> None:
    assert Footing(case, {}).get("nothing") is None


def test_steps_and_cells_of_tables_ask_for_quantities(case: Case) -> None:
    asks = asks_of(case.graph)
    assert asks["oil_mass"].id == "oil_mass"
    assert "recovery" not in asks
