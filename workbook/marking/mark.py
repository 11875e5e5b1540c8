"""
One hand-in to its marks: solved anew, no verdict of the student's kernel trusted.

Nothing of a hand-in is run. It is data, and so is what comes out.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import UTC
from decimal import Decimal
from itertools import groupby
from typing import TYPE_CHECKING

from msgspec.structs import replace

from workbook.graph.slip import slips_of
from workbook.labfile.attempt import find_limits, find_rule
from workbook.marking import points
from workbook.marking.lateness import (
    NO_DEADLINE,
    Deadline,
    find_deadline,
    find_lateness,
)
from workbook.marking.override import list_standing
from workbook.marking.ownreading import list_changed, list_noted, tell_changes
from workbook.marking.result import SheetMark, StepMark
from workbook.marking.standing import Stood, judge_standing
from workbook.marking.wording import say_answer, say_band, say_points
from workbook.solver.crew import cut
from workbook.wire.verdict import Outcome, Verdict

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Iterator, Mapping
    from datetime import tzinfo

    from workbook.judge.case import Case
    from workbook.labfile.course import MarkScheme
    from workbook.labfile.half import Ask
    from workbook.marking.gather import Accepted
    from workbook.marking.override import Override
    from workbook.solver.source import CourseSource

#: What is said of a step that nobody answered.
BLANK = Verdict(Outcome.BLANK, "Nothing was answered.")


@dataclass(frozen=True, slots=True)
class Rules:
    """What gives the points of one student's sheet of one lab."""

    scheme: MarkScheme
    deadline: Deadline = NO_DEADLINE
    #: What persons decided, by step; under the empty name for the whole sheet.
    given: Mapping[str, Override] = field(default_factory=dict)
    #: In which times are told.
    zone: tzinfo = UTC


def mark_sheet(accepted: Accepted, case: Case, rules: Rules) -> SheetMark:
    """
    Return the marks of a hand-in.

    Parameters
    ----------
    accepted : Accepted
        The hand-in.
    case : Case
        The same student's copy of the lab, with its true values.
    rules : Rules
        The course's, and what persons decided on this sheet.

    Returns
    -------
    SheetMark
        With every step of the lab, those that were not answered included.
    """
    public = case.graph.lab.public
    limits = find_limits(rules.scheme.attempts, public)
    judged = judge_standing(case, accepted.hand_in.attempts, limits)
    noted = list_noted(case, accepted.hand_in.attempts)
    steps = tuple(
        tell_changes(
            _give(_mark_step(rules.scheme, case, ask, judged.get(ask.id)), rules.given),
            noted.get(ask.id, ()),
        )
        for ask in public.asks
    )
    earned = sum((step.points for step in steps), start=Decimal(0))
    losses = _find_losses(rules.scheme, [step for step in steps if not step.marker])
    taken_off = points.deduct(earned, (loss for loss, _ in losses))
    out_of = points.total(rules.scheme, public)
    late = find_lateness(
        rules.scheme.late, rules.deadline, accepted.at, (earned - taken_off, out_of)
    )
    remarks = (
        accepted.remark,
        *(sentence for _, sentence in losses),
        late.sentence,
        _list_waiting(steps),
        list_changed(noted),
    )
    marked = SheetMark(
        student=accepted.hand_in.sheet.student,
        lab=public.name,
        steps=steps,
        taken_off=taken_off,
        late_off=late.off,
        points=earned - taken_off - late.off,
        out_of=out_of,
        file=accepted.name,
        handed_in=accepted.at.astimezone(rules.zone),
        remark=" ".join(filter(None, remarks)),
        notes=tuple(filter(None, (accepted.note, _note_opening(accepted, rules)))),
        noted=noted,
    )
    whole = rules.given.get("")
    return marked if whole is None else _give_whole(marked, whole)


def _mark_step(
    scheme: MarkScheme, case: Case, ask: Ask, stood: Stood | None
) -> StepMark:
    public = case.graph.lab.public
    full = points.split(scheme, public.name, ask)
    verdict = BLANK if stood is None else stood.verdict
    slips = _find_slips(case, ask, verdict) if scheme.credit.slips else set()
    earned = points.earn(scheme.credit, full, verdict, slips)
    number = 0 if stood is None else stood.number
    cost = points.charge(find_rule(scheme.attempts, public, ask), number, earned.both)
    sentences = (
        verdict.sentence,
        _say_parts(full, earned),
        _say_attempts(cost, number, 0 if stood is None else stood.beyond),
    )
    return StepMark(
        step=ask.id,
        answer=None if stood is None else stood.answer,
        verdict=verdict,
        typed="" if stood is None else say_answer(stood.answer, ask),
        band=_say_band(case, ask, stood),
        attempts=number,
        at=None if stood is None else stood.attempt.at,
        earned=earned.both - cost,
        points=earned.both - cost,
        out_of=full.both,
        reason=" ".join(filter(None, sentences)),
    )


