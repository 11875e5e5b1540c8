"""The card that lists what needs a person, and nothing else."""

from __future__ import annotations

import csv
from dataclasses import dataclass
from html import escape
from typing import TYPE_CHECKING

from ipywidgets import HTML, HBox

from workbook.desk.card import DeskCard, make_button
from workbook.errors import WorkbookError
from workbook.front.table import show_table
from workbook.wire.verdict import Outcome

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from workbook.desk.work import Work
    from workbook.front.look import Look
    from workbook.marking.result import SheetMark

_NOTE = "What the rules can't settle. When the list is empty, nothing waits for you."

#: The table of a marking that tells what could not be marked.
_PROBLEMS = "problems.csv"

#: A newer hand-in took an older one's place: nobody has to look.
_SETTLED = "older"

#: Answers on which the judge had nothing to say.
_OPEN = {Outcome.UNREAD, Outcome.ASKED, Outcome.NOT_JUDGED}


@dataclass(frozen=True, slots=True)
class Need:
    """One thing that a person has to do."""

    what: str
    where: str
    why: str


def list_needs(work: Work, marks: Path) -> Iterator[Need]:
    """
    Yield what needs a person.

    Parameters
    ----------
    work : Work
        What lies on the desk.
    marks : Path
        The folder of the marking.

    Yields
    ------
    Need
        Texts first, then answers that could not be read, then files.
    """
    for question in work.questions():
        if waiting := work.waiting(question):
            yield Need(f"{len(waiting)} texts to mark", question.lab, question.asks)
    for mark in work.marks:
        yield from _list_unread(mark)
    yield from _list_problems(marks / _PROBLEMS)


def _list_unread(mark: SheetMark) -> Iterator[Need]:
    for step in mark.steps:
        if step.outcome in _OPEN and not step.marker:
            where = f"{mark.student}: {step.step}"
            yield Need(f"an answer, {step.outcome.value}", where, step.typed)


def _list_problems(path: Path) -> Iterator[Need]:
    if not path.exists():
        return
    with path.open(encoding="utf-8", newline="") as file:
        for row in csv.DictReader(file):
            if row["kind"] != _SETTLED:
                yield Need(f"a file, {row['kind']}", row["file"], row["reason"])


class QueueCard(DeskCard):
    """
    What needs a person.

    Parameters
    ----------
    work : Work
        What lies on the desk.
    look : Look
        The page's style and manners.
    marks : Path
        The folder of the marking.
    """

    def __init__(self, work: Work, look: Look, marks: Path) -> None:
        super().__init__(look, "queue", "What needs a person", _NOTE)
        self._work = work
        self._marks = marks
        self._count = ""
        self.list = HTML()
        self.lay([self.list, HBox([make_button("Look again", self.look_again)])])
        self.show()

    def look_again(self) -> None:
        """Read what was marked since, for all cards, and list what needs a person."""
        try:
            is_new = self._work.renew(self._marks)
        except WorkbookError as error:
            self.say(str(error))
            return
        self.show()
        if is_new:
            self.say(f"A later marking was read. {self._count}")

    def show(self) -> None:
        """List what needs a person now."""
        needs = list(list_needs(self._work, self._marks))
        rows = ((escape(n.what), escape(n.where), escape(n.why)) for n in needs)
        self.list.value = show_table(("What", "Where", "Why"), rows)
        self._count = f"{len(needs)} things wait." if needs else "Nothing waits."
        self.say(self._count)
