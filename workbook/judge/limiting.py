"""
What a wrongly chosen limiting reagent has been compared by.

With two reagents every way to go wrong ends at the same one, so the sentences say what
is true of it, and not how it was found.
"""

from __future__ import annotations

from itertools import combinations
from typing import TYPE_CHECKING

from workbook.graph.slip import SlipKind, sentence_of
from workbook.graph.slip_rule.sentence import TOGETHER, say_together
from workbook.graph.slip_rule.step import VOLUME, Step
from workbook.relation.tree import Name

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from workbook.judge.case import Case
    from workbook.judge.own import Own


def explain_limiting(
    case: Case, step: str, chosen: str, owns: Mapping[str, Own]
) -> str:
    """
    Return the sentence on what speaks for a reagent that does not run out first.

    Parameters
    ----------
    case : Case
        The student's copy of the lab.
    step : str
        The step that asks.
    chosen : str
        The species that was chosen.
    owns : mapping of str to Own
        Where the student stands with every quantity.

    Returns
    -------
    str
        Empty where nothing does, or more than one thing.
    """
    amounts = case.graph.lab.key.limiting[step]
    moles = {species: owns[name].value for species, name in amounts.items()}
    ways = (
        (SlipKind.FEWEST_MOLES, moles),
        *((SlipKind.COEFFICIENTS_EXCHANGED, each) for each in _exchanged(case, moles)),
        (SlipKind.SMALLEST_MASS, dict(_masses(moles, owns))),
        (SlipKind.SMALLEST_VOLUME, dict(_volumes(case, amounts, owns))),
    )
    kinds = frozenset(
        kind
        for kind, values in ways
        if sentence_of(case.graph, kind)
        and values.keys() == amounts.keys()
        and _least(values) == chosen
    )
    if not kinds or (len(kinds) > 1 and kinds not in TOGETHER):
        return ""
    return say_together(kinds, (), case.graph.lab.key.slips.says)


def _least(values: Mapping[str, float]) -> str:
    return min(values, key=lambda species: values[species])


def _exchanged(case: Case, moles: Mapping[str, float]) -> Iterator[dict[str, float]]:
    """Give the extents that amounts come to, two of their coefficients exchanged."""
    first = next(iter(moles))
    equation = case.graph.equation_of(*moles)
    ratios = {species: float(equation.ratio(species, first)) for species in moles}
    for one, other in combinations(moles, 2):
        if ratios[one] != ratios[other]:
            swapped = ratios | {one: ratios[other], other: ratios[one]}
            yield {species: moles[species] / swapped[species] for species in moles}


def _masses(
    moles: Mapping[str, float], owns: Mapping[str, Own]
) -> Iterator[tuple[str, float]]:
    for species, amount in moles.items():
        if (molar_mass := owns.get(f"{species}.molar_mass")) is not None:
            yield species, amount * molar_mass.value


def _volumes(
    case: Case, amounts: Mapping[str, str], owns: Mapping[str, Own]
) -> Iterator[tuple[str, float]]:
    """Give the volume from which each amount was worked out."""
    for species, name in amounts.items():
        step = Step(case.graph, name, Name(name))
        for source in step.earlier(step.relation):
            if step.dimension(source) == VOLUME:
                yield species, owns[source].value
                break
