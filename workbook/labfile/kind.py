"""
The kinds of step that ask for no single number: one class a kind.

As in the schema of a lab file, the meaning of a key stands above its field.
"""

from __future__ import annotations

from typing import Annotated, Literal, TypeAlias

from pydantic import Field

from workbook.labfile.field import Identifier, Text
from workbook.labfile.table import Named

Sequence: TypeAlias = Annotated[tuple[Identifier, ...], Field(min_length=2)]


class TextTable(Named):
    """``kind = "text"``: free text, which a person marks."""

    kind: Literal["text"]
    #: What to write about, a line each; students read it.
    prompts: tuple[Text, ...] = ()
    #: What earns the marks, a line each; it stands in the answer book alone.
    look_for: tuple[Text, ...] = ()


class OrderTable(Named):
    """``kind = "order"``: put the steps of a procedure in order."""

    kind: Literal["order"]
    #: What stands on each card, by a name that does not tell its place.
    cards: Annotated[dict[Identifier, Text], Field(min_length=3)]
    #: Sequences, like [["weigh", "stir"], ["weigh", "cool"]]: in each, every card
    #: comes before those behind it. What none of them tells may come in any order.
    before: Annotated[tuple[Sequence, ...], Field(min_length=1)]


class PredictionTable(Named):
    """``kind = "prediction"``: any answer earns the points; the first stands."""

    kind: Literal["prediction"]
    options: Annotated[dict[Identifier, Text], Field(min_length=2)]
