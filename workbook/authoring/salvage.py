"""
What can be said of the rest of a file of which some tables can't be read.

A table with a mistake of form is left out, and the others are held against those rules
that look at one table alone; what speaks of a table that was left out is not told.
"""

from __future__ import annotations

from copy import deepcopy
from typing import TYPE_CHECKING, Any

from pydantic import ValidationError

from workbook.graph.dimension import relations_measure
from workbook.labfile.constant import constants_measure
from workbook.labfile.reaction import equations_balance, formulas_read
from workbook.labfile.reading import readings_can_be_shown
from workbook.labfile.schema import LabFile
from workbook.labfile.source import sources_name_something

if TYPE_CHECKING:
    from collections.abc import Iterator

    from workbook.labfile.finding import Finding
    from workbook.labfile.position import Located

#: Rules that need no other table than the one that they look at.
_RULES = (
    formulas_read,
    equations_balance,
    constants_measure,
    readings_can_be_shown,
    relations_measure,
    sources_name_something,
)

#: Tables of which each entry stands by itself.
_PARTED = ("species", "readings", "givens", "hidden", "quantities", "reactions")


def find_further(located: Located, error: ValidationError) -> tuple[Finding, ...]:
    """
    Return what is wrong beside the mistakes of form.

    Parameters
    ----------
    located : Located
        The data of the file.
    error : ValidationError
        The mistakes of form.

    Returns
    -------
    tuple of Finding
        Empty where the rest can't be read without the tables that are left out.
    """
    data, left_out = _leave_out(located.data, error)
    try:
        file = LabFile.model_validate(data)
    except ValidationError:
        return ()
    return tuple(
        (place, sentence)
        for place, sentence in _find(file)
        if not any(repr(name) in sentence for name in left_out)
    )


def _find(file: LabFile) -> Iterator[Finding]:
    for rule in _RULES:
        yield from rule(file)


def _leave_out(
    data: dict[str, Any], error: ValidationError
) -> tuple[dict[str, Any], set[str]]:
    """Return the data without the entries that have a mistake, and their names."""
    rest, names = deepcopy(data), set[str]()
    steps = {loc[0] for loc in _places(error) if loc[0] in {"prelab", "postlab"}}
    for table, *below in _places(error):
        if table in _PARTED and below and isinstance(rest.get(table), dict):
            rest[table].pop(below[0], None)
            names.add(str(below[0]))
        elif table not in data or table not in {"lab", "reaction", *steps}:
            # A table that the file should not have at all.
            rest.pop(str(table), None)
    for part in steps:
        # No rule here looks at steps, so what stands for them is never told of.
        rest[str(part)] = [_STEP]
    return rest, names


_STEP = {"kind": "text", "name": "stands_for_steps", "asks": "-"}


def _places(error: ValidationError) -> list[tuple[str | int, ...]]:
    return [each["loc"] for each in error.errors() if each["loc"]]
