"""The card that shows a student's sheet."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tests.support.marked import HOSTILE
from workbook.desk.sheet import SheetCard

if TYPE_CHECKING:
    from workbook.desk.work import Work
    from workbook.front.look import Look


def test_each_student_who_handed_in_can_be_chosen(work: Work, look: Look) -> None:
    card = SheetCard(work, look)
    names = [name for name, _ in card.choice.options]
    assert names == [
        "a1, Ada <Moss>: olive-oil-soap",
        "b2, =cmd|' /C calc'!A0: olive-oil-soap",
    ]


def test_a_sheet_shows_hidden_values_slips_and_worked_answers(
    work: Work, look: Look
) -> None:
    card = SheetCard(work, look)
    shown = card.sheet.value
    assert "<td>hidden</td>" in shown
    case = work.open("olive-oil-soap", "a1").case
    # The density turned over: the volume over 0.911 g/mL.
    assert f"{case.values['oil_volume'] / 0.911:.5g} g" in shown
    assert "Worked with your own values" in shown


def test_another_student_is_shown_and_told(work: Work, look: Look) -> None:
    card = SheetCard(work, look)
    card.choice.value = ("olive-oil-soap", "b2")
    assert "54 of 63 points." in card.sheet.value
    assert "The sheet of b2 is shown." in card.says.value


def test_no_text_of_a_student_runs(work: Work, look: Look) -> None:
    card = SheetCard(work, look)
    card.choice.value = ("olive-oil-soap", "b2")
    assert HOSTILE not in card.sheet.value
    assert "<script>" not in card.sheet.value
