"""A reagent table, as it stands on a sheet."""

from __future__ import annotations

from typing import TYPE_CHECKING

from workbook.measure.units import ONE
from workbook.wire.sheet import Cell, Option, ReagentRow, ReagentsStep

if TYPE_CHECKING:
    from collections.abc import Mapping

    from workbook.labfile.form import TableForm
    from workbook.labfile.half import Ask, PublicHalf
    from workbook.measure.units import Unit

_ACCEPTED = (
    "Accepted in each cell: what follows from your own values, rounded to the last "
    "digit that you write. The unit stands beside the cell; another of its kind can be "
    "typed with the number."
)


def write_table(
    public: PublicHalf, ask: Ask, form: TableForm, givens: Mapping[str, str]
) -> ReagentsStep:
    """
    Return a reagent table for a student.

    Parameters
    ----------
    public : PublicHalf
        The lab, as a student may know it.
    ask : Ask
        The step.
    form : TableForm
        What it shows.
    givens : mapping of str to str
        Each given as printed, unit included.

    Returns
    -------
    ReagentsStep
        With the student's givens in their cells.
    """
    cells = {
        each.id: Cell(each.column, _name_unit(public.labels[each.of].unit))
        for each in form.cells
    } | {each.id: Cell(each.column, "", shown=givens[each.of]) for each in form.givens}
    rows = tuple(
        ReagentRow(
            row,
            name,
            tuple(
                cells[key]
                for column, _ in form.columns
                if (key := f"{row} {column}") in cells
            ),
        )
        for row, name in form.rows
    )
    return ReagentsStep(
        id=ask.id,
        asks=ask.asks,
        allowance=_ACCEPTED,
        columns=tuple(Option(key, text) for key, text in form.columns),
        rows=rows,
        asks_limiting=form.asks_limiting,
    )


def _name_unit(unit: Unit) -> str:
    return "" if unit == ONE else unit.symbol
