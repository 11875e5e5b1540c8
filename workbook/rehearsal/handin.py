"""
Hand-ins of a class that never was: for a demonstration, and to try the marking out.

Most students make a slip or two and carry on from it; some see it and try again, some
leave the end of the sheet blank. Texts are drawn from a few invented ones.
"""

from __future__ import annotations

import random
from datetime import timedelta
from typing import TYPE_CHECKING

from workbook.graph.slip import slips_of
from workbook.rehearsal.habit import draw_habit
from workbook.rehearsal.paper import Paper
from workbook.rehearsal.student import Student
from workbook.wire.answer import Answer, Chosen, Typed
from workbook.wire.handin import Attempt, HandIn, compose_hand_in
from workbook.wire.sheet import SheetId

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence
    from datetime import datetime

    from workbook.graph.quantity import Graph
    from workbook.judge.case import Case
    from workbook.relation.tree import Node
    from workbook.solver.source import CourseSource

#: How many slips a student makes, drawn from these [-].
_SLIPS = (0, 0, 0, 1, 1, 1, 2)
#: How often a slip is seen and mended [-].
_MENDED = 0.5
#: How often somebody runs out of time, and what share of the sheet is then done [-].
_STOPPED, _DONE = 0.08, (0.4, 0.9)
#: The middle time for a step, and how widely it spreads [min].
_MINUTES, _SPREAD = 1.5, 0.7

#: What students write, from little to much; invented for the demonstration.
_TEXTS = (
    "It went as planned. The yield is low because of human error.",
    "Some product stayed on the glass and in the filter, so less was weighed.",
    """After ten minutes the mixture looked the same all through. About 0.3 g stuck to
the funnel, some 3 % of the yield. Next time I would rinse it with cold brine.""",
    """The cake was still damp when I weighed it. Water makes it heavier, so the yield
looks higher than it is. I would dry it until two weighings agree.""",
)


def make_hand_ins(
    source: CourseSource,
    lab: str,
    students: Sequence[str],
    seed: int,
    start: datetime,
) -> Iterator[HandIn]:
    """
    Yield a sealed hand-in for each student.

    Parameters
    ----------
    source : CourseSource
        The course with its key.
    lab : str
        The lab's name.
    students : sequence of str
        Their ids.
    seed : int
        Of all chance: the same seed gives the same class [-].
    start : datetime
        When the first of them begins, with its time zone.

    Yields
    ------
    HandIn
        In the order of *students*.

    Raises
    ------
    DrawError
        If a student gets no fair values.
    """
    revision = source.labs[lab].public.revision
    for student, case in zip(students, source.cases(lab, students), strict=True):
        # Each has chance of their own: who else hands in changes nobody's work.
        chance = random.Random(f"{seed} {student}")  # noqa: S311 - hides nothing
        sheet = SheetId(source.name, lab, revision, student)
        begun = start + timedelta(minutes=chance.uniform(0, 60))
        attempts = tuple(_attempt(sheet, case, chance, begun))
        at = attempts[-1].at + timedelta(minutes=1)
        yield compose_hand_in(sheet, attempts, at, source.seal)


def _attempt(
    sheet: SheetId, case: Case, chance: random.Random, begun: datetime
) -> Iterator[Attempt]:
    at = begun
    for number, (step, answer) in enumerate(_answer(case, chance)):
        at += timedelta(minutes=_MINUTES * chance.lognormvariate(0, _SPREAD))
        yield Attempt(f"{sheet.student}-{number}", step, answer, at)


def _answer(case: Case, chance: random.Random) -> Iterator[tuple[str, Answer]]:
    """Give the answers of a student in the order of the sheet, wrong ones first."""
    mistakes = _draw_mistakes(case.graph, chance)
    last = {name: m for name, m in mistakes.items() if chance.random() >= _MENDED}
    wrong, final = (_work(case, chance, each) for each in (mistakes, last))
    asks = case.graph.lab.public.asks
    if chance.random() < _STOPPED:
        asks = asks[: int(len(asks) * chance.uniform(*_DONE))]
    for ask in asks:
        if ask.of in mistakes.keys() - last.keys() and ask.id in wrong:
            yield ask.id, wrong[ask.id]
        if ask.kind == "text":
            yield ask.id, Typed(chance.choice(_TEXTS))
        elif ask.kind == "prediction":
            yield ask.id, Chosen((chance.choice(ask.options)[0],))
        elif ask.id in final:
            yield ask.id, final[ask.id]


def _draw_mistakes(graph: Graph, chance: random.Random) -> dict[str, Node]:
    asked = (ask.of for ask in graph.lab.public.asks if ask.of is not None)
    known = {name: slips for name in asked if (slips := slips_of(graph, name))}
    names = chance.sample(sorted(known), k=min(chance.choice(_SLIPS), len(known)))
    return {name: chance.choice(known[name]).relation for name in names}


def _work(
    case: Case, chance: random.Random, mistakes: Mapping[str, Node]
) -> dict[str, Answer]:
    try:
        paper = Paper(case, draw_habit(chance), chance, mistakes)
    except ArithmeticError:
        # A mistake that divides by nothing is seen by whoever makes it.
        paper = Paper(case, draw_habit(chance), chance, {})
    return Student(paper, chance).answer_all()
