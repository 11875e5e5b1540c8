"""Mistakes with powers of ten, percentages, and constants of gases."""

from __future__ import annotations

from typing import TYPE_CHECKING

from workbook.graph.slip_rule.kind import SlipKind
from workbook.graph.slip_rule.product import Factor, product_of
from workbook.graph.slip_rule.site import replace_node
from workbook.graph.slip_rule.step import AMOUNT, PERCENTAGE, TEMPERATURE, VOLUME
from workbook.graph.slip_rule.term import Term, sum_of
from workbook.relation.tree import Name, Number, names

if TYPE_CHECKING:
    from collections.abc import Iterator

    from workbook.graph.slip_rule.step import Found, Step

#: By how many powers of ten, and what that mistake is called.
_POWERS = (
    (1, SlipKind.TEN),
    (3, SlipKind.THOUSAND),
    (6, SlipKind.MILLION),
)

#: Volumes of one mole of gas that are learnt by heart [cm³/mol], from memory: at 0 °C,
#: and near room temperature.
_MOLAR_VOLUMES = ("22400", "24000")

#: 0 °C [K]: the definition of the degree Celsius in the SI.
_ICE_POINT = "273.15"


def mistake_scales(step: Step) -> Iterator[Found]:
    """
    Give the relations that are off by a power of ten.

    Parameters
    ----------
    step : Step
        Where the mistake is made.

    Returns
    -------
    iterator of (SlipKind, Node)
        Upwards and downwards.
    """
    for power, kind in _POWERS:
        factor = Number(str(10**power))
        for sign in (1, -1):
            scaled = (Factor(step.relation), Factor(factor, sign))
            yield kind, product_of(scaled)
    if step.measures == PERCENTAGE:
        for sign, kind in (
            (-1, SlipKind.PERCENT_AS_SHARE),
            (1, SlipKind.PERCENT_TWICE),
        ):
            scaled = (Factor(step.relation), Factor(Number("100"), sign))
            yield kind, product_of(scaled)


def mistake_gases(step: Step) -> Iterator[Found]:
    """
    Give the relations that treat a liquid as a gas, or a gas by degrees Celsius.

    Parameters
    ----------
    step : Step
        Where the mistake is made.

    Returns
    -------
    iterator of (SlipKind, Node)
        From the volumes and the temperatures that the step uses.
    """
    used = names(step.relation)
    if step.measures == AMOUNT and all(step.dimension(n) != AMOUNT for n in used):
        for name in step.earlier(step.relation):
            if step.dimension(name) == VOLUME:
                for volume in _MOLAR_VOLUMES:
                    gas = product_of((Factor(Name(name)), Factor(Number(volume), -1)))
                    yield SlipKind.GAS_VOLUME, gas
    for name in used:
        if step.dimension(name) == TEMPERATURE:
            celsius = sum_of((Term(Name(name)), Term(Number(_ICE_POINT), -1)))
            relation = replace_node(step.relation, Name(name), celsius)
            yield SlipKind.CELSIUS, relation
