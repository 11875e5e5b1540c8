"""What an inspection found, for a person and for an editor."""

from __future__ import annotations

from typing import TYPE_CHECKING

import msgspec

from workbook.draw.review import print_review

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from workbook.authoring.inspection import Inspection

#: Raised when the JSON takes another form.
_VERSION = 1


def print_inspection(inspection: Inspection) -> str:
    """
    Return what was found beside mistakes, as lines of text.

    Parameters
    ----------
    inspection : Inspection
        Of one lab.

    Returns
    -------
    str
        What becomes of draws, what to confirm, and what could not be looked at.
    """
    return "\n".join(_lines(inspection))


def _lines(inspection: Inspection) -> Iterator[str]:
    if inspection.review is not None:
        yield from map(print_review, (inspection.review, *inspection.others))
    if inspection.confirm:
        yield f"{len(inspection.confirm)} for a chemist to confirm before use:"
        yield from (f"  {told}" for told in inspection.confirm)
    yield from inspection.notes


def encode_inspections(inspections: Sequence[Inspection]) -> str:
    """
    Return what was found as JSON, for an editor or another program.

    Parameters
    ----------
    inspections : sequence of Inspection
        One for each lab.

    Returns
    -------
    str
        One object: ``version``, and under ``labs`` an object for each lab with
        ``lab``, ``findings``, ``confirm``, ``notes``, ``review`` and ``others``, which
        holds a review of each further variant. A finding has
        ``file``, ``line`` (counted from 1, or null for the whole file) and ``says``.
        A review has ``draws``, ``refused`` (how many, by reason), ``never`` and
        ``twins``; it is null where there are findings in the lab file.
    """
    whole = {"version": _VERSION, "labs": list(inspections)}
    return msgspec.json.format(msgspec.json.encode(whole), indent=1).decode()
