"""The card that shows a running course: who has done what, and what one may give."""

from __future__ import annotations

import asyncio
from datetime import UTC, datetime
from typing import TYPE_CHECKING

from ipywidgets import HTML, Dropdown, HBox, Text

from workbook.desk.card import DeskCard, make_button
from workbook.desk.grid import show_rows
from workbook.desk.party import split_roster
from workbook.desk.running import count_class, list_rows, see_marks, see_record
from workbook.errors import WorkbookError
from workbook.issuing.extension import Wish, extend_due
from workbook.issuing.permit import name_gate, open_gate
from workbook.labfile.course import read_course
from workbook.wire.sheet import SheetId

if TYPE_CHECKING:
    from collections.abc import Sequence

    from workbook.checker.record import AttemptRecord
    from workbook.desk.running import Seen
    from workbook.desk.work import Work
    from workbook.front.look import Look
    from workbook.labfile.course import Course
    from workbook.labfile.roster import Student

_NOTE = (
    "Each step with what was said of the latest attempt, and how many there were. The "
    "table follows the service by itself."
)

_MARKED = (
    "No record of a service is known here, so this is what was handed in and marked."
)

#: How often the record is looked at [s].
LOOK_S = 5.0


class LiveCard(DeskCard):
    """
    A table of one part of a lab, students by steps, and two things to give to one.

    Parameters
    ----------
    work : Work
        What lies on the desk.
    look : Look
        The page's style and manners.
    record : AttemptRecord or None
        The record of the course's service; None to show what was marked.
    """

    def __init__(self, work: Work, look: Look, record: AttemptRecord | None) -> None:
        super().__init__(look, "live", "Who has done what", _NOTE)
        self._work = work
        self._record = record
        #: What looks at the record; kept, or the loop would let it go.
        self.following: asyncio.Task[None] | None = None
        self.lab = Dropdown(options=list(work.source.labs), description="Lab")
        parts = [("Before the lab", "prelab"), ("After the lab", "postlab")]
        self.part = Dropdown(options=parts, description="Part", value="postlab")
        parties = split_roster(work.roster)
        self.party = Dropdown(options=parties, description="Shown")
        for each in (self.lab, self.part, self.party):
            each.observe(lambda _: self.look_again(), names="value")
        self.party.observe(lambda _: self._name_people(), names="value")
        self.table = HTML()
        self.student = Dropdown(description="Student")
        self._name_people()
        self.due = Text(description="More time until")
        self.due.placeholder = "2026-10-14 17:00"
        self.reason = Text(description="Reason")
        for box in (self.due, self.reason):
            box.add_class("wb-entry")
        buttons = [
            make_button("Open the gate", self.open_gate),
            make_button("Give more time", self.give_time),
        ]
        again = HBox([make_button("Look again", self.look_again)])
        choices = [self.student, self.due, self.reason, HBox(buttons)]
        shown = [self.party] if len(parties) > 1 else []
        self.lay([self.lab, self.part, *shown, self.table, again, *choices])
        self.look_again()

    def look_again(self) -> None:
        """Show how things stand now."""
        try:
            seen = self._see(self.lab.value, self.party.value)
        except WorkbookError as error:
            self.say(str(error))
            return
        self._show(seen)
        at = self._place(datetime.now(UTC))
        self.say(f"As of {at:%H:%M:%S}." if self._record is not None else _MARKED)

    def open_gate(self) -> None:
        """Open the gate of the lab for the student that is chosen."""
        source, student, lab = self._work.source, self.student.value, self.lab.value
        try:
            sheet = name_gate(source, self._work.roster, student, lab)
            is_new = open_gate(source, sheet, datetime.now(UTC))
        except WorkbookError as error:
            self.say(str(error))
            return
        how = "is open now" if is_new else "was open already"
        self.say(f"The gate of {lab} {how} for {student}.")

    def give_time(self) -> None:
        """Give the student that is chosen more time for the lab."""
        wish = Wish(
            self.student.value, self.lab.value, self.due.value, self.reason.value
        )
        try:
            course = self._read_course()
            given = extend_due(course, self._work.roster, wish, datetime.now(UTC))
        except WorkbookError as error:
            self.say(str(error))
            return
        self.look_again()
        until = f"{given.due:%Y-%m-%d %H:%M %Z}"
        self.say(f"{wish.lab} is due for {wish.student} at {until}. Tell them.")

    def follow(self) -> None:
        """Look at the record again and again, where there is one and a loop runs."""
        if self._record is None or self.following is not None:
            return
        try:
            loop = asyncio.get_running_loop()
        except RuntimeError:
            return
        self.following = loop.create_task(self._follow())

    def leave(self) -> None:
        """Look no more."""
        if self.following is not None:
            self.following.cancel()

    async def _follow(self) -> None:
        """Look in a thread of its own, and say nothing: nobody has asked."""
        while True:
            await asyncio.sleep(LOOK_S)
            asked = (self.lab.value, self.party.value)
            try:
                seen = await asyncio.to_thread(self._see, *asked)
                if asked == (self.lab.value, self.party.value):
                    self._show(seen)
            except WorkbookError as error:
                self.say(f"{error} It is looked at again by itself.")

    def _name_people(self) -> None:
        """Offer the students that are shown, and no others."""
        people = self.party.value
        self.student.options = [(f"{each.id}, {each.name}", each.id) for each in people]
        self.student.index = 0

    def _see(self, lab: str, students: Sequence[Student]) -> Seen:
        if self._record is None:
            return see_marks(self._work.marks, lab)
        source = self._work.source
        revision = source.labs[lab].public.revision
        sheet = SheetId(source.name, lab, revision, "")
        return see_record(self._record, sheet, {each.id for each in students})

    def _show(self, seen: Seen) -> None:
        """Lay the table, where it is another now: the focus may be in it."""
        public = self._work.source.labs[self.lab.value].public
        asks = public.prelab if self.part.value == "prelab" else public.postlab
        calendar = self._read_course().calendar
        rows = list_rows(seen, self.party.value)
        due = {r.student.id: calendar.due(public.name, r.student.id) for r in rows}
        caption = count_class(seen, self._work.roster)
        shown = show_rows(rows, asks, due, calendar.zone, caption)
        if self.table.value != shown:
            self.table.value = shown

    def _read_course(self) -> Course:
        # Read each time: more time is given while the desk is open.
        return read_course(self._work.source.course.path)

    def _place(self, at: datetime) -> datetime:
        return at.astimezone(self._work.source.course.calendar.zone)
