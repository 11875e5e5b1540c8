"""The reactions of a lab file: balanced, and what is wrong where they are not."""

from __future__ import annotations

from contextlib import suppress
from typing import TYPE_CHECKING

from workbook.errors import EquationError, FormulaError, MatterError, nearest
from workbook.matter.elements import TABLES, load_weights
from workbook.matter.equation import Equation, balance, read_equation
from workbook.matter.formula import Formula, molar_mass, read_formula

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping

    from workbook.labfile.finding import Finding
    from workbook.labfile.schema import LabFile, Reaction


#: How a ratio names the lab's own reaction, whose table has no name.
OWN_REACTION = "reaction"


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


def equations_with(
    equations: Mapping[str, Equation], species: set[str]
) -> tuple[Equation, ...]:
    """
    Return the equations in which all of some species stand.

    Parameters
    ----------
    equations : mapping of str to Equation
        By name.
    species : set of str
        Names of species.

    Returns
    -------
    tuple of Equation
        In the order of the file.
    """
    return tuple(e for e in equations.values() if species <= set(e.species))


def equation_around(
    equations: Mapping[str, Equation], of: Iterable[str | None]
) -> Equation:
    """
    Return the equation to which some quantities belong.

    Parameters
    ----------
    equations : mapping of str to Equation
        By name, the lab's own under the empty name.
    of : iterable of str or None
        What each quantity is an amount of: a species, a solution, or nothing.

    Returns
    -------
    Equation
        The first that holds all of them; the lab's own where none does.
    """
    species = {each.partition(".")[0] for each in of if each is not None}
    return next(iter(equations_with(equations, species)), equations[""])


def readable_equations(file: LabFile) -> dict[str, Equation]:
    """
    Return the equations that can be read, as they are written.

    Parameters
    ----------
    file : LabFile
        The file, its tables read.

    Returns
    -------
    dict of str to Equation
        By name, the lab's own under the empty name; not balanced.
    """
    found: dict[str, Equation] = {}
    for name, reaction in reactions_of(file).items():
        with suppress(EquationError):
            found[name] = read_equation(reaction.equation)
    return found


def meant_equations(
    equations: Mapping[str, Equation], reaction: str
) -> Mapping[str, Equation]:
    """
    Return the equations that can be meant.

    Parameters
    ----------
    equations : mapping of str to Equation
        By name, the lab's own under the empty name.
    reaction : str
        The name of a reaction, `OWN_REACTION`, or empty.

    Returns
    -------
    mapping of str to Equation
        One where it is named, none where the name is unknown, else all.
    """
    if not reaction:
        return equations
    name = "" if reaction == OWN_REACTION else reaction
    return {name: equations[name]} if name in equations else {}


def why_no_ratio(
    equations: Mapping[str, Equation], species: tuple[str, ...], reaction: str = ""
) -> str | None:
    """
    Return why some species have no ratio of coefficients.

    Parameters
    ----------
    equations : mapping of str to Equation
        By name.
    species : tuple of str
        Names of species.
    reaction : str
        Which equation is meant, as in ``ratio(a, b, reaction)``; empty for the one that
        holds them.

    Returns
    -------
    str or None
        A sentence; None where they stand in exactly one equation, each once.
    """
    meant = meant_equations(equations, reaction)
    if not meant:
        known = (OWN_REACTION, *filter(None, equations))
        return f"{reaction!r} is no reaction of this file.{nearest(reaction, known)}"
    found = equations_with(meant, set(species))
    shown = ", ".join(map(repr, species))
    if len(found) != 1:
        many = "no equation holds" if not found else f"{len(found)} equations hold"
        return f"{many} {shown} together; exactly one must."
    try:
        for each in species:
            found[0].coefficient(each)
    except EquationError as error:
        return str(error)
    return None


def formulas_read(file: LabFile) -> Iterator[Finding]:
    """
    Find the formulas that can't be read, or hold an element without a weight.

    Parameters
    ----------
    file : LabFile
        The file, its tables read.

    Returns
    -------
    iterator of Finding
        One for each.
    """
    weights = load_weights(TABLES[0])
    for key, species in file.species.items():
        if species.formula is None:
            continue
        try:
            molar_mass(read_formula(species.formula), weights)
        except MatterError as error:
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
        if name == OWN_REACTION:
            yield place, f"{name!r} is the lab's own reaction; take another name."
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
