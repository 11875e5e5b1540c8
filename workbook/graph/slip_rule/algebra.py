"""Mistakes with a molar mass that is derived from another's by its pieces."""

from __future__ import annotations

from typing import TYPE_CHECKING

from workbook.graph.slip_rule.balance import (
    mistake_balance,
    mistake_removed,
    read_balance,
)
from workbook.graph.slip_rule.kind import SlipKind
from workbook.graph.slip_rule.product import Factor, Factors, factors_of, product_of
from workbook.graph.slip_rule.term import Term, Terms, sum_of, terms_of
from workbook.matter.formula import molar_mass, read_formula
from workbook.relation.tree import Name, Node, Number

if TYPE_CHECKING:
    from collections.abc import Iterator

    from workbook.graph.slip_rule.step import Found, Step

#: Metals of bases that one may take for another.
_ALKALI = ("Na", "K")


def mistake_algebra(step: Step) -> Iterator[Found]:
    """
    Give the mistakes with a molar mass by algebra.

    Parameters
    ----------
    step : Step
        Where the mistake is made.

    Returns
    -------
    iterator of (SlipKind, Node)
        None where the step asks for something else.
    """
    wanted = step.name.partition(".")[0]
    row = step.graph.lab.key.pieces.get(wanted)
    if row is None or step.name != f"{wanted}.molar_mass":
        return
    terms = terms_of(step.relation)
    divided = tuple(term for term in terms if _divisor(term) > 1)
    alone = tuple(term for term in terms if _divisor(term) == 1)
    if divided and len({_divisor(term) for term in divided}) == 1:
        yield from _misdivided(divided, alone)
    yield from _turned(terms)
    yield from _ions(step, terms, alone)
    yield from _miscounted(step)
    balance = read_balance(step, row.start, wanted)
    if balance is not None:
        yield from mistake_balance(balance)
        ions = tuple(term.node for term in alone if term.sign > 0)
        yield from mistake_removed(balance, ions)


def _divisor(term: Term) -> int:
    below = [f for f in factors_of(term.node) if f.power < 0]
    numbers = [f.node.text for f in below if isinstance(f.node, Number)]
    return int(numbers[0]) if len(numbers) == len(below) == 1 else 1


def _undivided(term: Term) -> Term:
    above: Factors = tuple(f for f in factors_of(term.node) if f.power > 0)
    return Term(product_of(above), term.sign)


def _over(terms: Terms, divisor: int) -> Term:
    return Term(product_of((Factor(sum_of(terms)), Factor(Number(str(divisor)), -1))))


def _misdivided(divided: Terms, alone: Terms) -> Iterator[Found]:
    """Divide too little, too much, by something else, or nothing at all."""
    divisor = _divisor(divided[0])
    first, *rest = map(_undivided, divided)
    only = _over((first,), divisor)
    yield SlipKind.NEVER_DIVIDED, sum_of((first, *rest, *alone))
    yield SlipKind.ONLY_DIVIDED, only.node
    if rest:
        yield SlipKind.DIVIDED_ONE_TERM, sum_of((only, *rest, *alone))
    if alone:
        yield SlipKind.ONLY_DIVIDED, sum_of((only, *alone))
        everything = _over((first, *rest, *alone), divisor)
        yield SlipKind.DIVIDED_TOO_MUCH, everything.node
    for wrong in {2, divisor - 1, divisor + 1} - {0, 1, divisor}:
        part = _over((first, *rest), wrong)
        yield SlipKind.WRONG_DIVISOR, sum_of((part, *alone))


def _turned(terms: Terms) -> Iterator[Found]:
    for at in range(1, len(terms)):
        turned = (*terms[:at], terms[at].turned(), *terms[at + 1 :])
        yield SlipKind.SIGN_KEPT, sum_of(turned)
    if len(terms) > 1:
        yield SlipKind.SIGN_KEPT, sum_of((*terms[1:], terms[0].turned()))


def _ions(step: Step, terms: Terms, alone: Terms) -> Iterator[Found]:
    """Forget an ion, take its charge for a mass, or take another metal."""
    for term in alone:
        rest = tuple(each for each in terms if each is not term)
        if not rest:
            continue
        yield SlipKind.ION_FORGOTTEN, sum_of(rest)
        metal = _metal(term.node)
        if not metal:
            continue
        yield SlipKind.CHARGE_AS_MASS, sum_of((*rest, Term(Number("1"))))
        yield SlipKind.ACID_FOR_SALT, sum_of((*rest, _weight(step, "H")))
        for other in _ALKALI:
            if other != metal:
                yield SlipKind.ANOTHER_METAL, sum_of((*rest, _weight(step, other)))


def _metal(node: Node) -> str:
    text = node.text if isinstance(node, Name) else ""
    symbol = text.removeprefix("M(").removesuffix(")")
    return symbol if symbol in _ALKALI else ""


def _weight(step: Step, formula: str) -> Term:
    mass = molar_mass(read_formula(formula), step.graph.weights)
    return Term(Number(str(mass)))


def _miscounted(step: Step) -> Iterator[Found]:
    """Count a hydrogen atom or a water too many or too few."""
    right, hydrogen = Term(step.relation), _weight(step, "H")
    water = _weight(step, "H2O")
    yield SlipKind.ACID_HYDROGEN_KEPT, sum_of((right, hydrogen))
    yield SlipKind.HYDROGEN_LOST, sum_of((right, hydrogen.turned()))
    for mass in (water, water.turned()):
        yield SlipKind.WATER_MISCOUNTED, sum_of((right, mass))
