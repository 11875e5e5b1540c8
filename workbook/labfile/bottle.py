"""
What really stood on a bottle on the day, in place of what the lab file says.

A stock that was made up again, or another drum of oil, has a strength or a density of
its own. It holds for a section of the roster, or for all, and everything takes it: the
sheet, the draws, the judge, the answer book and the marks.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from workbook.errors import AuthorError, nearest
from workbook.labfile.constant import (
    explain_constant,
    put_constant,
    written_constants,
)
from workbook.labfile.field import Amount, Text
from workbook.labfile.table import Table

if TYPE_CHECKING:
    from collections.abc import Sequence

    from workbook.labfile.half import Lab


class BottleTable(Table):
    """``[[bottles]]``: one constant of one lab, for one section or for all."""

    lab: Text
    #: The section of the roster; None for every section.
    section: Text | None = None
    #: The constant as relations name it: "lye.mass_fraction".
    of: Text
    value: Amount
    #: Where the value was read or measured; it is printed on the sheet.
    source: Text


def choose_bottles(
    bottles: Sequence[BottleTable], lab: str, section: str
) -> tuple[BottleTable, ...]:
    """
    Return the bottles that a student has before them.

    Parameters
    ----------
    bottles : sequence of BottleTable
        Of the whole course.
    lab : str
        The lab's name.
    section : str
        The student's section; empty where there are none.

    Returns
    -------
    tuple of BottleTable
        At most one for each constant: a section's own comes before everybody's.
    """
    chosen: dict[str, BottleTable] = {}
    for each in bottles:
        is_mine = each.section in {None, section}
        if each.lab == lab and is_mine and (each.section or each.of not in chosen):
            chosen[each.of] = each
    return tuple(chosen.values())


def fill_bottles(lab: Lab, bottles: Sequence[BottleTable]) -> Lab:
    """
    Return a lab with other values on its bottles.

    Parameters
    ----------
    lab : Lab
        As its file has it.
    bottles : sequence of BottleTable
        Of this lab, at most one for each constant.

    Returns
    -------
    Lab
        The same where there are no bottles.

    Raises
    ------
    AuthorError
        If the lab has no such constant, or it measures something else.
    """
    if not bottles:
        return lab
    species = dict(lab.public.species)
    for bottle in bottles:
        if wrong := explain_bottle(lab, bottle):
            raise AuthorError((f"{lab.path}: {wrong}",))
        key, _, name = bottle.of.partition(".")
        species[key] = put_constant(species[key], name, bottle.value, bottle.source)
    return replace(lab, public=replace(lab.public, species=species))


def explain_bottle(lab: Lab, bottle: BottleTable) -> str:
    """
    Return what is wrong with a bottle, or the empty text.

    Parameters
    ----------
    lab : Lab
        The lab that it is for.
    bottle : BottleTable
        As it stands in the course file.

    Returns
    -------
    str
        A sentence.
    """
    known = {
        f"{key}.{name}": name
        for key, species in lab.public.species.items()
        for name in written_constants(species)
    }
    if bottle.of not in known:
        return (
            f"{bottle.of!r} is no constant of {lab.public.name!r}; there are "
            f"{', '.join(sorted(known)) or 'none'}.{nearest(bottle.of, known)}"
        )
    key = bottle.of.partition(".")[0]
    mine = lab.public.species[key]
    if any(other.species[key] != mine for other in lab.public.others.values()):
        return (
            f"{key!r} of {lab.public.name!r} is another substance for some students, "
            "so no bottle is everybody's. Write what stood on it into the lab file."
        )
    return explain_constant(known[bottle.of], bottle.value)
