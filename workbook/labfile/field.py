"""
The kinds of value that stand in a lab file, each read from its text.

A validator turns a sentence of our own errors into one of the reader's
findings; the reader adds file and line.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from decimal import ROUND_CEILING, ROUND_FLOOR, Decimal
from typing import TYPE_CHECKING, Annotated, TypeAlias

from pydantic import StringConstraints
from pydantic_core.core_schema import no_info_plain_validator_function

from workbook.errors import MatterError, RelationError, TextError, UnitError
from workbook.labfile.finding import make_finding, show
from workbook.labfile.hazard import read_statement
from workbook.matter.change import Change, read_change
from workbook.measure.units import ONE, Unit, convert, read_unit
from workbook.measure.written import Comma, Written, read_written
from workbook.relation.lexeme import CALLS
from workbook.relation.reader import read_line, read_relation
from workbook.relation.tree import Equality, Node

if TYPE_CHECKING:
    from collections.abc import Callable

    from pydantic_core import CoreSchema

#: Errors of ours that a wrong text may raise.
_OURS = (MatterError, RelationError, TextError, UnitError)

_NAME = re.compile(r"[A-Za-z][A-Za-z0-9_]*")

#: Characters of a name.
_LONGEST_NAME = 40

#: What is behind the name of a substance when its solution is meant.
SOLUTION = ".solution"


@dataclass(frozen=True, slots=True)
class DrawRange:
    """Two bounds in one unit, and the power of ten to which they are written."""

    low: Decimal
    high: Decimal
    unit: Unit
    place: int

    def steps(self, unit: Unit, place: int) -> range:
        """
        Return the multiples of a step that lie in the range, both ends included.

        Parameters
        ----------
        unit : Unit
            The unit of the step; it measures what the range does.
        place : int
            The step is this power of ten.

        Returns
        -------
        range
            Empty where no multiple lies in the range.

        Examples
        --------
        >>> read_range("11.0 .. 14.5 mL").steps(read_unit("mL"), -1)
        range(110, 146)
        """
        low, high = (
            convert(bound, self.unit, unit).scaleb(-place)
            for bound in (self.low, self.high)
        )
        first, last = (
            low.to_integral_value(ROUND_CEILING),
            high.to_integral_value(ROUND_FLOOR),
        )
        return range(int(first), int(last) + 1)


@dataclass(frozen=True, slots=True)
class _ReadsAs:
    """Makes a field's value from its text; pydantic need not look into the type."""

    read: Callable[[str], object]

    def __get_pydantic_core_schema__(self, _: object, __: object) -> CoreSchema:
        return no_info_plain_validator_function(self._validate)

    def _validate(self, value: object) -> object:
        if isinstance(value, bool | dict | list):
            sentence = f"{show(value)} stands here; text in quotes is expected."
            raise make_finding(sentence)
        if not isinstance(value, str):
            sentence = f"{value} is a bare number; write it in quotes, with its unit."
            raise make_finding(sentence)
        try:
            return self.read(value)
        except _OURS as error:
            raise make_finding(str(error)) from error


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
        If no unit is written, or something else stands beside number and unit.
    TextError
        If the number can't be read.
    UnitError
        If the unit is not known.
    """
    written = read_written(text, comma=Comma.DECIMAL)
    if written.unit is None or written.rest or written.spread is not None:
        sentence = f'{text!r} is not a number with a unit; write it like "0.911 g/mL".'
        raise make_finding(sentence)
    return written


def read_range(text: str) -> DrawRange:
    """
    Return the bounds of a draw.

    Parameters
    ----------
    text : str
        ``"11.0 .. 14.5 mL"``, the unit once, at the end; a bare ratio has none.

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
    sides = text.split("..")
    if len(sides) != 2 or not all(side.strip() for side in sides):  # noqa: PLR2004  low and high
        raise _not_a_range(text)
    low, high = (read_written(side, comma=Comma.DECIMAL) for side in sides)
    odd = any(side.rest or side.spread is not None for side in (low, high))
    if odd or low.unit is not None:
        raise _not_a_range(text)
    if not low.value < high.value:
        sentence = f"the range {text!r} runs downwards; write the smaller number first."
        raise make_finding(sentence)
    place = min(low.place, high.place)
    return DrawRange(low.value, high.value, high.unit or ONE, place)


