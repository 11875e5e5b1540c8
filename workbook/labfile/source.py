"""Where the figures of a lab come from: no empty source, and what is still unsure."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterator

    from workbook.labfile.finding import Finding
    from workbook.labfile.schema import LabFile, Species

#: Words in the place of a source that name none.
_EMPTY = re.compile(
    r"(?:\W*|to ?do|tbd|tba|n/?a|none|unknown|source|x+)\W*", re.IGNORECASE
)

#: What an author writes of a figure that nobody has looked up.
_FROM_MEMORY = "from memory"


def sources_name_something(file: LabFile) -> Iterator[Finding]:
    """
    Find sources that name none.

    Parameters
    ----------
    file : LabFile
        The file, its tables read.

    Returns
    -------
    iterator of Finding
        One for each.
    """
    for place, _, source in _list_sources(file):
        if _EMPTY.fullmatch(source):
            sentence = (
                f"{source!r} names no source; write where the figure was read, or "
                f"{_FROM_MEMORY!r}, so that a chemist looks it up."
            )
            yield place, sentence


def list_unsure(file: LabFile) -> Iterator[Finding]:
    """
    Give what a chemist has to look at before a class does.

    Parameters
    ----------
    file : LabFile
        The file, its tables read.

    Returns
    -------
    iterator of Finding
        Each figure from memory, and each substance of which no hazard is said and no
        source for that; these are no mistakes.
    """
    for place, what, source in _list_sources(file):
        if _FROM_MEMORY in source.casefold():
            yield place, f"{what}: {source}"
    for key, species in file.species.items():
        if not species.hazards and species.hazards_source is None:
            sentence = (
                f"no hazard statement is given for {species.name}; hold that against "
                "the supplier's sheet, and write a hazards_source."
            )
            yield ("species", key), sentence


def _list_sources(file: LabFile) -> Iterator[tuple[tuple[str, ...], str, str]]:
    """Give each source with its place, and with what it stands for."""
    for key, species in file.species.items():
        for place, what, source in _sources_of(species):
            yield ("species", key, *place), what, source
    for key, given in file.givens.items():
        if given.source is not None and given.value is not None:
            yield ("givens", key, "source"), given.name, given.source


def _sources_of(species: Species) -> Iterator[tuple[tuple[str, ...], str, str]]:
    name = species.name
    if density := species.density:
        shown = f"density {density.value.text} of {name}"
        yield ("density", "source"), shown, density.source
    if bottle := species.solution:
        yield ("solution", "source"), f"strength of {bottle.name}", bottle.source
    if species.hazards_source is not None:
        codes = ", ".join(species.hazards) or "none"
        shown = f"hazard statements of {name} ({codes})"
        yield ("hazards_source",), shown, species.hazards_source
