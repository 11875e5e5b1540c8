"""What a step shows besides its question, for the kinds that ask for no one number."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, TypeAlias

from workbook.labfile.instrument import find_instrument
from workbook.labfile.kind import (
    MatchingTable,
    MechanismTable,
    RangeTable,
    ReagentsTable,
    TextTable,
)

if TYPE_CHECKING:
    from collections.abc import Mapping

    from workbook.labfile.schema import LabFile
    from workbook.labfile.table import Named
    from workbook.matter.change import Change


@dataclass(frozen=True, slots=True)
class TextForm:
    """A text to write."""

    #: What to write about, a line each.
    prompts: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class MatchingForm:
    """Rows to which options may belong."""

    #: What each is called, by name.
    rows: tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True)
class CellForm:
    """One cell of a reagent table: a quantity that is asked, or a given."""

    row: str
    column: str
    #: The quantity or the given.
    of: str
    #: What a sentence calls it: "olive oil, amount".
    text: str

    @property
    def id(self) -> str:
        """Row and column in one word."""
        return f"{self.row} {self.column}"


@dataclass(frozen=True, slots=True)
class TableForm:
    """A table of reagents."""

    #: The heading of each column, by name.
    columns: tuple[tuple[str, str], ...]
    #: What each row is called, by species.
    rows: tuple[tuple[str, str], ...]
    #: The cells that are asked.
    cells: tuple[CellForm, ...]
    #: The cells that are printed.
    givens: tuple[CellForm, ...]
    #: Whether it is asked which reagent limits.
    asks_limiting: bool


@dataclass(frozen=True, slots=True)
class MoveForm:
    """One card of a mechanism."""

    #: In words.
    text: str
    #: In formulas.
    change: Change


@dataclass(frozen=True, slots=True)
class MechanismForm:
    """Steps of a mechanism, and others."""

    #: By name, sorted, because the author's order may well be the right one.
    moves: Mapping[str, MoveForm]


@dataclass(frozen=True, slots=True)
class RangeForm:
    """A range between two readings."""

    #: The readings of its lower and of its upper end.
    of: tuple[str, str]
    #: The unit in which they are read.
    unit: str


Form: TypeAlias = TextForm | MatchingForm | MechanismForm | RangeForm | TableForm


def make_form(file: LabFile, step: Named) -> Form | None:
    """
    Return what a step shows besides its question.

    Parameters
    ----------
    file : LabFile
        The file, which has passed every rule.
    step : Named
        The step's table.

    Returns
    -------
    Form or None
        Nothing of the key; None for a step that shows options at most.
    """
    form: Form | None = None
    match step:
        case TextTable(prompts=prompts):
            form = TextForm(prompts)
        case MatchingTable(rows=rows):
            form = MatchingForm(tuple(rows.items()))
        case MechanismTable(cards=cards):
            moves = {k: MoveForm(card.text, card.change) for k, card in cards.items()}
            form = MechanismForm(dict(sorted(moves.items())))
        case RangeTable(of=(low, high)):
            instrument = find_instrument(file.readings[low].instrument)
            form = RangeForm((low, high), instrument.unit.symbol)
        case ReagentsTable():
            form = _lay_table(file, step)
    return form


def _lay_table(file: LabFile, step: ReagentsTable) -> TableForm:
    rows = tuple((row, file.species[row].name) for row in step.rows)
    cells = [
        CellForm(row, column, step.rows[row][column], f"{name}, {heading}")
        for row, name in rows
        for column, heading in step.columns.items()
        if column in step.rows[row]
    ]
    return TableForm(
        columns=tuple(step.columns.items()),
        rows=rows,
        cells=tuple(cell for cell in cells if cell.of not in file.givens),
        givens=tuple(cell for cell in cells if cell.of in file.givens),
        asks_limiting=step.limiting is not None,
    )


def rows_of(form: Form | None) -> dict[str, str]:
    """
    Return the rows of a matching or of a reagent table.

    Parameters
    ----------
    form : Form or None
        What a step shows.

    Returns
    -------
    dict of str to str
        What each is called, by name; empty for any other form.
    """
    return dict(form.rows) if isinstance(form, MatchingForm | TableForm) else {}


def cell_names(form: Form | None) -> dict[str, str]:
    """
    Return the cells that a reagent table asks for.

    Parameters
    ----------
    form : Form or None
        What a step shows.

    Returns
    -------
    dict of str to str
        What each is called, by its id; empty for any other form.
    """
    if not isinstance(form, TableForm):
        return {}
    return {cell.id: cell.text for cell in form.cells}
