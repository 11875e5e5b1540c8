"""How often a line multiplies letters: what a judge will work out, and what not."""

from __future__ import annotations

from typing import TYPE_CHECKING

from workbook.relation.tree import Name, Negative, Operation, exponent

if TYPE_CHECKING:
    from workbook.relation.tree import Equality, Node

#: Letters that may be multiplied with each other in a line. Masses are added and shared
#: out, so an honest line needs one or two; SymPy needs seconds for dozens [-].
STEEPNESS_LIMIT = 3


def is_steep(line: Equality) -> bool:
    """
    Tell whether a line multiplies more letters than any algebra of masses does.

    Parameters
    ----------
    line : Equality
        A line that reads.

    Returns
    -------
    bool
        True where the line, brought to one fraction, goes beyond the limit.

    Examples
    --------
    >>> from workbook.relation.reader import read_line
    >>> is_steep(read_line("x = (oil - C3H5)/3"))
    False
    >>> is_steep(read_line("x = (oil - C3H5)^9"))
    True
    """
    both = _joined("-", _degrees(line.left), _degrees(line.right))
    return max(both) > STEEPNESS_LIMIT


def _degrees(node: Node) -> tuple[int, int]:
    """Return the degrees above and below the line, once all is one fraction."""
    match node:
        case Name():
            found = 1, 0
        case Negative(of):
            found = _degrees(of)
        case Operation("^", base, raised):
            found = _raised(_degrees(base), exponent(raised))
        case Operation(sign, left, right):
            found = _joined(sign, _degrees(left), _degrees(right))
        case _:
            found = 0, 0
    return found


def _raised(base: tuple[int, int], power: int) -> tuple[int, int]:
    above, below = (each * abs(power) for each in base)
    return (above, below) if power >= 0 else (below, above)


def _joined(
    sign: str, left: tuple[int, int], right: tuple[int, int]
) -> tuple[int, int]:
    if sign == "*":
        return left[0] + right[0], left[1] + right[1]
    if sign == "/":
        return left[0] + right[1], left[1] + right[0]
    return max(left[0] + right[1], right[0] + left[1]), left[1] + right[1]
