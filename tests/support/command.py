"""Running a command, and looking at what it wrote."""

from __future__ import annotations

import csv
import shutil
from typing import TYPE_CHECKING

from click.testing import CliRunner, Result

from tests.support.soap import (
    LAB,
    LAB_FOLDER,
    answer_rightly,
    make_course,
    make_hand_in,
    name_sheet,
    write_hand_in,
)
from workbook.cli import main
from workbook.solver.source import CourseSource

if TYPE_CHECKING:
    from collections.abc import Iterable
    from pathlib import Path

#: The right answers to the olive-oil lab by the usual mark scheme, added by hand:
#: 4 readings of 1, 7 numbers of 2, 6 chains and 1 algebra of 3, 4 choices of 1;
#: a table of 4, 3 matchings and an order of 2, a mechanism of 3, a prediction of 1. The
#: texts wait for a person.
ALL = "59"


def run(*words: object) -> Result:
    """Run a command; an exception that is not ours fails the test."""
    result = CliRunner().invoke(main, [str(word) for word in words])
    # An exception that is not ours would be a traceback on the terminal.
    assert result.exception is None or isinstance(result.exception, SystemExit)
    return result


def rows(path: Path) -> list[dict[str, str]]:
    """Return the rows of a CSV file."""
    with path.open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def hand_in_all(course: Path, folder: Path, students: Iterable[str]) -> None:
    """Write the right answers of some students."""
    source = CourseSource(course)
    for student in students:
        right = answer_rightly(source.case(name_sheet(student)))
        hand_in = make_hand_in(source, student, right)
        write_hand_in(hand_in, folder / f"{student}.handin.json")


def mark_once(folder: Path) -> None:
    """Make the small course in a folder, with two hand-ins and their marks."""
    course = make_course(folder)
    hand_in_all(course, folder / "in", ["a1", "b2"])
    words = ("--handins", folder / "in", "--to", folder / "marks")
    assert run("mark", course, *words).exit_code == 0


def snapshot(folder: Path) -> dict[str, bytes]:
    """Return every file below a folder."""
    return {
        str(path.relative_to(folder)): path.read_bytes()
        for path in sorted(folder.rglob("*"))
        if path.is_file()
    }


def copy_lab(folder: Path) -> Path:
    """Copy the lab without its notebooks."""
    lab = folder / LAB
    shutil.copytree(LAB_FOLDER, lab)
    for notebook in lab.glob("*.ipynb"):
        notebook.unlink()
    return lab


def break_lab(lab: Path) -> None:
    """Misspell a name in a lab file."""
    path = lab / "lab.toml"
    path.write_text(path.read_text().replace('* oil.density",', '* oil.densty",'))
