"""What the author of a lab adds to the known mistakes, and what is wrong with it."""

from __future__ import annotations

from itertools import chain
from typing import TYPE_CHECKING

from workbook.errors import nearest
from workbook.graph.slip_rule.kind import SlipKind
from workbook.labfile.constant import MOLAR_MASS
from workbook.relation.tree import names

if TYPE_CHECKING:
    from collections.abc import Collection, Iterator

    from workbook.labfile.finding import Finding
    from workbook.labfile.half import Lab
    from workbook.labfile.slip import OwnSlip


def own_slips(lab: Lab, name: str) -> Iterator[OwnSlip]:
    """
    Give the mistakes that a lab adds to those of a quantity.

    Parameters
    ----------
    lab : Lab
        Read and split.
    name : str
        The quantity.

    Returns
    -------
    iterator of OwnSlip
        In the order of the lab file.
    """
    for slip in lab.key.slips.own.values():
        if _quantity(lab, slip) == name:
            yield slip


def _quantity(lab: Lab, slip: OwnSlip) -> str:
    """Return the quantity that a mistake is about; a species has its molar mass."""
    return f"{slip.of}.{MOLAR_MASS}" if slip.of in lab.key.pieces else slip.of


def slips_wrong(lab: Lab, known: Collection[str]) -> Iterator[Finding]:
    """
    Find what is wrong with the ``[slips]`` table of a lab.

    Parameters
    ----------
    lab : Lab
        Read and split.
    known : collection of str
        Every quantity of the lab.

    Returns
    -------
    iterator of Finding
        Any number; the dimension of a mistake is not checked.
    """
    yield from chain(_kinds_wrong(lab), _own_wrong(lab, known))


def _kinds_wrong(lab: Lab) -> Iterator[Finding]:
    kinds = {kind.value for kind in SlipKind} - {SlipKind.OWN.value}
    slips = lab.key.slips
    for key, written in (("off", slips.off), ("says", tuple(slips.says))):
        for kind in written:
            if kind not in kinds:
                hint = nearest(kind, kinds) or f" Known are {', '.join(sorted(kinds))}."
                place = ("slips", key, kind) if key == "says" else ("slips", key)
                yield place, f"{kind!r} is no kind of slip.{hint}"


def _own_wrong(lab: Lab, known: Collection[str]) -> Iterator[Finding]:
    asked = lab.public.asked & {*lab.key.relations, *_derived(lab)}
    for key, slip in lab.key.slips.own.items():
        place = ("slips", "own", key)
        if _quantity(lab, slip) not in asked:
            hint = nearest(slip.of, sorted(asked))
            sentence = f"no step asks for a value {slip.of!r} that follows from others."
            yield (*place, "of"), sentence + hint
        for name in names(slip.relation):
            if name not in known:
                hint = nearest(name, known)
                yield (*place, "is"), f"the relation uses {name!r}, not defined.{hint}"


def _derived(lab: Lab) -> Iterator[str]:
    """Give the molar masses that a lab asks for by algebra."""
    for species in lab.key.pieces:
        yield f"{species}.{MOLAR_MASS}"
