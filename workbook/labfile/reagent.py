"""Rules on reagent tables: each cell is known, asked once, and can be worked out."""

from __future__ import annotations

from collections import Counter
from typing import TYPE_CHECKING

from workbook.errors import nearest
from workbook.labfile.kind import ReagentsTable
from workbook.labfile.step import must_limit, placed_steps, step_id

if TYPE_CHECKING:
    from collections.abc import Iterator

    from workbook.labfile.finding import Finding
    from workbook.labfile.schema import LabFile


def asked_cells(file: LabFile, step: ReagentsTable) -> dict[tuple[str, str], str]:
    """
    Return the quantities that a reagent table asks for.

    Parameters
    ----------
    file : LabFile
        The file, its tables read.
    step : ReagentsTable
        The step.

    Returns
    -------
    dict of (str, str) to str
        By row and column; what is printed as a given is left out.
    """
    return {
        (row, column): name
        for row, cells in step.rows.items()
        for column, name in cells.items()
        if name not in file.givens
    }


def reagent_tables_can_be_filled(file: LabFile) -> Iterator[Finding]:
    """
    Find reagent tables with cells that are unknown, or asked elsewhere as well.

    Parameters
    ----------
    file : LabFile
        The file, its tables read.

    Returns
    -------
    iterator of Finding
        Any number for each step.
    """
    count = Counter(_list_asked(file))
    for place, step in placed_steps(file):
        if isinstance(step, ReagentsTable):
            for (row, column), name in asked_cells(file, step).items():
                if sentence := _wrong(file, name, count[name]):
                    yield (*place, "rows", row, column), sentence
            for sentence in _wrong_rows(file, step):
                yield (*place, "rows"), sentence
            for sentence in _wrong_limiting(file, step):
                yield (*place, "limiting"), sentence


def _list_asked(file: LabFile) -> Iterator[str]:
    for _, step in placed_steps(file):
        yield step_id(step)
        if isinstance(step, ReagentsTable):
            yield from asked_cells(file, step).values()


def _wrong(file: LabFile, name: str, times: int) -> str:
    if name not in file.quantities:
        hint = nearest(name, file.quantities | file.givens)
        return f"{name!r} is no quantity and no given of this file.{hint}"
    if times > 1:
        return f"{name!r} is asked {times} times; ask it once."
    return ""


def _wrong_rows(file: LabFile, step: ReagentsTable) -> Iterator[str]:
    for row in step.rows:
        if row not in file.species:
            yield f"{row!r} is no species of this file.{nearest(row, file.species)}"
    if not asked_cells(file, step):
        yield "every cell is given, so nothing is asked."


def _wrong_limiting(file: LabFile, step: ReagentsTable) -> Iterator[str]:
    amounts = step.amounts
    known = file.quantities | file.givens
    # Told by the rules on rows and cells.
    is_told = not (
        set(amounts) <= set(file.species) and set(amounts.values()) <= set(known)
    )
    if amounts and not is_told:
        yield from must_limit(file, amounts)
