"""The card that shows the report on the class."""

from __future__ import annotations

from typing import TYPE_CHECKING

from workbook.desk.survey import SurveyCard
from workbook.desk.work import Work

if TYPE_CHECKING:
    from workbook.front.look import Look


def test_the_report_is_that_of_the_page(work: Work, look: Look) -> None:
    card = SurveyCard(work, look)
    assert "2 of 3 students handed in." in card.report.value
    assert card.report.value.count("<figure>") == 2


def test_without_hand_ins_the_card_says_so(work: Work, look: Look) -> None:
    empty = Work(work.source, work.roster, [], work.folder)
    assert "Nobody handed anything in." in SurveyCard(empty, look).says.value
