"""A course that never was: its students hand in, and are marked, in a moment."""

from __future__ import annotations

import hashlib
import shutil
from datetime import UTC, datetime
from typing import TYPE_CHECKING

from workbook.draw.key import CourseKey, write_key
from workbook.labfile.course import read_course
from workbook.labfile.enrolment import read_students
from workbook.marking.gather import Accepted
from workbook.marking.mark import mark_all
from workbook.marking.record import RECORD_FILE, write_record
from workbook.rehearsal.handin import make_hand_ins
from workbook.solver.source import KEY_FILE, CourseSource

if TYPE_CHECKING:
    from pathlib import Path

#: The same class each time.
_SEED = 7
_START = datetime(2026, 10, 12, 13, 0, tzinfo=UTC)


def make_demonstration(course: Path, folder: Path) -> tuple[Path, Path]:
    """
    Copy a course, let a simulated class hand in to its first lab, and mark it.

    Parameters
    ----------
    course : Path
        The course file; it and what it names are left as they are.
    folder : Path
        An empty folder.

    Returns
    -------
    (Path, Path)
        The copied course file, and the folder of marks.

    Raises
    ------
    AuthorError
        If the course has a mistake.
    """
    read = read_course(course)
    for place in read.folders.values():
        inside = place.relative_to(course.parent.resolve())
        shutil.copytree(place, folder / inside)
    copy = shutil.copytree if read.roster.is_dir() else shutil.copy
    copy(read.roster, folder / read.roster.name)
    copied = folder / course.name
    shutil.copy(course, copied)
    # A demonstration hides nothing: its key follows from its name.
    write_key(CourseKey(hashlib.sha256(b"demonstration").digest()), folder / KEY_FILE)
    source = CourseSource(copied)
    lab = next(iter(source.labs))
    roster = read_students(source.course.roster, source.course.classes)
    students = [student.id for student in roster]
    hand_ins = make_hand_ins(source, lab, students, _SEED, _START)
    accepted = [Accepted(f"{h.sheet.student}.handin.json", h, "") for h in hand_ins]
    marks = folder / "marks"
    marks.mkdir()
    write_record(marks / RECORD_FILE, mark_all(source, accepted))
    return copied, marks
