"""A reaction on one line, as an author types it, to the species of a lab file."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import TYPE_CHECKING

from pydantic_core import PydanticCustomError

from workbook.errors import EquationError, TaskError
from workbook.labfile.field import read_name
from workbook.matter.elements import TABLES, load_weights
from workbook.matter.equation import Equation, Term, balance, read_equation
from workbook.matter.formula import molar_mass, read_formula

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping
    from decimal import Decimal

#: A species with a name of the author's: an equals sign without space beside it.
_NAMED = re.compile(r"(?<![^\s0-9])([A-Za-z][A-Za-z0-9_]*)=([^\s=<>]+)")

#: What a formula has, and a name has not.
_UNFIT = re.compile(r"[^A-Za-z0-9]+")


@dataclass(frozen=True, slots=True)
class Sketched:
    """One species of a reaction that was typed on one line."""

    #: How the lab file calls it.
    key: str
    formula: str
    coefficient: int
    #: In g/mol.
    molar_mass: Decimal


@dataclass(frozen=True, slots=True)
class SketchedReaction:
    """A balanced reaction, its species named so that relations can use them."""

    left: tuple[Sketched, ...]
    right: tuple[Sketched, ...]
    #: In the keys, with every coefficient that is not 1.
    equation: str


def read_reaction(text: str) -> SketchedReaction:
    """
    Return the reaction in a line of text.

    Parameters
    ----------
    text : str
        Formulas with an arrow between them, ``"Mg + 2 HCl -> MgCl2 + H2"``, each with
        a name before it where the author wants one, ``"acid=HCl"``. Where no
        coefficient is written they are found.

    Returns
    -------
    SketchedReaction
        Balanced by atoms and charge.

    Raises
    ------
    EquationError
        If it can't be read, or does not balance.
    FormulaError
        If a formula can't be read.
    MatterError
        If an element has no standard weight.
    TaskError
        If two species get the same name, or one that no species can have.

    Examples
    --------
    >>> read_reaction("magnesium=Mg + HCl -> MgCl2 + H2").equation
    'magnesium + 2 HCl -> MgCl2 + H2'
    """
    formulas = dict(_NAMED.findall(text))
    if len(formulas) < len(_NAMED.findall(text)):
        msg = f"A name stands twice in {text!r}; name each species apart."
        raise TaskError(msg)
    bare = read_equation(_NAMED.sub(r"\1", text))
    read = {name: read_formula(formula) for name, formula in formulas.items()}
    found = balance(bare, read)
    if bothways := {t.species for t in found.left} & {t.species for t in found.right}:
        shown = ", ".join(sorted(bothways))
        reason = f"{shown} stands on both sides; take it off one of them."
        raise EquationError(text, reason)
    keys = _name_all(found.species, formulas)
    left, right = (
        tuple(_sketch(term, keys, formulas) for term in side)
        for side in (found.left, found.right)
    )
    return SketchedReaction(left, right, _write(found, left, right))


def _name_all(species: Iterable[str], formulas: Mapping[str, str]) -> dict[str, str]:
    keys = {each: each if each in formulas else _name(each) for each in species}
    for key in keys.values():
        _check(key)
        if list(keys.values()).count(key) > 1:
            msg = (
                f"Two species would be called {key!r}. Name one of them yourself: "
                f"other={key}"
            )
            raise TaskError(msg)
    return keys


def _check(key: str) -> None:
    try:
        read_name(key)
    except PydanticCustomError as error:
        raise TaskError(error.message()) from error


def _name(formula: str) -> str:
    """Return a formula as a name: ``Ca(OH)2`` as ``Ca_OH_2``."""
    plain = _UNFIT.sub("_", formula.replace("[", "").replace("]", "")).strip("_")
    return plain if plain[:1].isalpha() else f"x_{plain}"


def _sketch(
    term: Term, keys: Mapping[str, str], formulas: Mapping[str, str]
) -> Sketched:
    formula = formulas.get(term.species, term.species)
    weights = load_weights(TABLES[0])
    return Sketched(
        key=keys[term.species],
        formula=formula,
        coefficient=term.coefficient or 1,
        molar_mass=molar_mass(read_formula(formula), weights),
    )


def _write(
    found: Equation, left: tuple[Sketched, ...], right: tuple[Sketched, ...]
) -> str:
    arrow = " <-> " if found.reversible else " -> "
    sides = (" + ".join(map(_write_term, side)) for side in (left, right))
    return arrow.join(sides)


def _write_term(term: Sketched) -> str:
    return term.key if term.coefficient == 1 else f"{term.coefficient} {term.key}"
