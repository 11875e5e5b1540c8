"""Mistakes with a molar mass that is derived from the masses of an equation."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from workbook.graph.slip_rule.kind import SlipKind
from workbook.graph.slip_rule.product import Factor, product_of
from workbook.graph.slip_rule.term import Term, Terms, sum_of
from workbook.relation.tree import Name, Node, Number

if TYPE_CHECKING:
    from collections.abc import Iterator

    from workbook.graph.slip_rule.step import Found, Step
    from workbook.matter.equation import Equation

#: Wrong divisors that are found in the equation itself, and this one [-].
_HALVES = 2


@dataclass(frozen=True, slots=True)
class _Share:
    """A substance in the mass balance: how often, and whether it is taken off."""

    count: int
    species: str
    sign: int

    @property
    def term(self) -> Term:
        """As it stands in the sum."""
        return Term(_times(self.count, _mass(self.species)), self.sign)


@dataclass(frozen=True, slots=True)
class MassBalance:
    """What a product's molar mass follows from, by the equation."""

    #: The large molecule that its molar mass is derived from.
    start: _Share
    others: tuple[_Share, ...]
    #: The coefficient of the product, which divides everything [-].
    divisor: int

    def total(self, *shares: _Share) -> Node:
        """
        Return the mass of all molecules of the product together.

        Parameters
        ----------
        *shares : _Share
            What is counted beside the large molecule.

        Returns
        -------
        Node
            A sum.
        """
        return sum_of((self.start.term, *(each.term for each in shares)))


def read_balance(step: Step, start: str, wanted: str) -> MassBalance | None:
    """
    Return the mass balance of the equation in which two substances stand.

    Parameters
    ----------
    step : Step
        The step that asks for the molar mass.
    start, wanted : str
        The large molecule, and the product.

    Returns
    -------
    MassBalance or None
        None where no single equation has one on each side, or a substance has no
        molar mass.
    """
    equations = [each for each in step.equations_of(wanted) if start in each.species]
    if len(equations) != 1:
        return None
    (equation,) = equations
    shares = {each.species: each for each in _shares(equation, start)}
    known = all(f"{each}.molar_mass" in step.graph.quantities for each in shares)
    if not known or shares[wanted].sign > 0:
        return None
    others = tuple(s for name, s in shares.items() if name not in {start, wanted})
    return MassBalance(shares[start], others, shares[wanted].count)


def _shares(equation: Equation, start: str) -> Iterator[_Share]:
    on_left = any(term.species == start for term in equation.left)
    sides = (
        (equation.left, equation.right) if on_left else (equation.right, equation.left)
    )
    for sign, side in zip((1, -1), sides, strict=True):
        for term in side:
            yield _Share(term.coefficient or 1, term.species, sign)


def _mass(species: str) -> Node:
    return Name(f"{species}.molar_mass")


def _times(count: int, node: Node) -> Node:
    return (
        node if count == 1 else product_of((Factor(Number(str(count))), Factor(node)))
    )


def _over(node: Node, divisor: int) -> Node:
    return product_of((Factor(node), Factor(Number(str(divisor)), -1)))


def mistake_balance(balance: MassBalance) -> Iterator[Found]:
    """
    Give the mistakes with a mass balance.

    Parameters
    ----------
    balance : MassBalance
        The right one.

    Returns
    -------
    iterator of (SlipKind, Node)
        Wrongly divided, a term left out or turned, a coefficient left off.
    """
    whole = balance.total(*balance.others)
    if balance.divisor > 1:
        yield from _misdivided(balance, whole)
    for at, share in enumerate(balance.others):
        rest = balance.others[:at] + balance.others[at + 1 :]
        turned = balance.total(*rest, replace(share, sign=-share.sign))
        kept = share.sign > 0
        left_out = SlipKind.REAGENT_FORGOTTEN if kept else SlipKind.BYPRODUCT_FORGOTTEN
        yield left_out, _over(balance.total(*rest), balance.divisor)
        yield SlipKind.SIGN_KEPT, _over(turned, balance.divisor)
        if share.count > 1:
            once = balance.total(*rest, replace(share, count=1))
            yield SlipKind.COEFFICIENT_OFF_ONE_TERM, _over(once, balance.divisor)
    if balance.start.count > 1:
        single = replace(balance.start, count=1)
        once = replace(balance, start=single).total(*balance.others)
        yield SlipKind.COEFFICIENT_OFF_ONE_TERM, _over(once, balance.divisor)


def _misdivided(balance: MassBalance, whole: Node) -> Iterator[Found]:
    divisor, others = balance.divisor, balance.others
    yield SlipKind.NEVER_DIVIDED, whole
    first = Term(_over(balance.start.term.node, divisor))
    yield SlipKind.DIVIDED_ONE_TERM, sum_of((first, *(s.term for s in others)))
    yield SlipKind.ONLY_DIVIDED, first.node
    # Products other than the wanted one are taken off after the division.
    added = tuple(share for share in others if share.sign > 0)
    late: Terms = tuple(share.term for share in others if share.sign < 0)
    early = Term(_over(balance.total(*added), divisor))
    yield SlipKind.DIVIDED_TOO_EARLY, sum_of((early, *late))
    for wrong in sorted(_wrong_divisors(balance)):
        yield SlipKind.WRONG_DIVISOR, _over(whole, wrong)


def _wrong_divisors(balance: MassBalance) -> set[int]:
    """Return numbers that are at hand and do not multiply the unknown."""
    products = [share for share in balance.others if share.sign < 0]
    kinds = len(products) + 1
    molecules = sum(share.count for share in products) + balance.divisor
    return {_HALVES, kinds, molecules} - {1, balance.divisor}


def mistake_removed(balance: MassBalance, ions: tuple[Node, ...]) -> Iterator[Found]:
    """
    Give the mistake of removing what forms beside the product before adding an ion.

    Parameters
    ----------
    balance : MassBalance
        The right one.
    ions : tuple of Node
        The masses of the pieces that the product has besides.

    Returns
    -------
    iterator of (SlipKind, Node)
        One for each ion.
    """
    off = tuple(share for share in balance.others if share.sign < 0)
    divided = Term(_over(balance.total(*off), balance.divisor))
    for ion in ions if off else ():
        yield SlipKind.WHOLE_BYPRODUCT_REMOVED, sum_of((divided, Term(ion)))
