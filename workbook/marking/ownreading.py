"""Readings of the student's own bench in the marks: what they are, and were before."""

from __future__ import annotations

from itertools import pairwise
from typing import TYPE_CHECKING

from msgspec.structs import replace

from workbook.marking.printable import to_printable
from workbook.marking.standing import list_changes
from workbook.wire.answer import Noted

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping, Sequence

    from workbook.judge.case import Case
    from workbook.marking.result import StepMark
    from workbook.wire.handin import Attempt


def list_noted(case: Case, attempts: Iterable[Attempt]) -> dict[str, tuple[Noted, ...]]:
    """
    Return the readings of the student's own bench, each with what it was before.

    Parameters
    ----------
    case : Case
        The student's copy of the lab.
    attempts : iterable of Attempt
        Of a hand-in that was accepted, in the order of giving.

    Returns
    -------
    dict of str to tuple of Noted
        By step, the first that was noted and each that took its place; empty where
        nothing could be noted.
    """
    return {
        step: tuple(a.answer for a in found if isinstance(a.answer, Noted))
        for step, found in list_changes(case, attempts).items()
    }


def tell_changes(mark: StepMark, noted: Sequence[Noted]) -> StepMark:
    """
    Return a mark that tells what a reading was before, and why it was changed.

    Parameters
    ----------
    mark : StepMark
        Of any step.
    noted : sequence of Noted
        What stood one after the other; at most one where nothing was changed.

    Returns
    -------
    StepMark
        Its points are the same.
    """
    told = (
        f"Changed from {to_printable(before.text)!r} to {to_printable(after.text)!r}; "
        f"the reason given: {to_printable(after.reason)!r}."
        for before, after in pairwise(noted)
    )
    return replace(mark, reason=" ".join((mark.reason, *told)))


def list_changed(noted: Mapping[str, Sequence[Noted]]) -> str:
    """
    Return the remark on a sheet whose readings were changed.

    Parameters
    ----------
    noted : mapping of str to sequence of Noted
        By step.

    Returns
    -------
    str
        Empty where none was.
    """
    changed = [step for step, each in noted.items() if len(each) > 1]
    return f"Own readings changed: {', '.join(changed)}." if changed else ""
