"""Mistakes with a constant of a substance: the one of another was taken."""

from __future__ import annotations

from typing import TYPE_CHECKING

from workbook.graph.slip_rule.kind import SlipKind
from workbook.graph.slip_rule.site import replace_node
from workbook.relation.tree import Name, names

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from workbook.graph.slip_rule.step import Found, Step

_KINDS: Mapping[str, SlipKind] = {
    "density": SlipKind.DENSITY_OF_ANOTHER,
    "solution_density": SlipKind.DENSITY_OF_ANOTHER,
    "molarity": SlipKind.CONCENTRATION_OF_ANOTHER,
    "mass_per_volume": SlipKind.CONCENTRATION_OF_ANOTHER,
    "mass_fraction": SlipKind.CONCENTRATION_OF_ANOTHER,
    "molar_mass": SlipKind.MOLAR_MASS_OF_ANOTHER,
}

_DENSITIES = ("density", "solution_density")


def mistake_constants(step: Step) -> Iterator[Found]:
    """
    Give the relations in which a constant of another substance stands.

    Parameters
    ----------
    step : Step
        Where the mistake is made.

    Returns
    -------
    iterator of (SlipKind, Node)
        Molar masses only of substances in the same equation.
    """
    for name in names(step.relation):
        role = step.role(Name(name))
        if role in _KINDS:
            for kind, other in _others(step, name, role):
                yield kind, replace_node(step.relation, Name(name), Name(other))


def _others(step: Step, name: str, role: str) -> Iterator[tuple[SlipKind, str]]:
    own = step.species(name)
    if role == "solution_density" and f"{own}.density" in step.graph.quantities:
        yield SlipKind.DENSITY_OF_SOLUTE, f"{own}.density"
    for species in _within_reach(step, own, role):
        for suffix in _DENSITIES if role in _DENSITIES else (role,):
            other = f"{species}.{suffix}"
            if species != own and other in step.graph.quantities:
                yield _KINDS[role], other


def _within_reach(step: Step, own: str, role: str) -> tuple[str, ...]:
    """Return the substances whose constant may be taken in error."""
    if role != "molar_mass":
        return tuple(step.graph.lab.public.species)
    beside = (each for one in step.equations_of(own) for each in one.species)
    return tuple(dict.fromkeys(beside))
