"""Rules on the gate: what must be right before the readings after the lab are shown."""

from __future__ import annotations

from typing import TYPE_CHECKING

from workbook.labfile.kind import TextTable
from workbook.labfile.schema import ReadingTable
from workbook.labfile.step import placed_steps

if TYPE_CHECKING:
    from collections.abc import Iterator

    from workbook.labfile.finding import Finding
    from workbook.labfile.schema import LabFile, StepTable


def gates_can_be_passed(file: LabFile) -> Iterator[Finding]:
    """
    Find gates that hold nothing back, or that nobody can pass.

    Parameters
    ----------
    file : LabFile
        The file, its tables read.

    Returns
    -------
    iterator of Finding
        One for each.
    """
    read = {step.of for step in file.postlab if isinstance(step, ReadingTable)}
    is_held = any(not row.own for name, row in file.readings.items() if name in read)
    for place, step in placed_steps(file):
        if step.gate and (sentence := _wrong(place[0], step, is_held=is_held)):
            yield (*place, "gate"), sentence


def _wrong(part: str, step: StepTable, *, is_held: bool) -> str:
    if part == "postlab":
        return "a gate stands before the lab; take this one away, or move the step."
    if isinstance(step, TextTable):
        return (
            "a text is marked by a person, so nobody could pass the gate in time; "
            "gate a step that the checker can judge."
        )
    if not is_held:
        return (
            "the gate holds nothing back: no step after the lab is a reading that is "
            "drawn."
        )
    return ""
