"""
A marking held against an earlier one: what changed for whom, and what then counts.

A key, a tolerance or a scheme that was wrong is put right for everybody. Where marks
were given back already it is common practice to raise only (no source).
"""

from __future__ import annotations

import dataclasses
from dataclasses import dataclass
from typing import TYPE_CHECKING, TypeAlias

from msgspec.structs import replace

from workbook.marking.wording import say_points

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping
    from decimal import Decimal

    from workbook.marking.result import SheetMark, StepMark

#: What stands before a mark that was kept.
_KEPT = "Kept from an earlier marking:"


@dataclass(frozen=True, slots=True, kw_only=True)
class StepChange:
    """One step whose points changed."""

    step: str
    #: None where the step was not there.
    before: Decimal | None
    after: Decimal | None
    #: Why it earns what it earns now.
    reason: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Change:
    """One sheet whose points changed, in all or in a step."""

    student: str
    lab: str
    #: None where nothing was marked.
    before: Decimal | None
    after: Decimal | None
    steps: tuple[StepChange, ...]
    #: Whether the earlier mark stands, because only rises count.
    is_kept: bool = False


#: The marks of a marking, by lab and student, in its order.
Marks: TypeAlias = "Mapping[tuple[str, str], SheetMark]"


def compare(before: Marks, after: Marks) -> Iterator[Change]:
    """
    Find what changed from one marking to another.

    Parameters
    ----------
    before, after : mapping of (str, str) to SheetMark
        The earlier and the later marking, by lab and student.

    Yields
    ------
    Change
        By lab and student; a sheet that earns the same in every step is left out.
    """
    for key in sorted({*before, *after}):
        change = _compare(*key, before.get(key), after.get(key))
        if change.before != change.after or change.steps:
            yield change


def keep_higher(before: Marks, after: Marks) -> Iterator[SheetMark]:
    """
    Yield the later marks, or the earlier where they were higher.

    Parameters
    ----------
    before, after : mapping of (str, str) to SheetMark
        The earlier and the later marking, by lab and student.

    Yields
    ------
    SheetMark
        Lab by lab, in the order of the later marking, those that are in the earlier one
        alone at the end of their lab; a mark that was kept says so.
    """
    for lab in sorted({lab for lab, _ in (*before, *after)}):
        for key in (key for key in after if key[0] == lab):
            yield _choose(before.get(key), after[key])
        for key in (key for key in before if key[0] == lab and key not in after):
            yield _keep(before[key], "nothing was found to mark later.")


def note_kept(changes: Iterable[Change]) -> Iterator[Change]:
    """
    Yield changes with what only rises are counted of.

    Parameters
    ----------
    changes : iterable of Change
        What `compare` gave.

    Yields
    ------
    Change
        Those that would fall say that the earlier mark stands.
    """
    for each in changes:
        yield dataclasses.replace(each, is_kept=_falls(each))


def _choose(earlier: SheetMark | None, mark: SheetMark) -> SheetMark:
    if earlier is None or earlier.points <= mark.points:
        return mark
    return _keep(earlier, f"the later gives {say_points(mark.points)}.")


def _falls(change: Change) -> bool:
    if change.before is None:
        return False
    return change.after is None or change.after < change.before


def _keep(mark: SheetMark, why: str) -> SheetMark:
    remark = mark.remark
    if not remark.startswith(_KEPT):
        remark = f"{_KEPT} {why} {remark}".strip()
    return replace(mark, remark=remark)


def _compare(
    lab: str, student: str, before: SheetMark | None, after: SheetMark | None
) -> Change:
    return Change(
        student=student,
        lab=lab,
        before=None if before is None else before.points,
        after=None if after is None else after.points,
        steps=_compare_steps(before, after),
    )


def _compare_steps(
    before: SheetMark | None, after: SheetMark | None
) -> tuple[StepChange, ...]:
    if before is None or after is None:
        return ()
    old = {step.step: step for step in before.steps}
    new = {step.step: step for step in after.steps}
    return tuple(
        StepChange(
            step=name,
            before=_points(old.get(name)),
            after=_points(new.get(name)),
            reason=new[name].reason if name in new else "The step is gone.",
        )
        for name in dict.fromkeys([*new, *old])
        if _points(old.get(name)) != _points(new.get(name))
    )


def _points(step: StepMark | None) -> Decimal | None:
    return None if step is None else step.points
