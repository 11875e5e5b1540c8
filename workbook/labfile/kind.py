"""
The kinds of step that ask for no single number: one class a kind.

As in the schema of a lab file, the meaning of a key stands above its field.
"""

from __future__ import annotations

from typing import Annotated, Literal, TypeAlias

from pydantic import Field, model_validator

from workbook.errors import nearest
from workbook.labfile.field import Amount, ChangeText, Identifier, Text
from workbook.labfile.table import Named, Table

Sequence: TypeAlias = Annotated[tuple[Identifier, ...], Field(min_length=2)]


class TextTable(Named):
    """``kind = "text"``: free text, which a person marks."""

    kind: Literal["text"]
    #: What to write about, a line each; students read it.
    prompts: tuple[Text, ...] = ()
    #: What earns the marks, a line each; it stands in the answer book alone.
    look_for: tuple[Text, ...] = ()


class MatchingTable(Named):
    """``kind = "matching"``: say what belongs to what."""

    kind: Literal["matching"]
    #: To what it may belong: the reagents, say.
    rows: Annotated[dict[Identifier, Text], Field(min_length=2)]
    #: What may belong to them; more are offered than are needed.
    options: Annotated[dict[Identifier, Text], Field(min_length=2)]
    #: What does: { lye = ["H290", "H314"], oil = [] }.
    belongs: dict[Identifier, tuple[Identifier, ...]]
    #: Whether more than one may belong to a row, or none.
    several: Annotated[bool, Field(strict=True)] = False

    @model_validator(mode="after")
    def _belong_to_what_is_there(self) -> MatchingTable:
        for row in self.rows.keys() - self.belongs.keys():
            msg = f"belongs says nothing of {row!r}; write [] where nothing belongs."
            raise ValueError(msg)
        for row, options in self.belongs.items():
            self._check(row, self.rows, "rows")
            for option in options:
                self._check(option, self.options, "options")
            if not self.several and len(options) != 1:
                msg = f"{len(options)} options belong to {row!r}; set several = true."
                raise ValueError(msg)
        return self

    @staticmethod
    def _check(name: str, known: dict[str, str], where: str) -> None:
        if name not in known:
            msg = f"belongs names {name!r}, which is not among the {where}."
            raise ValueError(msg + nearest(name, known))


class OrderTable(Named):
    """``kind = "order"``: put the steps of a procedure in order."""

    kind: Literal["order"]
    #: What stands on each card, by a name that does not tell its place.
    cards: Annotated[dict[Identifier, Text], Field(min_length=3)]
    #: Sequences, like [["weigh", "stir"], ["weigh", "cool"]]: in each, every card
    #: comes before those behind it. What none of them tells may come in any order.
    before: Annotated[tuple[Sequence, ...], Field(min_length=1)]


class CardTable(Table):
    """One step of a mechanism, as it stands on a card."""

    #: What happens, in words.
    text: Text
    #: The same in formulas: "CH3COOH + OH^- -> CH3COO^- + H2O".
    change: ChangeText


class MechanismTable(Named):
    """``kind = "mechanism"``: put the steps of a mechanism in order."""

    kind: Literal["mechanism"]
    #: The steps, and others that do not happen, by names that do not tell the order.
    cards: Annotated[dict[Identifier, CardTable], Field(min_length=3)]
    #: As for an order; of the cards that belong.
    before: Annotated[tuple[Sequence, ...], Field(min_length=1)]
    #: The cards that do not belong. A card that loses atoms or charge never does.
    decoys: tuple[Identifier, ...] = ()

    @property
    def belonging(self) -> tuple[str, ...]:
        """The cards that have a place in the mechanism."""
        return tuple(key for key in self.cards if key not in self.decoys)


class RangeTable(Named):
    """``kind = "range"``: write two readings as one range, such as a melting range."""

    kind: Literal["range"]
    #: The readings of its ends, as they come: ["melting_start", "melting_end"].
    of: Annotated[tuple[Identifier, ...], Field(min_length=2, max_length=2)]


class ReagentsTable(Named):
    """``kind = "reagents"``: fill in a table of reagents."""

    kind: Literal["reagents"]
    #: The headings of the columns: { amount = "amount", ratio = "equivalents" }.
    columns: Annotated[dict[Identifier, Text], Field(min_length=1)]
    #: A row each species. In a cell stands a quantity, which is asked, or a given,
    #: which is printed: oil = { mass = "planned_oil", amount = "planned_oil_amount" }.
    rows: Annotated[dict[Identifier, dict[Identifier, Identifier]], Field(min_length=2)]
    #: The column of amounts from which it follows which reagent limits, if that is
    #: asked as well.
    limiting: Identifier | None = None
    #: As for a step that asks for the limiting reagent alone.
    closest: Amount | None = None

    @property
    def amounts(self) -> dict[str, str]:
        """The amounts that decide which reagent limits, by species."""
        cells = {row: self.rows[row].get(self.limiting or "") for row in self.rows}
        return {row: name for row, name in cells.items() if name is not None}

    @model_validator(mode="after")
    def _have_every_column(self) -> ReagentsTable:
        named = {column for cells in self.rows.values() for column in cells}
        for column in sorted(named - self.columns.keys()):
            hint = nearest(column, self.columns)
            msg = f"a row names {column!r}, which is not among the columns.{hint}"
            raise ValueError(msg)
        if self.limiting is not None and len(self.amounts) < len(self.rows):
            msg = (
                f"limiting names the column {self.limiting!r}, in which every row must "
                "have its amount."
            )
            raise ValueError(msg)
        return self


class PredictionTable(Named):
    """``kind = "prediction"``: any answer earns the points; the first stands."""

    kind: Literal["prediction"]
    options: Annotated[dict[Identifier, Text], Field(min_length=2)]