def read_figure(text: str) -> DrawRange:
    """
    Return the one value of what is the same for every student.

    Parameters
    ----------
    text : str
        ``"24.0 L/mol"``; a bare ratio has no unit.

    Returns
    -------
    DrawRange
        From the value to itself.

    Raises
    ------
    PydanticCustomError
        If something else stands beside number and unit.
    TextError
        If the number can't be read.
    UnitError
        If the unit is not known.

    Examples
    --------
    >>> figure = read_figure("4.20")
    >>> figure.low == figure.high, figure.place
    (True, -2)
    """
    written = read_written(text, comma=Comma.DECIMAL)
    if written.rest or written.spread is not None:
        sentence = f'{text!r} is not one value; write it like "24.0 L/mol".'
        raise make_finding(sentence)
    return DrawRange(written.value, written.value, written.unit or ONE, written.place)


def _not_a_range(text: str) -> Exception:
    return make_finding(f'{text!r} is not a range; write it like "11.0 .. 14.5 mL".')


def read_name(text: str) -> str:
    """
    Return a name that a relation can use.

    Parameters
    ----------
    text : str
        As it stands in the file.

    Returns
    -------
    str
        Unchanged.

    Raises
    ------
    PydanticCustomError
        If it is no name, or the name of a function.
    """
    if not _NAME.fullmatch(text) or len(text) > _LONGEST_NAME:
        sentence = (
            f"{show(text)} is no name: a letter, then letters, digits and underscores, "
            f"{_LONGEST_NAME} at most."
        )
        raise make_finding(sentence)
    if text in CALLS:
        sentence = f"{text!r} is a function of relations; take another name."
        raise make_finding(sentence)
    return text


def read_substance(text: str) -> str:
    """
    Return the name of a species, or of the solution that it comes in.

    Parameters
    ----------
    text : str
        ``"lye"`` or ``"lye.solution"``.

    Returns
    -------
    str
        Unchanged.

    Raises
    ------
    PydanticCustomError
        If it is neither.
    """
    read_name(text.removesuffix(SOLUTION))
    return text


def read_expression(text: str) -> Node:
    """
    Return one side of what a student could type: ``C3H5 + 3x``.

    Parameters
    ----------
    text : str
        As it stands in the file.

    Returns
    -------
    Node
        The syntax tree.

    Raises
    ------
    RelationError
        If it can't be read, or has two sides.
    """
    found = read_line(text)
    if isinstance(found, Equality):
        raise RelationError(text, text.index("="), "an = has no place here.")
    return found


Text = Annotated[str, StringConstraints(strip_whitespace=True, min_length=1)]
#: A name of the relation language, without dots.
Identifier: TypeAlias = Annotated[str, _ReadsAs(read_name)]
#: A species, or the solution that it comes in.
Substance: TypeAlias = Annotated[str, _ReadsAs(read_substance)]
Amount: TypeAlias = Annotated[Written, _ReadsAs(read_amount)]
Range: TypeAlias = Annotated[DrawRange, _ReadsAs(read_range)]
Figure: TypeAlias = Annotated[DrawRange, _ReadsAs(read_figure)]
UnitText: TypeAlias = Annotated[Unit, _ReadsAs(read_unit)]
RelationText: TypeAlias = Annotated[Node, _ReadsAs(read_relation)]
StudentRelation: TypeAlias = Annotated[Node, _ReadsAs(read_expression)]
ChangeText: TypeAlias = Annotated[Change, _ReadsAs(read_change)]
Code: TypeAlias = Annotated[str, _ReadsAs(lambda text: read_statement(text).code)]
