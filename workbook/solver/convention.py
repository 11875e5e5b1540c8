"""The conventions of a course, in words that are printed on every sheet."""

from __future__ import annotations

from typing import TYPE_CHECKING

from workbook.measure.rounding import Ties
from workbook.measure.written import Comma

if TYPE_CHECKING:
    from workbook.labfile.course import Conventions


def say_rules(conventions: Conventions) -> tuple[str, ...]:
    """
    Return the conventions of a course, in words for students.

    Parameters
    ----------
    conventions : Conventions
        Of the course file.

    Returns
    -------
    tuple of str
        A sentence each.
    """
    ties = {
        Ties.EVEN: "A digit exactly half way is rounded to the even neighbour.",
        Ties.UP: "A digit exactly half way is rounded away from zero.",
    }
    comma = {
        Comma.ASK: "Write a decimal point; 1,500 is asked about.",
        Comma.DECIMAL: "A comma is a decimal mark: 1,500 is one and a half.",
        Comma.THOUSANDS: "A comma parts thousands: 1,500 is fifteen hundred.",
    }
    return (
        f"Atomic weights: {conventions.atomic_weights}.",
        ties[conventions.ties],
        comma[conventions.comma],
        "Any unit of the right kind is accepted.",
        (
            "Figures are judged apart from the value; "
            f"{conventions.figures_slack} more or fewer is accepted."
        ),
    )
