"""
What an author says of the mistakes that the workbook knows: the ``[slips]`` table.

It belongs to the key half: a relation of a mistake tells of the right one.
"""

from __future__ import annotations

import re
from typing import Annotated

from pydantic import AfterValidator, Field

from workbook.labfile.field import Identifier, RelationText, Text
from workbook.labfile.finding import make_finding, show
from workbook.labfile.table import Table

#: A digit that is no subscript of a formula.
_NUMBER = re.compile(r"(?<![A-Za-z)\]])[0-9]")


def _hold_no_number(text: str) -> str:
    if _NUMBER.search(text):
        sentence = (
            f"{show(text)} holds a number. A student reads this sentence: name the "
            "mistake, and no number of the key."
        )
        raise make_finding(sentence)
    return text


#: What a student reads of a mistake.
SlipSentence = Annotated[Text, AfterValidator(_hold_no_number)]


class OwnSlip(Table):
    """``[slips.own.NAME]``: a mistake that only this lab knows."""

    #: The quantity that comes out wrong; of a molar mass by algebra, the species.
    of: Identifier
    #: What it comes out as; its dimension may be as wrong as the student is.
    relation: Annotated[RelationText, Field(alias="is")]
    says: SlipSentence


class SlipsTable(Table):
    """``[slips]``: which mistakes are named, and how."""

    #: Kinds of mistakes that are not looked for.
    off: tuple[Text, ...] = ()
    own: dict[Identifier, OwnSlip] = Field(default_factory=dict)
    #: Another sentence for a kind.
    says: dict[Text, SlipSentence] = Field(default_factory=dict)
