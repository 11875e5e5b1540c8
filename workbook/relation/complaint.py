"""
The sentences that say what is wrong with a relation, and what to do.

They are read by lab authors and by students: characters are counted from 1.
"""

from __future__ import annotations

from workbook.errors import nearest
from workbook.relation.lexeme import CALLS, Kind, Lexeme


def wants_operand(before: Lexeme | None, found: Lexeme) -> str:
    """
    Say that a number, a name or a bracket should stand where *found* stands.

    Parameters
    ----------
    before : Lexeme or None
        The piece before it; None at the start of the text.
    found : Lexeme
        The piece that stands there instead.

    Returns
    -------
    str
        A sentence or two.
    """
    after = f" after {before.text!r}" if before else ""
    wanted = "a number, a name or '(' is expected"
    if before is None and found.kind is Kind.END:
        return f"Nothing is written here; {wanted}, such as 3*M."
    if found.kind is Kind.END:
        return f"The text ends{after}, where {wanted}. Write the missing part."
    return (
        f"At character {found.position + 1} stands {found.text!r}{after}, "
        f"where {wanted}. Write the missing part, or remove the sign."
    )


def wants_sign(before: Lexeme, found: Lexeme) -> str:
    """
    Say that two things stand side by side without a sign.

    Parameters
    ----------
    before : Lexeme
        The last piece of the first.
    found : Lexeme
        The first piece of the second.

    Returns
    -------
    str
        A sentence or two.
    """
    return (
        f"Between {before.text!r} and {found.text!r} at character "
        f"{found.position + 1} a sign is missing. For a product, write *."
    )


def has_no_place(found: Lexeme) -> str:
    """
    Say that a piece stands where a relation could have ended.

    Parameters
    ----------
    found : Lexeme
        A closing bracket, a comma or an equals sign.

    Returns
    -------
    str
        A sentence or two.
    """
    where = f"The {found.text!r} at character {found.position + 1}"
    if found.text == ")":
        return f"{where} closes no bracket. Remove it, or write '(' where it opens."
    if found.text == ",":
        return f"{where} has no place here. The decimal mark is a point: 12.5"
    return (
        f"{where} has no place here: a lab file's relation has none, and a line "
        "of working has one, outside all brackets. Start a new line."
    )


def is_unclosed(opening: Lexeme) -> str:
    """
    Say that a bracket is never closed.

    Parameters
    ----------
    opening : Lexeme
        The bracket.

    Returns
    -------
    str
        A sentence or two.
    """
    return (
        f"The bracket that opens at character {opening.position + 1} is not "
        "closed. Write ')' where it ends."
    )


def is_two_products(found: Lexeme) -> str:
    """
    Ask whether a factor without a sign belongs above or below a line.

    Parameters
    ----------
    found : Lexeme
        The first piece of the factor.

    Returns
    -------
    str
        A sentence or two.
    """
    return (
        f"{found.text!r} at character {found.position + 1} follows a division "
        "without a sign, so it can be read as above or below the line. "
        "Write brackets: (1/2)*x or 1/(2*x)."
    )


def is_two_names(name: Lexeme) -> str:
    """
    Ask whether a name before a bracket is multiplied by it.

    Parameters
    ----------
    name : Lexeme
        The name.

    Returns
    -------
    str
        A sentence or two.
    """
    where = f"{name.text!r} at character {name.position + 1}"
    if name.text in CALLS:
        return (
            f"{where} is a function, and functions are not read on a line of "
            "working. Write it out with + - * / and ^."
        )
    return (
        f"{where} stands before a bracket, and that can be read as a product or "
        f"as a name such as M(NaOH). For a product, write {name.text}*(...)."
    )


def is_no_function(name: Lexeme) -> str:
    """
    Say that a lab file calls what is not a function.

    Parameters
    ----------
    name : Lexeme
        The name before the bracket.

    Returns
    -------
    str
        A sentence or two.
    """
    known = ", ".join(sorted(CALLS))
    hint = nearest(name.text, CALLS) or " For a product, write * between them."
    return (
        f"{name.text!r} at character {name.position + 1} stands before a bracket "
        f"and is not a function; known are {known}.{hint}"
    )


def has_arguments(name: Lexeme, count: int) -> str:
    """
    Say that a function has too few or too many arguments.

    Parameters
    ----------
    name : Lexeme
        The function.
    count : int
        How many stand there.

    Returns
    -------
    str
        A sentence or two.
    """
    least, most = CALLS[name.text]
    wanted = f"{least}" if least == most else f"{least} to {most}"
    return (
        f"{name.text!r} at character {name.position + 1} is given {count} and "
        f"takes {wanted}. Separate them with commas."
    )


def wants_species(name: Lexeme) -> str:
    """
    Say that ``ratio`` is of two species, and of nothing else.

    Parameters
    ----------
    name : Lexeme
        The function.

    Returns
    -------
    str
        A sentence or two.
    """
    return (
        f"{name.text!r} at character {name.position + 1} takes the names of two "
        "species, without dots or sums: ratio(soap, oil)."
    )
