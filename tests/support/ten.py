"""
Ten students whose totals were worked out by hand, to stand among any number of others.

Everything right earns 59 of 63: 4 readings of 1, 7 numbers of 2, 6 chains and 1 algebra
of 3, 4 choices of 1, a table of 4, 3 matchings and an order of 2, a mechanism of 3, a
prediction of 1; 2 texts of 2 wait for a person. Due at 16:00; a tenth of what was
earned is lost for each day begun; after the lab the third attempt, and each further,
takes a quarter of a step.
"""

from __future__ import annotations

from datetime import UTC, datetime, timedelta
from decimal import Decimal
from typing import TYPE_CHECKING

from tests.support.soap import (
    LAB,
    NOON,
    answer_rightly,
    make_attempts,
    make_hand_in,
    name_sheet,
    write_hand_in,
)
from workbook.marking.override import OVERRIDES_FILE, Override, add_override
from workbook.solver.source import CourseSource
from workbook.wire.answer import Answer, Built, Placed, Typed
from workbook.wire.handin import HandIn, compose_hand_in

if TYPE_CHECKING:
    from collections.abc import Iterable
    from pathlib import Path

    from workbook.judge.case import Case

RULES = f"""
[dates.{LAB}]
due = {(NOON + timedelta(hours=4)):%Y-%m-%dT%H:%M:%S}
[marks.late]
rule = "share a day"
takes = "0.10"
[marks.attempts.postlab]
free = 2
takes = "0.25"
"""

#: By hand, each from the 59 of a sheet that is all right.
TOTALS = {
    "ten-1": "61",  # and 2 that a person gives the discussion
    "ten-2": "0",  # nothing answered
    "ten-3": "57",  # a mass that is wrong, 2; what follows from it earns its points
    "ten-4": "57.5",  # a chain upside down: half of 3
    "ten-5": "58",  # figures, twice, once taken off: 1
    "ten-6": "58",  # units, three times, once taken off: 1
    "ten-7": "53.1",  # an hour late: 59 less 5.9
    "ten-8": "46.4",  # a day and an hour late, and a unit: 58 less two tenths, 11.6
    "ten-9": "58.5",  # a third attempt at 2 points: a quarter, 0.5
    "ten-10": "55",  # handed in twice, the later without the four choices of 1
}

_BARE = ("dish", "dish_and_soap", "soap_mass")
_CHOICES = ("lye_statements", "splash", "brine_waste", "limiting")


def write_course(folder: Path, others: Iterable[str]) -> Path:
    """Write a course of the ten and of others, and return its file."""
    path = folder / "course.toml"
    head = '[course]\nname = "salt-1"\ntitle = "Salt & soap"\nroster = "roster.csv"\n'
    lab = (folder / LAB).as_posix()
    path.write_text(f'{head}labs = ["{lab}"]\n{RULES}', encoding="utf-8")
    rows = "".join(f"{student},,\n" for student in (*TOTALS, *others))
    (folder / "roster.csv").write_text(f"student,name,section\n{rows}")
    (folder / "course.key").write_text("5a" * 32 + "\n", encoding="ascii")
    return path


def hand_in_ten(course: Path, folder: Path) -> None:
    """Write the hand-ins of the ten, and what a person decided for the first."""
    source = CourseSource(course)
    for student, case in zip(TOTALS, source.cases(LAB, list(TOTALS)), strict=True):
        right = answer_rightly(case)
        at = NOON + timedelta(hours={"ten-7": 5, "ten-8": 29}.get(student, 3))
        given = list(_change(student, case, right).items())
        if student == "ten-9":
            wrong = [("soap_mass", Typed(f"{n}.11 g")) for n in (1, 2)]
            given = [*wrong, *given]
        made = _make(source, student, given, at)
        write_hand_in(made, folder / f"{student}.handin.json")
        if student == "ten-10":
            earlier = make_hand_in(source, student, right, at - timedelta(hours=1))
            write_hand_in(earlier, folder / f"{student}-1.handin.json")
    _decide(course)


def _change(student: str, case: Case, right: dict[str, Answer]) -> dict[str, Answer]:
    changed: dict[str, Answer] = dict(right)
    match student:
        case "ten-3":
            share = 100 * 5.00 / case.values["theoretical_yield"]
            changed["soap_mass"] = Typed("5.00 g")
            changed["percent_yield"] = Typed(f"{share:.1f} %")
        case "ten-4":
            text = getattr(right["oil_mass"], "text", "")
            turned = (Placed("oil.density", turned=True),)
            changed["oil_mass"] = Built(turned, text)
        case "ten-5":
            for step, unit in (("lye_amount", "mol"), ("theoretical_yield", "g")):
                changed[step] = Typed(f"{case.values[step]:.9f} {unit}")
        case "ten-6" | "ten-8":
            for step in _BARE[: None if student == "ten-6" else 1]:
                text = getattr(right[step], "text", "")
                changed[step] = Typed(text.removesuffix(" g"))
    left_out = {"ten-2": tuple(right), "ten-10": _CHOICES}.get(student, ())
    return {step: each for step, each in changed.items() if step not in left_out}


def _make(
    source: CourseSource, student: str, given: list[tuple[str, Answer]], at: datetime
) -> HandIn:
    sheet, attempts = name_sheet(student), make_attempts(given)
    return compose_hand_in(sheet, attempts, at, source.seal)


def _decide(course: Path) -> None:
    override = Override(
        at=datetime(2026, 3, 9, tzinfo=UTC),
        student="ten-1",
        lab=LAB,
        step="discussion",
        points=Decimal(2),
        reason="Says why the yield is low.",
        marker="R. Eddy",
    )
    add_override(course.parent / OVERRIDES_FILE, override)
