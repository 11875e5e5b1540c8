"""
The factors that a chain step offers: every constant and ratio of the lab's reaction.

They are made from the public half alone, so the list can't tell which ones a chain
needs.
"""

from __future__ import annotations

from itertools import combinations
from typing import TYPE_CHECKING

from workbook.labfile.reaction import equation_around
from workbook.matter.formula import molar_mass, read_formula
from workbook.measure.rounding import Ties, round_place, write
from workbook.wire.sheet import Factor

if TYPE_CHECKING:
    from collections.abc import Iterator

    from workbook.labfile.half import Ask, PublicHalf
    from workbook.labfile.schema import SolutionTable, Species
    from workbook.matter.elements import AtomicWeights
    from workbook.matter.equation import Equation
    from workbook.measure.units import Unit

#: Molar masses are printed to this power of ten [g/mol]; common practice, no source.
MOLAR_MASS_PLACE = -2

_GRAM, _MOLE = "g", "mol"


def offers(public: PublicHalf, ask: Ask, weights: AtomicWeights) -> tuple[Factor, ...]:
    """
    Return the factors that a chain step offers.

    Parameters
    ----------
    public : PublicHalf
        The lab, as a student may know it.
    ask : Ask
        The chain step.
    weights : AtomicWeights
        For the molar masses that are printed.

    Returns
    -------
    tuple of Factor
        In the order of the equation, whatever the step needs. The number of a
        molar mass that the lab asks for is left empty.
    """
    ends = [public.labels[name].of for name in (ask.start, ask.of) if name is not None]
    equation = equation_around(public.equations, ends)
    found: list[Factor] = []
    for key in equation.species:
        found += _constants(public, key, weights)
    pairs = combinations(equation.species, 2)
    found += [_ratio(public, equation, of, to) for to, of in pairs]
    return tuple(found)


def _constants(
    public: PublicHalf, key: str, weights: AtomicWeights
) -> Iterator[Factor]:
    species = public.species[key]
    if species.formula is not None:
        yield _molar_mass(public, key, species, weights)
    for suffix, label, row in (
        ("density", "density", species.density),
        ("molar_volume", "molar volume", species.molar_volume),
    ):
        if row is not None:
            number, unit = write(row.value.value), row.value.unit
            full = f"{label} of {species.name}"
            yield _split(f"{key}.{suffix}", full, number, unit, (species.name,) * 2)
    if bottle := species.solution:
        both = (bottle.name, bottle.name)
        solute = (species.name, bottle.name)
        called = _call_bottle(public, species, bottle)
        for suffix, label, written, of in (
            ("solution_density", "density", bottle.density, both),
            ("molarity", "concentration", bottle.molarity, solute),
            ("mass_per_volume", "strength", bottle.mass_per_volume, solute),
        ):
            if written is not None:
                name, number = f"{label} of {called}", write(written.value)
                yield _split(f"{key}.{suffix}", name, number, written.unit, of)
        if bottle.mass_fraction is not None:
            yield Factor(
                id=f"{key}.mass_fraction",
                label=f"percentage of {called}",
                top=write(bottle.mass_fraction.value),
                top_unit=_GRAM,
                bottom="100",
                bottom_unit=_GRAM,
                top_of=species.name,
                bottom_of=bottle.name,
            )


def _call_bottle(public: PublicHalf, species: Species, bottle: SolutionTable) -> str:
    """Name a bottle, and in one that holds several substances the one that is meant."""
    bottles = [each.solution.name for each in public.species.values() if each.solution]
    is_shared = bottles.count(bottle.name) > 1
    return f"{species.name} in {bottle.name}" if is_shared else bottle.name


def _molar_mass(
    public: PublicHalf, key: str, species: Species, weights: AtomicWeights
) -> Factor:
    number = ""
    if key not in public.pads:
        mass = molar_mass(read_formula(species.formula or ""), weights)
        number = write(round_place(mass, MOLAR_MASS_PLACE, Ties.EVEN))
    return Factor(
        id=f"{key}.molar_mass",
        label=f"molar mass of {species.name}",
        top=number,
        top_unit=_GRAM,
        bottom="1",
        bottom_unit=_MOLE,
        top_of=species.name,
        bottom_of=species.name,
    )


def _split(
    key: str, label: str, number: str, unit: Unit | None, of: tuple[str, str]
) -> Factor:
    """Write a constant as a fraction: its unit's upper part over its lower part."""
    parts = unit.parts if unit is not None else ()
    top, bottom = (_symbol(parts, sign) for sign in (1, -1))
    return Factor(key, label, number, top, "1", bottom, of[0], of[1])


def _symbol(parts: tuple[tuple[str, int], ...], sign: int) -> str:
    raised = [
        symbol if abs(power) == 1 else f"{symbol}^{abs(power)}"
        for symbol, power in parts
        if power * sign > 0
    ]
    return " ".join(raised)


def _ratio(public: PublicHalf, equation: Equation, of: str, to: str) -> Factor:
    ratio_of, ratio_to = (equation.coefficient(each) for each in (of, to))
    names = [public.species[each].name for each in (of, to)]
    return Factor(
        id=f"ratio({of}, {to})",
        label=f"{names[0]} to {names[1]}, from the equation",
        top=str(ratio_of),
        top_unit=_MOLE,
        bottom=str(ratio_to),
        bottom_unit=_MOLE,
        top_of=names[0],
        bottom_of=names[1],
    )
