"""What goes back: a page for each hand-in, and the tables of a record system."""

from __future__ import annotations

from datetime import date
from decimal import Decimal
from typing import TYPE_CHECKING

from tests.support.marked import sort_marks
from workbook.report.handback import write_class, write_pages, write_records
from workbook.report.oneroster import Item, Place

if TYPE_CHECKING:
    from pathlib import Path

    from workbook.labfile.roster import Student
    from workbook.marking.result import SheetMark
    from workbook.report.page import Marked
    from workbook.solver.source import CourseSource


def test_each_hand_in_comes_with_its_own_values(
    marked: list[Marked], marks: list[SheetMark]
) -> None:
    assert [each.mark for each in marked] == marks
    assert [each.student.id for each in marked] == ["a1", "b2"]
    for each in marked:
        assert each.sheet.id.student == each.student.id


def test_the_sheet_shows_the_readings_whatever_its_gate_says(
    marked: list[Marked],
) -> None:
    for each in marked:
        assert getattr(each.sheet.step("dish"), "seen", "")


def test_there_is_a_page_for_each_student_and_lab(
    marked: list[Marked], tmp_path: Path
) -> None:
    facts = list(write_pages(tmp_path, "Salt & soap", marked))
    assert [fact.student for fact in facts] == ["a1", "b2"]
    for student in ("a1", "b2"):
        page = (tmp_path / "pages" / student / "olive-oil-soap.html").read_text(
            encoding="utf-8"
        )
        assert page.startswith("<!DOCTYPE html>")


def test_the_report_on_the_class_holds_every_lab(
    source: CourseSource,
    roster: tuple[Student, ...],
    tmp_path: Path,
    marked: list[Marked],
) -> None:
    facts = list(write_pages(tmp_path, "Salt & soap", marked))
    write_class(tmp_path, source, roster, facts)
    page = (tmp_path / "class.html").read_text(encoding="utf-8")
    assert "Hard soap from olive oil" in page
    assert "2 of 3 students handed in." in page


def test_what_is_worth_a_question_is_written_apart(
    source: CourseSource, roster: tuple[Student, ...], tmp_path: Path
) -> None:
    write_class(tmp_path, source, roster, [])
    table = (tmp_path / "signals.csv").read_bytes()
    assert table == b"lab,student,other,kind,steps,what\r\n"
    page = (tmp_path / "signals.html").read_text(encoding="utf-8")
    assert "Nothing was seen" in page


def test_the_tables_lie_in_a_folder(
    roster: tuple[Student, ...], marks: list[SheetMark], tmp_path: Path
) -> None:
    day = date(2026, 3, 2)
    item = Item(
        lab="olive-oil-soap", title="S", assigned=day, due=day, out_of=Decimal(63)
    )
    place = Place(course="salt-1", class_id="c", period_id="p")
    write_records(tmp_path / "out", place, [item], roster, (sort_marks(*marks), day))
    assert sorted(path.name for path in (tmp_path / "out").iterdir()) == [
        "categories.csv",
        "lineItems.csv",
        "manifest.csv",
        "results.csv",
    ]
