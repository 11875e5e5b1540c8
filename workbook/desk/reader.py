"""The card in which a person marks texts: one question, one text after the other."""

from __future__ import annotations

from html import escape
from typing import TYPE_CHECKING

from ipywidgets import HTML, Dropdown, HBox, Text, Textarea

from workbook.desk.band import BANDS, give
from workbook.desk.bank import BANK_FILE, put_in, read_bank
from workbook.desk.card import DeskCard, make_button
from workbook.errors import WorkbookError

if TYPE_CHECKING:
    from workbook.desk.tray import Tray
    from workbook.desk.work import Paper, Question, Work
    from workbook.front.look import Look

_NO_BAND = "Choose what describes it best"
_NO_COMMENT = "Choose a comment to add"
_DONE = "Nothing is left to mark here for you."


class ReaderCard(DeskCard):
    """
    A text, the bands that can describe it, and a reason for the student.

    Parameters
    ----------
    work : Work
        What lies on the desk.
    look : Look
        The page's style and manners.
    tray : Tray
        Where the texts come from and the marks go.
    words : (str, str, str)
        The card's name, title and note.
    """

    def __init__(
        self, work: Work, look: Look, tray: Tray, words: tuple[str, str, str]
    ) -> None:
        super().__init__(look, *words)
        self._tray = tray
        self._bank = work.folder / BANK_FILE
        self._work = work
        self._questions = work.questions()
        self._skipped = 0
        #: What is seen, and alone is marked: another marker may have come first.
        self._shown: tuple[Question | None, Paper | None] = None, None
        self.marker = Text(description="Your name")
        self.question = Dropdown(options=self._list_questions(), description="Question")
        self.text = HTML()
        bands = [(_NO_BAND, ""), *((band, band) for band, _ in BANDS)]
        self.band = Dropdown(options=bands, description="It shows")
        self.bank = Dropdown(options=[(_NO_COMMENT, "")], description="Comment bank")
        self.reason = Textarea(description="Reason, for the student", rows=3)
        self.told = HTML()
        self._watch()
        buttons = HBox(
            [
                make_button("Keep and go on", self.keep, is_main=True),
                make_button("Leave it for later", self.skip),
                make_button("Put the reason into the bank", self.put_in),
            ]
        )
        entries = [self.band, self.bank, self.reason, buttons]
        self.lay([self.marker, self.question, self.text, *entries, self.told])
        self.show()

    def _watch(self) -> None:
        for box in (self.marker, self.reason):
            box.add_class("wb-entry")
        for entry in (self.marker, self.question):
            entry.observe(lambda _: self.turn(), names="value")
        self.bank.observe(lambda _: self.add_comment(), names="value")
        self._work.on_renewal.append(self.renew)

    def _list_questions(self) -> list[tuple[str, int]]:
        return [(q.asks, number) for number, q in enumerate(self._questions)]

    def renew(self) -> None:
        """Ask what a later marking has; a text that is still there stays shown."""
        chosen, asked = self.question.value, self._questions
        _, before = self._shown
        self._questions = self._work.questions()
        self.question.options = self._list_questions()
        if chosen is not None and asked[chosen] in self._questions:
            self.question.value = self._questions.index(asked[chosen])
        if self._next()[1] != before:
            # What is written was meant for another text.
            self.band.value, self.reason.value = "", ""
            self.say("A later marking was read, and another text is shown.")
        self.show()

    def turn(self) -> None:
        """Begin a pile from its top."""
        self._skipped = 0
        self.show()

    def show(self) -> None:
        """Show the text that is next, and how far the pile is."""
        comments = [(each, each) for each in read_bank(self._bank)]
        self.bank.options = [(_NO_COMMENT, ""), *comments]
        self._shown = question, paper = self._next()
        if question is None:
            self.text.value = "<p>No text was handed in.</p>"
            return
        self.told.value = self._tray.tell(question)
        self.text.value = show_paper(question, paper)

    def add_comment(self) -> None:
        """Add the comment that is chosen to the reason."""
        if self.bank.value:
            self.reason.value = f"{self.reason.value} {self.bank.value}".strip()
            self.bank.value = ""

    def put_in(self) -> None:
        """Put what is written into the bank of comments."""
        try:
            put_in(self._bank, self.reason.value)
        except WorkbookError as error:
            self.say(str(error))
        else:
            self.show()
            self.say("The comment is in the bank.")

    def skip(self) -> None:
        """Leave the text for later, and show the next one."""
        self._skipped += 1
        self._clear()
        self.say("Left for later.")

    def keep(self) -> None:
        """Keep what is chosen and written, and show the next text."""
        question, paper = self._shown
        if question is None or paper is None:
            self.say(_DONE)
            return
        if not self.band.value:
            self.say("Choose first what describes the text best.")
            return
        said = self.reason.value, self.marker.value
        try:
            points = give(self.band.value, question.out_of)
            self._tray.keep(question, paper, points, said)
        except WorkbookError as error:
            self.say(str(error))
            return
        self._clear()
        self.say("Kept. The next text is shown.")

    def _clear(self) -> None:
        self.band.value, self.reason.value = "", ""
        self.show()

    def _next(self) -> tuple[Question | None, Paper | None]:
        if self.question.value is None:
            return None, None
        question = self._questions[self.question.value]
        papers = self._tray.papers(question, str(self.marker.value))
        if not papers:
            return question, None
        return question, papers[self._skipped % len(papers)]


def show_paper(question: Question, paper: Paper | None) -> str:
    """
    Return HTML of a text that is to be marked, without a name.

    Parameters
    ----------
    question : Question
        What was asked.
    paper : Paper or None
        The text; None when nothing is left.

    Returns
    -------
    str
        The text is escaped.
    """
    if paper is None:
        return f"<p>{_DONE}</p>"
    looked = "".join(f"<li>{escape(line)}</li>" for line in question.look_for)
    return (
        f"<p>What is looked for:</p><ul>{looked}</ul>"
        f'<p class="wb-note">One student wrote; names are hidden.</p>'
        f'<p class="text"><bdi>{escape(paper.text)}</bdi></p>'
    )
