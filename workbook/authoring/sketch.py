"""
A lab file to begin with: it passes every check, and teaches its own grammar.

The first species on the left is weighed and limits, the second is weighed in excess,
and the first on the right is the product. All else is the author's to change.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from decimal import Decimal
from typing import TYPE_CHECKING

from jinja2 import Environment, PackageLoader, StrictUndefined

from workbook.authoring.reaction import read_reaction
from workbook.errors import TaskError
from workbook.labfile.instrument import known_instruments
from workbook.measure.rounding import Ties, round_place, write

if TYPE_CHECKING:
    from workbook.authoring.reaction import Sketched, SketchedReaction

#: The reaction of a new lab where the author gives none.
EXAMPLE = "chalk=CaCO3 + 2 vinegar=CH3COOH -> acetate=Ca(CH3COO)2 + water=H2O + gas=CO2"

#: A folder of that name can stand in a course, in an address and on any disk.
_NAME = re.compile(r"[a-z0-9](?:[a-z0-9-]{0,58}[a-z0-9])?")

#: The smallest mass that is weighed in a new lab, and the largest [g]: a balance to
#: 0.01 g shows three figures of the one, and carries the other with its dish.
_LEAST_G, _MOST_G = Decimal(2), Decimal(150)

#: How far a range reaches above its lower end [-].
_REACH = Decimal("1.3")

#: Equivalents in which the reagent in excess is taken, least and most [-].
_EXCESS = (Decimal("1.25"), Decimal("1.60"))

#: Balances show this power of ten [g].
_PLACE = -2

#: What a new file calls its own quantities and steps, whatever the reaction.
_OWN = (
    "dish",
    "dish_and_product",
    "planned_amount",
    "planned_mass",
    "product_mass",
    "recovery",
    "theoretical_yield",
    "percent_yield",
    "needed_mass",
    "left_over",
    "splash",
    "limiting",
    "observations",
    "discussion",
)

_files = Environment(
    loader=PackageLoader("workbook.authoring", "."),
    autoescape=False,  # noqa: S701  it writes TOML, and all that goes in is read before
    undefined=StrictUndefined,
    trim_blocks=True,
    lstrip_blocks=True,
    keep_trailing_newline=True,
)


@dataclass(frozen=True, slots=True)
class _Range:
    """From what to what a mass is drawn, as the file writes it."""

    low: str
    high: str


def check_name(name: str) -> None:
    """
    Refuse a name that no lab can have.

    Parameters
    ----------
    name : str
        Of the folder.

    Raises
    ------
    TaskError
        If it is not short, in small letters, digits and hyphens.
    """
    if not _NAME.fullmatch(name):
        msg = (
            f"{name!r} can't be the name of a lab: small letters, digits and hyphens, "
            "60 at most, such as 'olive-oil-soap'."
        )
        raise TaskError(msg)


def sketch_lab(name: str, reaction: str = EXAMPLE) -> str:
    """
    Return the text of a new lab file.

    Parameters
    ----------
    name : str
        The lab's name, that of its folder.
    reaction : str
        On one line, as `read_reaction` takes it.

    Returns
    -------
    str
        TOML that passes every check.

    Raises
    ------
    MatterError
        If the reaction can't be read, or does not balance.
    TaskError
        If no lab can have the name, or the masses lie too far apart for one balance.
    """
    check_name(name)
    read = read_reaction(reaction)
    _refuse_clashes(read)
    start, product = read.left[0], read.right[0]
    other = read.left[1] if len(read.left) > 1 else None
    least_mol = _choose_scale(start, product, other)
    return _files.get_template("sketch.toml").render(
        title=name.replace("-", " ").capitalize(),
        reaction=read,
        species=(*read.left, *read.right),
        start=start,
        other=other,
        product=product,
        start_mass=_draw(start, least_mol, _REACH),
        other_mass=_draw_excess(start, other, least_mol) if other else None,
        instruments=known_instruments(),
    )


def _choose_scale(
    start: Sketched, product: Sketched, other: Sketched | None
) -> Decimal:
    """Return the least amount of the limiting reagent [mol], so that all is weighed."""
    masses = [start.molar_mass, _per_mole(product, start)]
    if other is not None:
        masses.append(_per_mole(other, start) * _EXCESS[1])
    scale = _LEAST_G / min(masses)
    if scale * _REACH * max(masses) > _MOST_G:
        msg = (
            f"The masses of {start.formula}, {product.formula} and what reacts with "
            "them lie too far apart to be weighed on one balance. Put the species that "
            "are weighed first: the limiting one, the one in excess, and the product."
        )
        raise TaskError(msg)
    return scale


def _per_mole(of: Sketched, start: Sketched) -> Decimal:
    """Return the mass of a species for a mole of the limiting reagent [g]."""
    return of.molar_mass * of.coefficient / start.coefficient


def _draw(of: Sketched, least_mol: Decimal, reach: Decimal) -> _Range:
    low_g = of.molar_mass * least_mol
    return _Range(_print(low_g), _print(low_g * reach))


def _draw_excess(start: Sketched, other: Sketched, least_mol: Decimal) -> _Range:
    needed_g = _per_mole(other, start) * least_mol * _REACH
    low, high = (_print(needed_g * each) for each in _EXCESS)
    return _Range(low, high)


def _print(mass_g: Decimal) -> str:
    return write(round_place(mass_g, _PLACE, Ties.EVEN))


def _refuse_clashes(read: SketchedReaction) -> None:
    keys = [each.key for each in (*read.left, *read.right)]
    names = [f"{key}_{what}" for key in keys[:2] for what in ("mass", "amount")]
    if clash := sorted(set(keys) & {*_OWN, *names}):
        msg = (
            f"{clash[0]!r} is what the new file calls a quantity of its own; give the "
            "species another name."
        )
        raise TaskError(msg)
