"""
The page that a student gets back: what was typed, what was said, and the worked answer.

It holds the answers of the student's own sheet, and is for after the marking.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING
from urllib.parse import quote

from markupsafe import Markup

from workbook.front.saying import INKS, WORDS
from workbook.front.shape import draw
from workbook.front.working import show_working
from workbook.judge.explained import explain_all
from workbook.report.frame import fill_page
from workbook.wire.sheet import (
    AlgebraStep,
    ChainStep,
    NumberStep,
    ReadingStep,
    TextStep,
)
from workbook.wire.verdict import Outcome

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from workbook.judge.case import Case
    from workbook.labfile.roster import Student
    from workbook.marking.result import SheetMark, StepMark
    from workbook.wire.message import WorkedLine
    from workbook.wire.sheet import Sheet, Step

#: What stands over the worked answer of a step.
_WORKED = "Worked with your own values"
_ANSWER = "What belongs there"
_LOOKED_FOR = "What is looked for"


@dataclass(frozen=True, slots=True, kw_only=True)
class Marked:
    """One hand-in with all that its page tells."""

    student: Student
    mark: SheetMark
    case: Case
    #: As the student saw it, the readings included.
    sheet: Sheet


@dataclass(frozen=True, slots=True, kw_only=True)
class _Line:
    """One step of the page."""

    anchor: str
    asks: str
    mark: StepMark
    word: str
    #: The class of its colour.
    ink: str
    drawn: Markup
    #: What an instrument showed, in words; empty for other kinds of step.
    seen: str
    #: The same as an address of its picture.
    picture: str
    working: Markup
    heading: str
    worked: tuple[str, ...]


def write_page(marked: Marked, course: str) -> bytes:
    """
    Return the page that a student gets back.

    Parameters
    ----------
    marked : Marked
        A hand-in with its marks.
    course : str
        The course's title.

    Returns
    -------
    bytes
        HTML in UTF-8; every text of the student is escaped.
    """
    content = {
        "student": marked.student,
        "mark": marked.mark,
        "sheet": marked.sheet,
        "course": course,
        "lines": list(_list_lines(marked)),
    }
    return fill_page("page.html", content)


def show_steps(marked: Marked) -> str:
    """
    Return the steps of a page as a part of another one.

    Parameters
    ----------
    marked : Marked
        A hand-in with its marks.

    Returns
    -------
    str
        HTML; every text of the student is escaped.
    """
    return fill_page("steps.html", {"lines": list(_list_lines(marked))}).decode()


def _list_lines(marked: Marked) -> Iterator[_Line]:
    worked = explain_all(marked.case)
    for number, mark in enumerate(marked.mark.steps, start=1):
        yield _make_line(number, marked.sheet.step(mark.step), mark, worked)


def _make_line(
    number: int,
    step: Step,
    mark: StepMark,
    worked: Mapping[str, tuple[WorkedLine, ...]],
) -> _Line:
    seen, picture = "", ""
    if isinstance(step, ReadingStep):
        seen, picture = f"{step.instrument}: {step.seen}", _address(step)
    return _Line(
        anchor=f"step-{number}",
        asks=step.asks,
        mark=mark,
        word=WORDS[mark.outcome],
        ink=INKS[mark.outcome],
        drawn=Markup(draw(mark.outcome)),  # noqa: S704 - drawn by us from a closed list
        seen=seen,
        picture=picture,
        working=_show_answer(step, mark),
        heading=_name_worked(step),
        worked=tuple(line.words for line in worked[step.id]),
    )


def _name_worked(step: Step) -> str:
    if isinstance(step, TextStep):
        return _LOOKED_FOR
    if isinstance(step, ReadingStep | NumberStep | ChainStep | AlgebraStep):
        return _WORKED
    return _ANSWER


def _show_answer(step: Step, mark: StepMark) -> Markup:
    if mark.answer is None or mark.outcome is Outcome.BLANK:
        return Markup()
    shown = show_working(step, mark.answer, mark.verdict.at)
    return Markup(shown)  # noqa: S704 - `show_working` escapes what was typed


def _address(step: ReadingStep) -> str:
    # As an image, so that nothing in it can run, or meet a name of another picture.
    return f"data:image/svg+xml,{quote(step.picture)}" if step.picture else ""
