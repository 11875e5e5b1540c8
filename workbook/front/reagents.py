"""The place to fill in a table of reagents."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ipywidgets import Dropdown, HBox

from workbook.front.grid import Cell, Grid, Row
from workbook.front.widget import make
from workbook.wire.answer import Answer, Filled, Filling

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ipywidgets import Widget

    from workbook.front.bell import Bell
    from workbook.wire.sheet import ReagentRow, ReagentsStep

_NONE = "\N{EM DASH}"


class ReagentsPad:
    """
    A table with a text box in each cell that is asked, and a list for what limits.

    Parameters
    ----------
    step : ReagentsStep
        As it stands on the sheet.
    bell : Bell
        Rung when the answer changes, or is to be checked.
    """

    def __init__(self, step: ReagentsStep, bell: Bell) -> None:
        self._step = step
        head = ["Substance", *(column.text for column in step.columns)]
        self.grid = Grid(head, [self._lay_row(row) for row in step.rows], bell)
        rows = [(row.name, row.id) for row in step.rows]
        self.limiting = make(
            Dropdown,
            description="Which of them runs out first?",
            options=[("Choose", ""), *rows],
        )
        self.limiting.observe(lambda _: bell.change(), names="value")
        self.bench = make(HBox, [self.limiting], css="wb-bench")

    @property
    def body(self) -> tuple[Widget, ...]:
        """The table, and the list where it is asked for."""
        if self._step.asks_limiting:
            return (self.grid.view, self.bench)
        return (self.grid.view,)

    def read(self) -> Filled:
        """
        Return what is typed and chosen.

        Returns
        -------
        Filled
            Every cell that is asked.
        """
        values = self.grid.values
        cells = tuple(
            Filling(row, column, values[f"{row} {column}"])
            for row, column in self._list_asked()
        )
        return Filled(cells, str(self.limiting.value))

    def write(self, answer: Answer) -> None:
        """
        Put an earlier table back.

        Parameters
        ----------
        answer : Answer
            A table; any other kind is left out, and so is what the sheet has not.
        """
        if isinstance(answer, Filled):
            self.grid.values = {
                f"{cell.row} {cell.column}": cell.text for cell in answer.cells
            }
            known = {row.id for row in self._step.rows}
            self.limiting.value = answer.limiting if answer.limiting in known else ""

    def _list_asked(self) -> Iterator[tuple[str, str]]:
        for row in self._step.rows:
            for cell in row.cells:
                if not cell.shown:
                    yield row.id, cell.column

    def _lay_row(self, row: ReagentRow) -> Row:
        held = {cell.column: cell for cell in row.cells}
        cells = []
        for column in self._step.columns:
            cell = held.get(column.id)
            if cell is None or cell.shown:
                cells.append(Cell("shown", text=cell.shown if cell else _NONE))
                continue
            unit = f", in {cell.unit}" if cell.unit else ""
            label = f"{row.name}, {column.text}{unit}"
            key = f"{row.id} {column.id}"
            cells.append(Cell("text", key=key, label=label, unit=cell.unit))
        return Row(row.name, tuple(cells))
