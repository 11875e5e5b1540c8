"""The demonstration course as it is issued, and what its steps are."""

from __future__ import annotations

import csv
import json
import re
import shutil
from datetime import UTC, datetime
from typing import TYPE_CHECKING, NamedTuple

from click.testing import CliRunner

from tests.support.lab import KILN, OLIVE_OIL, edit
from workbook.cli import main
from workbook.issuing.permit import open_gate
from workbook.labfile.reader import read_lab
from workbook.solver.source import CourseSource
from workbook.wire.sheet import SheetId

if TYPE_CHECKING:
    from pathlib import Path

#: A call that makes a card which is no step.
_ENDS = re.compile(r"^page\.(\w+)\(\)$", re.MULTILINE)

EXERCISES = OLIVE_OIL.parent
LAB = OLIVE_OIL.name

#: A second lab, for what the demonstration does not ask.
KILN_LAB = "chalk-in-the-kiln"

#: Notebooks whose cards are looked at, by what `Asked.part` calls each.
NOTEBOOKS = {
    "prelab": f"{LAB}/prelab.ipynb",
    "postlab": f"{LAB}/postlab.ipynb",
    "kiln": f"{KILN_LAB}/postlab.ipynb",
}

#: The student who passes the gate before the lab by answering.
GATED_STUDENT = "k3f8"


class Asked(NamedTuple):
    """A card of a notebook."""

    #: A key of `NOTEBOOKS`.
    part: str
    #: The step's id, or what stands for it on a card that is no step.
    step: str
    #: What kind of card it is, in words.
    kind: str


def issue_course(folder: Path) -> Path:
    """
    Copy the demonstration course to a folder, issue it, and return its file.

    Beside the demonstration it has the kiln lab, whose readings are the student's own.
    """
    shutil.copytree(
        EXERCISES, folder / "course", ignore=shutil.ignore_patterns("*.key")
    )
    path = folder / "course" / "course.toml"
    _add_kiln(path)
    command = ["issue", str(path), "--to", str(folder / "out")]
    issued = CliRunner().invoke(main, command)
    if issued.exit_code:
        raise RuntimeError(issued.output)
    return path


def _add_kiln(course: Path) -> None:
    kiln = course.parent / KILN_LAB
    kiln.mkdir()
    (kiln / "lab.toml").write_text(KILN, encoding="utf-8")
    text = course.read_text(encoding="utf-8")
    labs = (f'["{LAB}"]', f'["{LAB}", "{KILN_LAB}"]')
    course.write_text(edit(text, labs), encoding="utf-8")


def open_gates(course: Path, *, but: str) -> None:
    """Open every gate for all students of an issued course but one."""
    source = CourseSource(course)
    for place in sorted(students_of(course).glob("*/*")):
        lab, student = place.name, place.parent.name
        if student != but and source.labs[lab].public.gate:
            revision = source.labs[lab].public.revision
            sheet = SheetId(source.name, lab, revision, student)
            open_gate(source, sheet, datetime.now(UTC))


def students_of(course: Path) -> Path:
    """Return the folder that holds a folder for each student."""
    return course.parents[1] / "out" / "students"


def read_answers(course: Path, student: str) -> dict[str, str]:
    """Return what the answer book says of a student, by step or reading."""
    book = course.parents[1] / "out" / "instructor" / "answers.csv"
    with book.open(encoding="utf-8", newline="") as file:
        rows = list(csv.DictReader(file))
    return {row["id"]: row["value"] for row in rows if row["student"] == student}


def pick_cards() -> list[Asked]:
    """Return the first card of each kind, and those that are no step."""
    public = read_lab(OLIVE_OIL).public
    found: dict[str, Asked] = {}
    for part, asks in (("prelab", public.prelab), ("postlab", public.postlab)):
        for ask in asks:
            kind = f"{ask.kind}, several" if ask.several else str(ask.kind)
            found.setdefault(kind, Asked(part, ask.id, kind))
    ends = [name.replace("_", "-") for name in _ENDS.findall(_read_post_lab())]
    return [
        *found.values(),
        Asked("kiln", "crucible", "own, noted"),
        Asked("kiln", "chalk_taken", "own, open"),
        *(Asked("postlab", name, name) for name in ("head", *ends)),
    ]


def _read_post_lab() -> str:
    """Return the code of the notebook that holds every card that is no step."""
    notebook = json.loads((OLIVE_OIL / "postlab.ipynb").read_text(encoding="utf-8"))
    code = (cell for cell in notebook["cells"] if cell["cell_type"] == "code")
    return "\n".join("".join(cell["source"]) for cell in code)
