"""Hand-ins of a class with two steps each, made up one by one."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta
from decimal import Decimal
from typing import TYPE_CHECKING

from workbook.marking.result import SheetMark, StepMark
from workbook.report.cohort import form_cohort
from workbook.report.fact import sum_up
from workbook.wire.answer import Typed
from workbook.wire.verdict import Outcome, Verdict

if TYPE_CHECKING:
    from collections.abc import Sequence

    from workbook.graph.quantity import Graph
    from workbook.report.cohort import Cohort

NOON = datetime(2026, 3, 2, 12, tzinfo=UTC)

_VERDICTS = {
    "right": Verdict(Outcome.RIGHT, "Right.", value_holds=True),
    "slip": Verdict(Outcome.SLIP, "A factor is upside down."),
    "blank": Verdict(Outcome.BLANK, "Nothing was answered."),
}
_ATTEMPTS = {"right": 1, "slip": 3, "blank": 0}


def make_step(
    step: str, kind: str = "right", minutes: float = 0, typed: str = "1 g"
) -> StepMark:
    """Return the mark of a step worth 2 points: right, a slip, or blank."""
    is_blank = kind == "blank"
    points = Decimal(2 if kind == "right" else 0)
    return StepMark(
        step=step,
        answer=None if is_blank else Typed(typed),
        verdict=_VERDICTS[kind],
        typed="" if is_blank else typed,
        attempts=_ATTEMPTS[kind],
        at=None if is_blank else NOON + timedelta(minutes=minutes),
        earned=points,
        points=points,
        out_of=Decimal(2),
        reason=_VERDICTS[kind].sentence,
    )


def make_mark(student: str, steps: Sequence[StepMark]) -> SheetMark:
    """Return the marks of a hand-in to the olive-oil lab."""
    return SheetMark(
        student=student,
        lab="olive-oil-soap",
        steps=tuple(steps),
        taken_off=Decimal(0),
        points=sum((step.points for step in steps), start=Decimal(0)),
        out_of=sum((step.out_of for step in steps), start=Decimal(0)),
        file=f"{student}.handin.json",
        handed_in=NOON + timedelta(hours=1),
        remark="",
    )


def make_cohort(graph: Graph, students: Sequence[tuple[str, str]]) -> Cohort:
    """Return a class: for each student how the mass came out, and which variant."""
    asked = tuple(ask.id for ask in graph.lab.public.asks)
    facts = []
    for number, (kind, group) in enumerate(students):
        steps = (make_step("oil_volume"), make_step("oil_mass", kind, minutes=4))
        mark = make_mark(f"s{number}", steps)
        facts.append(sum_up(mark, asked, {"kind": group}))
    return form_cohort(graph, facts)
