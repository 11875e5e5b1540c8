"""Mistakes with one factor of a product: upside down, left out, used twice."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, NamedTuple

from workbook.graph.slip_rule.kind import SlipKind
from workbook.graph.slip_rule.product import factors_of, product_of, products
from workbook.graph.slip_rule.step import PERCENTAGE, VALUE
from workbook.relation.tree import RATIO, Number

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from workbook.graph.slip_rule.product import Factor, Factors
    from workbook.graph.slip_rule.step import Found, Step


class _Kinds(NamedTuple):
    """What the three mistakes with a factor are called; None where nobody does it."""

    turned: SlipKind | None
    left_out: SlipKind | None
    twice: SlipKind | None


#: By the role of the factor.
_KINDS: Mapping[str, _Kinds] = {
    "density": _Kinds(
        SlipKind.DENSITY_UPSIDE_DOWN,
        SlipKind.DENSITY_LEFT_OUT,
        SlipKind.DENSITY_TWICE,
    ),
    "solution_density": _Kinds(
        SlipKind.SOLUTION_DENSITY_UPSIDE_DOWN,
        SlipKind.SOLUTION_DENSITY_LEFT_OUT,
        SlipKind.SOLUTION_DENSITY_TWICE,
    ),
    "mass_fraction": _Kinds(
        SlipKind.PERCENT_UPSIDE_DOWN, SlipKind.SOLUTION_AS_PURE, None
    ),
    "molar_mass": _Kinds(
        SlipKind.MOLAR_MASS_UPSIDE_DOWN, SlipKind.MOLAR_MASS_LEFT_OUT, None
    ),
    RATIO: _Kinds(
        SlipKind.RATIO_UPSIDE_DOWN,
        SlipKind.COEFFICIENTS_LEFT_OUT,
        SlipKind.RATIO_TWICE,
    ),
}

#: For a value that the student brings: only where there are several of them.
_VALUE = _Kinds(
    SlipKind.FACTOR_UPSIDE_DOWN, SlipKind.FACTOR_LEFT_OUT, SlipKind.FACTOR_TWICE
)
_NOBODY = _Kinds(None, None, None)


def mistake_factors(step: Step) -> Iterator[Found]:
    """
    Give the relations in which one factor is upside down, left out or used twice.

    Parameters
    ----------
    step : Step
        Where the mistake is made.

    Returns
    -------
    iterator of (SlipKind, Node)
        For each product of the relation.
    """
    for product in products(step.relation):
        for kind, factors in _mistaken(step, product.factors):
            yield kind, product.site.put(step.relation, product_of(factors))
    factors = factors_of(step.relation)
    if _is_fraction(step, factors):
        turned = product_of(tuple(map(_turned, factors)))
        yield SlipKind.FRACTION_UPSIDE_DOWN, turned


def _mistaken(step: Step, factors: Factors) -> Iterator[tuple[SlipKind, Factors]]:
    values = sum(step.role(each.node) == VALUE for each in factors)
    for at, factor in enumerate(factors):
        role = step.role(factor.node)
        # A percentage of two values has mistakes of its own.
        is_value = role == VALUE and values > 1 and step.measures != PERCENTAGE
        kinds = _VALUE if is_value else _KINDS.get(role, _NOBODY)
        powers = (-factor.power, 0, 2 * factor.power)
        for kind, power in zip(kinds, powers, strict=True):
            if kind is not None:
                yield kind, with_power(factors, at, power)


def _is_fraction(step: Step, factors: Factors) -> bool:
    """Tell whether two things stand over each other, such as grams over a mole's."""
    has_value = any(step.role(each.node) == VALUE for each in factors)
    powers = {each.power > 0 for each in factors if not isinstance(each.node, Number)}
    return has_value and len(powers) > 1 and step.measures != PERCENTAGE


def with_power(factors: Factors, at: int, power: int) -> Factors:
    """
    Return some factors, one of them as often as is said.

    Parameters
    ----------
    factors : tuple of Factor
        As they are.
    at : int
        Which of them, counted from 0 [-].
    power : int
        How often it is to stand there [-]; 0 for not at all.

    Returns
    -------
    tuple of Factor
        The others as they were.
    """
    changed = replace(factors[at], power=power)
    return (*factors[:at], changed, *factors[at + 1 :])


def _turned(factor: Factor) -> Factor:
    """Turn a factor over; the 100 of a percentage stays above the line."""
    return factor if isinstance(factor.node, Number) else factor.turned()
