"""The bands in which a person marks a text: described in words, points out of sight."""

from __future__ import annotations

from decimal import Decimal

#: Each band with the share of the points that it gives [-]. Markers who choose between
#: descriptions agree better than those who choose between numbers; common practice.
BANDS = (
    ("Nothing of what is looked for", Decimal(0)),
    ("A beginning of it", Decimal("0.25")),
    ("About half of it", Decimal("0.5")),
    ("Most of it; something is missing", Decimal("0.75")),
    ("All of it", Decimal(1)),
)


def give(band: str, out_of: Decimal) -> Decimal:
    """
    Return what a band gives.

    Parameters
    ----------
    band : str
        One of `BANDS`.
    out_of : Decimal
        What the step is worth [point].

    Returns
    -------
    Decimal
        Exact [point].

    Examples
    --------
    >>> from decimal import Decimal
    >>> give("About half of it", Decimal(3))
    Decimal('1.5')
    """
    return dict(BANDS)[band] * out_of
