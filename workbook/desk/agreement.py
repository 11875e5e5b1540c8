"""How far markers agree who marked the same answers."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

#: Below this many marks an answer says nothing of agreement [-].
_PAIR = 2


def find_agreement(units: Iterable[Sequence[float]]) -> float | None:
    """
    Return Krippendorff's alpha for numbers on an interval scale.

    Parameters
    ----------
    units : iterable of sequence of float
        What each answer was given, one number a marker; an answer with fewer than two
        is left out [point].

    Returns
    -------
    float or None
        1 where all agree, 0 where chance would do as well, and less where they
        disagree more than that; None where the marks can't tell [-].

    Examples
    --------
    Six marks lie 34/30 apart on average, and 1/3 within an answer: 1 - 10/34.

    >>> find_agreement([[1, 1], [2, 2], [0, 1]])
    0.7058823529411764

    References
    ----------
    .. [1] K. Krippendorff, Content Analysis: An Introduction to Its Methodology,
       chapter on reliability: alpha = 1 - D_o / D_e with squared differences.
    """
    pairable = [list(unit) for unit in units if len(unit) >= _PAIR]
    values = [value for unit in pairable for value in unit]
    count = len(values)
    if count < _PAIR:
        return None
    expected = _differ(values) / (count * (count - 1))
    if not expected:
        return None
    observed = sum(_differ(unit) / (len(unit) - 1) for unit in pairable) / count
    return 1 - observed / expected


def _differ(values: Sequence[float]) -> float:
    """Add the squared differences of all ordered pairs."""
    return sum((one - other) ** 2 for one in values for other in values)
