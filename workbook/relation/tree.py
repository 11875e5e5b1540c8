"""
The syntax tree of a relation, and the one walker that computes with it.

A tree is what the reader makes of a text: nodes that hold what was written, and
nothing that can run. What a number, a name or a function stands for is said by
an `Algebra`, so the same tree gives a float, a column of floats, a unit or a
SymPy expression.
"""

from __future__ import annotations

import operator
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from typing import TYPE_CHECKING, Any, Generic, Literal, TypeAlias, TypeVar

from workbook.errors import RelationError

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Mapping

T = TypeVar("T")

Sign: TypeAlias = Literal["+", "-", "*", "/", "^"]

#: An exponent beyond this is refused: 1000-digit numbers are no chemistry.
EXPONENT_LIMIT = 12

#: What an error of a tree says of its text; the reader knows it, and puts it there.
NO_TEXT = ""

#: The function whose arguments are names of species, and never values.
RATIO = "ratio"


#: A relation is worked out for every student, and its numbers are the same for all.
_fraction = lru_cache(maxsize=4096)(Fraction)


@dataclass(frozen=True, slots=True)
class Number:
    """A number, kept as its text so that no digit is lost: ``"12.50"``."""

    text: str

    @property
    def value(self) -> Fraction:
        """The exact value."""
        return _fraction(self.text)


@dataclass(frozen=True, slots=True)
class Name:
    """A name, with its dots or its bracketed formula: ``"oil.density"``."""

    text: str


@dataclass(frozen=True, slots=True)
class Negative:
    """A minus sign before something."""

    of: Node


@dataclass(frozen=True, slots=True)
class Operation:
    """Two things with a sign between them; ``^`` raises to a power."""

    sign: Sign
    left: Node
    right: Node


@dataclass(frozen=True, slots=True)
class Call:
    """A function and its arguments: ``ratio(soap, oil)``."""

    name: str
    arguments: tuple[Node, ...]


Node: TypeAlias = Number | Name | Negative | Operation | Call


@dataclass(frozen=True, slots=True)
class Equality:
    """Two relations that are said to be equal."""

    left: Node
    right: Node


@dataclass(frozen=True)
class Algebra(Generic[T]):
    """
    What the leaves of a tree mean over some type that has Python's operators.

    Parameters
    ----------
    number : callable
        Gives the value of a `Number`.
    name : callable
        Gives the value of a name, from its text.
    call : callable
        Gives the value of a function, from its name and its arguments: texts for
        ``ratio``, values for every other function.
    power : callable
        Gives the first argument raised to the second, a whole number; Python's
        ``**`` where it is left out.
    """

    number: Callable[[Number], T]
    name: Callable[[str], T]
    call: Callable[[str, tuple[T | str, ...]], T]
    power: Callable[[T, int], T] = operator.pow


_negate: Callable[[Any], Any] = operator.neg
_OPERATORS: Mapping[Sign, Callable[[Any, Any], Any]] = {
    "+": operator.add,
    "-": operator.sub,
    "*": operator.mul,
    "/": operator.truediv,
}


def evaluate(node: Node, algebra: Algebra[T]) -> T:
    """
    Return what a tree comes to.

    Parameters
    ----------
    node : Node
        The tree.
    algebra : Algebra
        What numbers, names and functions stand for.

    Returns
    -------
    T
        Of the type that the algebra gives; errors of the algebra and of its
        type, such as a division by zero, pass through.

    Raises
    ------
    RelationError
        If an exponent is not a small whole number.

    Examples
    --------
    >>> thirds = Algebra(lambda n: n.value, {"x": Fraction(1, 3)}.__getitem__, max)
    >>> evaluate(Operation("*", Number("1.5"), Name("x")), thirds)
    Fraction(1, 2)
    """
    match node:
        case Number():
            return algebra.number(node)
        case Name():
            return algebra.name(node.text)
        case Call():
            values = _values(node, algebra)
            return algebra.call(node.name, values)
    return _operate(node, algebra)


def _operate(node: Negative | Operation, algebra: Algebra[T]) -> T:
    if isinstance(node, Negative):
        negative: T = _negate(evaluate(node.of, algebra))
        return negative
    left = evaluate(node.left, algebra)
    if node.sign == "^":
        return algebra.power(left, exponent(node.right))
    result: T = _OPERATORS[node.sign](left, evaluate(node.right, algebra))
    return result


def _values(node: Call, algebra: Algebra[T]) -> tuple[T, ...] | tuple[str, ...]:
    if node.name == RATIO:
        return tuple(of.text for of in node.arguments if isinstance(of, Name))
    return tuple(evaluate(argument, algebra) for argument in node.arguments)


