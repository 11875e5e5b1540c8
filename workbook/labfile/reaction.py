"""The reactions of a lab file: balanced, and what is wrong where they are not."""

from __future__ import annotations

from typing import TYPE_CHECKING, TypeAlias

from workbook.errors import EquationError, FormulaError, nearest
from workbook.matter.equation import Equation, balance, read_equation
from workbook.matter.formula import Formula, read_formula

if TYPE_CHECKING:
    from collections.abc import Iterator

    from workbook.labfile.schema import LabFile, Reaction

#: A place in the file, and what is wrong there.
Finding: TypeAlias = tuple[tuple[str | int, ...], str]


def reactions_of(file: LabFile) -> dict[str, Reaction]:
    """
    Return every reaction by name, the lab's own under the empty name.

    Parameters
    ----------
    file : LabFile
        The file, its tables read.

    Returns
    -------
    dict of str to Reaction
        In the order of the file.
    """
    return {"": file.reaction, **file.reactions}


def balanced_equation(file: LabFile, equation: Equation) -> Equation:
    """
    Return an equation with every coefficient, checked against the formulas.

    Parameters
    ----------
    file : LabFile
        Where the formulas of the species stand.
    equation : Equation
        As it was read.

    Returns
    -------
    Equation
        Balanced.

    Raises
    ------
    KeyError
        If a species is not in the file, or has no formula.
    FormulaError
        If a formula can't be read.
    EquationError
        If it does not balance.
    """
    formulas: dict[str, Formula] = {}
    for species in equation.species:
        formula = file.species[species].formula
        if formula is None:
            raise KeyError(species)
        formulas[species] = read_formula(formula)
    return balance(equation, formulas)


def formulas_read(file: LabFile) -> Iterator[Finding]:
    """
    Find the formulas that can't be read.

    Parameters
    ----------
    file : LabFile
        The file, its tables read.

    Returns
    -------
    iterator of Finding
        One for each.
    """
    for key, species in file.species.items():
        if species.formula is None:
            continue
        try:
            read_formula(species.formula)
        except FormulaError as error:
            yield ("species", key, "formula"), str(error)


def equations_balance(file: LabFile) -> Iterator[Finding]:
    """
    Find the equations that can't be read, name no species, or do not balance.

    Parameters
    ----------
    file : LabFile
        The file, its tables read.

    Returns
    -------
    iterator of Finding
        Any number for each equation.
    """
    for name, reaction in reactions_of(file).items():
        place = ("reactions", name) if name else ("reaction",)
        try:
            equation = read_equation(reaction.equation)
        except EquationError as error:
            yield (*place, "equation"), str(error)
            continue
        for sentence in _species_wrong(file, equation):
            yield (*place, "equation"), sentence
        if reaction.product is not None and reaction.product not in equation.species:
            hint = nearest(reaction.product, equation.species)
            sentence = f"{reaction.product!r} does not stand in the equation.{hint}"
            yield (*place, "product"), sentence
        try:
            balanced_equation(file, equation)
        except EquationError as error:
            yield (*place, "equation"), str(error)
        except (KeyError, FormulaError):
            continue  # told by the rules on species and on formulas


def _species_wrong(file: LabFile, equation: Equation) -> Iterator[str]:
    for each in equation.species:
        if each not in file.species:
            yield f"{each!r} is no species of this file.{nearest(each, file.species)}"
        elif file.species[each].formula is None:
            yield f"{each!r} stands in an equation, so it needs a formula."
