"""
The hand-ins of a class that never was, to try marking before term.

Most are complete, in as many ways as people work, with slips, second attempts and gaps.
A few are what every pile holds: nothing at all, nothing answered, a file cut short, one
of another course, one that is late, and one that was handed in twice.
"""

from __future__ import annotations

import random
from datetime import UTC, datetime, timedelta
from enum import Enum
from typing import TYPE_CHECKING

import msgspec
from msgspec.structs import replace

from workbook.graph.slip import slips_of
from workbook.rehearsal.habit import draw_habit
from workbook.rehearsal.paper import Paper
from workbook.rehearsal.student import Student
from workbook.wire.handin import Attempt, compose_hand_in
from workbook.wire.sheet import SheetId

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence

    from workbook.judge.case import Case
    from workbook.relation.tree import Node
    from workbook.solver.source import CourseSource
    from workbook.wire.answer import Answer

#: When a class hands in whose course has no dates.
_SOME_DAY = datetime(2026, 3, 2, 12, tzinfo=UTC)

#: How long before the due time most hand in, and how long after it some do.
_EARLY, _LATE = timedelta(hours=20), timedelta(hours=30)

#: The shares of sheets with a slip, of steps left out, and of steps tried twice [-].
_SLIPPING, _LEFT_OUT, _TWICE = 0.4, 0.03, 0.1


class Fate(Enum):
    """What becomes of a hand-in on its way."""

    PLAIN = "plain"
    MISSING = "missing"
    EMPTY = "empty"
    CUT = "cut"
    FOREIGN = "foreign"
    LATE = "late"
    DOUBLED = "doubled"


#: Of a hundred students so many have each fate but the plain one [-].
_SHARES = {fate: 1 if fate is Fate.FOREIGN else 2 for fate in Fate}


def draw_fate(chance: random.Random) -> Fate:
    """
    Return what becomes of a hand-in.

    Parameters
    ----------
    chance : random.Random
        Where chance comes from.

    Returns
    -------
    Fate
        Plain nine times out of ten, nearly.
    """
    rare = [fate for fate in Fate if fate is not Fate.PLAIN]
    weights = [_SHARES[fate] for fate in rare]
    fates = [Fate.PLAIN, *rare]
    return chance.choices(fates, [100 - sum(weights), *weights])[0]


def pile_up(
    source: CourseSource, lab: str, students: Sequence[str], seed: int
) -> Iterator[tuple[str, bytes]]:
    """
    Yield the hand-ins of a class.

    Parameters
    ----------
    source : CourseSource
        The course with its key.
    lab : str
        The lab's name.
    students : sequence of str
        Their ids.
    seed : int
        Of all chance: the same seed gives the same hand-ins [-].

    Yields
    ------
    tuple of str and bytes
        The name of a file, and what it holds.

    Raises
    ------
    DrawError
        If a student gets no fair values.
    """
    for student, case in zip(students, source.cases(lab, students), strict=True):
        # Of a student's own: a class that grows changes nobody's answers.
        chance = random.Random(f"{seed} {lab} {student}")  # noqa: S311 - hides nothing
        due = source.course.calendar.due(lab, student) or _SOME_DAY
        revision = case.graph.lab.public.revision
        sheet = SheetId(source.name, lab, revision, student)
        yield from _hand_in(source, sheet, case, (due, chance))


def _hand_in(
    source: CourseSource,
    sheet: SheetId,
    case: Case,
    day: tuple[datetime, random.Random],
) -> Iterator[tuple[str, bytes]]:
    due, chance = day
    fate = draw_fate(chance)
    at = due + _LATE if fate is Fate.LATE else due - _EARLY * chance.random()
    given = {} if fate is Fate.EMPTY else answer_somehow(case, chance)
    if fate is Fate.FOREIGN:
        sheet = replace(sheet, course="another-course")
    attempts = tuple(_try(given, case, at, chance))
    content = _encode(source, sheet, attempts, at)
    name = f"{sheet.student}-{sheet.lab}"
    if fate is Fate.CUT:
        content = content[: len(content) // 2]
    if fate is Fate.DOUBLED:
        half = attempts[: len(attempts) // 2]
        earlier = _encode(source, sheet, half, at - timedelta(hours=1))
        yield f"{name}.handin.json", earlier
        name = f"{name}-2"
    if fate is not Fate.MISSING:
        yield f"{name}.handin.json", content


def answer_somehow(case: Case, chance: random.Random) -> dict[str, Answer]:
    """
    Return the answers of one student, who may slip and leave steps out.

    Parameters
    ----------
    case : Case
        The student's copy of the lab.
    chance : random.Random
        Where chance comes from.

    Returns
    -------
    dict of str to Answer
        By step.
    """
    mistakes = _slip(case, chance) if chance.random() < _SLIPPING else {}
    habit = draw_habit(chance)
    try:
        paper = Paper(case, habit, chance, mistakes)
    except ArithmeticError:
        paper = Paper(case, habit, chance, {})
    answers = Student(paper, chance).answer_all()
    return {s: each for s, each in answers.items() if chance.random() >= _LEFT_OUT}


def _slip(case: Case, chance: random.Random) -> Mapping[str, Node]:
    asked = sorted(name for name in case.graph.lab.public.asked if name)
    name = chance.choice(asked)
    slips = list(slips_of(case.graph, name))
    return {name: chance.choice(slips).relation} if slips else {}


def _try(
    given: Mapping[str, Answer], case: Case, at: datetime, chance: random.Random
) -> Iterator[Attempt]:
    """Give each answer some time before the hand-in; some are tried before."""
    asks = {ask.id: ask for ask in case.graph.lab.public.asks}
    earlier = answer_somehow(case, chance)
    tries = []
    for step, answer in given.items():
        is_tried = asks[step].kind != "prediction" and chance.random() < _TWICE
        if is_tried and step in earlier:
            tries.append((step, earlier[step]))
        tries.append((step, answer))
    start = at - timedelta(minutes=2 * len(tries))
    for number, (step, answer) in enumerate(tries):
        yield Attempt(f"{number}", step, answer, start + timedelta(minutes=2 * number))


def _encode(
    source: CourseSource,
    sheet: SheetId,
    attempts: tuple[Attempt, ...],
    at: datetime,
) -> bytes:
    return msgspec.json.encode(compose_hand_in(sheet, attempts, at, source.seal))
