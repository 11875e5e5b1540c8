"""
How much an explanation claims: the share of plausible numbers that it would explain.

A number that nobody worked out can meet a known mistake by chance. The wider a mistake
spreads and the coarser the number was typed, the less it says that the two agree.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Final

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from workbook.graph.span import Span

#: A plausible number lies within this factor of the right one, up or down [-].
PLAUSIBLE: Final = 10.0

#: An explanation that claims more of the plausible numbers than this is not told [-]. A
#: number of three figures that starts with 1.0 or 1.1 claims more by itself; typed with
#: four it does not. Chosen by rehearsal: less than one in a hundred of the guesses at a
#: step meets an explanation, and of the mistakes that show hardly one is missed for it.
MOST: Final = 0.0018


def claim(spans: Iterable[Span], right: float, figures: int) -> float:
    """
    Return which share of plausible numbers lies on given values.

    Parameters
    ----------
    spans : iterable of Span
        Where the values can lie, in base units; what has no value counts for nothing.
    right : float
        The right value [base unit].
    figures : int
        With how many figures numbers are typed [-].

    Returns
    -------
    float
        Of numbers spread evenly over the powers of ten [-]; from 0 to 1, and 0 where
        there is no right value to be plausible beside.

    Examples
    --------
    Three figures: 2.00 takes the numbers from 1.995 to 2.005, two decades hold all.

    >>> from workbook.graph.span import Span
    >>> round(claim([Span(2.0, 2.0)], 1.0, 3), 6)
    0.001086
    """
    if not math.isfinite(right) or not right:
        return 0.0
    reach = math.log10(PLAUSIBLE)
    covered, end = 0.0, -reach
    for low, high in sorted(_logarithms(spans, right, figures)):
        start = max(low, end)
        end = max(end, min(high, reach))
        covered += max(end - start, 0.0)
    return covered / (2 * reach)


def _logarithms(
    spans: Iterable[Span], right: float, figures: int
) -> Iterator[tuple[float, float]]:
    """Give where typed numbers lie: powers of ten, beside the right value."""
    for span in spans:
        middle = abs(span.low + span.high) / 2
        if not math.isfinite(middle) or not middle:
            continue
        half = 0.5 * 10.0 ** (math.floor(math.log10(middle)) - figures + 1)
        typed = span.widened(half)
        low, high = sorted((typed.low / right, typed.high / right))
        if low > 0:
            yield math.log10(low), math.log10(high)
