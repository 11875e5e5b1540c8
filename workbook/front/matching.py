"""The place to say what belongs to what: a table to tick in, or a list for each row."""

from __future__ import annotations

from typing import TYPE_CHECKING

from workbook.front.grid import TICKED, Cell, Grid, Row
from workbook.wire.answer import Answer, Match, Matched

if TYPE_CHECKING:
    from collections.abc import Mapping

    from ipywidgets import Widget

    from workbook.front.bell import Bell
    from workbook.wire.sheet import MatchingStep, Option

_UNCHOSEN = ("", "Choose")


class MatchingPad:
    """
    A table: ticks where several options may belong to a row, else a list for each.

    Parameters
    ----------
    step : MatchingStep
        As it stands on the sheet.
    bell : Bell
        Rung when the answer changes.
    """

    def __init__(self, step: MatchingStep, bell: Bell) -> None:
        self._step = step
        # What may belong is long to say, and there is more of it: it stands in rows.
        if step.several:
            head = ["", *(row.text for row in step.rows)]
            rows = [self._tick_row(option) for option in step.options]
        else:
            head = ["", "What belongs to it"]
            rows = [self._pick_row(row) for row in step.rows]
        self.grid = Grid(head, rows, bell)

    @property
    def body(self) -> tuple[Widget, ...]:
        """The table."""
        return (self.grid.view,)

    def read(self) -> Matched:
        """
        Return what is ticked or chosen.

        Returns
        -------
        Matched
            Every row, in the order of the sheet.
        """
        values = self.grid.values
        return Matched(
            tuple(Match(row.id, self._chosen(row, values)) for row in self._step.rows)
        )

    def write(self, answer: Answer) -> None:
        """
        Put an earlier answer back.

        Parameters
        ----------
        answer : Answer
            Of this kind; any other is left out, and so is what the sheet has not.
        """
        if isinstance(answer, Matched):
            values: dict[str, str] = {}
            for match in answer.matches:
                for option in match.options:
                    values |= self._value(match.row, option)
            self.grid.values = values

    def _value(self, row: str, option: str) -> dict[str, str]:
        if self._step.several:
            return {f"{row} {option}": TICKED}
        return {row: option}

    def _chosen(self, row: Option, values: Mapping[str, str]) -> tuple[str, ...]:
        if self._step.several:
            return tuple(
                option.id
                for option in self._step.options
                if values[f"{row.id} {option.id}"] == TICKED
            )
        return (values[row.id],) if values[row.id] else ()

    def _tick_row(self, option: Option) -> Row:
        cells = tuple(
            Cell(
                "tick", key=f"{row.id} {option.id}", label=f"{row.text}: {option.text}"
            )
            for row in self._step.rows
        )
        return Row(option.text, cells)

    def _pick_row(self, row: Option) -> Row:
        options = (_UNCHOSEN, *((each.id, each.text) for each in self._step.options))
        cell = Cell("pick", key=row.id, label=row.text, options=options)
        return Row(row.text, (cell,))
