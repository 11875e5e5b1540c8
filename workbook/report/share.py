"""Shares of small numbers, with how far they can be trusted."""

from __future__ import annotations

from dataclasses import dataclass
from math import hypot, sqrt
from statistics import NormalDist

#: How sure an interval is [-].
CONFIDENCE = 0.95


@dataclass(frozen=True, slots=True)
class Share:
    """So many of so many."""

    hits: int
    #: At least one [-].
    count: int

    @property
    def value(self) -> float:
        """The share [-]."""
        return self.hits / self.count

    def interval(self, confidence: float = CONFIDENCE) -> tuple[float, float]:
        """
        Return between which ends the share of a much larger class may lie.

        Parameters
        ----------
        confidence : float
            How sure the interval is [-].

        Returns
        -------
        (float, float)
            From 0 to 1 [-].

        Examples
        --------
        >>> low, high = Share(0, 20).interval()
        >>> f"{low:.2f} to {high:.2f}"
        '0.00 to 0.16'

        References
        ----------
        .. [1] E. B. Wilson, Probable inference, the law of succession, and
           statistical inference, J. Am. Stat. Assoc. 22 (1927) 209-212.
        """
        z = NormalDist().inv_cdf((1 + confidence) / 2)
        n, p = self.count, self.value
        middle = p + z * z / (2 * n)
        half = z * sqrt(p * (1 - p) / n + z * z / (4 * n * n))
        scale = 1 + z * z / n
        return max(0.0, (middle - half) / scale), min(1.0, (middle + half) / scale)


def compare(
    one: Share, other: Share, confidence: float = CONFIDENCE
) -> tuple[float, float]:
    """
    Return between which ends the difference of two shares may lie.

    Parameters
    ----------
    one, other : Share
        Of different students.
    confidence : float
        How sure the interval is [-].

    Returns
    -------
    (float, float)
        Of *one* less *other* [-].

    References
    ----------
    .. [1] R. G. Newcombe, Interval estimation for the difference between independent
       proportions: comparison of eleven methods, Stat. Med. 17 (1998) 873-890,
       method 10.
    """
    low_1, high_1 = one.interval(confidence)
    low_2, high_2 = other.interval(confidence)
    apart = one.value - other.value
    below = hypot(one.value - low_1, high_2 - other.value)
    above = hypot(high_1 - one.value, other.value - low_2)
    return apart - below, apart + above