def _find_slips(case: Case, ask: Ask, verdict: Verdict) -> set[str]:
    """Return the kinds of mistake that a verdict names."""
    if ask.of is None or verdict.outcome is not Outcome.SLIP:
        return set()
    said = verdict.sentence
    known = slips_of(case.graph, ask.of)
    return {slip.kind.value for slip in known if slip.sentence in said}


def _say_parts(full: points.Split, earned: points.Split) -> str:
    if not full.method:
        return ""
    return (
        f"Method {say_points(earned.method)} of {say_points(full.method)}, "
        f"value {say_points(earned.value)} of {say_points(full.value)}."
    )


def _say_attempts(cost: Decimal, number: int, beyond: int) -> str:
    said = [f"Attempt {number}: {say_points(cost)} off."] if cost else []
    if beyond:
        said.append(f"The first {number} attempts count; {beyond} came after them.")
    return " ".join(said)


def _say_band(case: Case, ask: Ask, stood: Stood | None) -> str:
    if ask.of is None or stood is None:
        return ""
    return say_band(case.graph.quantities[ask.of], stood.accepted)


def _give(marked: StepMark, given: Mapping[str, Override]) -> StepMark:
    """Put what a person decided on a step in place of what the rules gave."""
    decided = given.get(marked.step)
    if decided is None or decided.points is None:
        return marked
    reason = f"{decided.reason} ({_say_decision(decided, marked.earned)})"
    return replace(marked, points=decided.points, reason=reason, marker=decided.marker)


def _give_whole(marked: SheetMark, decided: Override) -> SheetMark:
    if decided.points is None:
        return marked
    remark = f"{decided.reason} ({_say_decision(decided, marked.points)})"
    remarks = " ".join(filter(None, (remark, marked.remark)))
    return replace(marked, points=decided.points, remark=remarks)


def _say_decision(decided: Override, earned: Decimal) -> str:
    return f"given by {decided.marker}; the rules give {say_points(earned)}"


def _note_opening(accepted: Accepted, rules: Rules) -> str:
    opens, attempts = rules.deadline.opens, accepted.hand_in.attempts
    early = [] if opens is None else [each for each in attempts if each.at < opens]
    if not early:
        return ""
    return f"{len(early)} answers were given before the lab opened."


def _find_losses(
    scheme: MarkScheme, steps: Iterable[StepMark]
) -> list[tuple[Decimal, str]]:
    """List what is taken off once, each with the sentence that says why."""
    verdicts = {step.step: step.verdict for step in steps}
    rules: tuple[tuple[Decimal, str, Callable[[Verdict], bool]], ...] = (
        (scheme.once.figures, "Figures", points.has_wrong_figures),
        (scheme.once.unit, "Unit left out", points.lacks_unit),
    )
    losses = []
    for loss, what, is_broken in rules:
        broken = [step for step, verdict in verdicts.items() if is_broken(verdict)]
        if broken and loss:
            sentence = f"{what}: {say_points(loss)} off, once ({', '.join(broken)})."
            losses.append((loss, sentence))
    return losses


def _list_waiting(steps: tuple[StepMark, ...]) -> str:
    """Name the texts that a person is to mark, and what they are worth."""
    waiting = [step for step in steps if step.waits]
    if not waiting:
        return ""
    worth = sum((step.out_of for step in waiting), start=Decimal(0))
    names = ", ".join(step.step for step in waiting)
    return f"For a person: up to {say_points(worth)} more ({names})."


def mark_all(
    source: CourseSource,
    accepted: Iterable[Accepted],
    overrides: Iterable[Override] = (),
) -> Iterator[SheetMark]:
    """
    Yield the marks of many hand-ins.

    Parameters
    ----------
    source : CourseSource
        The course with its key; the values of a lab are drawn for many at once.
    accepted : iterable of Accepted
        Those of a lab one behind the other, in the order of the marks.
    overrides : iterable of Override
        What persons decided, in the order of deciding.

    Yields
    ------
    SheetMark
        One for each hand-in.
    """
    course = source.course
    scheme = course.marks
    given: dict[tuple[str, str], dict[str, Override]] = {}
    for (student, lab, step), override in list_standing(overrides).items():
        given.setdefault((student, lab), {})[step] = override
    for lab, several in groupby(accepted, key=lambda each: each.hand_in.sheet.lab):
        for lot in cut(several):
            students = [each.hand_in.sheet.student for each in lot]
            cases = source.cases(lab, students)
            for each, student, case in zip(lot, students, cases, strict=True):
                deadline = find_deadline(course.calendar, scheme.late, lab, student)
                decided = given.get((student, lab), {})
                rules = Rules(scheme, deadline, decided, course.calendar.zone)
                yield mark_sheet(each, case, rules)
