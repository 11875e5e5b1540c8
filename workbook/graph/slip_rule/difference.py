"""Mistakes with a difference or a sum: a part left out, added, or turned."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from workbook.graph.dimension import unit_of
from workbook.graph.quantity import Origin
from workbook.graph.slip_rule.kind import SlipKind
from workbook.graph.slip_rule.site import replace_node
from workbook.graph.slip_rule.step import AMOUNT
from workbook.graph.slip_rule.term import Term, sum_of, sums, terms_of
from workbook.relation.tree import Name, Node, Number, names

if TYPE_CHECKING:
    from collections.abc import Iterator

    from workbook.graph.quantity import Quantity
    from workbook.graph.slip_rule.step import Found, Step
    from workbook.graph.slip_rule.term import Terms


class _Kinds(NamedTuple):
    """What the mistakes with a - b are called; None where nobody makes them."""

    first_alone: SlipKind
    second_alone: SlipKind | None
    added: SlipKind
    taken_twice: SlipKind | None


_WEIGHED = _Kinds(
    SlipKind.TARE_LEFT_ON,
    SlipKind.TARE_ALONE,
    SlipKind.TARE_ADDED,
    SlipKind.TARE_TWICE,
)
_SCALE = _Kinds(
    SlipKind.START_IGNORED, SlipKind.START_IGNORED, SlipKind.TERM_SIGN_TURNED, None
)
_USED_UP = _Kinds(
    SlipKind.CONSUMPTION_IGNORED,
    SlipKind.CONSUMPTION_FOR_REST,
    SlipKind.CONSUMPTION_ADDED,
    None,
)
_ANY = _Kinds(
    SlipKind.TERM_LEFT_OUT, SlipKind.TERM_LEFT_OUT, SlipKind.TERM_SIGN_TURNED, None
)


def mistake_sums(step: Step) -> Iterator[Found]:
    """
    Give the relations in which a part of a sum is left out or turned.

    Parameters
    ----------
    step : Step
        Where the mistake is made.

    Returns
    -------
    iterator of (SlipKind, Node)
        For each sum of the relation; a molar mass by algebra has rules of its own.
    """
    for each in sums(step.relation):
        for kind, node in _mistaken(step, each.terms):
            yield kind, each.site.put(step.relation, node)
    yield from _ignore_earlier(step)


def _mistaken(step: Step, terms: Terms) -> Iterator[Found]:
    if [term.sign for term in terms] == [1, -1]:
        yield from _difference(step, *terms)
        return
    for at, term in enumerate(terms):
        rest = terms[:at] + terms[at + 1 :]
        yield SlipKind.TERM_LEFT_OUT, sum_of(rest)
        yield SlipKind.TERM_SIGN_TURNED, sum_of((*rest, term.turned()))


def _difference(step: Step, first: Term, second: Term) -> Iterator[Found]:
    kinds = _kinds(step, first.node, second.node)
    yield kinds.first_alone, first.node
    if kinds.second_alone is not None:
        yield kinds.second_alone, second.node
    yield kinds.added, sum_of((first, second.turned()))
    yield SlipKind.DIFFERENCE_REVERSED, sum_of((first.turned(), second.turned()))
    if kinds.taken_twice is not None:
        yield kinds.taken_twice, sum_of((first, second, second))
    for node in (first.node, second.node):
        reading = _reading(step, node)
        if reading is not None and kinds is _SCALE:
            yield from _what_is_left(reading, node)


def _what_is_left(reading: Quantity, node: Node) -> Iterator[Found]:
    """Take what a burette still holds for what it gave."""
    instrument = reading.instrument
    if instrument is not None and instrument.reads_down:
        full = float(instrument.capacity) * float(reading.unit.factor)
        rest = sum_of((Term(Number(repr(full))), Term(node, -1)))
        yield SlipKind.REST_FOR_DELIVERED, rest


def _kinds(step: Step, first: Node, second: Node) -> _Kinds:
    readings = [_reading(step, node) for node in (first, second)]
    instruments = [each.instrument for each in readings if each is not None]
    if len(instruments) == len(readings) and all(instruments):
        shown = [each is not None and each.has_display for each in instruments]
        return _WEIGHED if all(shown) else _SCALE
    units = {name: q.unit for name, q in step.graph.quantities.items()}
    is_amount = unit_of(first, units).dimension == AMOUNT
    return _USED_UP if is_amount else _ANY


def _reading(step: Step, node: Node) -> Quantity | None:
    if not isinstance(node, Name):
        return None
    quantity = step.graph.quantities[node.text]
    return quantity if quantity.origin is Origin.READING else None


def _ignore_earlier(step: Step) -> Iterator[Found]:
    """Use what was there at first, where an earlier step has taken off what reacted."""
    for name in names(step.relation):
        inner = step.opened(name)
        if inner is None or step.dimension(name) != AMOUNT:
            continue
        terms = terms_of(inner)
        if [term.sign for term in terms] == [1, -1]:
            ignored = replace_node(step.relation, Name(name), terms[0].node)
            yield SlipKind.CONSUMPTION_IGNORED, ignored
