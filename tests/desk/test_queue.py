"""What needs a person, and nothing else."""

from __future__ import annotations

from decimal import Decimal
from typing import TYPE_CHECKING

from msgspec.structs import replace

from tests.support.classroom import make_mark, make_step
from workbook.desk.queue import QueueCard, list_needs
from workbook.desk.work import Work
from workbook.wire.verdict import Outcome, Verdict

if TYPE_CHECKING:
    from workbook.front.look import Look


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
