"""The substances and reactions of a lab, in the words that a student reads."""

from __future__ import annotations

from typing import TYPE_CHECKING

from workbook.labfile.hazard import read_statement
from workbook.matter.equation import write
from workbook.wire.sheet import Reagent

if TYPE_CHECKING:
    from collections.abc import Iterator

    from workbook.labfile.half import PublicHalf
    from workbook.labfile.schema import SolutionTable, Species


def write_equations(public: PublicHalf) -> tuple[str, ...]:
    """
    Return the equations of a lab as they are printed.

    Parameters
    ----------
    public : PublicHalf
        What a student may learn of the lab.

    Returns
    -------
    tuple of str
        The lab's own reaction first, with the names of the substances.
    """
    names = {key: species.name for key, species in public.species.items()}
    return tuple(write(equation, names) for equation in public.equations.values())


def describe_reagents(public: PublicHalf) -> tuple[Reagent, ...]:
    """
    Return the rows of the table of substances.

    Parameters
    ----------
    public : PublicHalf
        What a student may learn of the lab.

    Returns
    -------
    tuple of Reagent
        In the order of the lab file.
    """
    return tuple(_describe(key, species) for key, species in public.species.items())


def _describe(key: str, species: Species) -> Reagent:
    statements = map(read_statement, species.hazards)
    return Reagent(
        id=key,
        name=species.name,
        formula=species.formula or "",
        data=tuple(_list_data(species)),
        hazards=tuple(f"{each.code} {each.text}" for each in statements),
        waste=species.waste or "",
    )


def _list_data(species: Species) -> Iterator[str]:
    for label, row in (
        ("density", species.density),
        ("molar volume", species.molar_volume),
    ):
        if row is not None:
            at = f" at {row.at}" if row.at else ""
            yield f"{label} {row.value.text}{at}"
    if bottle := species.solution:
        yield f"{bottle.name}: {', '.join(_list_strength(bottle))}"


def _list_strength(bottle: SolutionTable) -> Iterator[str]:
    if bottle.molarity:
        yield bottle.molarity.text
    if bottle.mass_fraction:
        yield f"{bottle.mass_fraction.text} by mass"
    if bottle.mass_per_volume:
        yield bottle.mass_per_volume.text
    if bottle.density:
        yield f"density {bottle.density.text}"
