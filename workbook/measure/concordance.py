"""Titres that agree: which of several runs count, and their mean."""

from __future__ import annotations

import math
from decimal import Decimal
from typing import TYPE_CHECKING

from workbook.measure.figures import Known

if TYPE_CHECKING:
    from collections.abc import Sequence

#: A difference that passes the limit by less than this share is the limit [-]: binary
#: fractions put 12.40 and 12.30 a little more than 0.10 apart.
_ROUND_OFF = 1e-6


def find_concordant(within: float, values: Sequence[float]) -> tuple[int, ...]:
    """
    Return which values agree with each other.

    Parameters
    ----------
    within : float
        So far the least and the greatest of them may lie apart [unit of the values].
    values : sequence of float
        One for each run [any one unit].

    Returns
    -------
    tuple of int
        The indexes of the largest group, rising. Empty where no two agree, or where two
        groups are equally large: then another run is wanted, and nothing is guessed.

    Examples
    --------
    >>> find_concordant(0.10, [12.9, 12.40, 12.45, 12.38])
    (1, 2, 3)
    >>> find_concordant(0.10, [12.40, 12.49, 12.58])
    ()
    """
    limit = within * (1 + _ROUND_OFF)
    groups = {
        tuple(at for at, other in enumerate(values) if 0 <= other - least <= limit)
        for least in values
    }
    most = max(map(len, groups))
    largest = [group for group in groups if len(group) == most]
    return largest[0] if most > 1 and len(largest) == 1 else ()


def concordant_mean(within: float, *values: float) -> float:
    """
    Return the mean of the values that agree.

    Parameters
    ----------
    within : float
        So far the least and the greatest of them may lie apart [unit of the values].
    *values : float
        One for each run [any one unit].

    Returns
    -------
    float
        [unit of the values]; NaN where it is not settled which agree.
    """
    chosen = find_concordant(within, values)
    return sum(values[at] for at in chosen) / len(chosen) if chosen else math.nan


def concordant_known(within: Known, *values: Known) -> Known:
    """
    Return the mean of the values that agree, with the figures that it is good for.

    Parameters
    ----------
    within : Known
        So far the least and the greatest of them may lie apart; it limits no figures.
    *values : Known
        One for each run, in the unit of *within*.

    Returns
    -------
    Known
        Good to the place of the runs.

    Raises
    ------
    ArithmeticError
        If it is not settled which agree.
    """
    chosen = find_concordant(float(within.value), [float(v.value) for v in values])
    total = sum((values[at] for at in chosen), Known(Decimal(0), None))
    return total / Known(Decimal(len(chosen)), None)
