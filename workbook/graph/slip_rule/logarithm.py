"""Mistakes with a logarithm, such as that of a pH, and with undoing one."""

from __future__ import annotations

from typing import TYPE_CHECKING

from workbook.graph.slip_rule.kind import SlipKind
from workbook.graph.slip_rule.product import Factor, product_of
from workbook.graph.slip_rule.site import Site, sites
from workbook.graph.slip_rule.term import Term, sum_of
from workbook.relation.tree import Call, Negative, Node, Number

if TYPE_CHECKING:
    from collections.abc import Iterator

    from workbook.graph.slip_rule.step import Found, Step

#: The natural logarithm of ten [-].
_NATURAL = Number("2.302585093")

#: pH and pOH of water add up to this at 25 °C [-], from memory.
_BOTH_IONS = Number("14")

#: How many ions one unit of a formula may release [-].
_IONS = ("2", "3")


def mistake_logarithms(step: Step) -> Iterator[Found]:
    """
    Give the relations with a wrong logarithm, or with one that was undone wrongly.

    Parameters
    ----------
    step : Step
        Where the mistake is made.

    Returns
    -------
    iterator of (SlipKind, Node)
        None where the relation has no logarithm, and no power of ten.
    """
    for node, site in sites(step.relation):
        if isinstance(node, Call) and node.name == "log10":
            yield from _mistaken(step.relation, node, site)
        elif isinstance(node, Call) and node.name == "exp10":
            yield from _undone(step.relation, node, site)


def _undone(relation: Node, call: Call, site: Site) -> Iterator[Found]:
    (power,) = call.arguments
    turned = power.of if isinstance(power, Negative) else Negative(power)
    yield SlipKind.POWER_SIGN, site.put(relation, Call("exp10", (turned,)))
    for left in (power, turned):
        yield SlipKind.POWER_LEFT_OUT, site.put(relation, left)
    natural = product_of((Factor(power), Factor(_NATURAL, -1)))
    yield SlipKind.NATURAL_POWER, site.put(relation, Call("exp10", (natural,)))


def _mistaken(relation: Node, call: Call, site: Site) -> Iterator[Found]:
    (argument,) = call.arguments
    turned = sum_of((Term(relation, -1),))
    yield SlipKind.LOGARITHM_SIGN, turned
    natural = product_of((Factor(call), Factor(_NATURAL)))
    yield SlipKind.NATURAL_LOGARITHM, site.put(relation, natural)
    yield SlipKind.LOGARITHM_LEFT_OUT, argument
    yield SlipKind.OTHER_ION, sum_of((Term(_BOTH_IONS), Term(relation, -1)))
    for ions in _IONS:
        for sign in (1, -1):
            counted = product_of((Factor(argument), Factor(Number(ions), sign)))
            logarithm = Call("log10", (counted,))
            yield SlipKind.IONS_MISCOUNTED, site.put(relation, logarithm)
