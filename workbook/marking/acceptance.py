"""Whether a well-formed hand-in belongs to this course and is as it was written."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from workbook.errors import HandInError, nearest
from workbook.labfile.form import cell_names, rows_of
from workbook.labfile.offer import offers
from workbook.matter.elements import load_weights
from workbook.wire.answer import (
    Answer,
    Built,
    Chosen,
    Derived,
    Filled,
    Matched,
    Noted,
    Ordered,
    Typed,
)
from workbook.wire.handin import HandIn, digest

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Iterator, Mapping

    from workbook.labfile.half import Ask, PublicHalf, StepKind
    from workbook.labfile.roster import Student
    from workbook.matter.elements import AtomicWeights
    from workbook.solver.source import CourseSource
    from workbook.wire.sheet import SheetId

_ANSWER_OF: dict[StepKind, type[Answer]] = {
    "reading": Typed,
    "own": Noted,
    "number": Typed,
    "chain": Built,
    "algebra": Derived,
    "choice": Chosen,
    "matching": Matched,
    "mechanism": Ordered,
    "order": Ordered,
    "prediction": Chosen,
    "range": Typed,
    "reagents": Filled,
    "text": Typed,
}


#: More lines, factors or ticks than anyone gives in one answer [-]; each costs time.
_MAX_PIECES = 100


@dataclass(frozen=True, slots=True)
class LabForm:
    """What a hand-in of one lab can answer."""

    revision: int
    kinds: Mapping[str, StepKind]
    #: The factors or options that a step offers, by step.
    offered: Mapping[str, frozenset[str]]


@dataclass(frozen=True, slots=True)
class Expected:
    """What a hand-in of this course can say."""

    course: str
    students: frozenset[str]
    labs: Mapping[str, LabForm]
    #: Tells whether a seal is that of a sheet and a digest.
    is_seal: Callable[[str, SheetId, str], bool]


def expect(source: CourseSource, roster: Iterable[Student]) -> Expected:
    """
    Return what a hand-in of a course can say.

    Parameters
    ----------
    source : CourseSource
        The course with its key.
    roster : iterable of Student
        Who may hand in.

    Returns
    -------
    Expected
        Worked out once for all hand-ins.
    """
    weights = load_weights(source.course.conventions.atomic_weights)
    return Expected(
        course=source.name,
        students=frozenset(student.id for student in roster),
        labs={name: _form(lab.public, weights) for name, lab in source.labs.items()},
        is_seal=source.is_seal,
    )


def _form(public: PublicHalf, weights: AtomicWeights) -> LabForm:
    return LabForm(
        revision=public.revision,
        kinds={ask.id: ask.kind for ask in public.asks},
        offered={ask.id: _list_offered(public, ask, weights) for ask in public.asks},
    )


def _list_offered(
    public: PublicHalf, ask: Ask, weights: AtomicWeights
) -> frozenset[str]:
    if ask.kind == "chain":
        return frozenset(offer.id for offer in offers(public, ask, weights))
    if ask.kind == "reagents":
        return frozenset({*cell_names(ask.form), *rows_of(ask.form)})
    return frozenset(key for key, _ in ask.options)


def accept(hand_in: HandIn, name: str, expected: Expected) -> str:
    """
    Return the remark with which a hand-in is marked.

    Parameters
    ----------
    hand_in : HandIn
        As it was read.
    name : str
        The path of its file below the folder of hand-ins.
    expected : Expected
        The course that is marked.

    Returns
    -------
    str
        A sentence, or the empty text when there is nothing to remark.

    Raises
    ------
    HandInError
        If it can't be marked in this course.
    """
    for reason in _object(hand_in, name, expected):
        raise HandInError(name, reason)
    if hand_in.seal:
        return ""
    return "It has no seal: no checker could be reached when it was written."


def _object(hand_in: HandIn, name: str, expected: Expected) -> Iterator[str]:
    yield from _object_to_sheet(hand_in, expected)
    yield from _object_to_place(hand_in, name, expected)
    if digest(hand_in.sheet, hand_in.attempts, hand_in.at) != hand_in.digest:
        yield "it was changed after it was written: its fingerprint does not fit."
    sealed = (hand_in.seal, hand_in.sheet, hand_in.digest)
    if hand_in.seal and not expected.is_seal(*sealed):
        yield "its seal is wrong: it was not sealed by the checker of this course."
    yield from _object_to_attempts(hand_in, expected.labs[hand_in.sheet.lab])


def _object_to_sheet(hand_in: HandIn, expected: Expected) -> Iterator[str]:
    sheet = hand_in.sheet
    if sheet.course != expected.course:
        yield (
            f"it belongs to the course {sheet.course[:80]!r}, and this is "
            f"{expected.course!r}."
        )
    if sheet.student not in expected.students:
        hint = nearest(sheet.student[:80], expected.students)
        yield f"no student {sheet.student[:80]!r} is in the roster.{hint}"
    if sheet.lab not in expected.labs:
        hint = nearest(sheet.lab[:80], expected.labs)
        yield f"no lab {sheet.lab[:80]!r} is in the course.{hint}"
        return
    revision = expected.labs[sheet.lab].revision
    if sheet.revision != revision:
        yield (
            f"it answers revision {sheet.revision} of {sheet.lab!r}, and the course "
            f"now has revision {revision}, with other values. Mark it with the lab "
            f"file of its own revision."
        )


def _object_to_place(hand_in: HandIn, name: str, expected: Expected) -> Iterator[str]:
    """Find a sheet that lies in another student's folder, or bears their name."""
    *folders, file = name.split("/")
    named = {*folders, file.partition(".handin")[0]} & expected.students
    if named and hand_in.sheet.student not in named:
        yield (
            f"it lies under the name of student {min(named)!r}, and is the "
            f"sheet of {hand_in.sheet.student!r}."
        )


def _object_to_attempts(hand_in: HandIn, form: LabForm) -> Iterator[str]:
    for attempt in hand_in.attempts:
        step = attempt.step
        if step not in form.kinds:
            hint = nearest(step[:80], form.kinds)
            yield f"it answers {step[:80]!r}, which is no step.{hint}"
        elif not isinstance(attempt.answer, _ANSWER_OF[form.kinds[step]]):
            yield f"its answer to {step!r} is not that of a {form.kinds[step]} step."
        else:
            yield from _object_to_pieces(attempt.answer, step, form.offered[step])


def _object_to_pieces(
    answer: Answer, step: str, offered: frozenset[str]
) -> Iterator[str]:
    pieces = _list_pieces(answer)
    if len(pieces) > _MAX_PIECES:
        yield (
            f"its answer to {step!r} has {len(pieces)} parts, and at most "
            f"{_MAX_PIECES} are judged."
        )
    if not isinstance(answer, Typed | Noted | Derived):
        for strange in sorted(set(pieces) - offered):
            yield f"its answer to {step!r} uses {strange[:80]!r}, which is not offered."


def _list_pieces(answer: Answer) -> tuple[str, ...]:
    pieces: tuple[str, ...] = ()
    match answer:
        case Built(factors=factors):
            pieces = tuple(placed.factor for placed in factors)
        case Chosen(options=pieces) | Ordered(cards=pieces) | Derived(lines=pieces):
            pass
        case Matched(matches=matches):
            pieces = tuple(each for match in matches for each in match.options)
        case Filled(cells=cells, limiting=limiting):
            chosen = (limiting,) if limiting else ()
            pieces = (*(f"{cell.row} {cell.column}" for cell in cells), *chosen)
    return pieces
