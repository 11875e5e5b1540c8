"""A small class that is marked: a sheet all right, one with slips and hostile text."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tests.support.soap import answer_rightly, make_hand_in, name_sheet
from workbook.labfile.course import MarkScheme
from workbook.marking.gather import Accepted
from workbook.marking.mark import Rules, mark_sheet
from workbook.wire.answer import Answer, Built, Placed, Typed

if TYPE_CHECKING:
    from workbook.judge.case import Case
    from workbook.marking.result import SheetMark
    from workbook.solver.source import CourseSource

HOSTILE = '"><script>alert(1)</script><img src=x onerror=alert(2)>'


def answer_with_slips(case: Case) -> dict[str, Answer]:
    """
    Return the answers of a student who turned the density over, and carried on.

    The step that asks for the rest of the lye is left out, and the first text holds
    what a page must not take for its own.
    """
    oil_g = case.values["oil_volume"] / 0.911
    oil_mol = oil_g / 885.453
    answers = answer_rightly(case)
    answers["oil_mass"] = Built(
        (Placed("oil.density", turned=True),), f"{oil_g:#.3g} g"
    )
    answers["oil_amount"] = Built(
        (Placed("oil.molar_mass", turned=True),), f"{oil_mol:#.3g} mol"
    )
    answers["observations"] = Typed(HOSTILE)
    del answers["lye_left"]
    return answers


def sort_marks(*marks: SheetMark) -> dict[tuple[str, str], SheetMark]:
    """Return marks by lab and student, as a record gives them."""
    return {(mark.lab, mark.student): mark for mark in marks}


def mark_class(source: CourseSource) -> list[SheetMark]:
    """Return the marks of two students of three: all right, and with slips."""
    marks = []
    for student, answer in (("a1", answer_rightly), ("b2", answer_with_slips)):
        case = source.case(name_sheet(student))
        hand_in = make_hand_in(source, student, answer(case))
        accepted = Accepted(f"{student}.handin.json", hand_in, "")
        marks.append(mark_sheet(accepted, case, Rules(MarkScheme())))
    return marks
