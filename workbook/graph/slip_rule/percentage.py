"""Mistakes with a percent yield, and with any other part over its whole."""

from __future__ import annotations

from typing import TYPE_CHECKING

from workbook.errors import DimensionError
from workbook.graph.dimension import unit_of
from workbook.graph.quantity import Origin
from workbook.graph.slip_rule.kind import SlipKind
from workbook.graph.slip_rule.product import Factor, factors_of, product_of
from workbook.graph.slip_rule.site import replace_node
from workbook.graph.slip_rule.step import AMOUNT, MASS, PERCENTAGE, ratio_species
from workbook.graph.slip_rule.term import Term, sum_of
from workbook.relation.tree import Call, Name, Node, Number, names

if TYPE_CHECKING:
    from collections.abc import Iterator

    from workbook.graph.slip_rule.product import Factors
    from workbook.graph.slip_rule.step import Found, Step
    from workbook.measure.dimension import Dimension

_HUNDRED = Number("100")


def mistake_percentages(step: Step) -> Iterator[Found]:
    """
    Give the relations in which a part is set against the wrong whole.

    Parameters
    ----------
    step : Step
        Where the mistake is made.

    Returns
    -------
    iterator of (SlipKind, Node)
        None where the step asks for no percentage.
    """
    if step.measures != PERCENTAGE:
        return
    factors = factors_of(step.relation)
    counted = tuple(each for each in factors if not isinstance(each.node, Number))
    part = product_of(tuple(each for each in counted if each.power > 0))
    whole = product_of(tuple(each.turned() for each in counted if each.power < 0))
    measured = _measured(step, part)
    if measured is not None and measured == _measured(step, whole):
        yield from _set_wrongly(part, whole)
        yield from _against_another(step, part, whole)
        yield from _against_opened(step, part, whole)
    yield from _several_yields(step, counted)


def _percent(part: Node, whole: Node) -> Node:
    return product_of((Factor(_HUNDRED), Factor(part), Factor(whole, -1)))


def _measured(step: Step, node: Node) -> Dimension | None:
    units = {name: q.unit for name, q in step.graph.quantities.items()}
    try:
        return unit_of(node, units).dimension
    except DimensionError:
        return None


def _set_wrongly(part: Node, whole: Node) -> Iterator[Found]:
    missing = sum_of((Term(whole), Term(part, -1)))
    surplus = sum_of((Term(part), Term(whole, -1)))
    off = Call("max", (missing, surplus))
    yield SlipKind.YIELD_UPSIDE_DOWN, _percent(whole, part)
    yield SlipKind.MISSED_SHARE, _percent(off, whole)
    yield SlipKind.DIFFERENCE_FOR_YIELD, off


def _against_another(step: Step, part: Node, whole: Node) -> Iterator[Found]:
    """Set the part against what it came from, or against what it was before."""
    measured = _measured(step, part)
    used = {*names(part), *names(whole)}
    sources = [
        name
        for name in step.earlier(whole)
        if step.dimension(name) == measured and name not in used
    ]
    for name in sources:
        yield SlipKind.COMPARED_WITH_REAGENT, _percent(part, Name(name))
    for name in _alike(step, part, used | set(sources)):
        yield SlipKind.RECOVERY_FOR_YIELD, _percent(part, Name(name))
        yield SlipKind.RECOVERY_FOR_YIELD, _percent(Name(name), whole)


def _alike(step: Step, part: Node, used: set[str]) -> Iterator[str]:
    """Give other values of the same substance and kind, such as the crude mass."""
    owners = {step.species(name) for name in names(part)} - {""}
    measured = _measured(step, part)
    for name in step.graph.lab.public.labels:
        is_value = step.graph.quantities[name].origin is not Origin.CONSTANT
        alike = step.species(name) in owners and step.dimension(name) == measured
        if is_value and alike and name not in used:
            yield name


def _against_opened(step: Step, part: Node, whole: Node) -> Iterator[Found]:
    """Forget a ratio or a molar mass in the whole, as an earlier step worked it out."""
    for opened in _opened(step, whole):
        factors = factors_of(opened)
        for at, factor in enumerate(factors):
            rest = product_of(factors[:at] + factors[at + 1 :])
            if ratio_species(factor.node):
                yield SlipKind.AMOUNTS_WITHOUT_RATIO, _percent(part, rest)
            elif step.role(factor.node) == "molar_mass" and factor.power > 0:
                yield SlipKind.GRAMS_BY_MOLES, _percent(part, rest)
                yield (
                    SlipKind.GRAMS_BY_MOLES,
                    product_of((Factor(part), Factor(rest, -1))),
                )


def _opened(step: Step, whole: Node) -> Iterator[Node]:
    """Give the whole as its mass is worked out, then its amount."""
    for dimension in (MASS, AMOUNT):
        for name in names(whole):
            inner = step.opened(name)
            if inner is not None and step.dimension(name) == dimension:
                whole = replace_node(whole, Name(name), inner)
        yield whole


def _several_yields(step: Step, factors: Factors) -> Iterator[Found]:
    """Take the mean or the sum of the yields of several steps, or a single one."""
    yields = tuple(each for each in factors if _is_percentage(step, each))
    if len(yields) < 2:  # noqa: PLR2004  several
        return
    total = sum_of(tuple(Term(each.node) for each in yields))
    count = Factor(Number(str(len(yields))), -1)
    yield SlipKind.YIELDS_AVERAGED, product_of((Factor(total), count))
    yield SlipKind.YIELDS_ADDED, total
    for each in yields:
        yield SlipKind.ONE_STEP_FOR_ALL, each.node


def _is_percentage(step: Step, factor: Factor) -> bool:
    name = factor.node
    is_name = isinstance(name, Name) and factor.power == 1
    return is_name and step.dimension(getattr(name, "text", "")) == PERCENTAGE
