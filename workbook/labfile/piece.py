"""
What a ``[molar_mass]`` table says: two species in pieces, so that one gives the other.

A piece is a formula, or a letter for what is unknown. The pieces of a species are a
sum: ``C3H5 + 3 x``.
"""

from __future__ import annotations

from itertools import chain
from typing import TYPE_CHECKING

from workbook.errors import FormulaError, MatterError, nearest
from workbook.matter.elements import TABLES, load_weights
from workbook.matter.formula import molar_mass, read_formula
from workbook.relation.tree import Name, Negative, Node, Number, Operation, names

if TYPE_CHECKING:
    from collections.abc import Iterator

    from workbook.labfile.finding import Finding
    from workbook.labfile.schema import LabFile, MolarMass


def piece_formulas(row: MolarMass) -> tuple[str, ...]:
    """
    Return the formulas that stand in the pieces, letters left out.

    Parameters
    ----------
    row : MolarMass
        A ``[molar_mass]`` table.

    Returns
    -------
    tuple of str
        Each once, in the order of the file.
    """
    used = (name for piece in row.pieces.values() for name in names(piece))
    return tuple(dict.fromkeys(name for name in used if name not in row.letters))


def is_sum(node: Node) -> bool:
    """
    Tell whether a tree is a sum of names, each some times.

    Parameters
    ----------
    node : Node
        The pieces of a species.

    Returns
    -------
    bool
        False where letters are multiplied, or a bare number is added.
    """
    match node:
        case Operation("+" | "-", left, right):
            return is_sum(left) and is_sum(right)
        case Operation("*", Number(), of) | Operation("*" | "/", of, Number()):
            return is_sum(of)
        case Negative(of):
            return is_sum(of)
    return isinstance(node, Name)


def molar_masses_have_pieces(file: LabFile) -> Iterator[Finding]:
    """
    Find what is wrong with the ``[molar_mass]`` tables, each by itself.

    Parameters
    ----------
    file : LabFile
        The file, its tables read.

    Returns
    -------
    iterator of Finding
        Any number for each table.
    """
    for key, row in file.molar_mass.items():
        found = chain(
            _species_wrong(file, key, row),
            _pieces_wrong(key, row),
            _letters_wrong(file, row),
        )
        for place, sentence in found:
            yield ("molar_mass", key, *place), sentence


def _species_wrong(file: LabFile, key: str, row: MolarMass) -> Iterator[Finding]:
    places: tuple[tuple[tuple[str, ...], str], ...] = (
        ((), key),
        (("from",), row.start),
    )
    for place, name in places:
        if name not in file.species:
            hint = nearest(name, file.species)
            yield place, f"{name!r} is no species of this file.{hint}"
        elif file.species[name].formula is None:
            yield (
                place,
                f"the species {name!r} needs a formula, to know its molar mass.",
            )
    if key == row.start:
        yield ("from",), f"a molar mass can't come from itself; {key!r} stands twice."


def _pieces_wrong(key: str, row: MolarMass) -> Iterator[Finding]:
    both = {key, row.start}
    for name in sorted(both - set(row.pieces)):
        yield ("pieces",), f"{name!r} has no pieces; add what it is made of."
    for name in sorted(set(row.pieces) - both):
        hint = nearest(name, both)
        yield ("pieces", name), f"{name!r} is neither of the two species.{hint}"
    for name, piece in row.pieces.items():
        if not is_sum(piece):
            yield (
                ("pieces", name),
                "pieces are a sum of formulas and letters, such as C3H5 + 3 x.",
            )


def _letters_wrong(file: LabFile, row: MolarMass) -> Iterator[Finding]:
    weights = load_weights(TABLES[0])
    for formula in piece_formulas(row):
        try:
            molar_mass(read_formula(formula), weights)
        except MatterError as error:
            yield ("pieces",), f"{formula!r} is no letter of this table. {error}"
    used = {name for piece in row.pieces.values() for name in names(piece)}
    for letter in row.letters:
        if letter not in used:
            yield ("letters", letter), f"the letter {letter!r} stands in no piece."
        if letter in file.species or _is_formula(letter):
            yield (
                ("letters", letter),
                f"{letter!r} is a species or a formula; take another letter.",
            )


def _is_formula(text: str) -> bool:
    try:
        read_formula(text)
    except FormulaError:
        return False
    return True
