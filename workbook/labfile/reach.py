"""Rules on what a student can reach: no answer may need what they can't know."""

from __future__ import annotations

from typing import TYPE_CHECKING

from workbook.labfile.kind import ReagentsTable
from workbook.labfile.schema import ChainTable, LimitingTable, NumberTable, ReadingTable
from workbook.labfile.step import placed_steps
from workbook.relation.tree import names

if TYPE_CHECKING:
    from collections.abc import Iterator

    from workbook.labfile.finding import Finding
    from workbook.labfile.schema import LabFile, StepTable


def steps_can_be_answered(file: LabFile) -> Iterator[Finding]:
    """
    Find steps whose answer rests on what is hidden, or on what is not read by then.

    A reading may follow from a hidden value: the student sees what it comes to.

    Parameters
    ----------
    file : LabFile
        The file, its tables read.

    Returns
    -------
    iterator of Finding
        Any number for each step.
    """
    before = {step.of for step in file.prelab if isinstance(step, ReadingTable)}
    after = {step.of for step in file.postlab if isinstance(step, ReadingTable)}
    for place, step in placed_steps(file):
        read = before if place[0] == "prelab" else before | after
        for asked in file.quantities.keys() & quantities_of(step):
            for source in sorted(sources_of(file, asked)):
                if source in file.hidden:
                    yield (*place, "of"), _hidden(asked, source)
                elif source in file.readings and source not in read:
                    yield (*place, "of"), _unread(asked, source, late=source in after)


def _hidden(asked: str, source: str) -> str:
    return (
        f"{asked!r} follows from the hidden {source!r} without a reading between them, "
        "so nobody can work it out. Let a reading follow from it."
    )


def _unread(asked: str, source: str, *, late: bool) -> str:
    if late:
        return (
            f"{asked!r} is asked before the lab, but follows from the reading "
            f"{source!r}, which is taken after it."
        )
    return (
        f"{asked!r} follows from the reading {source!r}, which no step asks for. "
        'Add a step of kind = "reading".'
    )


def quantities_of(step: StepTable) -> set[str]:
    """
    Return the names that a step asks to be worked out.

    Parameters
    ----------
    step : StepTable
        Any step.

    Returns
    -------
    set of str
        Of a table, what is printed in it as well; empty for most kinds.
    """
    match step:
        case ReagentsTable(rows=rows):
            return {name for cells in rows.values() for name in cells.values()}
        case NumberTable(of=name) | ChainTable(of=name):
            return {name}
        case LimitingTable(of=amounts):
            return set(amounts.values())
    return set()


def sources_of(file: LabFile, asked: str) -> set[str]:
    """
    Return what a quantity follows from, however far, readings not looked into.

    Parameters
    ----------
    file : LabFile
        The file, its tables read.
    asked : str
        The quantity.

    Returns
    -------
    set of str
        Names of readings, givens, hidden values and constants, and its own.
    """
    found: set[str] = set()
    waiting = [asked]
    while waiting:
        name = waiting.pop()
        row = file.quantities.get(name)
        if name not in found and row is not None:
            waiting.extend(names(row.relation))
        found.add(name)
    return found
