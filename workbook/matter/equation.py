"""Chemical equations: reading, balancing, ratios of coefficients."""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from fractions import Fraction
from types import MappingProxyType
from typing import TYPE_CHECKING

from workbook.errors import EquationError, FormulaError, nearest
from workbook.matter.balance import compare_sides, find_coefficients
from workbook.matter.formula import read_formula

if TYPE_CHECKING:
    from collections.abc import Mapping

    from workbook.matter.formula import Formula

#: Characters of an equation; a longer text is refused unread.
LENGTH_LIMIT = 1000

#: Terms on one side.
TERM_LIMIT = 12

#: Digits of a coefficient.
DIGIT_LIMIT = 4

_ARROW = re.compile(r"<->|<=>|->|→|⇌|=")
_BOTH_WAYS = {"<->", "<=>", "⇌"}
_PLUS = re.compile(r"\s\+\s")
_TERM = re.compile(r"(?P<coefficient>[0-9]+)?\s*(?P<species>.*)", re.DOTALL)
_FRACTION = re.compile(r"[0-9]+\s*[./][0-9]|[½⅓¼¾⅔]")
_NAME = re.compile(r"[A-Za-z_][A-Za-z0-9_]*")
_NO_NAMES: Mapping[str, str] = MappingProxyType({})
_NO_FORMULAS: Mapping[str, Formula] = MappingProxyType({})


@dataclass(frozen=True, slots=True)
class Term:
    """A species, by name or formula, and its coefficient; None where left out."""

    species: str
    coefficient: int | None = None


@dataclass(frozen=True, slots=True)
class Equation:
    """What reacts, and what comes of it."""

    left: tuple[Term, ...]
    right: tuple[Term, ...]
    #: Written with an arrow that points both ways.
    reversible: bool = False

    @property
    def species(self) -> tuple[str, ...]:
        """Every species once, in the order of writing."""
        return tuple(dict.fromkeys(t.species for t in (*self.left, *self.right)))

    def coefficient(self, species: str) -> int:
        """
        Return the coefficient of a species; one that is left out is 1.

        Parameters
        ----------
        species : str
            As it stands in the equation.

        Returns
        -------
        int
            At least 1 [-].

        Raises
        ------
        EquationError
            If the species does not stand in the equation, or stands on both sides.
        """
        found = [t for t in (*self.left, *self.right) if t.species == species]
        if not found:
            reason = f"{species!r} is not in it.{nearest(species, self.species)}"
            raise EquationError(write(self), reason)
        if len(found) > 1:
            reason = f"{species!r} stands on both sides, so it has no one coefficient."
            raise EquationError(write(self), reason)
        return found[0].coefficient or 1

    def ratio(self, of: str, to: str) -> Fraction:
        """
        Return the coefficient of one species over that of another.

        Parameters
        ----------
        of, to : str
            As they stand in the equation.

        Returns
        -------
        Fraction
            Moles of the one per mole of the other [mol/mol].

        Raises
        ------
        EquationError
            If one of them does not stand in the equation, or stands on both sides.

        Examples
        --------
        >>> read_equation("oil + 3 lye -> 3 soap + glycerol").ratio("soap", "oil")
        Fraction(3, 1)
        """
        return Fraction(self.coefficient(of), self.coefficient(to))


def read_equation(text: str) -> Equation:
    """
    Return the equation in a text.

    Parameters
    ----------
    text : str
        Two sides with one of ``->``, ``→``, ``=``, ``⇌``, ``<->``, ``<=>`` between
        them; on each, terms with `` + `` between them, space on both sides of it.
        A term is a name or a formula, led by a whole coefficient or by none.

    Returns
    -------
    Equation
        As written; not yet balanced.

    Raises
    ------
    EquationError
        If the text can't be read.

    Examples
    --------
    >>> read_equation("2 H2 + O2 -> 2 H2O").left
    (Term(species='H2', coefficient=2), Term(species='O2', coefficient=None))
    """
    bare = text.strip()
    if len(bare) > LENGTH_LIMIT:
        reason = f"it has {len(bare)} characters; {LENGTH_LIMIT} are allowed."
        raise EquationError(bare[:20] + "…", reason)
    arrows = _ARROW.findall(bare)
    if len(arrows) != 1:
        reason = (
            f"{len(arrows)} arrows stand in it; write exactly one of "
            "'->', '→', '=', '⇌' or '<->'."
        )
        raise EquationError(bare, reason)
    left, right = (_read_side(bare, side) for side in _ARROW.split(bare))
    return Equation(left, right, reversible=arrows[0] in _BOTH_WAYS)


