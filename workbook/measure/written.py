"""What a person typed, read as a measurement, a range, or an answer."""

from __future__ import annotations

from typing import TYPE_CHECKING

from workbook.errors import AmbiguousError
from workbook.measure.measurement import Written, say_number
from workbook.measure.numeral import Comma
from workbook.measure.phrase import (
    Phrase,
    find_second,
    find_start,
    read_phrase,
    read_rest,
)
from workbook.measure.plain import to_plain
from workbook.measure.units import ONE, PERCENT, Unit, check_dimension

if TYPE_CHECKING:
    from workbook.measure.plain import Plain

__all__ = ["Comma", "Written", "read_answer", "read_ends", "read_range", "read_written"]


def read_written(text: str, *, comma: Comma) -> Written:
    """
    Return the measurement that a text is.

    Parameters
    ----------
    text : str
        As typed.
    comma : Comma
        What a comma before exactly three digits is.

    Returns
    -------
    Written
        Without a unit if none was typed.

    Raises
    ------
    BlankError
        If nothing was typed.
    UnreadError
        If it can't be read, pointing at the character.
    AmbiguousError
        If it is a calculation or a range, or can be read in two ways.
    UnknownUnitError
        If the word behind the number is no unit.
    DimensionError
        If the spread has a unit that measures something else.

    Examples
    --------
    >>> read_written("1,36·10^1 grams of soap", comma=Comma.ASK).say()
    "13.6 g, 3 figures; 'of soap' was left aside"
    """
    plain = to_plain(text)
    phrase = read_phrase(plain, find_start(plain), comma)
    second = find_second(plain, phrase.end)
    if second is not None:
        other = read_phrase(plain, second, comma)
        raise _ask_range(plain, phrase, other)
    return _to_written(text, phrase, phrase.unit, read_rest(plain, phrase.end))


def read_range(text: str, *, comma: Comma) -> tuple[Written, Written]:
    """
    Return the two measurements between which a text ranges.

    Parameters
    ----------
    text : str
        As typed: ``"134-136 °C"``; a unit on one side stands for both.
    comma : Comma
        What a comma before exactly three digits is.

    Returns
    -------
    low, high : Written
        The first not above the second.

    Raises
    ------
    BlankError
        If nothing was typed.
    UnreadError
        If it can't be read, is one value only, or runs downwards.
    AmbiguousError
        If it is a calculation, or can be read in two ways.
    UnknownUnitError
        If the word behind a number is no unit.
    DimensionError
        If the two ends have units that measure different things.

    Examples
    --------
    >>> low, high = read_range("134 to 136 °C", comma=Comma.ASK)
    >>> low.say(), high.say()
    ('134 °C, 3 figures', '136 °C, 3 figures')
    """
    plain = to_plain(text)
    first, second = _begin(plain, comma)
    if second is None:
        reason = "Two values are expected here, such as 134-136 °C."
        raise plain.unread(first.end, reason)
    low, high = read_ends(text, comma=comma)
    if low.value > high.in_unit(low.unit or ONE):
        reason = "A range runs upwards: type its lower value first."
        raise plain.unread(second, reason)
    return low, high


def read_ends(text: str, *, comma: Comma) -> tuple[Written, ...]:
    """
    Return the measurements that a text is, one or two.

    Parameters
    ----------
    text : str
        As typed: ``"134-136 °C"``; a unit on one side stands for both.
    comma : Comma
        What a comma before exactly three digits is.

    Returns
    -------
    tuple of Written
        In the order in which they were typed.

    Raises
    ------
    BlankError
        If nothing was typed.
    UnreadError
        If it can't be read.
    AmbiguousError
        If it is a calculation, or can be read in two ways.
    UnknownUnitError
        If the word behind a number is no unit.
    DimensionError
        If the spread has a unit that measures something else.

    Examples
    --------
    >>> [each.say() for each in read_ends("136-134 °C", comma=Comma.ASK)]
    ['136 °C, 3 figures', '134 °C, 3 figures']
    """
    plain = to_plain(text)
    first, second = _begin(plain, comma)
    if second is None:
        rest = read_rest(plain, first.end)
        return (_to_written(text, first, first.unit, rest),)
    last = read_phrase(plain, second, comma)
    rest = read_rest(plain, last.end)
    return (
        _to_written(text, first, first.unit or last.unit, rest),
        _to_written(text, last, last.unit or first.unit, rest),
    )


def _begin(plain: Plain, comma: Comma) -> tuple[Phrase, int | None]:
    """Return the first value of a text, and where a second one starts, if it does."""
    first = read_phrase(plain, find_start(plain), comma)
    return first, find_second(plain, first.end)


def read_answer(text: str, wanted: Unit, *, comma: Comma) -> Written:
    """
    Return the measurement that a text is, if it can answer a question.

    Parameters
    ----------
    text : str
        As typed.
    wanted : Unit
        A unit of the dimension that is asked for.
    comma : Comma
        What a comma before exactly three digits is.

    Returns
    -------
    Written
        Without a unit if none was typed: that is for the caller to judge.

    Raises
    ------
    BlankError
        If nothing was typed.
    UnreadError
        If it can't be read, pointing at the character.
    AmbiguousError
        If it can be read in two ways; so is a bare number up to 1 where a
        percentage is wanted.
    UnknownUnitError
        If the word behind the number is no unit.
    DimensionError
        If its unit measures something else than *wanted*.

    Examples
    --------
    >>> read_answer("0.789", PERCENT, comma=Comma.ASK)
    Traceback (most recent call last):
    workbook.errors.AmbiguousError: Is 0.789 meant as 0.789 % or as 78.9 %? Type ...
    """
    written = read_written(text, comma=comma)
    if written.unit is not None:
        check_dimension(written.unit, wanted)
    elif wanted.dimension == PERCENT.dimension and 0 < abs(written.value) <= 1:
        raise _ask_percent(written)
    return written


def _to_written(text: str, phrase: Phrase, unit: Unit | None, rest: str) -> Written:
    numeral = phrase.numeral
    return Written(
        text=text,
        value=numeral.value,
        figures=numeral.figures,
        least_figures=numeral.least_figures,
        place=numeral.place,
        unit=unit,
        spread=phrase.spread,
        rest=rest,
    )


def _ask_range(plain: Plain, first: Phrase, last: Phrase) -> AmbiguousError:
    ends = (say_number(first.numeral.value), say_number(last.numeral.value))
    question = (
        f"{plain.typed.strip()!r} reads as a range from {ends[0]} to {ends[1]}; one "
        "value is wanted. Which is it? A power of ten is written 10^-3."
    )
    return AmbiguousError(plain.typed, ends, question)


def _ask_percent(written: Written) -> AmbiguousError:
    number = say_number(written.value)
    readings = (f"{number} %", f"{say_number(written.value.scaleb(2))} %")
    question = (
        f"Is {number} meant as {readings[0]} or as {readings[1]}? Type the percentage "
        "with its sign."
    )
    return AmbiguousError(written.text, readings, question)
