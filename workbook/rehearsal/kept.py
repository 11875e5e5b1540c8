"""
A number on a student's paper: it is rounded, or not, each time it is used.

Figures are counted along by the usual rules, because nobody sane rounds what is on
the way to fewer figures than it is good for.
"""

from __future__ import annotations

import operator
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Any

from workbook.measure.figures import Known
from workbook.measure.rounding import round_figures

if TYPE_CHECKING:
    from collections.abc import Callable

    from workbook.rehearsal.habit import Habit


@dataclass(frozen=True, slots=True)
class Kept:
    """A value in base units, as one student has it."""

    #: The value as it stands on the paper, and the place that it is good to.
    known: Known
    habit: Habit
    #: True for what was worked out within a step.
    is_result: bool = False

    def used(self) -> Known:
        """
        Return the value as it goes into the next operation.

        Returns
        -------
        Known
            Rounded, if that is the student's habit and it was worked out here.
        """
        figures = self.known.figures
        is_rounded = self.is_result and self.habit.rounds_on_the_way
        if not is_rounded or figures is None or not self.known.value:
            return self.known
        kept = max(figures, self.habit.figures)
        rounded = round_figures(self.known.value, kept, self.habit.ties)
        return Known(rounded, self.known.place)

    def applied(self, function: Callable[..., Known], *others: Kept) -> Kept:
        """
        Return what a function makes of this value and others.

        Parameters
        ----------
        function : callable
            Of values that know their figures.
        *others : Kept
            What comes behind this value.

        Returns
        -------
        Kept
            Something worked out.
        """
        known = function(self.used(), *(each.used() for each in others))
        return replace(self, known=known, is_result=True)

    def __neg__(self) -> Kept:
        return replace(self, known=-self.known)

    def __add__(self, other: Kept) -> Kept:
        return _joined(operator.add, self, other)

    def __sub__(self, other: Kept) -> Kept:
        return _joined(operator.sub, self, other)

    def __mul__(self, other: Kept) -> Kept:
        return _joined(operator.mul, self, other)

    def __truediv__(self, other: Kept) -> Kept:
        return _joined(operator.truediv, self, other)

    def __pow__(self, exponent: int) -> Kept:
        return self.applied(lambda known: known**exponent)


def _joined(sign: Callable[[Any, Any], Known], left: Kept, right: Kept) -> Kept:
    return left.applied(sign, right)
