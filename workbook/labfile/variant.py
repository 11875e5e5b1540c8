"""
A lab in the ways in which its structure varies from student to student.

Each way is a whole lab file: the tables of ``[variants.instead.NAME]`` stand in place
of those of the same keys, and every rule on lab files holds for it.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from workbook.errors import nearest
from workbook.labfile.half import USUAL

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Iterator

    from workbook.labfile.finding import Finding
    from workbook.labfile.position import Located, Place
    from workbook.labfile.schema import InsteadTable, LabFile

#: Tables that a variant can replace rows of.
_TABLES = ("species", "reactions")


def list_variants(file: LabFile) -> tuple[str, ...]:
    """
    Return the ways in which a lab varies.

    Parameters
    ----------
    file : LabFile
        The file, its tables read.

    Returns
    -------
    tuple of str
        The empty text for the file as it stands, then each of the others by its key.
    """
    return (USUAL, *(file.variants.instead if file.variants is not None else ()))


def vary(file: LabFile, variant: str) -> LabFile:
    """
    Return a lab file as it is for the students of one variant.

    Parameters
    ----------
    file : LabFile
        The file, its tables read.
    variant : str
        One that `list_variants` gives.

    Returns
    -------
    LabFile
        Its tables replaced; the same for the usual variant.
    """
    if variant == USUAL:
        return file
    row = _find(file, variant)
    update = {
        "species": {**file.species, **row.species},
        "reactions": {**file.reactions, **row.reactions},
    }
    return file.model_copy(update=update)


def vary_lines(located: Located, variant: str) -> Located:
    """
    Return where the tables of a variant stand.

    Parameters
    ----------
    located : Located
        The file.
    variant : str
        One that `list_variants` gives.

    Returns
    -------
    Located
        What is replaced on the lines of its replacement.
    """
    here = ("variants", "instead", variant)
    moved = {
        place[len(here) :]: line
        for place, line in located.lines.items()
        if place[: len(here)] == here and place[len(here) :][:1] in _HEADS
    }
    return replace(located, lines={**located.lines, **moved})


_HEADS = tuple((table,) for table in _TABLES)


def find_place(file: LabFile, variant: str, place: Place) -> Place:
    """
    Return where something of a variant stands in the file.

    Parameters
    ----------
    file : LabFile
        The file, its tables read.
    variant : str
        One that `list_variants` gives.
    place : tuple of str or int
        Keys and indexes from the top of the file that `vary` made.

    Returns
    -------
    tuple of str or int
        Below ``variants`` for what is replaced, and else the same.
    """
    if variant == USUAL or len(place) <= 1 or place[0] not in _TABLES:
        return place
    rows = getattr(_find(file, variant), str(place[0]))
    return ("variants", "instead", variant, *place) if place[1] in rows else place


def find_in_each(
    file: LabFile, rules: Iterable[Callable[[LabFile], Iterator[Finding]]]
) -> Iterator[Finding]:
    """
    Give what rules find in a file as it stands, and in each of its variants.

    Parameters
    ----------
    file : LabFile
        The file, its tables read.
    rules : iterable of callable
        Each gives findings of a file.

    Returns
    -------
    iterator of Finding
        Each once, where it stands.
    """
    told: set[Finding] = set()
    for rule in rules:
        for variant in list_variants(file):
            for place, sentence in rule(vary(file, variant)):
                found = find_place(file, variant, place), sentence
                if found not in told:
                    told.add(found)
                    yield found


def variants_replace_what_is_there(file: LabFile) -> Iterator[Finding]:
    """
    Find rows of variants that replace nothing, and variants that change nothing.

    Parameters
    ----------
    file : LabFile
        The file, its tables read.

    Returns
    -------
    iterator of Finding
        One for each row, and one for each idle variant.
    """
    for variant in list_variants(file)[1:]:
        row, place = _find(file, variant), ("variants", "instead", variant)
        for table in _TABLES:
            known = getattr(file, table)
            for key in getattr(row, table):
                if key not in known:
                    sentence = (
                        f"{key!r} replaces nothing: the file has no [{table}.{key}]. "
                        f"Give all students one of that key.{nearest(key, known)}"
                    )
                    yield (*place, table, key), sentence
        if not row.species and not row.reactions:
            yield place, "it replaces nothing; give it a species or a reaction."


def _find(file: LabFile, variant: str) -> InsteadTable:
    if file.variants is None:
        msg = f"{variant!r} is no variant: the lab has none."
        raise ValueError(msg)
    return file.variants.instead[variant]
