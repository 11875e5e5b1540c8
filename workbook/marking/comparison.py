"""
A marking held against an earlier one: what changed for whom, and what then counts.

A key, a tolerance or a scheme that was wrong is put right for everybody. Where marks
were given back already it is common practice to raise only (no source).
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from msgspec.structs import replace

from workbook.marking.wording import say_points

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence
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


def compare(before: Iterable[SheetMark], after: Iterable[SheetMark]) -> list[Change]:
    """
    Return what changed from one marking to another.

    Parameters
    ----------
    before, after : iterable of SheetMark
        The earlier and the later marking.

    Returns
    -------
    list of Change
        By lab and student; a sheet that earns the same in every step is left out.
    """
    old = {(mark.lab, mark.student): mark for mark in before}
    new = {(mark.lab, mark.student): mark for mark in after}
    changes = [
        _compare(*key, old.get(key), new.get(key)) for key in sorted({*old, *new})
    ]
    return [each for each in changes if each.before != each.after or each.steps]


def keep_higher(
    before: Iterable[SheetMark], after: Sequence[SheetMark]
) -> list[SheetMark]:
    """
    Return the later marks, or the earlier where they were higher.

    Parameters
    ----------
    before : iterable of SheetMark
        The earlier marking.
    after : sequence of SheetMark
        The later one.

    Returns
    -------
    list of SheetMark
        In the order of the later marking, those that are in the earlier one alone at
        the end of their lab; a mark that was kept says so.
    """
    old = {(mark.lab, mark.student): mark for mark in before}
    kept: list[SheetMark] = []
    for mark in after:
        earlier = old.pop((mark.lab, mark.student), None)
        if earlier is None or earlier.points <= mark.points:
            kept.append(mark)
        else:
            kept.append(_keep(earlier, f"the later gives {say_points(mark.points)}."))
    kept += [_keep(each, "nothing was found to mark later.") for each in old.values()]
    return sorted(kept, key=lambda mark: mark.lab)


def note_kept(changes: Iterable[Change]) -> list[Change]:
    """
    Return changes with what only rises are counted of.

    Parameters
    ----------
    changes : iterable of Change
        What `compare` gave.

    Returns
    -------
    list of Change
        Those that would fall say that the earlier mark stands.
    """
    return [
        Change(
            student=each.student,
            lab=each.lab,
            before=each.before,
            after=each.after,
            steps=each.steps,
            is_kept=_falls(each),
        )
        for each in changes
    ]


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
