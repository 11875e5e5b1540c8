"""From a syntax tree back to plain text, with something else in the place of names."""

from __future__ import annotations

from typing import TYPE_CHECKING

from workbook.relation.tree import Call, Name, Negative, Node, Number, Operation

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from workbook.relation.tree import Sign

# How tightly a node holds together: a looser one inside a tighter one is bracketed.
_SUM, _PRODUCT, _POWER, _WHOLE = range(4)
_TIGHTNESS: Mapping[Sign, int] = {
    "+": _SUM,
    "-": _SUM,
    "*": _PRODUCT,
    "/": _PRODUCT,
    "^": _POWER,
}
_PRINTED: Mapping[Sign, str] = {
    "+": " + ",
    "-": " - ",
    "*": " × ",
    "/": " / ",
    "^": "^",
}
#: The same for who reads aloud, or has it read: a stroke stands in units already.
ALOUD: Mapping[Sign, str] = {**_PRINTED, "/": " divided by ", "-": " \u2212 "}


def to_text(
    node: Node, say: Callable[[str], str], signs: Mapping[Sign, str] = _PRINTED
) -> str:
    """
    Return a relation as text.

    Parameters
    ----------
    node : Node
        The tree.
    say : callable
        Gives what is printed for a name.
    signs : mapping of str to str
        What is printed for each sign: as it is written, or `ALOUD`.

    Returns
    -------
    str
        With brackets only where the value would be another without them.

    Examples
    --------
    >>> from workbook.relation.reader import read_relation
    >>> to_text(read_relation("a / (b * c) - 2"), str.upper)
    'A / (B × C) - 2'
    >>> to_text(read_relation("a / (b * c)"), str, ALOUD)
    'a divided by (b × c)'
    """
    return _write(node, say, signs)[0]


def _write(
    node: Node, say: Callable[[str], str], signs: Mapping[Sign, str]
) -> tuple[str, int]:
    written: tuple[str, int]
    match node:
        case Number(text):
            written = text, _WHOLE
        case Name(name):
            written = say(name), _WHOLE
        case Negative(of):
            written = f"-{_inside(of, say, _PRODUCT, signs)}", _SUM
        case Call("ratio", arguments):
            inner = ", ".join(_write(each, str, signs)[0] for each in arguments)
            written = f"ratio({inner})", _WHOLE
        case Call(name, arguments):
            inner = ", ".join(_write(each, say, signs)[0] for each in arguments)
            written = f"{name}({inner})", _WHOLE
        case Operation(sign=sign, left=left, right=right):
            tight = _TIGHTNESS[sign]
            before = _inside(left, say, tight + (sign == "^"), signs)
            after = _inside(right, say, tight + (sign in "-/"), signs)
            written = f"{before}{signs[sign]}{after}", tight
    return written


def _inside(
    node: Node, say: Callable[[str], str], tight: int, signs: Mapping[Sign, str]
) -> str:
    text, own = _write(node, say, signs)
    return text if own >= tight else f"({text})"
