"""
One hand-in to its marks: solved anew, no verdict of the student's kernel trusted.

Nothing of a hand-in is run. It is data, and so is what comes out.
"""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from itertools import groupby
from typing import TYPE_CHECKING

from workbook.marking import points
from workbook.marking.standing import judge_standing
from workbook.marking.wording import say_answer, say_points
from workbook.wire.verdict import Outcome, Verdict

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Sequence

    from workbook.judge.case import Case
    from workbook.labfile.course import MarkScheme
    from workbook.labfile.half import Ask
    from workbook.marking.gather import Accepted
    from workbook.solver.source import CourseSource
    from workbook.wire.answer import Answer

#: What is said of a step that nobody answered.
BLANK = Verdict(Outcome.BLANK, "Nothing was answered.")


@dataclass(frozen=True, slots=True, kw_only=True)
class StepMark:
    """What one step earns, and why."""

    step: str
    #: What was typed, built or ticked, in one line.
    typed: str
    #: How the text was read; empty when it was not.
    read_as: str
    outcome: Outcome
    points: Decimal
    out_of: Decimal
    reason: str
    #: What stands for the step, and what the judge says of it.
    answer: Answer | None = None
    verdict: Verdict = BLANK


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetMark:
    """What one hand-in earns."""

    student: str
    lab: str
    steps: tuple[StepMark, ...]
    #: What is taken off once a sheet.
    taken_off: Decimal
    #: The steps' points, less what is taken off.
    points: Decimal
    out_of: Decimal
    #: The path of the hand-in below its folder.
    file: str
    remark: str


def mark_sheet(accepted: Accepted, case: Case, scheme: MarkScheme) -> SheetMark:
    """
    Return the marks of a hand-in.

    Parameters
    ----------
    accepted : Accepted
        The hand-in.
    case : Case
        The same student's copy of the lab, with its true values.
    scheme : MarkScheme
        The course's rules.

    Returns
    -------
    SheetMark
        With every step of the lab, those that were not answered included.
    """
    public = case.graph.lab.public
    judged = judge_standing(case, accepted.hand_in.attempts)
    steps = tuple(
        _mark_step(scheme, public.name, ask, *judged.get(ask.id, (None, BLANK)))
        for ask in public.asks
    )
    earned = sum((step.points for step in steps), start=Decimal(0))
    losses = _find_losses(
        scheme, {ask.id: judged[ask.id][1] for ask in public.asks if ask.id in judged}
    )
    taken_off = points.deduct(earned, (loss for loss, _ in losses))
    remarks = (
        accepted.remark,
        *(sentence for _, sentence in losses),
        _list_waiting(steps),
    )
    return SheetMark(
        student=accepted.hand_in.sheet.student,
        lab=public.name,
        steps=steps,
        taken_off=taken_off,
        points=earned - taken_off,
        out_of=points.total(scheme, public),
        file=accepted.name,
        remark=" ".join(filter(None, remarks)),
    )


def _mark_step(
    scheme: MarkScheme, lab: str, ask: Ask, answer: Answer | None, verdict: Verdict
) -> StepMark:
    full = points.split(scheme, lab, ask)
    earned = points.earn(scheme.credit, full, verdict)
    parts = (
        f"Method {say_points(earned.method)} of {say_points(full.method)}, "
        f"value {say_points(earned.value)} of {say_points(full.value)}."
        if full.method
        else ""
    )
    return StepMark(
        step=ask.id,
        typed="" if answer is None else say_answer(answer, ask),
        read_as=verdict.read_as,
        outcome=verdict.outcome,
        points=earned.both,
        out_of=full.both,
        reason=" ".join(filter(None, (verdict.sentence, parts))),
        answer=answer,
        verdict=verdict,
    )


def _find_losses(
    scheme: MarkScheme, verdicts: dict[str, Verdict]
) -> list[tuple[Decimal, str]]:
    """List what is taken off once, each with the sentence that says why."""
    rules: tuple[tuple[Decimal, str, Callable[[Verdict], bool]], ...] = (
        (scheme.once.figures, "Figures", points.has_wrong_figures),
        (scheme.once.unit, "Unit left out", points.lacks_unit),
    )
    losses = []
    for loss, what, is_broken in rules:
        steps = [step for step, verdict in verdicts.items() if is_broken(verdict)]
        if steps and loss:
            sentence = f"{what}: {say_points(loss)} off, once ({', '.join(steps)})."
            losses.append((loss, sentence))
    return losses


def _list_waiting(steps: tuple[StepMark, ...]) -> str:
    """Name the texts that a person is to mark, and what they are worth."""
    waiting = [step for step in steps if step.outcome is Outcome.KEPT]
    if not waiting:
        return ""
    worth = sum((step.out_of for step in waiting), start=Decimal(0))
    names = ", ".join(step.step for step in waiting)
    return f"For a person: up to {say_points(worth)} more ({names})."


def mark_all(source: CourseSource, accepted: Sequence[Accepted]) -> Iterator[SheetMark]:
    """
    Yield the marks of many hand-ins.

    Parameters
    ----------
    source : CourseSource
        The course with its key; the values of a lab are drawn for all at once.
    accepted : sequence of Accepted
        In the order of the marks.

    Yields
    ------
    SheetMark
        One for each hand-in.
    """
    for lab, several in groupby(accepted, key=lambda each: each.hand_in.sheet.lab):
        group = list(several)
        students = [each.hand_in.sheet.student for each in group]
        for each, case in zip(group, source.cases(lab, students), strict=True):
            yield mark_sheet(each, case, source.course.marks)
