"""Rules on what tells an answer: names on a student's sheet, and steps that are one."""

from __future__ import annotations

from typing import TYPE_CHECKING

from workbook.labfile.kind import MatchingTable, MechanismTable, ReagentsTable
from workbook.labfile.reagent import asked_cells
from workbook.labfile.schema import ChainTable, ChoiceTable, NumberTable
from workbook.labfile.step import placed_steps
from workbook.relation.tree import Name

if TYPE_CHECKING:
    from collections.abc import Iterator

    from workbook.labfile.finding import Finding
    from workbook.labfile.schema import LabFile, StepTable
    from workbook.relation.tree import Node

#: What a name begins with that says whether an option is meant.
_TELLING = (
    "right",
    "wrong",
    "correct",
    "incorrect",
    "true",
    "false",
    "decoy",
    "answer",
)


def names_tell_nothing(file: LabFile) -> Iterator[Finding]:
    """
    Find options and cards whose name tells that they are right, or where they belong.

    A student's sheet holds these names.

    Parameters
    ----------
    file : LabFile
        The file, its tables read.

    Returns
    -------
    iterator of Finding
        Any number for each step.
    """
    for place, step in placed_steps(file):
        for table, name, why in _tell(step):
            sentence = (
                f"the name {name!r} {why}, and a student's sheet holds the names; take "
                "one that does not tell."
            )
            yield (*place, table, name), sentence


def _tell(step: StepTable) -> Iterator[tuple[str, str, str]]:
    match step:
        case ChoiceTable(options=options) | MatchingTable(options=options):
            table, names = "options", tuple(options)
        case MechanismTable(cards=cards):
            table, names = "cards", tuple(cards)
        case _:
            return
    for name in names:
        if name.casefold().startswith(_TELLING):
            yield table, name, "tells whether it is right"
    if isinstance(step, MatchingTable):
        for row, belonging in step.belongs.items():
            if row in belonging:
                yield "options", row, "is also that of the row to which it belongs"


def answers_stand_apart(file: LabFile) -> Iterator[Finding]:
    """
    Find steps whose answer is shown already, or is that of another step.

    Parameters
    ----------
    file : LabFile
        The file, its tables read.

    Returns
    -------
    iterator of Finding
        At most one for each quantity that is asked.
    """
    seen: dict[Node, str] = {}
    for place, name in _list_asked(file):
        row = file.quantities.get(name)
        if row is None:
            continue  # told by the rule on what exists
        if isinstance(row.relation, Name):
            sentence = (
                f"{name!r} is {row.relation.text!r} under another name, so there is "
                "nothing to work out. Ask for something that follows from it."
            )
            yield place, sentence
        elif seen.setdefault(row.relation, name) != name:
            sentence = (
                f"{name!r} has the relation of {seen[row.relation]!r}, which is asked "
                "as well: the one gives the other away. Ask for one of the two."
            )
            yield place, sentence


def _list_asked(file: LabFile) -> Iterator[tuple[tuple[str | int, ...], str]]:
    for place, step in placed_steps(file):
        match step:
            case NumberTable(of=name) | ChainTable(of=name):
                yield (*place, "of"), name
            case ReagentsTable():
                for (row, column), name in asked_cells(file, step).items():
                    yield (*place, "rows", row, column), name
