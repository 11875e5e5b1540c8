"""
From the text of a relation to its syntax tree, by precedence climbing.

Lowest first: sums, products, a minus sign before something, powers. Sums and
products group from the left and powers from the right, so ``-x^2`` is the
negative of a square and ``2^3^2`` is ``2^9``. ``**`` is another way to write
``^``. A name is made of English and Greek letters, digits and underscores, with
dots between its parts: ``oil.density``.

A line that a student types may leave out the sign of a product before a name or
a bracket (``3M``, ``3(x + 22.99)``), may use the signs of a word processor, and may
hold a name that ends in a formula in brackets, ``M(NaOH)``. Where such a line can be
read in two ways, as ``1/2x`` and ``M(x)`` can, its writer is asked: nothing is
guessed.

Every text is bounded in length, depth, nodes, digits and exponents, and what is
refused is refused in milliseconds.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from workbook.errors import RelationError
from workbook.relation import complaint
from workbook.relation.cursor import Cursor
from workbook.relation.lexeme import CALLS, Kind, Lexeme
from workbook.relation.tree import (
    RATIO,
    Call,
    Equality,
    Name,
    Negative,
    Node,
    Number,
    Operation,
    check_powers,
)

if TYPE_CHECKING:
    from workbook.relation.tree import Sign

_LEVELS: dict[str, tuple[Sign, int]] = {
    "+": ("+", 1),
    "-": ("-", 1),
    "*": ("*", 2),
    "/": ("/", 2),
}


def read_relation(text: str) -> Node:
    """
    Return the tree of a relation in a lab file.

    Parameters
    ----------
    text : str
        One side only: ``"wax_volume * wax.density"``. The functions ``ratio``,
        ``min``, ``max``, ``concordant``, ``exp10``, ``log10`` and ``sqrt`` are known.

    Returns
    -------
    Node
        What was written, with every digit.

    Raises
    ------
    RelationError
        If the text can't be read, or is beyond the bounds.

    Examples
    --------
    >>> read_relation("wax_volume * wax.density")
    Operation(sign='*', left=Name(text='wax_volume'), right=Name(text='wax.density'))
    >>> read_relation("3 x")
    Traceback (most recent call last):
    workbook.errors.RelationError: Between '3' and 'x' at character 3 a sign is \
missing. For a product, write *.
    """
    cursor = Cursor(text, student=False)
    node = _sum(cursor)
    _end(cursor)
    return node


def read_line(text: str) -> Node | Equality:
    """
    Return the tree of a line that a student typed.

    Parameters
    ----------
    text : str
        One side, or two with ``=`` between them: ``"3M = 879.44 - C3H5"``.

    Returns
    -------
    Node or Equality
        What was written, with every digit.

    Raises
    ------
    RelationError
        If the text can't be read, can be read in two ways, or is beyond the
        bounds.

    Examples
    --------
    >>> read_line("3M")
    Operation(sign='*', left=Number(text='3'), right=Name(text='M'))
    >>> read_line("12,5 x")
    Traceback (most recent call last):
    workbook.errors.RelationError: '12,5' at character 1 is not a number, because \
of its comma. Use a point: 12.5
    """
    cursor = Cursor(text, student=True)
    left = _sum(cursor)
    if not cursor.sees("="):
        _end(cursor)
        return left
    cursor.take()
    right = _sum(cursor)
    _end(cursor)
    return Equality(left, right)


def _sum(cursor: Cursor, level: int = 1) -> Node:
    left = _negative(cursor)
    last = None
    while (found := _sign_ahead(cursor, last)) and found[1] >= level:
        last, its_level = found
        if cursor.sees(last):
            cursor.take()
        right = _sum(cursor, its_level + 1)
        left = cursor.made(Operation(last, left, right))
    return left


def _sign_ahead(cursor: Cursor, last: Sign | None) -> tuple[Sign, int] | None:
    """Return the sign that comes next, written or left out, and its level."""
    ahead = cursor.ahead
    if ahead.kind is Kind.END or (ahead.kind is Kind.SIGN and ahead.text != "("):
        return _LEVELS.get(ahead.text)
    if cursor.before and (ahead.kind is Kind.NUMBER or not cursor.student):
        cursor.refuse(ahead, complaint.wants_sign(cursor.before, ahead))
    if last == "/":
        cursor.refuse(ahead, complaint.is_two_products(ahead))
    return _LEVELS["*"]


def _negative(cursor: Cursor) -> Node:
    if not cursor.sees("-"):
        return _power(cursor)
    with cursor.within(cursor.take()):
        return cursor.made(Negative(_negative(cursor)))


def _power(cursor: Cursor) -> Node:
    base = _operand(cursor)
    if not cursor.sees("^"):
        return base
    sign = cursor.take()
    with cursor.within(sign):
        raised = _negative(cursor)
    power = cursor.made(Operation("^", base, raised))
    try:
        check_powers(power)
    except RelationError as error:
        where = f"At character {sign.position + 1} something is raised to a power."
        cursor.refuse(sign, f"{where} {error.reason}")
    return power


def _operand(cursor: Cursor) -> Node:
    piece = cursor.ahead
    if piece.kind is Kind.NUMBER:
        return cursor.made(Number(cursor.take().text))
    if piece.kind is Kind.NAME:
        return _named(cursor, cursor.take())
    if not cursor.sees("("):
        cursor.refuse(piece, complaint.wants_operand(cursor.before, piece))
    with cursor.within(cursor.take()):
        inner = _sum(cursor)
        _close(cursor, piece)
    return inner


def _named(cursor: Cursor, name: Lexeme) -> Node:
    if not cursor.sees("("):
        return cursor.made(Name(name.text))
    if cursor.student:
        cursor.refuse(name, complaint.is_two_names(name))
    if name.text not in CALLS:
        cursor.refuse(name, complaint.is_no_function(name))
    opening = cursor.take()
    with cursor.within(opening):
        arguments = [_sum(cursor)]
        while cursor.sees(","):
            cursor.take()
            arguments.append(_sum(cursor))
        _close(cursor, opening)
    _check(cursor, name, arguments)
    return cursor.made(Call(name.text, tuple(arguments)))


def _check(cursor: Cursor, name: Lexeme, arguments: list[Node]) -> None:
    least, most = CALLS[name.text]
    if not least <= len(arguments) <= most:
        cursor.refuse(name, complaint.has_arguments(name, len(arguments)))
    if name.text == RATIO and not all(_is_species(node) for node in arguments):
        cursor.refuse(name, complaint.wants_species(name))


def _is_species(node: Node) -> bool:
    return isinstance(node, Name) and "." not in node.text


def _close(cursor: Cursor, opening: Lexeme) -> None:
    if cursor.sees(",") or cursor.sees("="):
        _end(cursor)
    if not cursor.sees(")"):
        cursor.refuse(opening, complaint.is_unclosed(opening))
    cursor.take()


def _end(cursor: Cursor) -> None:
    if cursor.ahead.kind is not Kind.END:
        cursor.refuse(cursor.ahead, complaint.has_no_place(cursor.ahead))
