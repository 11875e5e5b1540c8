"""The key of one variant of a lab, as HTML: for the author's eyes alone."""

from __future__ import annotations

import math
from dataclasses import dataclass
from decimal import Decimal
from typing import TYPE_CHECKING

from workbook.graph.function import to_function
from workbook.graph.slip import slips_of
from workbook.issuing.answerbook import make_page
from workbook.issuing.template import open_templates
from workbook.judge.worked import work
from workbook.labfile.roster import Student
from workbook.measure.rounding import Ties, round_figures, write

if TYPE_CHECKING:
    from collections.abc import Iterator

    from workbook.graph.quantity import Quantity
    from workbook.judge.case import Case

#: Figures to which the value of a mistake is shown [-].
_FIGURES = 4

_pages = open_templates("workbook.authoring")


@dataclass(frozen=True, slots=True)
class ShownSlip:
    """A known mistake of a step, with what it leads to for one student."""

    kind: str
    #: The value, unit included.
    shown: str
    sentence: str


def print_values(case: Case, variant: str) -> str:
    """
    Return the values of one variant.

    Parameters
    ----------
    case : Case
        The lab with the variant's values.
    variant : str
        How it is called.

    Returns
    -------
    str
        HTML in which every text is escaped.
    """
    page = make_page(Student(variant, ""), case)
    template = _pages.get_template("values.html")
    return template.render(variant=variant, drawn=page.drawn)


def print_answers(case: Case) -> dict[str, str]:
    """
    Return the worked answer of each step, with its known mistakes.

    Parameters
    ----------
    case : Case
        The lab with a variant's values.

    Returns
    -------
    dict of str to str
        HTML in which every text is escaped, by the step's id.
    """
    asked = {ask.id: ask.of for ask in case.graph.lab.public.asks}
    template = _pages.get_template("answer.html")
    return {
        step.step_id: template.render(
            step=step, slips=list_slips(case, asked[step.step_id])
        )
        for step in work(case)
    }


def list_slips(case: Case, name: str | None) -> tuple[ShownSlip, ...]:
    """
    Return the mistakes that a step knows, with their values for one student.

    Parameters
    ----------
    case : Case
        The student's copy of the lab.
    name : str or None
        The quantity that the step asks for.

    Returns
    -------
    tuple of ShownSlip
        Empty for a reading, and where no quantity is asked.
    """
    return tuple(_list(case, name)) if name else ()


def _list(case: Case, name: str) -> Iterator[ShownSlip]:
    quantity = case.graph.quantities[name]
    for slip in slips_of(case.graph, name):
        value = to_function(case.graph, slip.relation)(case.values)
        if math.isfinite(value):
            yield ShownSlip(slip.kind.value, _show(quantity, value), slip.sentence)


def _show(quantity: Quantity, value: float) -> str:
    number = round_figures(Decimal(quantity.from_base(value)), _FIGURES, Ties.EVEN)
    text = write(number)
    return quantity.unit.put_behind(text)
