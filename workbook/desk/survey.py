"""The card that shows the report on the class."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ipywidgets import HTML, Dropdown

from workbook.desk.card import DeskCard
from workbook.report.cohort import form_cohort
from workbook.report.fact import find_fact
from workbook.report.handback import gather_marked
from workbook.report.overview import look_over, show_overview

if TYPE_CHECKING:
    from workbook.desk.work import Work
    from workbook.front.look import Look

_NOTE = "The same as class.html in the folder of marks, which can be printed."


class SurveyCard(DeskCard):
    """
    The report on the class, one lab at a time.

    Parameters
    ----------
    work : Work
        What lies on the desk.
    look : Look
        The page's style and manners.
    """

    def __init__(self, work: Work, look: Look) -> None:
        super().__init__(look, "class", "How the class did", _NOTE)
        self._work = work
        self.lab = Dropdown(options=_list_labs(work), description="Lab")
        self.lab.observe(lambda _: self.show(), names="value")
        self.report = HTML()
        self.lay([self.lab, self.report])
        work.on_renewal.append(self.renew)
        self.show()

    def renew(self) -> None:
        """Offer the labs that a later marking has, and stay with the chosen one."""
        chosen, labs = self.lab.value, _list_labs(self._work)
        self.lab.options = labs
        if chosen in labs:
            self.lab.value = chosen
        self.show()

    def show(self) -> None:
        """Show the report on the lab that is chosen."""
        work = self._work
        marks = [mark for mark in work.marks if mark.lab == self.lab.value]
        if not marks:
            self.say("Nobody handed anything in.")
            return
        facts, graph = [], None
        for each in gather_marked(work.source, work.roster, marks):
            facts.append(find_fact(each.mark, each.case))
            graph = each.case.graph
        if graph is not None:
            overview = look_over(graph, work.roster, form_cohort(graph, facts))
            self.report.value = show_overview(overview)
            self.say(f"The report on {overview.title} is shown.")


def _list_labs(work: Work) -> list[str]:
    return list(dict.fromkeys(mark.lab for mark in work.marks))
