"""What needs a person, and nothing else."""

from __future__ import annotations

from decimal import Decimal
from typing import TYPE_CHECKING

from msgspec.structs import replace

from tests.support.classroom import make_mark, make_step
from workbook.desk.queue import QueueCard, list_needs
from workbook.desk.reader import ReaderCard
from workbook.desk.sheet import SheetCard
from workbook.desk.survey import SurveyCard
from workbook.desk.tray import MarkingTray
from workbook.desk.work import Work
from workbook.marking.record import RECORD_FILE, write_record
from workbook.wire.verdict import Outcome, Verdict

if TYPE_CHECKING:
    from collections.abc import Iterable

    from workbook.front.look import Look
    from workbook.marking.result import SheetMark


def write(work: Work, marks: Iterable[SheetMark]) -> None:
    """Write a record, as a marking does."""
    write_record(work.folder / RECORD_FILE, marks)


def test_texts_wait_until_they_are_marked(work: Work) -> None:
    question = work.questions()[0]
    first, *_ = list_needs(work, work.folder)
    assert (first.what, first.why) == ("2 texts to mark", question.asks)
    for paper in work.papers(question):
        work.decide(question, paper, Decimal(1), ("Good.", "Eddy"))
    assert [need.why for need in list_needs(work, work.folder)] == [
        work.questions()[1].asks
    ]


def test_an_answer_that_could_not_be_read_waits(work: Work) -> None:
    unread = Verdict(Outcome.UNREAD, "This is no number.")
    step = make_step("oil_mass", typed="a bit")
    mark = make_mark("a1", [replace(step, verdict=unread)])
    alone = Work(work.source, work.roster, [mark], work.folder)
    (need,) = list_needs(alone, work.folder)
    assert (need.what, need.where, need.why) == (
        "an answer, unread",
        "a1: oil_mass",
        "a bit",
    )


def test_a_file_that_was_refused_waits_and_an_older_one_does_not(work: Work) -> None:
    table = "file,kind,reason\nx,refused,it is empty.\ny,older,z takes its place.\n"
    (work.folder / "problems.csv").write_text(table, encoding="utf-8")
    *_, last = list_needs(work, work.folder)
    assert (last.what, last.where) == ("a file, refused", "x")


def test_the_card_says_how_many_things_wait(work: Work, look: Look) -> None:
    card = QueueCard(work, look, work.folder)
    assert "2 things wait." in card.says.value
    for question in work.questions():
        for paper in work.papers(question):
            work.decide(question, paper, Decimal(1), ("Good.", "Eddy"))
    card.show()
    assert "Nothing waits." in card.says.value
    assert card.list.value == ""


def test_a_later_marking_is_read_for_all_cards(work: Work, look: Look) -> None:
    queue = QueueCard(work, look, work.folder)
    sheet, survey = SheetCard(work, look), SurveyCard(work, look)
    sheet.choice.value = sheet.choice.options[1][1]
    chosen = sheet.choice.value
    write(work, work.marks[1:])
    queue.look_again()
    assert "A later marking was read." in queue.says.value
    assert [place for _, place in sheet.choice.options] == [chosen]
    assert sheet.choice.value == chosen
    assert "1 of 3 students handed in" in survey.report.value


def test_marks_that_are_as_they_were_change_nothing(work: Work, look: Look) -> None:
    queue = QueueCard(work, look, work.folder)
    write(work, work.marks)
    queue.look_again()
    assert "A later marking" not in queue.says.value


def test_a_record_that_can_not_be_read_is_told(work: Work, look: Look) -> None:
    queue = QueueCard(work, look, work.folder)
    (work.folder / RECORD_FILE).write_text("no record\n", encoding="utf-8")
    before = work.marks
    queue.look_again()
    assert "this is no line of a record" in queue.says.value
    assert work.marks == before


def test_a_reason_is_not_kept_for_another_text(work: Work, look: Look) -> None:
    queue = QueueCard(work, look, work.folder)
    words = ("read", "Mark texts", "One question.")
    reader = ReaderCard(work, look, MarkingTray(work), words)
    first = work.papers(work.questions()[0])[0]
    reader.reason.value = "Clear."
    write(work, [m for m in work.marks if m.student != first.student])
    queue.look_again()
    assert reader.reason.value == ""
    assert "another text is shown" in reader.says.value
