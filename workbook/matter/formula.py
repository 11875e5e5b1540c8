"""Chemical formulas: what they count, what a mole weighs, how they are shown."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass, field
from decimal import Decimal
from types import MappingProxyType
from typing import TYPE_CHECKING

from workbook.errors import FormulaError
from workbook.matter.charge import split_charge
from workbook.matter.part import Atom, count_atoms
from workbook.matter.reader import read_parts

if TYPE_CHECKING:
    from collections.abc import Mapping

    from workbook.matter.elements import AtomicWeights
    from workbook.matter.part import Item, Part

#: Characters of a formula; a longer text is refused unread.
LENGTH_LIMIT = 200

#: Atoms of a formula; nested counts multiply, and must not run away.
ATOM_LIMIT = 1_000_000


@dataclass(frozen=True, slots=True)
class Formula:
    """A formula that was read; equal to another if both are built alike."""

    #: As written, without the space around it.
    text: str = field(compare=False)
    parts: tuple[Part, ...]
    #: In elementary charges [-].
    charge: int

    @property
    def atoms(self) -> Mapping[str, int]:
        """How many atoms of each element there are, by symbol [-]."""
        total: Counter[str] = Counter()
        for part in self.parts:
            for symbol, count in count_atoms(part.items).items():
                total[symbol] += part.count * count
        return MappingProxyType(dict(total))


def read_formula(text: str) -> Formula:
    """
    Return the formula in a text.

    Parameters
    ----------
    text : str
        As typed. Counts stand plain or as subscripts, brackets are ``()`` or
        ``[]`` and may be nested, water of crystallisation follows any of
        ``· • ∙ ⋅ . *``, and a charge comes last: ``SO4^2-``, ``SO4 2-``,
        ``SO₄²⁻``, ``NH4+``, ``[Cu(NH3)4]2+``.

    Returns
    -------
    Formula
        With whole counts.

    Raises
    ------
    FormulaError
        If the text can't be read, or can be read in two ways.

    Examples
    --------
    >>> dict(read_formula("CuSO4.5H2O").atoms)
    {'Cu': 1, 'S': 1, 'O': 9, 'H': 10}
    """
    bare = text.strip()
    if not bare:
        raise FormulaError(bare, 0, "it is empty.")
    if len(bare) > LENGTH_LIMIT:
        reason = f"it has {len(bare)} characters; {LENGTH_LIMIT} are allowed."
        raise FormulaError(bare[:20] + "…", LENGTH_LIMIT, reason)
    body, charge = split_charge(bare)
    try:
        formula = Formula(bare, read_parts(body), charge)
    except FormulaError as error:
        # The reader sees the text without its charge; a person wants all of it.
        raise FormulaError(bare, error.position, error.reason) from None
    if sum(formula.atoms.values()) > ATOM_LIMIT:
        reason = f"it counts more than {ATOM_LIMIT} atoms."
        raise FormulaError(bare, 0, reason)
    return formula


def molar_mass(formula: Formula, weights: AtomicWeights) -> Decimal:
    """
    Return the molar mass of a formula.

    Parameters
    ----------
    formula : Formula
        The mass of gained or lost electrons is left out.
    weights : AtomicWeights
        The table that the course has chosen.

    Returns
    -------
    Decimal
        The exact sum, unrounded [g/mol].

    Raises
    ------
    MatterError
        If an element has no standard atomic weight.

    Examples
    --------
    >>> from workbook.matter.elements import load_weights
    >>> molar_mass(read_formula("CuSO4.5H2O"), load_weights("2021 abridged"))
    Decimal('249.6770')
    """
    weighed = (weights.weight(s) * count for s, count in formula.atoms.items())
    return sum(weighed, Decimal(0))


def to_latex(formula: Formula) -> str:
    r"""
    Return a formula as LaTeX, upright, for typesetting.

    Parameters
    ----------
    formula : Formula
        As read.

    Returns
    -------
    str
        For use in mathematics mode.

    Examples
    --------
    >>> print(to_latex(read_formula("CuSO4.5H2O")))
    \mathrm{CuSO_{4}\cdot 5\,H_{2}O}
    """
    parts = r"\cdot ".join(
        (rf"{part.count}\," if part.count > 1 else "") + _latex(part.items)
        for part in formula.parts
    )
    charge = f"^{{{_write_charge(formula.charge)}}}" if formula.charge else ""
    return rf"\mathrm{{{parts}{charge}}}"


def _latex(items: tuple[Item, ...]) -> str:
    shown = []
    for item in items:
        if isinstance(item, Atom):
            shown.append(item.symbol)
        else:
            shown.append(item.bracket + _latex(item.items) + _closing(item.bracket))
        if item.count > 1:
            shown.append(f"_{{{item.count}}}")
    return "".join(shown)


def _closing(bracket: str) -> str:
    return ")" if bracket == "(" else "]"


def _write_charge(charge: int) -> str:
    size = "" if abs(charge) == 1 else str(abs(charge))
    return size + ("+" if charge > 0 else "-")


def spoken(formula: Formula) -> str:
    """
    Return a formula the way a screen reader can say it.

    Parameters
    ----------
    formula : Formula
        As read.

    Returns
    -------
    str
        Symbols and counts apart, brackets, dots and charge as words.

    Examples
    --------
    >>> spoken(read_formula("C3H8O3"))
    'C 3 H 8 O 3'
    >>> spoken(read_formula("Ca(OH)2·2H2O"))
    'Ca open bracket O H close bracket 2 dot 2 H 2 O'
    >>> spoken(read_formula("SO4^2-"))
    'S O 4 charge 2 minus'
    """
    words: list[str] = []
    for part in formula.parts:
        words += ["dot"] if words else []
        words += [str(part.count)] if part.count > 1 else []
        words += _speak(part.items)
    if formula.charge:
        size = [] if abs(formula.charge) == 1 else [str(abs(formula.charge))]
        words += ["charge", *size, "plus" if formula.charge > 0 else "minus"]
    return " ".join(words)


def _speak(items: tuple[Item, ...]) -> list[str]:
    words: list[str] = []
    for item in items:
        if isinstance(item, Atom):
            words.append(item.symbol)
        else:
            words += ["open bracket", *_speak(item.items), "close bracket"]
        words += [str(item.count)] if item.count > 1 else []
    return words
