"""The band of honest answers: how far a typed value may lie from where it should be."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from workbook.judge.own import Own
    from workbook.measure.written import Written

#: An answer this many figures short of the proper number can't be told from a
#: mistake. One figure more or less is accepted; common practice, no source.
COARSE_BY = 2


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


def round_zeros(typing: Typing) -> Typing:
    """
    Return the other way to read 1360: rounded, so that its zero says nothing.

    Parameters
    ----------
    typing : Typing
        With every written zero counted.

    Returns
    -------
    Typing
        The same where no trailing zero of a whole number was written.
    """
    written = typing.written
    spare = 10.0 ** (written.least_place - written.place)
    return replace(typing, half=typing.half * spare, figures=written.least_figures)


@dataclass(frozen=True, slots=True)
class Bands:
    """Where an answer may lie: by the student's own values, or by the true ones."""

    own: Own
    truth: Own
    #: What the author adds on both sides, in base units.
    widening: float

    def is_true(self, typing: Typing) -> bool:
        """
        Tell whether an answer follows from the true values.

        Parameters
        ----------
        typing : Typing
            The answer, read one way.

        Returns
        -------
        bool
            Rounding to the last typed place is allowed for.
        """
        reach = typing.half + self.widening
        return self.truth.span.widened(reach).holds(typing.value)

    def hold(self, typing: Typing) -> bool:
        """
        Tell whether an answer follows from the true or from the student's values.

        Parameters
        ----------
        typing : Typing
            The answer, read one way.

        Returns
        -------
        bool
            Rounding to the last typed place is allowed for.
        """
        reach = typing.half + self.widening
        own = self.own.span.widened(reach)
        return self.is_true(typing) or own.holds(typing.value)

    def is_coarse(self, typing: Typing) -> bool:
        """
        Tell whether an answer has too few figures to be told from a mistake.

        Parameters
        ----------
        typing : Typing
            The answer, read one way.

        Returns
        -------
        bool
            False where the proper value is exact.
        """
        figures = self.own.known.figures
        return bool(figures) and typing.figures <= (figures or 0) - COARSE_BY
