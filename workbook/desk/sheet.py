"""The card that shows one student's sheet, with what only staff may see."""

from __future__ import annotations

from html import escape
from typing import TYPE_CHECKING

from ipywidgets import HTML, Dropdown

from workbook.desk.card import DeskCard
from workbook.front.table import show_table
from workbook.graph.compute import compute
from workbook.graph.slip import slips_of
from workbook.issuing.answerbook import make_page
from workbook.marking.wording import say_points
from workbook.report.page import show_steps

if TYPE_CHECKING:
    from collections.abc import Iterator

    from workbook.desk.work import Work
    from workbook.front.look import Look
    from workbook.judge.case import Case
    from workbook.report.page import Marked

_NOTE = (
    "What the student saw, what was typed and said, the worked answers, and the values "
    "behind them. Not for a screen that students see."
)

#: Figures of the value that a slip leads to: more than anyone types [-].
_FIGURES = 5


class SheetCard(DeskCard):
    """
    A choice of students, and the sheet of the one that is chosen.

    Parameters
    ----------
    work : Work
        What lies on the desk.
    look : Look
        The page's style and manners.
    """

    def __init__(self, work: Work, look: Look) -> None:
        super().__init__(look, "sheet", "Look at a student's sheet", _NOTE)
        self._work = work
        self.choice = Dropdown(options=_list_places(work), description="Student")
        self.choice.observe(lambda _: self.show(), names="value")
        self.sheet = HTML()
        self.lay([self.choice, self.sheet])
        work.on_renewal.append(self.renew)
        self.show()

    def renew(self) -> None:
        """Offer who is there after a later marking, and stay with who is chosen."""
        chosen, places = self.choice.value, _list_places(self._work)
        self.choice.options = places
        if chosen in [place for _, place in places]:
            self.choice.value = chosen
        self.show()

    def show(self) -> None:
        """Show the sheet of the student that is chosen."""
        if self.choice.value is None:
            self.say("Nobody handed anything in.")
            return
        marked = self._work.open(*self.choice.value)
        self.sheet.value = show_sheet(marked)
        self.say(f"The sheet of {marked.student.id} is shown.")


def _list_places(work: Work) -> list[tuple[str, tuple[str, str]]]:
    names = {student.id: student.name for student in work.roster}
    return [
        (f"{m.student}, {names[m.student]}: {m.lab}", (m.lab, m.student))
        for m in work.marks
    ]


def show_sheet(marked: Marked) -> str:
    """
    Return HTML of a sheet with everything behind it.

    Parameters
    ----------
    marked : Marked
        A hand-in with its marks.

    Returns
    -------
    str
        Every text of the student is escaped.
    """
    mark = marked.mark
    values = make_page(marked.student, marked.case).drawn
    rows = ((escape(v.label), escape(v.origin), escape(v.shown)) for v in values)
    return (
        f"<p><strong>{say_points(mark.points)} of {say_points(mark.out_of)} points."
        f"</strong> {escape(mark.remark)}</p>"
        f"<h3>Values</h3>{show_table(('Value', 'Kind', 'Amount'), rows)}"
        f"<details><summary>Known slips, and where each leads on this sheet</summary>"
        f"{_show_slips(marked.case)}</details>"
        f"<h3>Steps</h3>{show_steps(marked)}"
    )


def _show_slips(case: Case) -> str:
    return show_table(("Step", "Leads to", "What is said"), _list_slips(case))


def _list_slips(case: Case) -> Iterator[tuple[str, str, str]]:
    for ask in case.graph.lab.public.asks:
        if ask.of is None:
            continue
        quantity = case.graph.quantities[ask.of]
        for slip in slips_of(case.graph, ask.of):
            try:
                value = compute(case.graph, slip.relation, case.values)
            except ArithmeticError:
                continue
            number = f"{quantity.from_base(value):.{_FIGURES}g}"
            shown = quantity.unit.put_behind(number)
            yield escape(ask.asks), escape(shown), escape(slip.sentence)
