"""The conventions of a course, in words that are printed on every sheet."""

from __future__ import annotations

from typing import TYPE_CHECKING

from workbook.measure.rounding import Ties
from workbook.measure.written import Comma

if TYPE_CHECKING:
    from decimal import Decimal

    from workbook.labfile.course import Conventions, Course
    from workbook.labfile.half import PublicHalf
    from workbook.labfile.late import LateTable


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


def say_scheme(course: Course, public: PublicHalf) -> tuple[str, ...]:
    """
    Return when a lab is due, and what late work and attempts cost, in words.

    Parameters
    ----------
    course : Course
        With its dates and its mark scheme.
    public : PublicHalf
        The lab.

    Returns
    -------
    tuple of str
        A sentence each; none where the course says nothing of it.
    """
    said = []
    if (opens := course.calendar.opens(public.name)) is not None:
        said.append(f"Open from: {opens:%Y-%m-%d %H:%M} ({opens.tzname()}).")
    if (due := course.calendar.due(public.name)) is not None:
        said.append(f"Due: {due:%Y-%m-%d %H:%M} ({due.tzname()}), unless extended.")
        said.append(_say_late(course.marks.late))
    for part, rule in (
        ("Before", course.marks.attempts.prelab),
        ("After", course.marks.attempts.postlab),
    ):
        if rule.most:
            said.append(f"{part} the lab the first {rule.most} attempts count.")
        if rule.takes:
            share = _say_share(rule.takes)
            said.append(
                f"{part} the lab each attempt after the first {rule.free} takes "
                f"{share} of a step's points; what can't be read is none."
            )
    return tuple(filter(None, said))


def _say_share(share: Decimal) -> str:
    return f"{(100 * share).normalize():f} %"


def _say_late(late: LateTable) -> str:
    of = "was earned" if late.of == "earned" else "the lab is worth"
    share = f"{_say_share(late.takes)} of what {of}"
    said = {
        "nothing": "Late work loses nothing",
        "all": "Late work earns nothing",
        "share once": f"Late work loses {share}",
        "share a day": f"Late work loses {share} a day begun",
        "points a day": f"Late work loses {late.takes} points a day begun",
    }[late.rule]
    if late.rule == "all" or not late.until_days:
        return f"{said}."
    end = f"{late.until_days} days"
    if late.until_days == "next lab":
        end = "the next lab is due"
    return f"{said}; after {end} nothing is earned."
