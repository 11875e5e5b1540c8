"""The kiln lab, whose students weigh at their own bench: a case, a course, answers."""

from __future__ import annotations

from datetime import timedelta
from typing import TYPE_CHECKING

import msgspec

from tests.support.lab import KILN, make_lab
from tests.support.soap import NOON, make_attempts
from workbook.draw.key import CourseKey
from workbook.labfile.course import Conventions
from workbook.solver.bench import prepare
from workbook.solver.source import KEY_FILE, CourseSource
from workbook.wire.answer import Answer, Built, Noted, Placed, Typed
from workbook.wire.handin import compose_hand_in
from workbook.wire.sheet import SheetId

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping
    from pathlib import Path

    from workbook.judge.case import Case

LAB = "chalk-in-acid"
STUDENTS = ("k1", "k2")

# By hand, with weights of CIAAW 2021: CaCO3 40.078 + 12.011 + 3 × 15.999 = 100.086
# g/mol, CaO 40.078 + 15.999 = 56.077 g/mol.
#   chalk 2.50 g / 100.086 g/mol = 0.024979 mol; lime × 56.077 g/mol = 1.4007 g at most
#   lime  25.80 g - 24.50 g = 1.30 g, which is 92.8 %
#   with an empty crucible of 24.55 g: 1.25 g, which is 89.2 %
READINGS: Mapping[str, Noted] = {
    "crucible": Noted("24.50 g"),
    "chalk_taken": Noted("2.50 g"),
    "crucible_and_lime": Noted("25.80 g"),
}
RIGHT: Mapping[str, Answer] = {
    "chalk_amount": Built((Placed("chalk.molar_mass", turned=True),), "0.0250 mol"),
    "theoretical_yield": Typed("1.40 g"),
    "lime_mass": Typed("1.30 g"),
    "percent_yield": Typed("92.8 %"),
}
CHANGE = Noted("24.55 g", "read the display wrongly", "24.50 g")

_COURSE = f"""\
[course]
name   = "kiln-1"
title  = "Lime"
labs   = ["{LAB}"]
roster = "roster.csv"
"""


def make_kiln_case(folder: Path, text: str = KILN) -> Case:
    """Return a student's case, as it is before anything is weighed."""
    bench = prepare(make_lab(folder, text), Conventions())
    return bench.draw(CourseKey(b"a key for tests, of 32 bytes ..."), ["k1"])[0]


def make_kiln_course(folder: Path) -> Path:
    """Write a course of two students, and return its file."""
    make_lab(folder, KILN)
    path = folder / "course.toml"
    path.write_text(_COURSE, encoding="utf-8")
    (folder / "roster.csv").write_text(
        "student,name\nk1,Ada\nk2,Bo\n", encoding="utf-8"
    )
    (folder / KEY_FILE).write_text("5a" * 32 + "\n", encoding="ascii")
    return path


def write_kiln_hand_in(
    course: Path, student: str, answers: Iterable[tuple[str, Answer]]
) -> None:
    """Write a student's hand-in into the folder beside the course."""
    source = CourseSource(course)
    sheet, at = SheetId("kiln-1", LAB, 1, student), NOON + timedelta(hours=3)
    attempts = make_attempts(answers)
    made = compose_hand_in(sheet, attempts, at, source.seal)
    folder = course.parent / "handins"
    folder.mkdir(exist_ok=True)
    (folder / f"{student}.handin.json").write_bytes(msgspec.json.encode(made))