def _read_side(text: str, side: str) -> tuple[Term, ...]:
    terms = tuple(_read_term(text, piece.strip()) for piece in _PLUS.split(f" {side} "))
    if len(terms) > TERM_LIMIT:
        reason = f"a side has {len(terms)} terms; {TERM_LIMIT} are allowed."
        raise EquationError(text, reason)
    species = [term.species for term in terms]
    for each in species:
        if species.count(each) > 1:
            reason = f"{each!r} stands twice on one side; add its coefficients up."
            raise EquationError(text, reason)
    return terms


def _read_term(text: str, piece: str) -> Term:
    if not piece:
        reason = "a term is missing beside an arrow or a plus."
        raise EquationError(text, reason)
    if _FRACTION.match(piece):
        reason = (
            f"{piece!r} has a broken coefficient. Multiply the whole equation until "
            "every coefficient is a whole number."
        )
        raise EquationError(text, reason)
    match = _TERM.fullmatch(piece)
    digits, species = (match["coefficient"], match["species"]) if match else ("", piece)
    if digits is not None and (digits.startswith("0") or len(digits) > DIGIT_LIMIT):
        reason = (
            f"the coefficient {digits[:10]!r} is none: a whole number from 1 up with "
            f"at most {DIGIT_LIMIT} digits is."
        )
        raise EquationError(text, reason)
    if _NAME.fullmatch(species) is None:
        _check_formula(text, species)
    return Term(species, int(digits) if digits else None)


def _check_formula(text: str, species: str) -> None:
    try:
        read_formula(species)
    except FormulaError as error:
        plus = " Put a space on both sides of a plus." if "+" in species else ""
        reason = f"in {species!r}, {error.reason}{plus}"
        raise EquationError(text, reason) from error


def balance(
    equation: Equation, formulas: Mapping[str, Formula] = _NO_FORMULAS
) -> Equation:
    """
    Return an equation with every coefficient, checked by atoms and charge.

    Parameters
    ----------
    equation : Equation
        With coefficients, where one that is left out counts as 1. If all are left
        out and the equation does not balance so, they are found.
    formulas : mapping
        The formula of each species that is named; one that is not is read as a
        formula itself.

    Returns
    -------
    Equation
        Balanced, a coefficient at every term.

    Raises
    ------
    EquationError
        If it does not balance, if no coefficients balance it, if the choice is
        not unique, or if a species has no formula.

    Examples
    --------
    >>> write(balance(read_equation("KClO3 -> KCl + O2")))
    '2 KClO3 → 2 KCl + 3 O2'
    """
    text = write(equation)
    terms = (*equation.left, *equation.right)
    known = {t.species: _formula_of(text, t.species, formulas) for t in terms}
    left = [known[term.species] for term in equation.left]
    right = [known[term.species] for term in equation.right]
    counts = [term.coefficient or 1 for term in terms]
    differences = compare_sides(left, right, counts)
    if differences:
        if any(term.coefficient for term in terms):
            raise EquationError(text, differences + _advise(terms))
        counts = find_coefficients(text, left, right)
    filled = tuple(Term(t.species, n) for t, n in zip(terms, counts, strict=True))
    return replace(equation, left=filled[: len(left)], right=filled[len(left) :])


def _advise(terms: tuple[Term, ...]) -> str:
    if all(term.coefficient for term in terms):
        return " Leave all coefficients out to have them found."
    return (
        " A coefficient that is left out counts as 1; write that one too, or leave "
        "all of them out to have them found."
    )


def _formula_of(text: str, species: str, formulas: Mapping[str, Formula]) -> Formula:
    if species in formulas:
        return formulas[species]
    try:
        return read_formula(species)
    except FormulaError as error:
        hint = nearest(species, formulas) or f" As a formula: {error.reason}"
        reason = f"{species!r} has no formula here, and is none itself.{hint}"
        raise EquationError(text, reason) from error


def write(equation: Equation, names: Mapping[str, str] = _NO_NAMES) -> str:
    """
    Return an equation as one line of text.

    Parameters
    ----------
    equation : Equation
        Balanced or not.
    names : mapping
        What to print for a species; one that is not named prints as it is.

    Returns
    -------
    str
        Coefficients of 1 left out.

    Examples
    --------
    >>> equation = read_equation("oil + 3 lye -> 3 soap + glycerol")
    >>> write(equation, {"oil": "triolein", "lye": "NaOH"})
    'triolein + 3 NaOH → 3 soap + glycerol'
    """
    sides = (
        " + ".join(_write_term(term, names) for term in side)
        for side in (equation.left, equation.right)
    )
    return (" ⇌ " if equation.reversible else " → ").join(sides)


def _write_term(term: Term, names: Mapping[str, str]) -> str:
    shown = names.get(term.species, term.species)
    return shown if term.coefficient in {None, 1} else f"{term.coefficient} {shown}"
