"""
The gate before the lab: a sheet without the readings after it, and those readings.

A sheet that lies in a student's folder must not hold what they may not see yet.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from msgspec.structs import replace

from workbook.wire.sheet import ReadingStep, Sight

if TYPE_CHECKING:
    from workbook.wire.sheet import Sheet, Step


def hold_back(sheet: Sheet, gate: tuple[str, ...]) -> Sheet:
    """
    Return a sheet as it is issued.

    Parameters
    ----------
    sheet : Sheet
        With everything on it.
    gate : tuple of str
        The steps of the lab's gate; empty when it has none.

    Returns
    -------
    Sheet
        Where there is a gate, no instrument after the lab shows anything.
    """
    if not gate:
        return sheet
    return replace(sheet, gate=gate, postlab=tuple(map(_blind, sheet.postlab)))


def _blind(step: Step) -> Step:
    return replace(step, seen="", picture="") if isinstance(step, ReadingStep) else step


def list_sights(sheet: Sheet) -> tuple[Sight, ...]:
    """
    Return what the instruments after the lab show.

    Parameters
    ----------
    sheet : Sheet
        With everything on it.

    Returns
    -------
    tuple of Sight
        In the order of the steps.
    """
    return tuple(
        Sight(step.id, step.seen, step.picture)
        for step in sheet.postlab
        if isinstance(step, ReadingStep)
    )
