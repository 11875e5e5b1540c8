"""What was typed for a quantity, read as a number in base units."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import lru_cache
from typing import TYPE_CHECKING

from workbook.errors import (
    AmbiguousError,
    BlankError,
    DimensionError,
    TextError,
    UnitError,
)
from workbook.measure.written import read_answer
from workbook.wire.verdict import Outcome, Verdict

if TYPE_CHECKING:
    from collections.abc import Sequence

    from workbook.graph.quantity import Quantity
    from workbook.judge.case import Case
    from workbook.measure.units import Unit
    from workbook.measure.written import Comma, Written


@dataclass(frozen=True, slots=True)
class Typing:
    """A typed answer, read in one of the ways in which its zeros can be meant."""

    written: Written
    #: In base units.
    value: float
    #: Half a unit in the last place that counts, in base units.
    half: float
    #: Figures, when zeros behind that place do not count.
    figures: int

    @property
    def ways(self) -> tuple[Typing, ...]:
        """Every way to read the text: a zero of 1360 may count, or only fill."""
        most, least = self.written.figures, self.written.least_figures
        return tuple(
            replace(
                self,
                half=self.half * 10.0 ** (self.figures - figures),
                figures=figures,
            )
            for figures in range(most, least - 1, -1)
        )

    def nearest_to(self, figures: int | None) -> Typing:
        """
        Return the way to read the text that comes nearest to the proper figures.

        Parameters
        ----------
        figures : int or None
            The proper figures [-]; None for an exact value.

        Returns
        -------
        Typing
            With every zero counted for an exact value.
        """
        if figures is None:
            return self
        return min(self.ways, key=lambda way: abs(way.figures - figures))


#: Zeros that may only fill are taken as filling, down to so many figures [-].
_SURE = 3


def coarsest(ways: Sequence[Typing]) -> Typing:
    """
    Return the way in which a number was rounded the most.

    Parameters
    ----------
    ways : sequence of Typing
        At least one.

    Returns
    -------
    Typing
        Of 12800 mg, the 12.8 g of whoever goes on with 12.84 g; three figures are
        kept where they can be.
    """
    return min(ways, key=lambda way: (way.figures < _SURE, abs(way.figures - _SURE)))


def sure_ways(typing: Typing) -> tuple[Typing, ...]:
    """
    Return the ways to read a number that still say which mistake it shows.

    Parameters
    ----------
    typing : Typing
        As it was typed.

    Returns
    -------
    tuple of Typing
        The finest first; none takes a zero for a filling one where fewer than three
        figures would be left.
    """
    finest, *coarser = typing.ways
    return finest, *(way for way in coarser if way.figures >= _SURE)


#: Texts that are kept as they were read; the longest is that of a number.
_KEPT = 16_384


def read_typed(case: Case, quantity: Quantity, text: str) -> Typing | Verdict:
    """
    Return what a student typed for a quantity, or the verdict that it can't be read.

    Parameters
    ----------
    case : Case
        For the conventions of reading.
    quantity : Quantity
        What is asked.
    text : str
        As typed.

    Returns
    -------
    Typing or Verdict
        With every written zero counted; or a verdict of BLANK, ASKED, UNREAD or
        DIMENSION.
    """
    try:
        return _read(text, quantity.unit, case.convention.comma)
    except (TextError, UnitError) as error:
        return Verdict(outcome_of(error), str(error))


@lru_cache(maxsize=_KEPT)
def _read(text: str, unit: Unit, comma: Comma) -> Typing:
    """Read a text once: what stands on a sheet is read for every later step."""
    written = read_answer(text, unit, comma=comma)
    value = float(written.in_unit(unit)) * float(unit.factor) + float(unit.offset)
    half = float(written.half_unit(unit)) * float(unit.factor)
    return Typing(written, value, half, written.figures)


def outcome_of(error: TextError | UnitError) -> Outcome:
    """
    Return what becomes of an answer that could not be read.

    Parameters
    ----------
    error : TextError or UnitError
        Why it could not.

    Returns
    -------
    Outcome
        BLANK, ASKED, DIMENSION or UNREAD.
    """
    match error:
        case BlankError():
            return Outcome.BLANK
        case AmbiguousError():
            return Outcome.ASKED
        case DimensionError():
            return Outcome.DIMENSION
        case _:
            return Outcome.UNREAD
