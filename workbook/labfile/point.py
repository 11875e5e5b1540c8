"""Points and shares of a course file, which add up exactly."""

from __future__ import annotations

from decimal import Decimal, InvalidOperation
from typing import Annotated, TypeAlias

from pydantic import AfterValidator, BeforeValidator

#: More points than a step is ever worth [point].
_MAX_POINTS = 1000

#: Digits after the point that a number of points may have [-].
_MAX_DECIMALS = 4


def _read_points(value: object) -> Decimal:
    """Read what adds up exactly: a whole number, or a decimal number in quotes."""
    try:
        points = Decimal(value if type(value) is int or isinstance(value, str) else "")
    except InvalidOperation:
        msg = 'write a whole number as it is, and any other in quotes, like "0.5"'
        raise ValueError(msg) from None
    exponent = points.as_tuple().exponent
    if not isinstance(exponent, int) or not 0 <= points <= _MAX_POINTS:
        msg = f"a number from 0 to {_MAX_POINTS} is expected"
        raise ValueError(msg)
    if exponent < -_MAX_DECIMALS:
        msg = f"at most {_MAX_DECIMALS} digits after the point are expected"
        raise ValueError(msg)
    return points


def _be_a_share(points: Decimal) -> Decimal:
    if points > 1:
        msg = "a share from 0 to 1 is expected"
        raise ValueError(msg)
    return points


#: A number of points, exact.
Points: TypeAlias = Annotated[Decimal, BeforeValidator(_read_points)]
#: A share from 0 to 1, exact.
Share: TypeAlias = Annotated[
    Decimal, BeforeValidator(_read_points), AfterValidator(_be_a_share)
]
