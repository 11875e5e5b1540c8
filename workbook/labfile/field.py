"""
The kinds of value that stand in a lab file, each read from its text.

A validator turns a sentence of our own errors into one of the reader's
findings; the reader adds file and line.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import TYPE_CHECKING, Annotated, LiteralString, TypeAlias

from pydantic import StringConstraints
from pydantic_core import PydanticCustomError
from pydantic_core.core_schema import no_info_plain_validator_function

from workbook.errors import (
    MatterError,
    RelationError,
    TextError,
    UnitError,
    nearest,
)
from workbook.labfile.hazard import read_statement
from workbook.measure.units import ONE, Unit, read_unit
from workbook.measure.written import Comma, Written, read_written
from workbook.relation.reader import read_line, read_relation
from workbook.relation.tree import Equality, Node

if TYPE_CHECKING:
    from collections.abc import Callable
    from decimal import Decimal

    from pydantic_core import CoreSchema

# A kind of finding for programs, and the sentence that an author reads.
_UNKNOWN_KEY = (
    "unknown_key",
    "{key} is not a key of this table; known are {names}.{hint}",
)
_NOT_TEXT = (
    "not_text",
    "{value} is a bare {kind}; write it in quotes, so that no digit is lost.",
)
_UNREAD = (
    "unread",
    "{sentence}",
)
_NO_UNIT = (
    "no_unit",
    '{text} is not a number with a unit; write it like "0.911 g/mL".',
)
_NOT_RANGE = (
    "not_range",
    '{text} is not a range; write it like "11.0 .. 14.5 mL".',
)
_UPSIDE_DOWN = (
    "upside_down",
    "the range {text} is empty or upside down; write the smaller number first.",
)

#: Kinds of finding whose sentence is whole, and needs nothing added.
OURS = frozenset(
    {_NOT_TEXT[0], _UNREAD[0], _NO_UNIT[0], _NOT_RANGE[0], _UPSIDE_DOWN[0]}
)

#: Errors of ours that a wrong text may raise.
_OURS = (MatterError, RelationError, TextError, UnitError)


@dataclass(frozen=True, slots=True)
class DrawRange:
    """Two bounds in one unit, and the power of ten to which they are written."""

    low: Decimal
    high: Decimal
    unit: Unit
    place: int


def _finding(
    form: tuple[LiteralString, LiteralString], **context: str
) -> PydanticCustomError:
    return PydanticCustomError(*form, context)


def refuse_unknown_keys(data: object, names: set[str]) -> None:
    """
    Refuse a table that holds a key which no field has.

    Parameters
    ----------
    data : object
        The table as TOML gave it; anything else is left to the field's own type.
    names : set of str
        The keys that are known.

    Raises
    ------
    PydanticCustomError
        For the first unknown key in the order of the file; the reader turns it
        into a finding, with the key's line.
    """
    if not isinstance(data, dict):
        return
    for key in data:
        if key not in names:
            raise _finding(
                _UNKNOWN_KEY,
                key=repr(key),
                names=", ".join(sorted(names)),
                hint=nearest(key, names),
                at=key,
            )


def _text(value: object) -> str:
    if not isinstance(value, str):
        raise _finding(
            _NOT_TEXT,
            value=repr(value),
            kind=type(value).__name__,
        )
    return value


@dataclass(frozen=True, slots=True)
class _ReadsAs:
    """Makes a field's value from its text; pydantic need not look into the type."""

    read: Callable[[str], object]

    def __get_pydantic_core_schema__(self, _: object, __: object) -> CoreSchema:
        return no_info_plain_validator_function(self._validate)

    def _validate(self, value: object) -> object:
        try:
            return self.read(_text(value))
        except _OURS as error:
            raise _finding(_UNREAD, sentence=str(error)) from error


def read_amount(text: str) -> Written:
    """
    Return a number with its unit; a number without one is refused.

    Parameters
    ----------
    text : str
        As it stands in the file: ``"0.911 g/mL"``; the decimal mark is a point.

    Returns
    -------
    Written
        With a unit.

    Raises
    ------
    PydanticCustomError
        If no unit is written, or words stand after the unit.
    TextError
        If the number can't be read.
    UnitError
        If the unit is not known.
    """
    written = read_written(text, comma=Comma.DECIMAL)
    if written.unit is None or written.rest:
        raise _finding(
            _NO_UNIT,
            text=repr(text),
        )
    return written


_RANGE = re.compile(
    r"^\s*(?P<low>[^.\s]\S*?)\s*\.\.\s*(?P<high>\S+)\s*(?P<unit>.*?)\s*$"
)


def read_range(text: str) -> DrawRange:
    """
    Return the bounds of a draw.

    Parameters
    ----------
    text : str
        ``"11.0 .. 14.5 mL"``; a bare ratio has no unit.

    Returns
    -------
    DrawRange
        Low below high, the unit read.

    Raises
    ------
    PydanticCustomError
        If the text is not two numbers, or the range is upside down or empty.
    TextError
        If a bound can't be read.
    UnitError
        If the unit is not known.

    Examples
    --------
    >>> read_range("11.0 .. 14.5 mL").place
    -1
    """
    match = _RANGE.match(text)
    if match is None:
        raise _finding(
            _NOT_RANGE,
            text=repr(text),
        )
    low, high = (
        read_written(match[name], comma=Comma.DECIMAL) for name in ("low", "high")
    )
    if not low.value < high.value:
        raise _finding(
            _UPSIDE_DOWN,
            text=repr(text),
        )
    unit = read_unit(match["unit"]) if match["unit"] else ONE
    return DrawRange(low.value, high.value, unit, min(low.place, high.place))


def _read_student_relation(text: str) -> Node:
    found = read_line(text)
    if isinstance(found, Equality):
        raise RelationError(text, text.index("="), "an = has no place here.")
    return found


Text = Annotated[str, StringConstraints(strip_whitespace=True, min_length=1)]
#: A name of the relation language, without dots.
Identifier = Annotated[
    str, StringConstraints(pattern=r"^[A-Za-z][A-Za-z0-9_]*$", max_length=40)
]
#: A species, or the solution that it comes in.
Substance = Annotated[
    str, StringConstraints(pattern=r"^[A-Za-z][A-Za-z0-9_]*(\.solution)?$")
]
Amount: TypeAlias = Annotated[Written, _ReadsAs(read_amount)]
Range: TypeAlias = Annotated[DrawRange, _ReadsAs(read_range)]
UnitText: TypeAlias = Annotated[Unit, _ReadsAs(read_unit)]
RelationText: TypeAlias = Annotated[Node, _ReadsAs(read_relation)]
StudentRelation: TypeAlias = Annotated[Node, _ReadsAs(_read_student_relation)]
Code: TypeAlias = Annotated[str, _ReadsAs(lambda text: read_statement(text).code)]
