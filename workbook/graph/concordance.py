"""The mean of the runs that agree, where each can lie in a span, and for a class."""

from __future__ import annotations

import math
from itertools import product
from typing import TYPE_CHECKING

import numpy as np

from workbook.graph.span import Span
from workbook.measure.concordance import concordant_mean, find_concordant

if TYPE_CHECKING:
    from numpy.typing import NDArray


def concordant_span(within: Span, *values: Span) -> Span:
    """
    Return where the mean of the values that agree can lie.

    Parameters
    ----------
    within : Span
        So far the least and the greatest of them may lie apart.
    *values : Span
        One for each run.

    Returns
    -------
    Span
        Over every choice that the ends of the spans leave open; NaN where none of them
        settles which agree.
    """
    ends = ({span.low, span.high} for span in (within, *values))
    chosen = {find_concordant(limit, runs) for limit, *runs in product(*ends)}
    chosen.discard(())
    if not chosen:
        return Span(math.nan, math.nan)
    low = min(sum(values[at].low for at in each) / len(each) for each in chosen)
    high = max(sum(values[at].high for at in each) / len(each) for each in chosen)
    return Span(low, high)


def concordant_column(
    within: NDArray[np.float64], *values: NDArray[np.float64]
) -> NDArray[np.float64]:
    """
    Return the mean of the values that agree, for a class.

    Parameters
    ----------
    within : array, (n_students,) or ()
        So far the least and the greatest of them may lie apart [base unit of the runs].
    *values : array, (n_students,) or ()
        One for each run [base unit].

    Returns
    -------
    array, (n_students,) or ()
        [base unit]; NaN where it is not settled which agree.
    """
    columns = np.broadcast_arrays(within, *values)
    rows = zip(*(each.ravel().tolist() for each in columns), strict=True)
    means = [concordant_mean(*row) for row in rows]
    return np.asarray(means).reshape(columns[0].shape)
