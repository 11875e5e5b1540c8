"""Whether a number is right but for the sign of its exponent."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from workbook.graph.quantity import Quantity
    from workbook.graph.span import Span
    from workbook.judge.typed import Typing

#: Smaller exponents are seldom written as such: 0.12 and 12 are [-].
_LEAST = 2


def is_sign_lost(quantity: Quantity, typing: Typing, right: Span) -> bool:
    """
    Tell whether the other sign of the exponent makes a wrong number right.

    Parameters
    ----------
    quantity : Quantity
        What was asked.
    typing : Typing
        What was typed.
    right : Span
        Where the right value can lie [base unit].

    Returns
    -------
    bool
        True of 2.58 × 10^2 mol where 2.58 × 10^-2 mol would hold; False for a degree
        Celsius, which nobody writes with an exponent.
    """
    power = typing.written.value.adjusted()
    if abs(power) < _LEAST or quantity.unit.offset:
        return False
    turned = 10.0 ** (-2 * power)
    return right.widened(typing.half * turned).holds(typing.value * turned)
