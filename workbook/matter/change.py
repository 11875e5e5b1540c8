"""One step of a mechanism: what it takes and gives, and whether all of it is kept."""

from __future__ import annotations

import re
from collections import Counter
from dataclasses import dataclass
from typing import TYPE_CHECKING

from workbook.matter.charge import split_charge
from workbook.matter.equation import read_equation
from workbook.matter.formula import Formula, read_formula, spoken

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from workbook.matter.equation import Term

_LOWERED = str.maketrans("0123456789", "₀₁₂₃₄₅₆₇₈₉")
_RAISED = str.maketrans("0123456789+-", "⁰¹²³⁴⁵⁶⁷⁸⁹⁺⁻")
_COUNT = re.compile(r"(?<=[A-Za-z)\]])\d+")


@dataclass(frozen=True, slots=True)
class Side:
    """What stands on one side of an arrow."""

    #: How many of each there are, by formula as it is printed [-].
    species: Mapping[str, int]
    #: How many atoms of each element there are [-].
    atoms: Mapping[str, int]
    #: In elementary charges [-].
    charge: int


@dataclass(frozen=True, slots=True)
class Change:
    """One step: what it takes, and what it gives."""

    takes: Side
    gives: Side
    #: As a screen reader can say it.
    said: str

    @property
    def is_balanced(self) -> bool:
        """Whether atoms and charge are kept."""
        same_atoms = dict(self.takes.atoms) == dict(self.gives.atoms)
        return same_atoms and self.takes.charge == self.gives.charge


def read_change(text: str) -> Change:
    """
    Return the step in a text.

    Parameters
    ----------
    text : str
        Formulas with their charges: ``"CH3COOH + OH^- -> CH3COO^- + H2O"``.

    Returns
    -------
    Change
        Not necessarily balanced: a card may be wrong on purpose.

    Raises
    ------
    EquationError
        If it is no equation, or a formula in it can't be read.

    Examples
    --------
    >>> read_change("NH4^+ + OH^- -> NH3 + H2O").is_balanced
    True
    >>> read_change("NH4^+ -> NH3").is_balanced
    False
    """
    equation = read_equation(text)
    sides = [_read_side(terms) for terms in (equation.left, equation.right)]
    (takes, left), (gives, right) = sides
    return Change(takes, gives, f"{left} gives {right}")


def write_side(species: Mapping[str, int]) -> str:
    """
    Return one side of an arrow as it is printed.

    Parameters
    ----------
    species : mapping of str to int
        How many of each there are [-].

    Returns
    -------
    str
        With signs of plus between them.

    Examples
    --------
    >>> write_side(read_change("2 OH^- -> H2O + O^2-").takes.species)
    '2 OH⁻'
    """
    return " + ".join(
        f"{count} {formula}" if count > 1 else formula
        for formula, count in species.items()
    )


def print_formula(formula: Formula) -> str:
    """
    Return a formula as it is printed in plain text, its counts lowered.

    Parameters
    ----------
    formula : Formula
        As read.

    Returns
    -------
    str
        With the charge raised.

    Examples
    --------
    >>> print_formula(read_formula("SO4^2-")), print_formula(read_formula("CuSO4·5H2O"))
    ('SO₄²⁻', 'CuSO₄·5H₂O')
    """
    body = split_charge(formula.text)[0]
    lowered = _COUNT.sub(lambda found: found[0].translate(_LOWERED), body)
    size = "" if abs(formula.charge) == 1 else str(abs(formula.charge))
    sign = {0: ""}.get(formula.charge, f"{size}{'+' if formula.charge > 0 else '-'}")
    return lowered + sign.translate(_RAISED)


def _read_side(terms: Iterable[Term]) -> tuple[Side, str]:
    species: Counter[str] = Counter()
    atoms: Counter[str] = Counter()
    charge, said = 0, []
    for term in terms:
        formula, count = read_formula(term.species), term.coefficient or 1
        species[print_formula(formula)] += count
        atoms.update({symbol: n * count for symbol, n in formula.atoms.items()})
        charge += formula.charge * count
        said.append(f"{count} {spoken(formula)}" if count > 1 else spoken(formula))
    return Side(dict(species), dict(atoms), charge), " plus ".join(said)