def exponent(node: Node) -> int:
    """
    Return the whole number that an exponent stands for.

    Parameters
    ----------
    node : Node
        A number, its negative, or a power of such: ``2^3`` in ``x^2^3``.

    Returns
    -------
    int
        From -12 to 12 [-].

    Raises
    ------
    RelationError
        If it is anything else; the text is left empty, because a tree has none.

    Examples
    --------
    >>> exponent(Negative(Number("2")))
    -2
    """
    match node:
        case Number() if node.value.denominator == 1:
            whole = node.value
        case Negative(of):
            whole = Fraction(-exponent(of))
        case Operation("^", left, right) if exponent(left) or exponent(right) > 0:
            whole = Fraction(exponent(left)) ** exponent(right)
        case _:
            reason = "An exponent is a whole number; write one, such as 2 or -1."
            raise RelationError(NO_TEXT, 0, reason)
    if whole.denominator != 1 or abs(whole) > EXPONENT_LIMIT:
        reason = (
            f"The exponent comes to {_shown(whole)}; whole numbers "
            f"from -{EXPONENT_LIMIT} to {EXPONENT_LIMIT} are allowed."
        )
        raise RelationError(NO_TEXT, 0, reason)
    return int(whole)


def _shown(whole: Fraction) -> str:
    # 12^12 has 13 digits and is the largest power that is ever formed here.
    text = str(whole)
    return text if len(text) < 16 else f"{text[:15]}..."  # noqa: PLR2004


def check_powers(node: Node) -> None:
    """
    Refuse a tree whose powers multiply up to an exponent beyond the bound.

    Parameters
    ----------
    node : Node
        The tree: ``(x^2)^3`` multiplies up to 6.

    Raises
    ------
    RelationError
        If an exponent is not a whole number from -12 to 12, or powers of powers
        multiply up to more.
    """
    highest = _highest(node)
    if highest > EXPONENT_LIMIT:
        reason = (
            f"Powers of powers multiply up to {highest} here, and "
            f"{EXPONENT_LIMIT} is the most."
        )
        raise RelationError(NO_TEXT, 0, reason)


def _highest(node: Node) -> int:
    if isinstance(node, Operation) and node.sign == "^":
        return _highest(node.left) * max(1, abs(exponent(node.right)))
    return max(map(_highest, parts(node)), default=1)


def parts(node: Node) -> tuple[Node, ...]:
    """
    Return the nodes directly below a node, from left to right.

    Parameters
    ----------
    node : Node
        The node.

    Returns
    -------
    tuple of Node
        Empty for a number and a name.
    """
    match node:
        case Negative(of):
            return (of,)
        case Operation(_, left, right):
            return (left, right)
        case Call(_, arguments):
            return arguments
    return ()


def degree(node: Node | Equality) -> int:
    """
    Return how many names are at most multiplied or divided in a term of a tree.

    SymPy's time to solve or to simplify grows steeply with it, so it is asked first
    of a line that came from a person.

    Parameters
    ----------
    node : Node or Equality
        The tree.

    Returns
    -------
    int
        0 for numbers alone, 1 for a line in which every letter stands by itself.

    Raises
    ------
    RelationError
        If an exponent is not a small whole number.

    Examples
    --------
    >>> three_times = Operation("*", Number("3"), Name("x"))
    >>> degree(Equality(Name("M"), three_times))
    1
    >>> degree(Operation("^", Operation("+", three_times, Name("y")), Number("4")))
    4
    """
    if isinstance(node, Equality):
        return max(degree(node.left), degree(node.right))
    if isinstance(node, Name):
        return 1
    if isinstance(node, Operation) and node.sign == "^":
        return degree(node.left) * abs(exponent(node.right))
    found = [degree(part) for part in parts(node)]
    together = isinstance(node, Operation) and node.sign in {"*", "/"}
    return sum(found) if together else max(found, default=0)


def walk(node: Node) -> Iterator[Node]:
    """
    Give every node of a tree, each before its parts, from left to right.

    Parameters
    ----------
    node : Node
        The tree.

    Returns
    -------
    iterator of Node
        The tree itself first.
    """
    yield node
    for part in parts(node):
        yield from walk(part)


def names(node: Node | Equality) -> tuple[str, ...]:
    """
    Return the names whose values a tree needs.

    Parameters
    ----------
    node : Node or Equality
        The tree.

    Returns
    -------
    tuple of str
        Each once, in the order of first appearance. The species of a ``ratio``
        are not among them: they have no value.

    Examples
    --------
    >>> amount = Operation("/", Name("oil_mass"), Name("oil.molar_mass"))
    >>> names(Operation("*", amount, Call("ratio", (Name("soap"), Name("oil")))))
    ('oil_mass', 'oil.molar_mass')
    """
    if isinstance(node, Equality):
        return tuple(dict.fromkeys((*names(node.left), *names(node.right))))
    return tuple(dict.fromkeys(_names(node)))


def _names(node: Node) -> Iterator[str]:
    if isinstance(node, Name):
        yield node.text
    if not (isinstance(node, Call) and node.name == RATIO):
        for part in parts(node):
            yield from _names(part)
