"""The two sides of an equation, compared and brought into balance."""

from __future__ import annotations

from collections import Counter
from typing import TYPE_CHECKING

from workbook.errors import EquationError

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from workbook.matter.formula import Formula

#: What stands for the charge among the elements; no symbol is spelled so.
_CHARGE = "charge"


def _content(formula: Formula) -> Counter[str]:
    return Counter({**formula.atoms, _CHARGE: formula.charge})


def _sum(formulas: Iterable[Formula], counts: Iterable[int]) -> Counter[str]:
    total: Counter[str] = Counter()
    for formula, count in zip(formulas, counts, strict=True):
        for name, number in _content(formula).items():
            total[name] += count * number
    return total


def compare_sides(
    left: Sequence[Formula], right: Sequence[Formula], counts: Sequence[int]
) -> str:
    """
    Return in words how the sides of an equation differ.

    Parameters
    ----------
    left, right : sequence of Formula
        What stands on each side.
    counts : sequence of int
        The coefficients, left then right [-].

    Returns
    -------
    str
        One sentence for each side with a surplus, one for the charge; empty if
        the equation balances.

    Examples
    --------
    >>> from workbook.matter.formula import read_formula
    >>> formulas = [read_formula(text) for text in ("H2", "O2", "H2O")]
    >>> compare_sides(formulas[:2], formulas[2:], [1, 1, 1])
    'The left side has 1 O too many.'
    """
    here = _sum(left, counts[: len(left)])
    there = _sum(right, counts[len(left) :])
    names = sorted({*here, *there} - {_CHARGE})
    sentences = []
    for side, more, less in (("left", here, there), ("right", there, here)):
        surplus = [
            f"{more[name] - less[name]} {name}"
            for name in names
            if more[name] > less[name]
        ]
        if surplus:
            sentences.append(f"The {side} side has {_join(surplus)} too many.")
    if here[_CHARGE] != there[_CHARGE]:
        sentences.append(
            f"The charge is {here[_CHARGE]:+d} on the left and "
            f"{there[_CHARGE]:+d} on the right."
        )
    return " ".join(sentences)


def _join(words: list[str]) -> str:
    return " and ".join(filter(None, (", ".join(words[:-1]), words[-1])))


def find_coefficients(
    text: str, left: Sequence[Formula], right: Sequence[Formula]
) -> list[int]:
    """
    Return the smallest whole coefficients that balance an equation.

    Parameters
    ----------
    text : str
        The equation, for the error.
    left, right : sequence of Formula
        What stands on each side.

    Returns
    -------
    list of int
        Left then right, each at least 1 [-].

    Raises
    ------
    EquationError
        If no coefficients balance the equation, or the choice is not unique.

    Notes
    -----
    Balanced equations are the null space of the matrix of contents; they are one
    equation and its multiples only if that space is a line.
    """
    space = _null_space([*map(_content, left)], [*map(_content, right)])
    if len(space) > 1:
        reason = (
            "its formulas do not settle its coefficients: they leave a free choice, "
            "and only its writer knows which is meant. Write the coefficients."
        )
        raise EquationError(text, reason)
    if not space or min(space[0]) < 1:
        reason = (
            "no coefficients balance it. A species is missing, stands on the wrong "
            "side, or has a mistake in its formula."
        )
        raise EquationError(text, reason)
    return space[0]


def _null_space(
    left: Sequence[Counter[str]], right: Sequence[Counter[str]]
) -> list[list[int]]:
    """Return a basis in smallest whole numbers, the first nonzero one positive."""
    # SymPy takes a quarter of a second to import, and few callers come here.
    from sympy import Matrix, igcd, ilcm  # noqa: PLC0415

    names = sorted({name for content in (*left, *right) for name in content})
    rows = [[c[name] for c in left] + [-c[name] for c in right] for name in names]
    basis = []
    for vector in Matrix(rows).nullspace():
        scale = ilcm(1, *(entry.q for entry in vector))
        whole = [int(entry * scale) for entry in vector]
        divisor = int(igcd(0, *whole))
        sign = -1 if next(n for n in whole if n) < 0 else 1
        basis.append([sign * n // divisor for n in whole])
    return basis
